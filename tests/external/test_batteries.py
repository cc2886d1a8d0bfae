"""Air for batteries on charge against figures that were published, and against the physics behind them."""

import pytest

from checker import units
from checker.quantities import batteries


def si(text: str, kind: str) -> float:
    return float(units.read(text, kind).value)


@pytest.mark.parametrize("low, high", [("28 cm2", "28 cm2"), ("28 cm2", "90 cm2"), ("90 cm2", "28 cm2")])
def test_openings_that_let_one_cubic_metre_an_hour_through(low: str, high: str) -> None:
    """EN 50272-3 as two battery makers' pages restate it (secondary): 28 cm2, in and out, for each m3/h."""
    flow = batteries.flow_through_openings(si(low, "area"), si(high, "area"))
    assert flow * 3600 == pytest.approx(1.0, rel=1e-12)


def test_the_published_area_is_what_air_at_a_tenth_of_a_metre_a_second_needs() -> None:
    """The same pages say that 0.1 m/s is assumed; 28 cm2 is 1 m3/h ÷ 0.1 m/s, rounded."""
    area = si("300 cm2", "area")
    assert batteries.flow_through_openings(area, area) == pytest.approx(area * 0.1, rel=0.01)


def test_hydrogen_is_thinned_below_its_lower_explosive_limit() -> None:
    """Faraday's law, 0.456 L of hydrogen for each A h and cell at 25 °C and 101.325 kPa, and its limit of 4 %.

    Own arithmetic on R = 8.314 J/(mol K) and F = 96,485 C/mol; the limit is the one that the leaflets name (secondary).
    """
    released = 8.314 * 298.15 / 101_325 / (2 * 96_485) * 6 * 5
    thinned = released / batteries.dilution_flow(6, 5)
    assert 0 < thinned < 0.04
    assert thinned == pytest.approx(0.04 / 5, rel=0.05), "a safety factor of five"
