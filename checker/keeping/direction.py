"""Which way a limit bites: whether a rule asks less or more when the limit is raised, read off its expressions."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from checker.quantities import kinds
from checker.rules.model import Rule
from checker.rules.tree import Tree, walk
from checker.rules.types import Scope, Type, type_within
from checker.units import Period

Sign = int | None
"""1: grows with it. -1: falls. 0: has nothing to do with it. None: not to be told from the expression."""

MAY_BE_NEGATIVE: Final = frozenset(
    {"pressure_gauge", "pressure_difference", "temperature", "temperature_difference", "sound_level", "sound_level_c"}
)
"""Kinds whose numbers may lie below zero. All others are taken for sizes."""
_MONTH_DAYS: Final = (28, 31)
_YEAR_DAYS: Final = (365, 366)


def directions(rule: Rule) -> dict[str, Sign]:
    """By limit (`walk`) and column of a table (`table.near.walk`): 1 where a higher one asks less, -1 where more."""
    sought = {name: _limit(name) for name in rule.limit}
    for name, shape in rule.tables.items():
        sought |= {f"table.{name}.{column}": _column(name, column) for column in shape.columns}
    return {name: _Reading(rule, target).asks_less() for name, target in sought.items()}


def rise(old: object, new: object) -> Sign:
    """1 where the new value is the higher, -1 where it is the lower, 0 where they are equal, None where neither."""
    if old == new:
        return 0
    if isinstance(old, Decimal) and isinstance(new, Decimal):
        return 1 if new > old else -1
    if isinstance(old, Period) and isinstance(new, Period):
        (shortest_old, longest_old), (shortest_new, longest_new) = _days(old), _days(new)
        if old.months == new.months or longest_old < shortest_new or longest_new < shortest_old:
            return 1 if shortest_new > shortest_old else -1
    return None


def _days(period: Period) -> tuple[int, int]:
    """The fewest and the most days that a stretch of the calendar can have."""
    years, months = divmod(period.months, 12)
    fewest, most = (years * year + months * month for year, month in zip(_YEAR_DAYS, _MONTH_DAYS, strict=True))
    return fewest + period.days, most + period.days


def _limit(name: str) -> Tree:
    return ["get", ["name", "limit"], name]


def _column(table: str, column: str) -> Tree:
    return ["get", ["get", ["name", "table"], table], column]


def _together(*signs: Sign) -> Sign:
    """What several parts make of a whole that grows with each of them."""
    moved = {sign for sign in signs if sign != 0}
    if not moved:
        return 0
    return moved.pop() if len(moved) == 1 else None


def _turned(sign: Sign) -> Sign:
    return sign and -sign


class _Reading:
    """One rule read for one limit or column."""

    def __init__(self, rule: Rule, target: Tree) -> None:
        self.rule, self.target = rule, target
        self.scope = Scope(rule.each, rule.limit, rule.tables, kinds())

    def asks_less(self) -> Sign:
        """A rule asks less where its requirement holds sooner, and where it applies to fewer things."""
        when = 0 if self.rule.when_tree is None else self.truth(self.rule.when_tree, {})
        return _together(self.truth(self.rule.require_tree, {}), _turned(when))

    def named(self, tree: Tree) -> bool:
        return any(node == self.target for node in walk(tree))

    def truth(self, tree: Tree, variables: Mapping[str, Type]) -> Sign:
        """How near a yes comes as the limit rises."""
        match tree:
            case ["and" | "or", left, right]:
                return _together(self.truth(left, variables), self.truth(right, variables))
            case ["not", inner]:
                return _turned(self.truth(inner, variables))
            case ["cmp", "lt" | "le", left, right]:
                return _together(_turned(self.number(left, variables)), self.number(right, variables))
            case ["cmp", "gt" | "ge", left, right]:
                return _together(self.number(left, variables), _turned(self.number(right, variables)))
            case ["all" | "any" as word, _, members, condition, body] if not self.named(members):
                inner = self._inside(tree, variables)
                chosen = 0 if condition is None else self.truth(condition, inner)
                return _together(_turned(chosen) if word == "all" else chosen, self.truth(body, inner))
        return None if self.named(tree) else 0

    def number(self, tree: Tree, variables: Mapping[str, Type]) -> Sign:
        """How a number or a day moves as the limit rises."""
        match tree:
            case _ if tree == self.target:
                return 1
            case ["call", function, arguments] if function == self.target:
                return None if any(map(self.named, arguments)) else 1
            case ["calc", "add", left, right] | ["due", left, right]:
                return _together(self.number(left, variables), self.number(right, variables))
            case ["calc", "sub", left, right]:
                return _together(self.number(left, variables), _turned(self.number(right, variables)))
            case ["calc", "mul", left, right]:
                return _together(self._scaled(left, right, variables), self._scaled(right, left, variables))
            case ["calc", "div", left, right]:
                return _together(self._scaled(left, right, variables), _turned(self._scaled(right, left, variables)))
            case ["count", _, members, condition, _] if condition is not None and not self.named(members):
                return self.truth(condition, self._inside(tree, variables))
            case ["sum", _, members, None, body] if not self.named(members):
                return self.number(body, self._inside(tree, variables))
        return None if self.named(tree) else 0

    def _scaled(self, tree: Tree, by: Tree, variables: Mapping[str, Type]) -> Sign:
        moves = self.number(tree, variables)
        return moves if not moves or self._is_size(by, variables) else None

    def _is_size(self, tree: Tree, variables: Mapping[str, Type]) -> bool:
        """Whether a factor can be taken to be no less than zero."""
        match tree:
            case ["num", digits]:
                return Decimal(digits) >= 0
            case ["calc", "sub", *_]:
                return False
            case ["calc", _, left, right]:
                return self._is_size(left, variables) and self._is_size(right, variables)
            case ["sum", _, _, _, body]:
                return self._is_size(body, self._inside(tree, variables))
        number = type_within(tree, self.scope, variables).number
        return number is not None and number.name not in MAY_BE_NEGATIVE

    def _inside(self, tree: Tree, variables: Mapping[str, Type]) -> Mapping[str, Type]:
        """The names within a list, with its member."""
        _, variable, members, _, _ = tree
        return {**variables, variable: Type("thing", thing=type_within(members, self.scope, variables).thing)}
