"""Air, exhaust gas and heat against published figures and a general-purpose library of fluid mechanics."""

import pytest

from checker import units
from checker.quantities import air, exhaust, heat


def si(text: str, kind: str) -> float:
    return float(units.read(text, kind).value)


def test_air_changes_of_a_room_that_was_measured() -> None:
    """NIOSH, AIHA Journal 58(11):787-791, 1997, abstract (verified): 2332 ft3 and 836 cfm are 21.5 an hour."""
    rate = air.air_changes(si("836 cfm", "flow"), si("2332 ft3", "volume"))
    assert rate * 3600 == pytest.approx(21.5, abs=0.05)


def test_carbon_monoxide_that_room_settles_at() -> None:
    """The same room with a saw that makes 0.818 cfm of CO; 978.5 ppm is own arithmetic on the paper's equation 5."""
    settled = exhaust.settled_fraction(si("0.818 cfm", "flow"), si("836 cfm", "flow"))
    assert settled * 1e6 == pytest.approx(978.5, abs=0.05)


@pytest.mark.parametrize(
    "cars, limit_ppm",
    [(1, 50), (2, 50), (1, 25), (3, 35)],
)
def test_air_that_a_state_code_asks_for_each_running_car(cars: int, limit_ppm: float) -> None:
    """Hawaii Administrative Rules 11-39-13 (formula verified): cfm = 1,380,000 × cars ÷ ppm, 1.38 cfm of CO a car."""
    asked = 1_380_000 * cars / limit_ppm
    settled = exhaust.settled_fraction(si(f"{1.38 * cars:.2f} cfm", "flow"), si(f"{asked:.6f} cfm", "flow"))
    assert settled * 1e6 == pytest.approx(limit_ppm, rel=1e-6)


@pytest.mark.parametrize(
    "heat_w, flow, rise, tolerance",
    [
        pytest.param(67_000.0, "10000 m3/h", 20.0, 0.01, id="web handbook of engineering tables, secondary: 67 kW"),
        pytest.param(113_400 * 0.29307107, "5250 cfm", 20 / 1.8, 0.01, id="trade page, secondary: 1.08 cfm °F"),
        pytest.param(210_000.0, "17.327 m3/s", 10.0, 0.001, id="own arithmetic with a property library's dry air"),
    ],
)
def test_air_warmed_by_heat(heat_w: float, flow: str, rise: float, tolerance: float) -> None:
    assert heat.warming_of_air(heat_w, si(flow, "flow")) == pytest.approx(rise, rel=tolerance)


def test_fuel_behind_the_power_at_the_brake() -> None:
    """Martyr & Plint, Engine Testing, 3rd ed., table 2.2 (secondary): of 300 kW of fuel 90 kW reach the brake."""
    assert heat.fuel_power(90_000) == pytest.approx(300_000)


def test_share_of_heat_that_the_same_table_leaves_in_the_room() -> None:
    """Brake, fluids and radiation are 30 + 30 + 10 of 100: 0.70 of 300 kW warm 17.327 m3/s by 10 K."""
    powers = [45_000 * exhaust.DRIVE_LINE, 45_000 * exhaust.DRIVE_LINE]
    assert heat.temperature_rise(powers, 17.327, 0.70) == pytest.approx(10.0, rel=0.001)


@pytest.mark.parametrize(
    "bore, flow, speed",
    [
        (0.100, 0.166667, 21.221),
        (0.200, 0.638889, 20.336),
        (0.254, 0.188779, 3.726),
        (0.300, 0.500000, 7.074),
        (0.150, 0.200000, 11.318),
        (0.800, 10.00000, 19.894),
        (0.125, 0.300000, 24.446),
    ],
)
def test_speed_in_a_duct(bore: float, flow: float, speed: float) -> None:
    """Computed with the library fluids 1.3.1; m, m3/s, m/s as it printed them."""
    assert exhaust.duct_velocity(flow, bore) == pytest.approx(speed, abs=0.0006)


def test_hose_of_a_public_guide() -> None:
    """DGUV Information 209-007 (read in a copy): 100 mm at 20 m/s is "about 600 m3/h"; exactly 565."""
    assert exhaust.duct_velocity(si("600 m3/h", "flow"), 0.100) == pytest.approx(20, rel=0.07)


def test_mass_of_air_that_petrol_needs() -> None:
    """Textbooks give 14.6 to 14.7 kg of air for one of petrol (secondary); dry air has 28.96 g/mol (from memory)."""
    ratio = exhaust.air_per_carbon(1.0) * 0.02896 / exhaust.FUEL_PER_CARBON
    assert 14.55 <= ratio <= 14.7


@pytest.mark.parametrize(
    "celsius, m3_per_hour",
    [(25, 359.56), (200, 570.6), (400, 811.8)],
)
def test_exhaust_of_a_hundred_kilowatt_engine(celsius: float, m3_per_hour: float) -> None:
    """Own arithmetic on the balance of atoms, done apart from this program: 300 g/kWh, lambda 0.88."""
    flow = exhaust.exhaust_of_engine(100_000, celsius + 273.15)
    assert flow * 3600 == pytest.approx(m3_per_hour, rel=2e-4)


def test_both_ways_to_an_exhaust_flow_agree_for_a_common_engine() -> None:
    """Common practice (from memory): a two-litre petrol engine without a blower makes about 100 kW at 6000 rpm."""
    by_displacement = exhaust.exhaust_flow_by_displacement(0.002, 100.0, 773.15)
    by_power = exhaust.exhaust_of_engine(100_000, 773.15)
    assert by_displacement == pytest.approx(by_power, rel=0.2)
