"""Margins, and the part that governs: the one that decides a requirement, or comes nearest to deciding it."""

import datetime as dt
from collections.abc import Sequence
from decimal import Decimal
from typing import Any, Literal

from msgspec import Struct

from checker.rules.compile import NOT_DUE, Side, Truth
from checker.rules.parts import PartSpec
from checker.rules.tree import Tree, folded
from checker.site import NEVER

SECONDS_A_DAY = 86400
ENDLESS = Decimal("Infinity")
"""The room there is in what is not asked."""


class Reading(Struct, frozen=True):
    """One part as evaluated: does it hold, what was measured, what is the limit, how much room is there."""

    spec: PartSpec
    holds: Truth
    measured: Any
    limit: Any
    margin: Decimal | None
    """SI; seconds between days; positive when there is room. None where nothing can be subtracted."""

    @property
    def not_asked(self) -> bool:
        """Whether it compares with a day on which nothing falls due, since nobody asks it."""
        return self.measured is NOT_DUE or self.limit is NOT_DUE

    @property
    def told(self) -> Decimal | None:
        """The margin that a person is told: how long something is overdue that was never done says nothing."""
        return None if NEVER in (self.measured, self.limit) else self.margin

    @property
    def slack(self) -> Decimal | None:
        """The margin as a share of the limit, so that parts of different kinds can be put in order."""
        if self.not_asked:
            return ENDLESS
        if self.margin is None:
            return None
        size = abs(self.limit) if isinstance(self.limit, Decimal) and self.limit else Decimal(1)
        return self.margin / (size if isinstance(self.limit, Decimal) else SECONDS_A_DAY)


def readings(specs: Sequence[PartSpec], sides: Sequence[Side]) -> tuple[Reading, ...]:
    """The parts of one evaluation, in the order of the text."""
    return tuple(_reading(spec, side) for spec, side in zip(specs, sides, strict=True))


def _reading(spec: PartSpec, side: Side) -> Reading:
    truth, left, right = side
    holds = truth if truth is None or not spec.negated else not truth
    if spec.operator is None:
        return Reading(spec, holds, left if spec.kind == "word" else truth, None, None)
    measured, limit = (right, left) if spec.limit_left else (left, right)
    return Reading(spec, holds, measured, limit, _margin(spec.operator, measured, limit))


def _margin(operator: str, measured: Any, limit: Any) -> Decimal | None:
    if operator in ("eq", "ne") or measured is None or limit is None or measured is NOT_DUE or limit is NOT_DUE:
        return None
    if isinstance(measured, dt.date) and isinstance(limit, dt.date):
        room = Decimal((limit - measured).days * SECONDS_A_DAY)
    elif isinstance(measured, Decimal) and isinstance(limit, Decimal):
        room = limit - measured
    else:
        return None
    return room if operator in ("le", "lt") else -room


def governing(tree: Tree, parts: Sequence[Reading]) -> int:
    """The number of the part that governs.

    Of parts joined by `and`: a part that fails, an answer before a number, else the least room. Of parts joined by
    `or`: the part that holds with most room, else the one that comes nearest; of answers the last, since those before
    it say of what nothing more is asked. Unknown: the first part unknown.
    """
    return decided(tree, parts)[1]


def decided(tree: Tree, parts: Sequence[Reading]) -> tuple[Truth, int]:
    """What the parts make of the whole by Kleene's logic, and the number of the part that governs."""
    if len(parts) == 1:
        return parts[0].holds, 0
    truth, part, _ = folded(tree, lambda number: _of_one(parts, number), _of_two)
    return truth, part


Either = Literal["", "counts", "aside"]
Governing = tuple[Truth, int, Decimal | None]  # holds, part, slack


def _of_one(parts: Sequence[Reading], number: int) -> Governing:
    return parts[number].holds, number, parts[number].slack


def _of_two(both_have_to: bool, one: Governing, other: Governing) -> Governing:
    return _of_all(one, other) if both_have_to else _of_any(one, other)


def _of_all(one: Governing, other: Governing) -> Governing:
    for truth in (False, None):
        found = [each for each in (one, other) if each[0] is truth]
        if found:
            return (
                min(found, key=lambda each: (each[2] is not None, each[2] or Decimal(0)))
                if truth is False
                else found[0]
            )
    return min((one, other), key=lambda each: (each[2] == ENDLESS, each[2] is None, each[2] or Decimal(0)))


def _of_any(one: Governing, other: Governing) -> Governing:
    for truth in (True, None, False):
        found = [each for each in (one, other) if each[0] is truth]
        if found and truth is None:
            return found[0]
        if found:
            alike = found if truth else found[::-1]
            return max(alike, key=lambda each: ((each[2] is None) is truth, each[2] or Decimal(0)))
    raise AssertionError("a truth value is True, False or None")


def shown(tree: Tree, parts: Sequence[Reading]) -> tuple[bool, ...]:
    """Of each part whether something hangs on it: not where what is not asked makes the whole about it hold."""
    if not any(part.not_asked for part in parts):
        return (True,) * len(parts)
    idle = folded(tree, lambda number: [parts[number].not_asked and parts[number].holds is True], _idle)
    return tuple(not each for each in idle)


def _idle(both_have_to: bool, one: list[bool], other: list[bool]) -> list[bool]:
    both = one + other
    return [True] * len(both) if not both_have_to and (all(one) or all(other)) else both


Ways = tuple[Governing, list[Either]]


def either(tree: Tree, parts: Sequence[Reading]) -> tuple[Either, ...]:
    """Of each part, where it is one of several of which one is enough, whether it counts or another decides.

    Of several that are unknown together only an answer that does not hold stands aside.
    """

    def alone(number: int) -> Ways:
        return _of_one(parts, number), [""]

    _, ways = folded(tree, alone, _either)
    return tuple(ways)


def _either(both_have_to: bool, one: Ways, other: Ways) -> Ways:
    governs = _of_two(both_have_to, one[0], other[0])
    if both_have_to:
        return governs, one[1] + other[1]
    found: list[Either] = []
    for side, ways in (one, other):
        counts = side is governs if governs[0] is not None else len(ways) > 1 or not _no_answer(side)
        found += [each or "counts" for each in ways] if counts else ["aside"] * len(ways)
    return governs, found


def _no_answer(side: Governing) -> bool:
    return side[0] is False and side[2] is None
