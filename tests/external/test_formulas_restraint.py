"""Straps and the pull at the rollers against published examples, a handbook's rule of thumb and plain geometry."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.quantities import restraint

LBF = 4.4482216152605
LB = 0.45359237
MPH = 0.44704
HP = 745.6998715822702


@pytest.mark.parametrize(
    "tension, angle, sideways",
    [
        pytest.param(150, 65, 63.4, id="150 lb at 65 degrees"),
        pytest.param(150, 45, 106.1, id="150 lb at 45 degrees"),
        pytest.param(251, 65, 106.1, id="251 lb at 65 degrees: balanced"),
    ],
)
def test_two_motorcycle_straps_at_unequal_angles(tension: float, angle: float, sideways: float) -> None:
    """A rider's page on tie-down tension (secondary; prints 63 and 106 lb). The strap is laid out by its extents."""
    rise, run = math.sin(math.radians(angle)), math.cos(math.radians(angle))
    assert tension * restraint.share_along(rise, run, 0.0) == pytest.approx(sideways, abs=0.06)


def test_down_force_of_the_balanced_strap() -> None:
    """The same page: 251 lb at 65 degrees press down with 227 lb."""
    rise, run = math.sin(math.radians(65)), math.cos(math.radians(65))
    assert 251 * restraint.share_down(rise, run, 0.0) == pytest.approx(227.5, abs=0.06)


@pytest.mark.parametrize(
    "watts, metres_a_second, newtons",
    [
        pytest.param(120e3, 100 / 3.6, 4320, id="120 kW at 100 km/h"),
        pytest.param(300e3, 120 / 3.6, 9000, id="300 kW at 120 km/h"),
        pytest.param(200 * HP, 60 * MPH, 1250 * LBF, id="200 hp at 60 mph: the trade's 375 hp/mph"),
    ],
)
def test_pull_at_the_rollers(watts: float, metres_a_second: float, newtons: float) -> None:
    """Own arithmetic; the last by the textbook rule that pounds are 375 times horsepower over miles an hour."""
    assert restraint.tractive_force(watts, metres_a_second) == pytest.approx(newtons, rel=1e-4)


def test_two_straps_against_nine_kilonewtons() -> None:
    """Own arithmetic, 35 degrees above the floor and 15 in plan: 9 kN puts 5687 N into each of two straps."""
    slope, plan = math.radians(35), math.radians(15)
    share = restraint.share_along(math.sin(slope), math.cos(slope) * math.cos(plan), math.cos(slope) * math.sin(plan))
    assert share == pytest.approx(0.791240, abs=1e-6)
    each = 9000 / (2 * share)
    assert each == pytest.approx(8687.3 - 3000, abs=0.1)
    assert restraint.strap_capacity([each, each], [share, share]) == pytest.approx(9000)


@pytest.mark.parametrize(
    "pounds, straps, limit, holds",
    [
        pytest.param(4200, 4, 2000, True, id="a car on four unmarked 2 in straps"),
        pytest.param(4200, 2, 1750, False, id="on two of 1 3/4 in"),
        pytest.param(24000, 8, 3335, True, id="24,000 lb on eight"),
        pytest.param(24000, 7, 3335, False, id="on seven"),
    ],
)
def test_half_the_weight_with_each_strap_counted_half(pounds: float, straps: int, limit: float, holds: bool) -> None:
    """49 CFR 393.106(d) and default limits of 393.108 (secondary).

    A vendor's guidance page counts four straps for 24,000 lb because each goes over the load; from floor to vehicle
    each counts half, which makes eight.
    """
    share = restraint.strap_share_of_weight([limit * LBF] * straps, pounds * LB, 0.5)
    assert (share >= 0.5) is holds


extent = st.floats(0.01, 10)


@given(rise=extent, along=extent, across=extent)
def test_the_shares_of_a_strap_are_those_of_a_unit_vector(rise: float, along: float, across: float) -> None:
    """Geometry: the squares of the three shares of a tension are 1 together."""
    shares = (
        restraint.share_along(rise, along, across),
        restraint.share_down(rise, along, across),
        restraint.share_along(rise, across, along),
    )
    assert math.fsum(share**2 for share in shares) == pytest.approx(1)


@given(st.lists(st.tuples(st.floats(1, 1e5), st.floats(0.01, 1)), min_size=1, max_size=8))
def test_straps_never_hold_more_than_all_of_them_at_their_limit(straps: list[tuple[float, float]]) -> None:
    """Statics: equal parts can never use more than the sum of what each can do."""
    loads, shares = zip(*straps, strict=True)
    most = math.fsum(load * share for load, share in straps)
    assert restraint.strap_capacity(loads, shares) <= most * (1 + 1e-12)


@given(strap=st.floats(1, 1e5), point=st.floats(1, 1e5))
def test_a_strap_is_as_strong_as_its_weakest_part(strap: float, point: float) -> None:
    """49 CFR 393.108(a): the limit of a tie-down is that of its weakest part, its anchor point included."""
    usable = restraint.usable_load(strap, point)
    assert usable in (strap, point)
    assert usable <= strap
    assert usable <= point
