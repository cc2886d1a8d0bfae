"""The check of an expression when it is read: every name known, every kind and word right, an answer at the top.

All faults of an expression are collected; a part that is wrong is not blamed again for what follows from it.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from difflib import get_close_matches
from typing import Final

from msgspec import Struct

from checker.quantities import Argument, Attribute
from checker.rules import kinds
from checker.rules.faults import Fault, Refused
from checker.rules.tree import Tree, text

RESERVED: Final = frozenset({"site", "limit", "table", "as_of", "due", "all", "any", "count", "sum"})


class Type(Struct, frozen=True):
    """What a part of an expression gives; `base` is number, word, answer, date, thing, list and so on, or unknown."""

    base: str
    number: kinds.Number | None = None
    choices: frozenset[str] | None = None
    thing: str | None = None
    function: Attribute | None = None


class TableShape(Struct, frozen=True, array_like=True):
    """What a rule asks of a table: the kinds of its keys in order, and of its columns; `word` for words."""

    keys: Mapping[str, str]
    columns: Mapping[str, str]


class Scope(Struct, frozen=True):
    """The names an expression may use."""

    subject: str
    limits: Mapping[str, str]
    tables: Mapping[str, TableShape]
    things: Mapping[str, Mapping[str, Attribute]]


UNKNOWN: Final = Type("unknown")
ANSWER: Final = Type("answer")
DATE: Final = Type("date")
PERIOD: Final = Type("period")
LITERAL_WORD: Final = Type("word")


def type_of_kind(kind: str) -> Type:
    """The type of a value of a named kind of limit or column: a quantity, a word, or a period."""
    if kind == "word":
        return LITERAL_WORD
    return PERIOD if kind == "period" else Type("number", kinds.number(kind))


def check(tree: Tree, written: str, scope: Scope) -> None:
    """Hold a tree to its scope. Raises Refused with every fault found in `written`, the text it came from."""
    checking = _Check(written, scope)
    if (given := checking.type_of(tree, {})).base not in ("answer", "unknown"):
        checking.fault(tree, "a rule says yes or no", f"{_said(given)} ({text(tree)})", "a comparison or an answer")
    if checking.faults:
        raise Refused(checking.faults)


def _said(given: Type) -> str:
    if given.base == "number":
        return str(given.number)
    return "nothing known" if given.base == "unknown" else _a(given.thing if given.base == "thing" else given.base)


def _a(kind: str | None) -> str:
    noun = (kind or "thing").replace("_", " ").replace(".", " ")
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"


class _Check:
    def __init__(self, written: str, scope: Scope) -> None:
        self.written, self.scope = written, scope
        self.faults: list[Fault] = []

    def fault(self, at: Tree | str, says: str, found: str, wanted: str, *, ends: Tree | None = None) -> Type:
        """Note a fault where a tree or a word stands; `ends`: the tree whose last word it is."""
        whole = at if isinstance(at, str) else text(at)
        if ends is not None and (place := self._place(text(ends))):
            offset = place.end() - len(whole)
        else:
            first = next(iter(re.findall(r"\w+", whole)), "")
            place = self._place(whole) or self._place(first)
            offset = place.start() if place else 0
        self.faults.append(Fault(offset, says, found, wanted))
        return UNKNOWN

    def _place(self, word: str) -> re.Match[str] | None:
        return re.search(rf"(?<![\w.]){re.escape(word)}(?!\w)", self.written)

    def type_of(self, tree: Tree, variables: Mapping[str, Type]) -> Type:
        match tree:
            case ["and" | "or", left, right]:
                for side in (left, right):
                    self._wants_answer(side, variables)
                return ANSWER
            case ["not", inner]:
                self._wants_answer(inner, variables)
                return ANSWER
            case ["cmp", op, left, right]:
                return self._compared(op, left, right, variables)
            case ["in", member, words]:
                self._among(member, self.type_of(member, variables), words)
                return ANSWER
            case ["calc", op, left, right]:
                return self._calculated(op, left, right, variables)
            case ["num", _]:
                return Type("number", kinds.PURE_NUMBER)
            case ["str", word]:
                return Type("word", choices=frozenset({word}), thing="literal")
            case ["period", *_]:
                return PERIOD
            case ["name", name]:
                return self._named(name, variables)
            case ["get", of, name]:
                return self._got(tree, of, name, variables)
            case ["call", function, arguments]:
                return self._called(function, arguments, variables)
            case ["due", day, period]:
                self._wants(day, DATE, variables, "due counts from a day")
                self._wants(period, PERIOD, variables, "due counts a period")
                return DATE
        return self._over_a_list(tree, variables)

    def _wants_answer(self, tree: Tree, variables: Mapping[str, Type]) -> None:
        given = self.type_of(tree, variables)
        if given.base == "thing":
            self.fault(tree, "a thing is no answer", text(tree), "has_NAME, or one of its own fields")
        elif given.base not in ("answer", "unknown"):
            self.fault(tree, "`and`, `or` and `not` join answers", f"{_said(given)} ({text(tree)})", "a comparison")

    def _wants(self, tree: Tree, wanted: Type, variables: Mapping[str, Type], says: str) -> None:
        given = self.type_of(tree, variables)
        if given.base not in (wanted.base, "unknown"):
            self.fault(tree, says, f"{_said(given)} ({text(tree)})", f"a {wanted.base}")

    def _compared(self, op: str, left: Tree, right: Tree, variables: Mapping[str, Type]) -> Type:
        if self._lacks_quotes(left, right, variables) or self._lacks_quotes(right, left, variables):
            return ANSWER
        a, b = self.type_of(left, variables), self.type_of(right, variables)
        both = f"{_said(a)} ({text(left)}) with {_said(b)} ({text(right)})"
        if "unknown" in (a.base, b.base):
            return ANSWER
        words = {a.base, b.base} <= {"word", "text"}
        if not (words or a.base == b.base) or a.base in ("thing", "list", "function", "period"):
            self.fault(left, "these cannot be compared", both, "two sides of one kind")
        elif a.base == "answer":
            self.fault(left, "answers are not compared", both, "the answer itself, or `not` before it")
        elif a.number and b.number and not kinds.comparable(a.number, b.number):
            self.fault(left, "these kinds cannot be compared", both, "two sides of one kind")
        elif words and op not in ("eq", "ne"):
            self.fault(left, "words have no order", both, "== or !=")
        elif words:
            for side, own, other in ((left, a, b), (right, b, a)):
                if other.thing == "literal" and own.thing != "literal":
                    self._among(side, own, sorted(other.choices or ()))
        return ANSWER

    def _lacks_quotes(self, side: Tree, other: Tree, variables: Mapping[str, Type]) -> bool:
        """Whether a side is a word without its quotation marks, which is then told as a fault."""
        if side[0] != "name" or side[1] in RESERVED or side[1] in variables or side[1] == self.scope.subject:
            return False
        beside = _Check(self.written, self.scope).type_of(other, variables)
        if beside.base not in ("word", "text") or beside.thing == "literal":
            return False
        held = not beside.choices or side[1] in beside.choices
        wanted = f'"{side[1]}"' if held else _one_of(side[1], beside.choices or (), '"{}"'.format)
        self.fault(side, "words stand in quotes", side[1], wanted)
        return True

    def _among(self, tree: Tree, given: Type, words: list[str]) -> None:
        if given.base not in ("word", "text", "unknown"):
            self.fault(tree, "only a word can be one of several", f"{_said(given)} ({text(tree)})", "a word")
        for word in words:
            if given.choices and word not in given.choices:
                wanted = _one_of(word, given.choices, '"{}"'.format)
                self.fault(f'"{word}"', f"{text(tree)} never holds this word", f'"{word}"', wanted)

    def _calculated(self, op: str, left: Tree, right: Tree, variables: Mapping[str, Type]) -> Type:
        a, b = self.type_of(left, variables), self.type_of(right, variables)
        if "unknown" in (a.base, b.base):
            return UNKNOWN
        both = f"{_said(a)} ({text(left)}) and {_said(b)} ({text(right)})"
        if a.number is None or b.number is None:
            return self.fault(left, "arithmetic wants numbers", both, "two numbers")
        given = kinds.total(op, a.number, b.number) if op in ("add", "sub") else kinds.product(op, a.number, b.number)
        if given is None:
            return self.fault(left, "this arithmetic has no meaning", both, "kinds that go together")
        return Type("number", given)

    def _named(self, name: str, variables: Mapping[str, Type]) -> Type:
        if name in variables:
            return variables[name]
        if name == "as_of":
            return DATE
        if name in (self.scope.subject, "site"):
            return Type("thing", thing=name)
        if name in ("limit", "table"):
            return self.fault(name, "this name alone says nothing", name, f"{name}.NAME")
        known = [self.scope.subject, "site", "limit", "table", "as_of", *variables]
        return self.fault(name, "there is no such name here", name, _one_of(name, known))

    def _got(self, tree: Tree, of: Tree, name: str, variables: Mapping[str, Type]) -> Type:
        if of == ["name", "limit"]:
            if name not in self.scope.limits:
                wanted = _one_of(name, self.scope.limits)
                return self.fault(name, "the rule has no such limit", f"limit.{name}", wanted, ends=tree)
            return type_of_kind(self.scope.limits[name])
        if of in (["name", "table"], ["name", "limit"]):
            return self.fault(name, "a table is called by a column", text(tree), "table.NAME.COLUMN(keys)", ends=tree)
        given = self.type_of(of, variables)
        if given.base == "unknown":
            return UNKNOWN
        if given.base != "thing" or given.thing is None:
            return self.fault(name, f"{_said(given)} has no parts", text(tree), "a field of a thing", ends=tree)
        attributes = self.scope.things[given.thing]
        if name not in attributes:
            says = f"{_a(given.thing)} has no such field"
            return self.fault(name, says, text(tree), _one_of(name, attributes), ends=tree)
        return _type_of(attributes[name])

    def _called(self, function: Tree, arguments: list[Tree], variables: Mapping[str, Type]) -> Type:
        match function:
            case ["get", ["get", ["name", "table"], name], column]:
                return self._looked_up(function, name, column, arguments, variables)
        given = self.type_of(function, variables)
        if given.base == "unknown":
            return UNKNOWN
        if given.function is None or given.function.arguments is None:
            return self.fault(function[-1], "this is no function", text(function), "the name alone", ends=function)
        wanted = [(each.name, _type_of_argument(each)) for each in given.function.arguments]
        self._arguments(function, arguments, wanted, variables)
        return ANSWER if given.function.returns == "answer" else type_of_kind(given.function.quantity_kind or "number")

    def _looked_up(
        self, function: Tree, name: str, column: str, arguments: list[Tree], variables: Mapping[str, Type]
    ) -> Type:
        shape = self.scope.tables.get(name)
        if shape is None:
            wanted_table = _one_of(name, self.scope.tables)
            return self.fault(name, "the rule has no such table", f"table.{name}", wanted_table, ends=function[1])
        if column not in shape.columns:
            wanted_column = _one_of(column, shape.columns)
            return self.fault(column, f"table {name} has no such column", column, wanted_column, ends=function)
        wanted = [(key, type_of_kind(kind)) for key, kind in shape.keys.items()]
        self._arguments(function, arguments, wanted, variables)
        return type_of_kind(shape.columns[column])

    def _arguments(
        self, function: Tree, given: list[Tree], wanted: list[tuple[str, Type]], variables: Mapping[str, Type]
    ) -> None:
        if len(given) != len(wanted):
            names = ", ".join(name for name, _ in wanted)
            self.fault(function, "wrong number of arguments", f"{len(given)} in {text(function)}", f"({names})")
        for tree, (name, kind) in zip(given, wanted, strict=False):
            own = self.type_of(tree, variables)
            same = own.base == kind.base or (own.base, kind.base) == ("text", "word")
            right = same and (own.number is None or kind.number is None or kinds.comparable(own.number, kind.number))
            if own.base != "unknown" and not right:
                self.fault(tree, f"wrong kind for {name}", f"{_said(own)} ({text(tree)})", _said(kind))
            elif own.thing == "literal" and kind.choices:
                self._among(tree, kind, sorted(own.choices or ()))

    def _over_a_list(self, tree: Tree, variables: Mapping[str, Type]) -> Type:
        word, variable, members, condition, body = tree
        given = self.type_of(members, variables)
        answer = ANSWER if word in ("all", "any") else Type("number", kinds.PURE_NUMBER)
        if given.base not in ("list", "unknown"):
            return self.fault(members, f"`{word}` looks through a list", f"{_said(given)} ({text(members)})", "a list")
        if variable in variables or variable in RESERVED or variable == self.scope.subject:
            return self.fault(variable, "the name is taken", variable, "another name for the member")
        inner = {**variables, variable: Type("thing", thing=given.thing) if given.base == "list" else UNKNOWN}
        if condition is not None:
            self._wants_answer(condition, inner)
        if word in ("all", "any"):
            self._wants_answer(body, inner)
        elif word == "sum":
            summed = self.type_of(body, inner)
            if summed.base not in ("number", "unknown"):
                return self.fault(body, "`sum` adds numbers", f"{_said(summed)} ({text(body)})", "a number")
            if summed.number and kinds.total("add", summed.number, summed.number) is None:
                found = f"{_said(summed)} ({text(body)})"
                return self.fault(body, "this sum has no meaning", found, "what can be added")
            return summed
        elif body != ["name", variable]:
            return self.fault(
                variable, "`count` counts members", text(body), f"count([{variable} for {variable} in …])"
            )
        return answer


def _type_of_argument(argument: Argument) -> Type:
    return Type("word", choices=argument.choices) if argument.kind == "word" else type_of_kind(argument.kind)


def _type_of(attribute: Attribute) -> Type:
    if attribute.type == "number":
        return Type("number", kinds.number(attribute.quantity_kind or "number"))
    if attribute.type == "function":
        return Type("function", function=attribute)
    return Type(attribute.type, choices=attribute.choices, thing=attribute.thing)


def _one_of(word: str, known: Iterable[str], written: Callable[[str], str] = str) -> str:
    near = get_close_matches(word, sorted(known), 1)
    if near:
        return written(near[0])
    names = [written(name) for name in sorted(known)]
    return f"one of {', '.join(names[:12])}{' …' if len(names) > 12 else ''}" if names else "none is declared"


def type_within(tree: Tree, scope: Scope, variables: Mapping[str, Type] | None = None) -> Type:
    """The type of a part of a tree that has been checked as a whole."""
    return _Check("", scope).type_of(tree, variables or {})
