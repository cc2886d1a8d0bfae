"""Trees to functions: one three-valued evaluator, compiled once, with every part and both its sides kept.

A compiled expression is called with the facts and a list for what was missing. It gives True, False or None
(Kleene's unknown) and, part by part in the order of the text, (truth, left side, right side). Numbers are compared
and calculated in the caller's decimal context (see `checker.units.GRID`).

The functions are made from checked trees in memory, one for each part. No name, word or number of a tree reaches the
generated text: they are arguments (`a0`, `a1`, …) with values that stand ready, and the namespace holds no builtins.
Parts that differ in nothing else are thus compiled once.
"""

import datetime as dt
import re
from collections.abc import Callable, Iterable, Mapping
from decimal import Decimal
from functools import lru_cache
from types import CodeType, FunctionType
from typing import Any, Final, cast

from checker.quantities import Missing, OpenList
from checker.rules.tree import COMPARISONS, Tree, mentions
from checker.units import GRID, NOT_ASKED, Period

Truth = bool | None
Side = tuple[Truth, Any, Any]
Evaluator = Callable[[Mapping[str, Any], list[Missing]], tuple[Truth, tuple[Side, ...]]]

ON_THE_LIMIT_SIDE: Final = frozenset({"limit", "table", "as_of"})
NOT_DUE: Final = dt.date(9999, 12, 31)
"""The day on which what is not asked falls due; told from any day that was reckoned by its identity."""
_WORD: Final = re.compile(r"[a-z][a-z0-9_]*")
_CALC: Final = {"add": "+", "sub": "-", "mul": "*", "div": "/"}


def parts(tree: Tree) -> list[Tree]:
    """The comparisons and answers that an expression joins, in the order in which an evaluator gives their sides."""
    match tree:
        case ["and" | "or", left, right]:
            return parts(left) + parts(right)
        case ["not", inner]:
            return parts(inner)
    return [tree]


def compile_tree(tree: Tree) -> Evaluator:
    """The evaluator of one checked tree."""
    match tree:
        case ["and" | "or" as word, left, right]:
            return _both(compile_tree(left), compile_tree(right), word == "or", len(parts(right)))
        case ["not", inner]:
            return _opposite(compile_tree(inner))
    made = _Function()
    code = _code(made.text(tree))
    return cast(Evaluator, FunctionType(code, _NAMES, "rule", tuple(made.given)))


def _both(left: Evaluator, right: Evaluator, decisive: bool, parts_of_right: int) -> Evaluator:
    """A right side that breaks counts only where the left has not decided; then none of its parts is known."""
    broken: tuple[Side, ...] = ((None, None, None),) * parts_of_right

    def rule(facts: Mapping[str, Any], gaps: list[Missing]) -> tuple[Truth, tuple[Side, ...]]:
        mark = len(gaps)
        first, sides = left(facts, gaps)
        try:
            second, others = right(facts, gaps)
        except Exception:
            if first is not decisive:
                raise
            second, others = None, broken
        return _joined(first, second, decisive, gaps, mark), sides + others

    return rule


def _opposite(of: Evaluator) -> Evaluator:
    def rule(facts: Mapping[str, Any], gaps: list[Missing]) -> tuple[Truth, tuple[Side, ...]]:
        truth, sides = of(facts, gaps)
        return None if truth is None else not truth, sides

    return rule


def compile_trees(trees: Mapping[str, Tree]) -> dict[str, Evaluator]:
    """The evaluators of many checked trees."""
    return {name: compile_tree(tree) for name, tree in trees.items()}


@lru_cache(maxsize=1024)
def _code(text: str) -> CodeType:
    made: dict[str, Any] = {}
    exec(compile(text, "<rules>", "exec"), {"__builtins__": {}}, made)
    code: CodeType = made["rule"].__code__
    return code


def _read(value: Any, gaps: list[Missing], path: tuple[str, ...]) -> Any:
    """What stands at the end of a path; None where it is missing, which is noted."""
    try:
        for name in path:
            value = value[name]
    except Missing as missing:
        gaps.append(missing.alone)
        return None
    return value


def _lacking(gaps: list[Missing], facts: Mapping[str, Any], paths: Iterable[tuple[str, ...]]) -> None:
    """Note what is missing on the way along each path."""
    for path in paths:
        _read(facts, gaps, path)


def _joined(first: Truth, second: Truth, decisive: bool, gaps: list[Missing], mark: int) -> Truth:
    """Kleene's `and` (False decides) or `or` (True does). A decided whole needs nothing missed since the mark."""
    if first is decisive or second is decisive:
        del gaps[mark:]
        return decisive
    if first is None or second is None:
        return None
    del gaps[mark:]
    return not decisive


def _whether_open(members: object) -> Missing | None:
    """What is missing because a list is not all there is; None for a whole list."""
    return Missing.of(members.open_because) if isinstance(members, OpenList) else None


_NAMES: Final[dict[str, Any]] = {
    "__builtins__": {},
    "Missing": Missing,
    "Exception": Exception,
    "ZERO": Decimal(0),
    "ONE": Decimal(1),
    "not_asked": NOT_ASKED,
    "not_due": NOT_DUE,
    "length": len,
    "read": _read,
    "lacking": _lacking,
    "joined": _joined,
    "whether_open": _whether_open,
    "together": Missing.together,
}
"""All that generated text can name beside its own arguments."""


class _Function:
    """The text of one part's evaluator. `sink` is the list that takes what is missing where the lines now stand."""

    def __init__(self) -> None:
        self.given: list[Any] = []
        self.out: list[str] = []
        self.names, self.depth = 0, 1
        self.sink = "u"

    def text(self, tree: Tree) -> str:
        truth, left, right = self._part(tree, {})
        self.put(f"return {truth}, (({truth}, {left}, {right}),)")
        arguments = "".join(f", a{number}" for number in range(len(self.given)))
        return "\n".join([f"def rule(f, u{arguments}):", f"    {left} = {right} = None", *self.out])

    def put(self, line: str) -> None:
        self.out.append("    " * self.depth + line)

    def new(self, letter: str) -> str:
        self.names += 1
        return f"{letter}{self.names}"

    def constant(self, value: object) -> str:
        self.given.append(value)
        return f"a{len(self.given) - 1}"

    def truth(self, tree: Tree, variables: Mapping[str, str]) -> str:
        """Put the lines that find a truth value of a member of a list; give the name that holds it."""
        match tree:
            case ["and", left, right]:
                return self._joined(left, right, variables, decisive="False")
            case ["or", left, right]:
                return self._joined(left, right, variables, decisive="True")
            case ["not", inner]:
                found, opposite = self.truth(inner, variables), self.new("t")
                self.put(f"{opposite} = None if {found} is None else not {found}")
                return opposite
        truth, _, _ = self._part(tree, variables)
        return truth

    def _part(self, tree: Tree, variables: Mapping[str, str]) -> tuple[str, str, str]:
        """Put the lines of one part; give the names of its truth and of its sides."""
        truth, left, right = self.new("t"), self.new("l"), self.new("r")
        match tree:
            case ["cmp", op, a, b]:
                self._compared(truth, left, right, op, a, b, variables)
            case ["all" | "any", *_]:
                self._quantified(truth, tree, variables)
            case _:
                self._answered(truth, left, tree, variables)
        return truth, left, right

    def _joined(self, left: Tree, right: Tree, variables: Mapping[str, str], decisive: str) -> str:
        """As `_both` joins what is asked of no list."""
        mark, whole = self.new("n"), self.new("t")
        self.put(f"{mark} = length({self.sink})")
        first = self.truth(left, variables)
        self.put("try:")
        self.depth += 1
        second = self.truth(right, variables)
        self.depth -= 1
        self.put("except Exception:")
        self.put(f"    if {first} is not {decisive}: raise")
        self.put(f"    {second} = None")
        self.put(f"{whole} = joined({first}, {second}, {decisive}, {self.sink}, {mark})")
        return whole

    def _compared(
        self, truth: str, left: str, right: str, op: str, a: Tree, b: Tree, variables: Mapping[str, str]
    ) -> None:
        """Each side in its own try, so that a limit is shown though nothing was measured, and all needs are named."""
        self._side(left, a, variables)
        self._side(right, b, variables)
        self.put(f"{truth} = None if {left} is None or {right} is None else {left} {COMPARISONS[op]} {right}")

    def _side(self, name: str, tree: Tree, variables: Mapping[str, str]) -> None:
        if tree[0] in ("num", "str", "period"):
            self.put(f"{name} = {self.value(tree, variables)}")
            return
        start, path = _path(tree, variables)
        if path:
            self.put(f"{name} = read({start}, {self.sink}, {self.constant(path)})")
            return
        self.put("try:")
        self.depth += 1
        value = self.value(tree, variables)
        self.put(f"{name} = {value}")
        self.depth -= 1
        self.put("except Missing as m:")
        self.depth += 1
        stopped_at = f"{name} = None; {self.sink}.append(m.alone)"
        if tree[0] != "due":
            self.put(stopped_at)
        self._every_gap(tree, variables)
        if tree[0] == "due":  # the day is named before its period, though it is read after it
            self.put(stopped_at)
        self.depth -= 1

    def _every_gap(self, tree: Tree, variables: Mapping[str, str]) -> None:
        """What else a side lacks: its calculation stopped at the first gap."""
        read = _operands(tree)
        if len(read) < 2:
            return
        ways = [_path(operand, variables) for operand in read]
        if plain := tuple(path for start, path in ways if start == "f" and path):
            self.put(f"lacking({self.sink}, f, {self.constant(plain)})")
        for operand in (one for one, (start, path) in zip(read, ways, strict=True) if start != "f" or not path):
            self.put("try:")
            self.depth += 1
            self.put(self.value(operand, variables))
            self.depth -= 1
            self.put(f"except Missing as more: {self.sink}.append(more.alone)")

    def _answered(self, truth: str, left: str, tree: Tree, variables: Mapping[str, str]) -> None:
        match tree:
            case ["in", member, words]:
                self._side(left, member, variables)
                choices = self.constant(frozenset(words))
                self.put(f"{truth} = None if {left} is None else {left} in {choices}")
            case _:
                self._side(truth, tree, variables)

    def _quantified(self, truth: str, tree: Tree, variables: Mapping[str, str]) -> None:
        word, variable, members, condition, body = tree
        start, decisive = ("True", "False") if word == "all" else ("False", "True")
        mark, group, member = self.new("n"), self.new("g"), self.new("v")
        self.put(f"{mark} = length({self.sink})")
        self.put(f"{truth} = {start}")
        self._side(group, members, variables)
        self.put(f"if {group} is None: {truth} = None")
        self.put(f"for {member} in {group} or ():")
        self.depth += 1
        inner = {**variables, variable: member}
        only = body if condition is None else ["and", condition, body]
        if condition is not None and word == "all":
            only = ["or", ["not", condition], body]
        each = self.truth(only, inner)
        self.put(f"if {each} is {decisive}:")
        self.put(f"    {truth} = {decisive}; break")
        self.put(f"if {each} is None: {truth} = None")
        self.depth -= 1
        self._unless_whole(group, truth, decisive)
        self.put(f"if {truth} is not None: del {self.sink}[{mark}:]")

    def _unless_whole(self, group: str, truth: str, decisive: str) -> None:
        gap = self.new("o")
        self.put(f"{gap} = whether_open({group})")
        self.put(f"if {gap} is not None and {truth} is not {decisive}:")
        self.put(f"    {truth} = None; {self.sink}.append({gap})")

    def value(self, tree: Tree, variables: Mapping[str, str]) -> str:
        """Python for a value; lines that it needs first are put before it. What is missing raises Missing."""
        match tree:
            case ["num", digits]:
                return self.constant(GRID.plus(Decimal(digits)))
            case ["str", word]:
                return self.constant(word)
            case ["period", months, days, _]:
                return self.constant(Period(months, days))
            case ["name", name]:
                return variables.get(name) or f"f[{self.constant(_plain(name))}]"
            case ["get", of, name]:
                return f"{self.value(of, variables)}[{self.constant(_plain(name))}]"
            case ["calc", op, left, right]:
                return f"({self.value(left, variables)} {_CALC[op]} {self.value(right, variables)})"
            case ["call", function, arguments]:
                given = ", ".join(self.value(argument, variables) for argument in arguments)
                return f"{self.value(function, variables)}({given})"
            case ["due", day, period]:
                return self._due(day, period, variables)
        return self._counted(tree, variables)

    def _due(self, day: Tree, period: Tree, variables: Mapping[str, str]) -> str:
        """What is not asked is not due, whatever day was recorded or not: the period is read first."""
        due, every, lasts = self.constant("due"), self.new("p"), self.value(period, variables)
        match period:
            case ["period", *_]:
                return f"f[{due}]({self.value(day, variables)}, {lasts})"
            case ["call", ["get", ["get", ["name", "table"], _], _] as column, _]:
                lasts = f"{every} if ({every} := {self.value(column, variables)}) == not_asked else {lasts}"
        return f"(not_due if ({every} := ({lasts})) == not_asked else f[{due}]({self.value(day, variables)}, {every}))"

    def _counted(self, tree: Tree, variables: Mapping[str, str]) -> str:
        """The lines of `count` and `sum`: both need all members, so every gap is gathered and raised together."""
        word, variable, members, condition, body = tree
        total, gaps, group, member, outer = (self.new("c"), self.new("w"), self.new("g"), self.new("v"), self.sink)
        self.put(f"{total} = ZERO; {gaps} = []")
        self.put(f"{group} = {self.value(members, variables)}")
        self.put(f"for {member} in {group}:")
        self.depth, self.sink = self.depth + 1, gaps
        inner = {**variables, variable: member}
        if condition is not None:
            chosen = self.truth(condition, inner)
            self.put(f"if {chosen} is False: continue")
        if word == "count":
            self.put(f"{total} = {total} + ONE")
        else:
            self._side(summand := self.new("s"), body, inner)
            self.put(f"if {summand} is not None: {total} = {total} + {summand}")
        self.depth, self.sink = self.depth - 1, outer
        gap = self.new("o")
        self.put(f"{gap} = whether_open({group})")
        self.put(f"if {gap} is not None: {gaps}.append({gap})")
        self.put(f"if {gaps}: raise together({gaps})")
        return total


def _operands(tree: Tree) -> list[Tree]:
    """What a calculation or a call reads; a call itself may lack what its arguments do not."""
    match tree:
        case ["num" | "str" | "period", *_]:
            return []
        case ["calc", _, left, right] | ["due", left, right]:
            return _operands(left) + _operands(right)
        case ["call", function, arguments]:
            return [function, *(operand for argument in arguments for operand in _operands(argument)), tree]
    return [tree]


def _path(tree: Tree, variables: Mapping[str, str]) -> tuple[str, tuple[str, ...]]:
    """What a chain of names starts at, the facts or a member of a list, and the names; none for any other tree."""
    match tree:
        case ["name", name]:
            return (variables[name], ()) if name in variables else ("f", (_plain(name),))
        case ["get", of, name]:
            start, way = _path(of, variables)
            return (start, (*way, _plain(name))) if start else ("", ())
    return "", ()


def limit_stands_left(comparison: Tree) -> bool:
    """Whether the limit of a comparison is its left side: it alone names a limit, a table or the day, or is fixed."""
    _, _, left, right = comparison
    if mentions(right, ON_THE_LIMIT_SIDE):
        return False
    return mentions(left, ON_THE_LIMIT_SIDE) or (left[0] in ("num", "str") and right[0] not in ("num", "str"))


def _plain(name: str) -> str:
    if not _WORD.fullmatch(name):
        raise AssertionError(f"no plain name: {name!r}")
    return name
