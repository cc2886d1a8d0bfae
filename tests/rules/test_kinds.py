"""Kinds in arithmetic: pint, a general library of units, agrees on every product; what has no meaning is none."""

from itertools import product as pairs

import pint
import pytest

from checker.rules import kinds
from checker.rules.kinds import PURE_NUMBER, comparable, number, product, total
from checker.units import KINDS

NAMED = sorted(set(KINDS) - {"period"})
ORDINARY = [kind for kind in NAMED if not KINDS[kind].guarded]
REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry()
IN_PINT = {
    "air_changes": "1/s", "area": "m**2", "charge": "A*s", "count": "", "current": "A", "density": "kg/m**3",
    "duration": "s", "energy": "J", "flow": "m**3/s", "flow_per_area": "m/s", "force": "N", "frequency": "Hz",
    "illuminance": "lux", "inertia": "kg*m**2", "length": "m", "mass": "kg", "mass_flow": "kg/s", "number": "",
    "power": "W", "pressure_difference": "Pa", "ratio": "", "resistance": "ohm", "speed": "m/s", "stress": "Pa",
    "voltage": "V", "volume": "m**3",
}  # fmt: skip
IN_BOTH = sorted(set(IN_PINT) & set(ORDINARY) - {"illuminance", "memory"})


def test_every_ordinary_kind_is_held_against_pint() -> None:
    assert set(ORDINARY) - set(IN_PINT) <= {"memory"}


@pytest.mark.parametrize("op", ["mul", "div"])
def test_products_have_the_dimension_that_pint_gives(op: str) -> None:
    for left, right in pairs(IN_BOTH, IN_BOTH):
        a, b = REGISTRY.Quantity(1, IN_PINT[left]), REGISTRY.Quantity(1, IN_PINT[right])
        theirs = (a * b if op == "mul" else a / b).dimensionality
        ours = product(op, number(left), number(right))
        assert ours is not None
        like = {kind for kind in IN_BOTH if REGISTRY.Quantity(1, IN_PINT[kind]).dimensionality == theirs}
        assert {kind for kind in IN_BOTH if number(kind).dimension == ours.dimension} == like, (left, op, right)


@pytest.mark.parametrize("kind", NAMED)
def test_a_kind_is_comparable_with_itself_and_with_no_other_but_plain_numbers(kind: str) -> None:
    same = {other for other in NAMED if comparable(number(kind), number(other))}
    assert same == (set(kinds.PURE) if kind in kinds.PURE else {kind})


@pytest.mark.parametrize("kind", NAMED)
def test_a_product_stands_for_ordinary_kinds_only(kind: str) -> None:
    made = kinds.Number(None, KINDS[kind].dimension)
    assert comparable(made, number(kind)) is (not KINDS[kind].guarded)
    assert comparable(number(kind), made) is (not KINDS[kind].guarded)
    assert comparable(made, kinds.Number(None, KINDS[kind].dimension))


SUMS = [
    ("add", "length", "length", "length"),
    ("sub", "length", "length", "length"),
    ("sub", "temperature", "temperature", "temperature_difference"),
    ("add", "temperature", "temperature_difference", "temperature"),
    ("sub", "temperature", "temperature_difference", "temperature"),
    ("add", "temperature_difference", "temperature_difference", "temperature_difference"),
    ("sub", "pressure_gauge", "pressure_gauge", "pressure_difference"),
    ("add", "pressure_gauge", "pressure_difference", "pressure_gauge"),
    ("sub", "pressure_absolute", "pressure_absolute", "pressure_difference"),
    ("add", "number", "count", "number"),
    ("add", "ratio", "number", "ratio"),
    ("add", "temperature", "temperature", None),
    ("add", "pressure_gauge", "pressure_gauge", None),
    ("sub", "pressure_gauge", "pressure_absolute", None),
    ("sub", "temperature", "pressure_difference", None),
    ("add", "sound_level", "sound_level", None),
    ("sub", "sound_level", "sound_level", None),
    ("add", "sound_level_c", "sound_level_c", None),
    ("add", "flow", "free_air", None),
    ("add", "length", "number", None),
    ("add", "power", "apparent_power", None),
    ("add", "concentration", "mass_concentration", None),
]


@pytest.mark.parametrize("op, left, right, gives", SUMS)
def test_sums(op: str, left: str, right: str, gives: str | None) -> None:
    assert total(op, number(left), number(right)) == (None if gives is None else number(gives))


PRODUCTS = [
    ("mul", "length", "number", "length"),
    ("mul", "number", "length", "length"),
    ("div", "length", "count", "length"),
    ("mul", "number", "ratio", "number"),
    ("div", "number", "number", "number"),
    ("div", "length", "length", "number"),
    ("div", "free_air", "free_air", "number"),
    ("mul", "free_air", "number", "free_air"),
    ("mul", "temperature", "number", None),
    ("mul", "number", "temperature", None),
    ("div", "temperature", "temperature", None),
    ("mul", "sound_level", "number", None),
    ("mul", "sound_level_c", "number", None),
    ("mul", "temperature_difference", "number", "temperature_difference"),
]


@pytest.mark.parametrize("op, left, right, gives", PRODUCTS)
def test_products(op: str, left: str, right: str, gives: str | None) -> None:
    assert product(op, number(left), number(right)) == (None if gives is None else number(gives))


def test_flow_per_area_times_area_is_a_flow_and_no_free_air() -> None:
    made = product("mul", number("flow_per_area"), number("area"))
    assert made is not None
    assert (made.name, comparable(made, number("flow")), comparable(made, number("free_air"))) == (None, True, False)
    assert str(made) == f"a product in {KINDS['flow'].dimension}"


def test_a_product_that_comes_to_nothing_is_a_plain_number() -> None:
    made = product("mul", number("air_changes"), number("duration"))
    assert made is not None
    assert made.pure
    assert comparable(made, PURE_NUMBER)
    assert total("add", made, PURE_NUMBER) == PURE_NUMBER


def test_an_unknown_kind_is_an_error() -> None:
    with pytest.raises(KeyError):
        number("beauty")
