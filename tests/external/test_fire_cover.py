"""Extinguishers counted against published examples and tables; the source of each stands beside it."""

import math
from collections.abc import Callable
from decimal import Decimal
from functools import cache

import pytest

from checker import shipped
from checker.quantities import Missing, extinguishing
from checker.quantities.extinguishing import UNITS_BY_A, UNITS_BY_B
from checker.rules import read_rulesets
from checker.rules.model import Provision
from checker.site import read_rating
from checker.units import read

FT2 = 0.3048**2
"""m2, exact."""


def counted(
    units: int, rating: float, smallest: float, most: float, *, pair: float = 0, agent: str = "powder"
) -> float:
    """What so many equal units of UL 711 count together."""
    return float(
        extinguishing.class_a_counted(
            "s", ["s"] * units, [rating] * units, ["UL 711"] * units, [agent] * units, smallest, most, pair
        )
    )


def floor_covered(units: int, rating: float, per_a: float, smallest: float, largest: float = 11_250) -> float:
    """The floor in ft2 that so many equal units cover by IFC 2018 table 906.3(1)."""
    return per_a * counted(units, rating, smallest, largest / per_a)


def test_one_unit_in_a_light_hazard() -> None:
    """A firm's page on sizing extinguishers (keyeslifesafety.com, secondary): a 2-A unit covers 2 × 3,000 ft2."""
    assert floor_covered(1, 2, 3000, 2) == 6000


@pytest.mark.parametrize(
    ("rating", "per_a", "smallest", "needed"),
    [
        (2, 1500, 2, 4),
        (4, 1500, 2, 2),
        (10, 1500, 2, 1),
        (4, 1000, 4, 3),
        (10, 1000, 4, 1),
        (20, 1000, 4, 1),
    ],
)
def test_units_for_a_floor_of_9600_square_feet(rating: float, per_a: float, smallest: float, needed: int) -> None:
    """Own arithmetic on IFC 2018 table 906.3(1): the number needed covers the floor, one less does not."""
    assert floor_covered(needed, rating, per_a, smallest) >= 9600
    assert floor_covered(needed - 1, rating, per_a, smallest) < 9600


def test_a_unit_below_the_smallest_covers_nothing() -> None:
    """IFC 2018 table 906.3(1): 4-A is the smallest in an extra hazard."""
    assert floor_covered(9, 2, 1000, 4) == 0


@pytest.mark.parametrize(("per_a", "standard", "cap"), [(3000, 4, 3.75), (1500, 10, 7.5), (1000, 20, 11.25)])
def test_the_smallest_standard_rating_that_covers_the_most_floor(per_a: float, standard: float, cap: float) -> None:
    """NFPA 10 annex (from memory): six units for 67,500 ft2; 4-A, 10-A and 20-A are the smallest that cover 11,250."""
    assert 11_250 / per_a == cap
    assert floor_covered(6, standard, per_a, 2) == 67_500
    assert cap <= standard


def test_the_cap_is_the_square_in_the_circle_of_the_walk() -> None:
    """Own arithmetic: 11,250 ft2 is the square inscribed in a circle of 75 ft."""
    assert (75 * math.sqrt(2)) ** 2 == pytest.approx(11_250)


@pytest.mark.parametrize(
    ("units", "rating", "smallest", "most", "pair", "counts"),
    [(2, 1, 2, 3.75, 1, 2), (3, 1, 2, 3.75, 1, 2), (4, 1, 2, 3.75, 1, 4), (2, 1, 2, 7.5, 0, 0), (2, 2, 4, 11.25, 2, 4)],
)
def test_two_small_water_units_count_as_one(
    units: int, rating: float, smallest: float, most: float, pair: float, counts: float
) -> None:
    """IFC 2018 table 906.3(1), notes a and c: two 1-A in a light hazard, two of 2½ gallons in an extra one."""
    assert counted(units, rating, smallest, most, pair=pair, agent="water") == counts
    assert counted(units, rating, smallest, most, pair=pair, agent="powder") == 0


@pytest.mark.parametrize(
    ("area", "rating", "units"),
    [(1150, 74.75, 6), (150, 26, 2), (400, 26, 2), (401, 26.065, 3), (200, 26, 2)],
)
def test_british_rating_by_area(area: float, rating: float, units: int) -> None:
    """firelinkltd.co.uk on BS 5306-8:2012, 8.2 (secondary): 1,150 m2 ask for 74.75, six units of 13A; 150 m2 for two.

    The step at 400 m2 and the rule of one 13A for 200 m2 (13 ÷ 200 = 0.065) are own arithmetic.
    """
    needed = max(26.0, 0.065 * area)
    assert needed == pytest.approx(rating)
    assert total(units) >= needed > total(units - 1)


def total(units: int) -> float:
    """The ratings of so many units of 13A added up."""
    return float(extinguishing.class_a_total("s", ["s"] * units, [13.0] * units, ["EN 3"] * units, "EN 3"))


@pytest.mark.parametrize(
    ("units", "a", "b"),
    [
        (1, 5, 21), (2, 8, 34), (3, None, 55), (4, 13, 70), (5, None, 89), (6, 21, 113), (9, 27, 144), (10, 34, None),
        (12, 43, 183), (15, 55, 233),
    ],
)  # fmt: skip
def test_extinguishing_units_by_rating(units: float, a: int | None, b: int | None) -> None:
    """ASR A2.2 table 2: 13A, 21A, 113B and 43A read in a copy of annex 2; the rest in DGUV Regel 110-001, 3.3."""
    for rating, table in ((a, UNITS_BY_A), (b, UNITS_BY_B)):
        if rating is not None:
            assert extinguishing.units_of(rating, table) == units
            assert extinguishing.units_of(rating - 1, table) < units


@pytest.mark.parametrize(
    ("label", "burns", "units"),
    [
        pytest.param("34A 233B", "A and B", 10, id="brandschutz-dworschak.at (secondary): 10 and 15 count 10"),
        pytest.param("43A 233B", "A and B", 12, id="ASR A2.2 annex 2, read in a copy"),
        pytest.param("21A 113B", "A and B", 6, id="ASR A2.2 annex 2, read in a copy"),
        pytest.param("13A 89B", "A and B", 4, id="own arithmetic: the lower of 4 and 5"),
        pytest.param("89B", "A and B", 0, id="own arithmetic: carbon dioxide has no A"),
        pytest.param("13A", "A", 4, id="ASR A2.2 annex 2, read in a copy: water of 3 L"),
    ],
)
def test_a_unit_counts_at_the_lower_of_its_two_values(label: str, burns: str, units: float) -> None:
    rating = read_rating(label, "EN 3")
    assert extinguishing.extinguishing_units(rating.a, rating.b, "EN 3", burns) == units


@pytest.mark.parametrize(
    ("units", "a", "b", "burns", "needed"),
    [(4, 21, 113, "A and B", 21), (4, 21, 0, "A", 24), (6, 13, 0, "A", 24)],
)
def test_german_examples(units: int, a: float, b: float, burns: str, needed: float) -> None:
    """ASR A2.2 annex 2 (read in a copy): an office of 500 m2, 21 units; a nursery of 538 m2, 24 units, solids only."""

    def have(number: int) -> float:
        same = [number * [each] for each in ("s", a, "EN 3", b)]
        return float(extinguishing.units_of_storey("s", *same, burns, 1))

    assert have(units) >= needed > have(units - 1)


@pytest.mark.parametrize(("floor", "need"), [(1000, 36), (1000.5, 42), (1250, 42), (1251, 48), (2000, 60)])
def test_each_further_250_square_metres(floor: float, need: float) -> None:
    """ASR A2.2 table 3, last row (read in DGUV Regel 110-001, 3.3): 6 more for each further 250 m2 begun."""
    assert 36 + 6 * extinguishing.steps_above(floor, 1000, 250) == need


def test_ratings_of_one_system_never_count_in_another() -> None:
    """The tests of UL 711 and EN 3 differ; a rating has no value in the other system."""
    assert total(2) == 26
    assert extinguishing.class_a_total("s", ["s"], [13.0], ["EN 3"], "UL 711") == 0
    assert extinguishing.extinguishing_units(21, 113, "UL 711", "A and B") == 0


def test_what_is_not_known_of_a_unit_that_may_count_leaves_the_sum_unknown() -> None:
    gap = Missing("extinguishers[b].rating", "not recorded")
    with pytest.raises(Missing):
        extinguishing.class_a_total("s", ["s", "s"], [13.0, gap], ["EN 3", "EN 3"], "EN 3")
    elsewhere = extinguishing.class_a_total("s", ["s", "other"], [13.0, gap], ["EN 3", "EN 3"], "EN 3")
    assert elsewhere == 13


@pytest.mark.parametrize(
    ("walk", "limit", "kind"),
    [("22.88 m", "75 ft", "length"), ("15.25 m", "50 ft", "length"), ("18.2 kg", "40 lb", "mass")],
)
def test_just_over_a_limit_in_the_other_unit(walk: str, limit: str, kind: str) -> None:
    """75 ft are 22.86 m and 50 ft 15.24 m exactly; codes print 22.9 and 15.2."""
    assert read(walk, kind).number > read(limit, kind).number


@cache
def held() -> tuple[Provision, ...]:
    return tuple(read_rulesets(shipped.rulesets()).all_provisions)


def looked_up(rule: str, table: str, column: str) -> Callable[..., object]:
    """A column of the table that a rule is given by the one provision that has it."""
    (found,) = [each.tables[table] for each in held() if each.rule == rule and table in each.tables]
    return found.column(column)


@pytest.mark.parametrize(
    ("area", "units"),
    [
        *[(50, 6), (100, 9), (200, 12), (300, 15), (400, 18), (500, 21), (600, 24), (700, 27), (800, 30), (900, 33)],
        *[(1000, 36), (501, 24), (538, 24), (286, 15), (250, 15)],
    ],
)
def test_german_need_by_area(area: int, units: int) -> None:
    """ASR A2.2 table 3 (rows 500 to 700 read in a copy of annex 2, the rest in DGUV Regel 110-001, 3.3), "up to".

    250 m2 asks for 15, not for the 30 of the older rule BGR 133, withdrawn in 2012.
    """
    assert looked_up("fire.extinguishing-units", "need", "units")(Decimal(area)) == units


@pytest.mark.parametrize(
    ("surface", "rating"),
    [("0.14", 21), ("0.23", 34), ("0.37", 55), ("0.47", 70), ("0.59", 89), ("0.75", 113), ("0.48", 89)],
)
def test_foam_for_an_open_tray(surface: str, rating: int) -> None:
    """BS 5306-8:2012 table 1 as anderstore.com prints it (secondary); a tray of 0.8 m × 0.6 m is own arithmetic.

    Each row is n ÷ 150 m2 to two places (own inference).
    """
    assert looked_up("fire.open-liquid-foam", "tray", "rating")(Decimal(surface)) == rating
    assert surface == "0.48" or math.floor(rating / 150 * 100 + 0.5) / 100 == float(surface)


def test_nothing_is_said_of_larger_trays() -> None:
    with pytest.raises(Missing):
        looked_up("fire.open-liquid-foam", "tray", "rating")(Decimal("0.76"))
