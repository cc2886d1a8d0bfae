"""How strict the limits of a provision are by themselves, apart from what was measured."""

import datetime as dt
from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Final

from checker.findings.judge import Judgement
from checker.rules.compile import limit_stands_left
from checker.rules.model import Provision
from checker.rules.parts import PartSpec
from checker.rules.tree import MIRRORED, NEGATED, Tree
from checker.units import Period

SMALLER_IS_STRICTER: Final = frozenset({"lt", "le"})
LARGER_IS_STRICTER: Final = frozenset({"gt", "ge"})
A_MONTH: Final = Decimal("30.436875")
"""Days of a mean month of the Gregorian calendar, 146097 days in 4800 months."""
Strictness = tuple[tuple[int, bool, Decimal], ...]
"""For each comparison: its part, whether its limit is unknown, and the limit, so signed that less is stricter."""


def strictness(specs: Sequence[PartSpec], provision: Provision, judgement: Judgement) -> Strictness:
    """The limits of the parts of a rule, in an order that puts the stricter first; the part that governs leads.

    Of `at most` the smaller limit is the stricter, of `at least` the larger, and of a period after which something
    falls due the shorter. What says neither, such as a limit that goes into a formula, is left out.
    """
    numbers = sorted(range(len(specs)), key=lambda number: (number != judgement.governs, number))
    return tuple(each for number in numbers for each in _of_part(number, specs[number], provision, judgement))


def _of_part(
    number: int, spec: PartSpec, provision: Provision, judgement: Judgement
) -> Iterator[tuple[int, bool, Decimal]]:
    whole = None if spec.operator is None else ((spec.tree, spec.operator),)
    for tree, operator in whole or compared(spec.tree, negated=spec.negated):
        if (sign := _sign(operator)) is None:
            continue
        swapped = spec.limit_left if whole else limit_stands_left(tree)
        measured, limit = (tree[3], tree[2]) if swapped else (tree[2], tree[3])
        if measured[0] == "due":
            found, sign = _given(measured[2], provision), -sign
        else:
            found = _given(limit, provision)
            if found is None and tree is spec.tree and judgement.parts:
                found = judgement.parts[number].limit
        size = _size(found)
        yield number, size is None, (size or Decimal(0)) * sign


def compared(tree: Tree, *, negated: bool = False) -> Iterator[tuple[Tree, str]]:
    """Each comparison in a tree, those of list members too, with its operator from what is measured to the limit."""
    match tree:
        case ["not", inner]:
            yield from compared(inner, negated=not negated)
        case ["and" | "or", left, right]:
            yield from compared(left, negated=negated)
            yield from compared(right, negated=negated)
        case ["all" | "any", _, _, _, body]:
            yield from compared(body, negated=negated)
        case ["cmp", operator, _, _]:
            shown = MIRRORED[operator] if limit_stands_left(tree) else operator
            yield tree, NEGATED[shown] if negated else shown


def _sign(operator: str) -> int | None:
    if operator in SMALLER_IS_STRICTER:
        return 1
    return -1 if operator in LARGER_IS_STRICTER else None


def _given(tree: Tree, provision: Provision) -> object:
    match tree:
        case ["get", ["name", "limit"], name] if name in provision.limit:
            return provision.limit[name].value
    return None


def _size(given: object) -> Decimal | None:
    match given:
        case Decimal():
            return given
        case dt.date():
            return Decimal(given.toordinal())
        case Period(months, days):
            return months * A_MONTH + days
    return None
