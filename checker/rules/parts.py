"""What an expression says part by part: measured side, limit side, operator as it stands, kind; read off the tree."""

from collections.abc import Iterator, Sequence
from itertools import count

from msgspec import Struct

from checker.rules.compile import limit_stands_left, parts
from checker.rules.tree import MIRRORED, NEGATED, Tree, text
from checker.rules.types import Scope, Type, type_within
from checker.units import KINDS


class PartSpec(Struct, frozen=True):
    """One comparison or answer: how to read the sides that an evaluator gives for it."""

    tree: Tree
    text: str
    negated: bool
    operator: str | None
    """As it stands between measured and limit after mirroring and `not`; None for an answer."""
    limit_left: bool
    kind: str
    measured: Tree | None
    limit: Tree | None

    @property
    def counts_from(self) -> tuple[Tree, Tree] | None:
        """The day it counts from and the period, where it says that something may not have fallen due."""
        if self.measured is None or self.measured[0] != "due" or self.operator not in ("ge", "gt"):
            return None
        return self.measured[1], self.measured[2]


def part_specs(tree: Tree, kinds: Sequence[str]) -> tuple[PartSpec, ...]:
    """The parts of a checked tree, in the order in which its evaluator gives their sides; `kinds` as `part_kinds`."""
    return tuple(_specs(tree, iter(kinds), negated=False))


def part_kinds(tree: Tree, scope: Scope) -> tuple[str, ...]:
    """The kind in which the sides of each part of a checked tree are shown; word or answer where it compares none."""
    return tuple(_kind(part, scope) for part in parts(tree))


def clocks(tree: Tree, specs: Sequence[PartSpec]) -> tuple[int | None, ...]:
    """The clock that each part tells of, by the number of its first part; None where it counts from no day.

    What counts the same period from several days, of which one is enough, is one clock: any of that work starts it.
    """
    first: dict[tuple[int, str], int] = {}
    found: list[int | None] = []
    for number, (chain, spec) in enumerate(zip(_chains(tree, count(), None, negated=False), specs, strict=True)):
        counted = spec.counts_from
        found.append(None if counted is None else first.setdefault((chain, text(counted[1])), number))
    return tuple(found)


def _chains(tree: Tree, fresh: Iterator[int], chain: int | None, *, negated: bool) -> list[int]:
    """For each part which parts stand beside it in one chain of `or`."""
    match tree:
        case ["not", inner]:
            return _chains(inner, fresh, chain, negated=not negated)
        case ["and" | "or" as word, left, right]:
            own = None
            if (word == "or") is not negated:
                own = next(fresh) if chain is None else chain
            sides = [_chains(side, fresh, own, negated=negated) for side in (left, right)]
            return sides[0] + sides[1]
    return [next(fresh) if chain is None else chain]


def _specs(tree: Tree, kinds: Iterator[str], *, negated: bool) -> list[PartSpec]:
    match tree:
        case ["and" | "or", left, right]:
            return _specs(left, kinds, negated=negated) + _specs(right, kinds, negated=negated)
        case ["not", inner]:
            return _specs(inner, kinds, negated=not negated)
        case ["cmp", op, left, right]:
            swapped = limit_stands_left(tree)
            measured, limit = (right, left) if swapped else (left, right)
            shown = MIRRORED[op] if swapped else op
            return [PartSpec(tree, text(tree), negated, NEGATED[shown] if negated else shown, swapped, next(kinds),
                             measured, limit)]  # fmt: skip
        case ["in", member, _]:
            return [PartSpec(tree, text(tree), negated, None, False, next(kinds), member, None)]
    return [PartSpec(tree, text(tree), negated, None, False, next(kinds), tree, None)]


def _kind(part: Tree, scope: Scope) -> str:
    match part:
        case ["cmp", _, left, right]:
            sides = (right, left) if limit_stands_left(part) else (left, right)
            return _kind_of_both(*(type_within(side, scope) for side in sides))
        case ["in", *_]:
            return "word"
    return "answer"


def _kind_of_both(measured: Type, limit: Type) -> str:
    """The kind both sides are shown in: the one that has a name, else the first unguarded kind of the dimension."""
    if measured.number is None:
        return measured.base
    for side in (measured, limit):
        if side.number is not None and side.number.name is not None:
            return side.number.name
    dimension = measured.number.dimension
    return next((name for name, kind in KINDS.items() if kind.dimension == dimension and not kind.guarded), "number")
