"""Circuits against published examples, a code's own tables and a power-flow library."""

import math

import pytest

from checker.quantities import electrical

KFT = 304.8


@pytest.mark.parametrize(
    "continuous, other, amperes",
    [
        pytest.param(24, 0, 30.0, id="277 V lighting of 24 A (trade page, secondary)"),
        pytest.param(40, 0, 50.0, id="vehicle charger of 40 A, NEC 625.41 (secondary)"),
        pytest.param(16_200 / 240, 12_200 / 240, 135.0, id="NEC Annex D, Example D3, 2011 (read in a copy): 135 A"),
        pytest.param(6_000 / 240, 0, 31.25, id="NEC Annex D, Example D3: show window, printed 31 A"),
    ],
)
def test_design_load(continuous: float, other: float, amperes: float) -> None:
    assert electrical.design_load(continuous, other, 1.25) == pytest.approx(amperes, abs=0.3)


@pytest.mark.parametrize(
    "size, circular_mils",
    [
        ("16 AWG", 2580),
        ("14 AWG", 4110),
        ("12 AWG", 6530),
        ("10 AWG", 10380),
        ("8 AWG", 16510),
        ("6 AWG", 26240),
        ("4 AWG", 41740),
        ("3 AWG", 52620),
        ("2 AWG", 66360),
        ("1 AWG", 83690),
        ("1/0 AWG", 105600),
        ("2/0 AWG", 133100),
        ("3/0 AWG", 167800),
        ("4/0 AWG", 211600),
    ],
)
def test_area_of_conductors(size: str, circular_mils: float) -> None:
    """NEC Chapter 9 Table 8 (6 to 1 AWG read in a copy, the others secondary), printed to four figures."""
    mil_circle = math.pi / 4 * 25.4e-6**2
    assert electrical.conductor_area(size) / mil_circle == pytest.approx(circular_mils, rel=0.0015)


def test_conductors_named_by_their_area() -> None:
    assert electrical.conductor_area("2.5 mm2") == pytest.approx(2.5e-6)


@pytest.mark.parametrize(
    "volts, phases, current, length, ohm_km, x_ohm_km, cosine, bracket, exact",
    [
        (240, 1, 24, 45.72, 4.0682, 0, 1, 8.9280, 8.9280),
        (240, 1, 24, 45.72, 2.5525, 0, 1, 5.6016, 5.6016),
        (120, 1, 12, 18.288, 6.4961, 0, 1, 2.8512, 2.8512),
        (230, 1, 32, 40, 3.65, 0, 1, 9.3440, 9.3440),
        (230, 1, 30, 25, 3.75, 0.08, 0.8, 4.5720, 4.5954),
        (400, 3, 40, 60, 2.25, 0.08, 0.85, 8.1253, 8.1523),
        (480, 3, 20, 60.96, 3.937, 0.2067, 0.85, 7.2967, 7.3134),
        (208, 3, 46.2, 36.576, 1.6076, 0.1673, 0.85, 4.2574, 4.2676),
        (230, 1, 16, 14.375, 15, 0, 1, 6.9000, 6.9000),
    ],
)
def test_fall_along_a_line(
    volts: float,
    phases: int,
    current: float,
    length: float,
    ohm_km: float,
    x_ohm_km: float,
    cosine: float,
    bracket: float,
    exact: float,
) -> None:
    """Load flows solved with the library pandapower 3.5.6 (`exact`); the approximate form stays within 1 % of them."""
    fall = electrical.line_drop(current, length, ohm_km / 1000, x_ohm_km / 1000, cosine, phases)
    assert fall == pytest.approx(bracket, rel=1e-4)
    assert fall == pytest.approx(exact, rel=0.01)


@pytest.mark.parametrize(
    "current, feet, ohm_per_kft, phases, volts, tolerance",
    [
        pytest.param(20, 200, 1.1, 3, 7.62, 0.001, id="trade journal on NEC Table 9, 480 V, 10 AWG (secondary)"),
        pytest.param(4, 100, 4.99, 1, 4.0, 0.003, id="electricians' course, 24 V, 16 AWG (secondary)"),
    ],
)
def test_published_falls(
    current: float, feet: float, ohm_per_kft: float, phases: int, volts: float, tolerance: float
) -> None:
    fall = electrical.line_drop(current, feet * 0.3048, ohm_per_kft / KFT, 0.0, 1.0, phases)
    assert fall == pytest.approx(volts, rel=tolerance)


def test_longest_line_for_three_per_cent() -> None:
    """IEC 60364-5-52 Annex G as worked in a German trade journal (secondary): 16 A, 1.5 mm2, 230 V reach 14.375 m."""
    share = electrical.voltage_drop(16, 0, 14.375, 1.5e-6, "copper", 230, 1)
    assert share == pytest.approx(0.03, rel=1e-4)


@pytest.mark.parametrize("size, ohm_per_kft", [("10 AWG", 1.24), ("8 AWG", 0.778), ("6 AWG", 0.491), ("2 AWG", 0.194)])
def test_resistance_beside_the_american_table(size: str, ohm_per_kft: float) -> None:
    """NEC Chapter 9 Table 8, stranded copper at 75 °C (6 and 2 AWG read in a copy); ours is warmer, so never lower."""
    ours = electrical.RESISTIVITY["copper"] / electrical.conductor_area(size) * KFT
    assert ohm_per_kft < ours < 1.1 * ohm_per_kft


@pytest.mark.parametrize("cosine", [1.0, 0.95, 0.8, 0.5, 0.2])
@pytest.mark.parametrize("area", [1.5e-6, 10e-6, 70e-6, 240e-6])
def test_no_power_factor_drops_more(cosine: float, area: float) -> None:
    worst = electrical.voltage_drop(40, 0, 60, area, "copper", 400, 3) * 400
    at = electrical.line_drop(40, 60, electrical.RESISTIVITY["copper"] / area, electrical.REACTANCE, cosine, 3)
    assert at <= worst * (1 + 1e-12)
