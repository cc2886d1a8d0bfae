"""Suction, door force and the warmth of a run, against published figures and arithmetic done apart from the program."""

import pytest

from checker import units
from checker.quantities import room_air


def si(text: str, kind: str) -> float:
    return float(units.read(text, kind).value)


@pytest.mark.parametrize("flow, pressure", [("105 L/s", 10.0), ("166 L/s", 25.0)])
def test_flow_through_gaps_of_four_hundredths_of_a_square_metre(flow: str, pressure: float) -> None:
    """A laboratory sheet on leakage (secondary): 0.83 × 0.040 m2 × √Pa; 0.83 is a discharge of 0.643 at 1.2 kg/m3."""
    found = room_air.pressure_across(si(flow, "flow"), 0.040, 0.643)
    assert found == pytest.approx(pressure, rel=0.01)


def test_flow_through_an_opening_in_american_units() -> None:
    """A page on estimating air leakage (secondary): 895 ft/min, 1791 cfm, through 2 ft2 at 0.05 inches of water."""
    found = room_air.pressure_across(si("1791 cfm", "flow"), si("2 ft2", "area"), 1.0)
    assert found == pytest.approx(0.05 * 249.089, rel=0.01)


@pytest.mark.parametrize("area, pressure", [(2.671, 25.0), (1.889, 50.0)])
def test_suction_behind_a_louvre(area: float, pressure: float) -> None:
    """Own arithmetic, apart from the program, on the sharp-edged opening: 10.5 m3/s, discharge 0.61."""
    assert room_air.suction(10.5, 0.0, area) == pytest.approx(pressure, rel=0.002)


def test_no_suction_where_fans_blow_in_as_much() -> None:
    """Definition: what is blown in needs no opening."""
    assert room_air.suction(1.0, 1.0, 0.5) == 0
    assert room_air.suction(1.0, 1.4, 0.5) == 0


@pytest.mark.parametrize("pressure, force", [(50.0, 51.2), (12.5, 12.8)])
def test_force_on_a_door(pressure: float, force: float) -> None:
    """Equation 11 of ASHRAE HVAC Applications 2011, ch. 53 (secondary), on a 0.9 m × 2.1 m door; own arithmetic."""
    assert room_air.force_of_suction(pressure, 0.9, 2.1) == pytest.approx(force, abs=0.05)


@pytest.mark.parametrize("flow, rise", [(0.0, 13.76), (10.5, 6.50)])
def test_a_run_of_fifteen_seconds_in_a_small_cell(flow: float, rise: float) -> None:
    """Own arithmetic apart from the program: 100 kW of heat for 15 s into 90 m3, shut and with 10.5 m3/s."""
    assert room_air.warming_after(100_000, 15, flow, 90) == pytest.approx(rise, abs=0.01)


def test_the_share_of_the_fuel_that_warms_a_room() -> None:
    """Martyr & Plint, table 2.2 (secondary): 300 kW of fuel are 90 kW at the brake, and 210 kW end in the room."""
    wheel = 90_000 * room_air.DRIVE_LINE
    found = room_air.room_warming(wheel, 15, 10.5, 90, 0.70)
    assert found == pytest.approx(room_air.warming_after(210_000, 15, 10.5, 90))
