"""Reaching over barriers: worked readings of the tables, and a state law's table that is their twin in inches."""

import pytest

from checker.quantities.missing import OutsideRange
from checker.quantities.reach import LOW_RISK, LOW_RISK_BARRIERS, reach_over_high_risk, reach_over_low_risk

INCH = 25.4
BARRIERS = (96, 86, 78, 71, 63, 55, 48, 40)
"""in. Columns of Table 200-2, WAC 296-806-20056 (verified)."""
WASHINGTON: dict[int, tuple[int | None, ...]] = {
    96: (0, 4, 4, 4, 4, 4, 4, 4),
    86: (None, 10, 14, 16, 20, 20, 24, 24),
    78: (None, None, 14, 20, 24, 28, 36, 43),
    71: (None, None, None, 24, 36, 36, 40, 43),
    63: (None, None, None, 20, 36, 36, 40, 51),
    55: (None, None, None, 4, 32, 36, 40, 51),
    48: (None, None, None, None, 20, 36, 40, 55),
    40: (None, None, None, None, 12, 36, 40, 55),
    32: (None, None, None, None, None, 24, 36, 51),
    24: (None, None, None, None, None, None, 20, 48),
    16: (None, None, None, None, None, None, 12, 48),
    8: (None, None, None, None, None, None, 8, 43),
}
"""in. Height of the hazard: level distance for each height of barrier; None where the law gives none."""
LAXER = 96, 96
"""Where the law gives 0 and the standard, by a law of Austria with the same table (verified), 100 mm."""


def test_high_risk_between_two_rows() -> None:
    """Part at 450 mm, barrier of 1100 mm: read at 1000 mm; rows 600 and 400 both give 1400 mm (own reading)."""
    assert reach_over_high_risk(0.45, 1.1) == 1.4


def test_low_risk_between_two_rows() -> None:
    """Part at 1500 mm, barrier of 1700 mm: read at 1600 mm; 800 and 900 mm, the larger counts (own reading)."""
    assert reach_over_low_risk(1.5, 1.7) == 0.9


@pytest.mark.parametrize("hazard", WASHINGTON)
def test_low_risk_is_the_twin_of_a_table_in_inches(hazard: int) -> None:
    """The law gives the cells of the standard in whole inches, rounded up or down (WAC 296-806-20056, verified)."""
    row = min(LOW_RISK, key=lambda each: abs(each - hazard * INCH))
    for barrier, inches in zip(BARRIERS, WASHINGTON[hazard], strict=True):
        column = min(LOW_RISK_BARRIERS[:-1], key=lambda each: abs(each - barrier * INCH))
        ours = reach_over_low_risk(row / 1000, column / 1000) * 1000
        if (hazard, barrier) == LAXER:
            assert (inches, ours) == (0, 100)
        else:
            assert abs(ours - (inches or 0) * INCH) < INCH, (hazard, barrier)


def test_high_risk_never_asks_for_less_than_low_risk() -> None:
    for part in range(0, 2700, 50):
        for barrier in range(1000, 2701, 50):
            assert reach_over_high_risk(part / 1000, barrier / 1000) >= reach_over_low_risk(part / 1000, barrier / 1000)


def test_a_higher_barrier_never_asks_for_more() -> None:
    for part in range(0, 2700, 50):
        asked = [reach_over_high_risk(part / 1000, barrier / 1000) for barrier in range(1000, 2701, 50)]
        assert asked == sorted(asked, reverse=True)


def test_low_barriers_are_not_in_the_table() -> None:
    with pytest.raises(OutsideRange, match="no barrier lower than 1000 mm"):
        reach_over_high_risk(0.4, 0.999)
