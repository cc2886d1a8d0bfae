"""A day's noise against published examples, the OSHA appendix's own table and a general-purpose acoustics rule."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.quantities import OutsideRange, noise

HOUR = 3600.0
Day = list[tuple[float, float]]
"""Level in dB(A) and hours, spell by spell."""


def parted(day: Day) -> tuple[list[float], list[float]]:
    return [level for level, _ in day], [hours * HOUR for _, hours in day]


@pytest.mark.parametrize(
    "day, level",
    [
        pytest.param([(98.3, 0.25), (89.9, 0.25), (73.0, 7)], 84.1, id="worked example on a Polish page (secondary)"),
        pytest.param([(80, 8)], 80.0, id="training firm's page (secondary): 80 dB for 8 h"),
        pytest.param([(89, 1)], 80.0, id="the same page: 89 dB for 1 h"),
        pytest.param([(92, 0.5)], 80.0, id="the same page: 92 dB for half an hour"),
        pytest.param([(104, 1), (88, 2), (72, 5)], 95.2, id="own arithmetic"),
    ],
)
def test_level_over_eight_hours(day: Day, level: float) -> None:
    assert noise.daily_level(*parted(day)) == pytest.approx(level, abs=0.05)


@pytest.mark.parametrize(
    "day, threshold, criterion, exchange, dose",
    [
        pytest.param([(104, 1), (88, 2), (72, 5)], 80, 90, 5, 1.060, id="OSHA action level, own arithmetic"),
        pytest.param([(104, 1), (88, 2), (72, 5)], 90, 90, 5, 0.871, id="OSHA limit, own arithmetic"),
        pytest.param([(104, 1), (88, 2), (72, 5)], 0, 85, 3, 10.61, id="NIOSH, own arithmetic"),
        pytest.param([(98.5, 3), (86.5, 2), (84.5, 2), (83.5, 1)], 80, 90, 5, 1.5397, id="course example (secondary)"),
    ],
)
def test_dose_of_a_day_above_a_threshold(
    day: Day, threshold: float, criterion: float, exchange: float, dose: float
) -> None:
    """The two thresholds: agency's letter of 26 September 2001 on 29 CFR 1910.95 (verified)."""
    assert noise.day_dose(*parted(day), threshold, criterion, exchange) == pytest.approx(dose, rel=0.001)


def test_level_under_protectors() -> None:
    """A noise meter maker's help page (secondary): 97.0 dB(C), SNR 28 and 4 dB lost in use give 73.0 dB(A)."""
    assert noise.level_at_ear(97.0, 28) == pytest.approx(73.0)


def test_a_silent_day_has_no_level() -> None:
    with pytest.raises(OutsideRange):
        noise.daily_level([], [])


@given(st.lists(st.tuples(st.floats(40, 130), st.floats(0.01, 4)), min_size=1, max_size=6))
def test_level_and_dose_with_three_decibels_say_the_same(day: Day) -> None:
    """NIOSH 98-126 (secondary): L = 10 × log10(D) + 85, for a doubling that is exact and not rounded to 3 dB."""
    dose = noise.day_dose(*parted(day), 0, 85, 10 * math.log10(2))
    assert noise.daily_level(*parted(day)) == pytest.approx(10 * math.log10(dose) + 85, abs=1e-6)
