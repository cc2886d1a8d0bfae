"""Noise, stopping distance and areas against a regulation's table, published examples and a geometry library."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon

from checker.quantities import geometry, noise, rollers

HOUR = 3600.0

REFERENCE_DURATIONS = """
80 32, 81 27.9, 82 24.3, 83 21.1, 84 18.4, 85 16, 86 13.9, 87 12.1, 88 10.6, 89 9.2, 90 8, 91 7.0, 92 6.1, 93 5.3,
94 4.6, 95 4, 96 3.5, 97 3.0, 98 2.6, 99 2.3, 100 2, 101 1.7, 102 1.5, 103 1.3, 104 1.1, 105 1, 106 0.87, 107 0.76,
108 0.66, 109 0.57, 110 0.5, 111 0.44, 112 0.38, 113 0.33, 114 0.29, 115 0.25, 116 0.22, 117 0.19, 118 0.16, 119 0.14,
120 0.125, 121 0.11, 122 0.095, 123 0.082, 124 0.072, 125 0.063, 126 0.054, 127 0.047, 128 0.041, 129 0.036, 130 0.031
"""


@pytest.mark.parametrize(
    "row", [row.split() for row in REFERENCE_DURATIONS.split(",")], ids=lambda row: f"{row[0]} dBA"
)
def test_how_long_a_level_may_last(row: list[str]) -> None:
    """29 CFR 1910.95 Appendix A, Table G-16a (verified), rounded as printed."""
    level, printed = row
    hours = noise.reference_duration(float(level), 90, 5) / HOUR
    digits = len(printed.partition(".")[2])
    assert abs(hours - float(printed)) <= 0.5 * 10**-digits + 1e-9


@pytest.mark.parametrize(
    "day, dose",
    [
        pytest.param([(92, 8)], 1.31, id="29 CFR 1910.95 Table G-16a: 8 h ÷ 6.1 h"),
        pytest.param([(95, 4), (90, 4)], 1.50, id="own arithmetic"),
        pytest.param([(99, 3), (87, 2), (85, 2), (84, 1)], 1.6489, id="course example (secondary), table's durations"),
    ],
)
def test_dose_of_a_day(day: list[tuple[float, float]], dose: float) -> None:
    total = sum(noise.noise_dose(level, hours * HOUR, 90, 5) for level, hours in day)
    assert total == pytest.approx(dose, rel=0.01)


@pytest.mark.parametrize("level, hours", [(80, 8), (89, 1), (92, 0.5)])
def test_equal_exposures(level: float, hours: float) -> None:
    """A training firm's page (secondary): 80 dB for 8 h, 89 dB for 1 h and 92 dB for half an hour are the same."""
    assert noise.noise_dose(level, hours * HOUR, 80, 3) == pytest.approx(1.0)


def test_niosh_dose_of_a_day() -> None:
    """NIOSH 98-126 (secondary), own arithmetic: 104 dBA 1 h, 88 dBA 2 h and 72 dBA 5 h come to 1061 %."""
    total = sum(noise.noise_dose(level, hours * HOUR, 85, 3) for level, hours in [(104, 1), (88, 2), (72, 5)])
    assert total == pytest.approx(10.61, abs=0.005)


def test_distance_from_a_machine_that_takes_time_to_stop() -> None:
    """ISO 13855 in a light-curtain manual (secondary): 1600 mm/s, 290 + 30 ms, C = 0: 512 mm."""
    assert rollers.separation(0.290 + 0.030, 1.6, 0.0) == pytest.approx(0.512)


def test_distance_a_press_rule_asks_for() -> None:
    """29 CFR 1910.217 (secondary): 63 in/s of stopping time; ISO 13855's 1600 mm/s is the same hand."""
    assert rollers.separation(0.5, 63 * 0.0254, 0.0) == pytest.approx(rollers.separation(0.5, 1.6, 0.0), rel=0.001)


@given(mass=st.floats(1, 1e4), diameter=st.floats(0.1, 3), speed=st.floats(0, 120))
def test_a_thin_drum_stores_what_the_same_mass_in_flight_does(mass: float, diameter: float, speed: float) -> None:
    """Mechanics: all the mass of a thin drum moves at its surface speed, so ½ I ω² is ½ m v²."""
    inertia = mass * (diameter / 2) ** 2
    assert rollers.stored_energy(inertia, speed, diameter) == pytest.approx(mass * speed**2 / 2)


@given(
    radii=st.lists(st.floats(0.5, 40), min_size=3, max_size=12),
    centre=st.tuples(st.floats(-1e3, 1e3), st.floats(-1e3, 1e3)),
    backwards=st.booleans(),
)
def test_area_inside_an_outline(radii: list[float], centre: tuple[float, float], backwards: bool) -> None:
    """Against shapely, for outlines seen whole from a point inside them."""
    turn = 2 * math.pi / len(radii)
    corners = [(centre[0] + r * math.cos(i * turn), centre[1] + r * math.sin(i * turn)) for i, r in enumerate(radii)]
    outline = corners[::-1] if backwards else corners
    assert geometry.outline_area(outline) == pytest.approx(Polygon(corners).area, rel=1e-9)


def test_floor_of_an_angled_room() -> None:
    """An L of 20 by 14 m less 12 by 8 m (own arithmetic, the plan also checked with shapely)."""
    outline = [(0.0, 0.0), (20.0, 0.0), (20.0, 6.0), (8.0, 6.0), (8.0, 14.0), (0.0, 14.0)]
    assert geometry.outline_area(outline) == pytest.approx(184.0)
    assert Polygon(outline).area == pytest.approx(184.0)
