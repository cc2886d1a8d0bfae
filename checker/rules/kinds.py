"""Kinds in arithmetic and comparison: what may be compared, added and multiplied, and what comes out."""

from typing import Any, Final

from msgspec import Struct

from checker.units import KINDS

PURE: Final = frozenset({"number", "ratio", "count"})
"""Kinds that are plain numbers and may stand for one another."""

_DIFFERENCE: Final = {
    "temperature": "temperature_difference",
    "pressure_gauge": "pressure_difference",
    "pressure_absolute": "pressure_difference",
}
_NO_SUM: Final = frozenset({"sound_level", "sound_level_c"})
_NO_SCALING: Final = _NO_SUM | {"temperature"}


class Number(Struct, frozen=True):
    """The kind of a number; `name` is None for a product or quotient, known by its dimension alone."""

    name: str | None
    dimension: Any

    @property
    def pure(self) -> bool:
        """A plain number without dimension that needs no unit."""
        return self.name in PURE or (self.name is None and self.dimension == PURE_NUMBER.dimension)

    def __str__(self) -> str:
        """The kind as a message names it."""
        return self.name.replace("_", " ") if self.name else f"a product in {self.dimension or 'plain numbers'}"


def number(kind: str) -> Number:
    """The number that a kind of quantity gives. Raises KeyError for an unknown kind."""
    return Number(kind, KINDS[kind].dimension)


PURE_NUMBER: Final = number("number")


def comparable(left: Number, right: Number) -> bool:
    """Whether two numbers may be compared: the same kind, or a product of the same dimension with an unguarded kind."""
    if left.name is not None and right.name is not None:
        return left.name == right.name or (left.pure and right.pure)
    if left.dimension != right.dimension:
        return False
    return not any(side.name is not None and KINDS[side.name].guarded for side in (left, right))


def total(op: str, left: Number, right: Number) -> Number | None:
    """What adding (`add`) or subtracting (`sub`) gives; None where it means nothing."""
    if left.name in _DIFFERENCE and right.name == left.name:
        return number(_DIFFERENCE[left.name]) if op == "sub" else None
    if left.name in _DIFFERENCE and right.name == _DIFFERENCE[left.name]:
        return left
    if left.name in _NO_SUM or right.name in _NO_SUM or not comparable(left, right):
        return None
    return left if left.name is not None else right


def product(op: str, left: Number, right: Number) -> Number | None:
    """What multiplying (`mul`) or dividing (`div`) gives; None where it means nothing."""
    if {left.name, right.name} & _NO_SCALING:
        return None
    if right.pure and not (left.pure and left.name is None):
        return left if not left.pure else PURE_NUMBER
    if left.pure and op == "mul":
        return right
    if left.name is not None and left.name == right.name and op == "div":
        return PURE_NUMBER
    dimension = left.dimension * right.dimension if op == "mul" else left.dimension / right.dimension
    return Number(None, dimension)
