"""The ordered comparisons of a rule, and how near to each limit its cases come."""

import decimal
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Any, Final, Literal

from msgspec import Struct
from msgspec.structs import replace

from checker.findings.cases import CaseFault, case_facts
from checker.findings.judge import Facts, compile_rules, judge
from checker.keeping.scopes import scope_of, types_of
from checker.quantities import Broken, Missing
from checker.rules.compile import Evaluator, compile_trees, limit_stands_left
from checker.rules.model import Rule
from checker.rules.tree import OVER_A_LIST, Tree, branches, text, walk
from checker.rules.types import type_within
from checker.units import GRID

ORDERED: Final = frozenset({"lt", "le", "gt", "ge"})
A_TENTH: Final = Decimal("0.1")
A_WEEK: Final = 7
TRUE: Final[Tree] = ["cmp", "eq", ["num", "0"], ["num", "0"]]
FALSE: Final[Tree] = ["not", TRUE]
SETTLED: Final = ("met", "not met")
Near = Literal["a tenth", "one", "a week"]
Loop = tuple[str, Tree]
"""The name of a member and the list it is of."""


class Comparison(Struct, frozen=True):
    """One ordered comparison, wherever it stands in a rule."""

    tree: Tree
    loops: tuple[Loop, ...]
    """The lists whose members it is asked of, the outermost first."""
    measured: str
    limit: str

    @property
    def sides(self) -> tuple[str, str]:
        """What is compared with what: two comparisons of the same sides speak of one limit."""
        return self.measured, self.limit


class Shown(Struct, frozen=True):
    """Where the cases stand that decide by a limit."""

    measured: str
    limit: str
    near: Near
    """How near is just beside it."""
    at: bool
    under: bool
    over: bool


def comparisons(tree: Tree, loops: tuple[Loop, ...] = ()) -> Iterator[Comparison]:
    """Every ordered comparison of a tree, in the order of the text."""
    if tree[0] == "cmp" and tree[1] in ORDERED:
        left, right = text(tree[2]), text(tree[3])
        yield Comparison(tree, loops, *((right, left) if limit_stands_left(tree) else (left, right)))
    inner = (*loops, (tree[1], tree[2])) if tree[0] in OVER_A_LIST else loops
    for branch in branches(tree):
        yield from comparisons(branch, inner)


def shown(rule: Rule) -> tuple[Shown, ...]:
    """Each limit of a rule, and whether a case decides at it, just under it and just over it.

    A case decides by a limit if it would come out otherwise were the comparison turned round. A case gives one value
    to a quantity whatever its arguments, so where the rule asks it with several, every settled case counts.
    """
    found = [one for tree in (rule.when_tree, rule.require_tree) if tree for one in comparisons(tree)]
    compared = compile_trees({str(number): one.tree for number, one in enumerate(found)})
    turned = compile_rules([rule, *(other for number in range(len(found)) for other in _turned(rule, found, number))])
    near = [_near(rule, one) for one in found]
    stands: dict[tuple[str, str], set[str]] = {one.sides: set() for one in found}
    for case in rule.cases:
        try:
            facts = case_facts(rule, case)
        except CaseFault:
            continue  # told by `rules prove`
        outcome = judge(turned[rule.id], facts).outcome
        for number, one in enumerate(found):
            others = (judge(turned[key], facts).outcome for key in turned if key.startswith(f"{number} "))
            if any(other != outcome for other in others) or (outcome in SETTLED and _asked_twice(rule, one)):
                stands[one.sides] |= set(_places(one, compared[str(number)], facts, near[number]))
    kept = {one.sides: near[number] for number, one in enumerate(found)}
    return tuple(
        Shown(*sides, kept[sides], "at" in stand, "under" in stand, "over" in stand) for sides, stand in stands.items()
    )


def _turned(rule: Rule, found: Sequence[Comparison], number: int) -> Iterator[Rule]:
    """The rule with a comparison turned round, wherever it compares the same two sides; ids begin with the number.

    Turned round for all members of a list at once, one that failed may hide behind one that held: there the
    comparison is once always true and once never.
    """
    replaced = [one.tree for one in found if one.sides == found[number].sides]
    ways = (TRUE, FALSE) if found[number].loops else (None,)
    for way, instead in enumerate(ways):
        when = None if rule.when_tree is None else _replaced(rule.when_tree, replaced, instead)
        require = _replaced(rule.require_tree, replaced, instead)
        yield replace(rule, id=f"{number} {way}", when_tree=when, require_tree=require)


def _replaced(tree: Any, old: Sequence[Tree], instead: Tree | None) -> Any:
    if any(tree is one for one in old):
        return ["not", tree] if instead is None else instead
    return [_replaced(part, old, instead) for part in tree] if isinstance(tree, list) else tree


def _asked_twice(rule: Rule, one: Comparison) -> bool:
    """Whether the rule asks what is measured with other arguments too."""
    called = {text(node[1]): text(node) for node in walk(one.tree) if node[0] == "call" and node[1][1][0] == "name"}
    every = [node for node in walk(rule.require_tree) if node[0] == "call"]
    return any(text(node[1]) in called and called[text(node[1])] != text(node) for node in every)


def _near(rule: Rule, one: Comparison) -> Near:
    """How near is just beside a limit: of days a week, of plain numbers the next whole one."""
    scope = scope_of(rule)
    given = type_within(one.tree[2], scope, types_of(one.loops, scope))
    if given.number is None:
        return "a week"
    return "one" if given.number.pure else "a tenth"


def _places(one: Comparison, compare: Evaluator, facts: Facts, near: Near) -> Iterator[str]:
    for each in _for_members(one.loops, facts):
        try:
            with decimal.localcontext(GRID):
                _, ((_, left, right),) = compare(each, [])
        except (ArithmeticError, Broken):
            continue
        measured, limit = (right, left) if limit_stands_left(one.tree) else (left, right)
        if measured is not None and limit is not None:
            yield _place(measured, limit, near)


def _for_members(loops: Sequence[Loop], facts: Facts) -> Iterator[Facts]:
    """The facts once for each member of the lists, with the name of the member."""
    if not loops:
        yield facts
        return
    (variable, members), *inner = loops
    try:
        listed = _value(members, facts)
    except (Missing, Broken):
        return
    for member in listed:
        yield from _for_members(inner, {**facts, variable: member})


def _value(tree: Tree, facts: Mapping[str, Any]) -> Any:
    return facts[tree[1]] if tree[0] == "name" else _value(tree[1], facts)[tree[2]]


def _place(measured: Any, limit: Any, near: Near) -> str:
    if measured == limit:
        return "at"
    if near == "a week":
        beside = abs((measured - limit).days) <= A_WEEK
    else:
        beside = abs(measured - limit) <= max(abs(limit) * A_TENTH, Decimal(near == "one"))
    return ("under" if measured < limit else "over") if beside else "far"
