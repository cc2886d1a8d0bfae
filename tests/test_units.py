"""Quantities: what is read, to what value, what is refused with which words, and how values are written again.

Factors are held against pint, a general library of units, and against exact factors of NIST SP 811 (2008) appendix B,
these from memory, to be confirmed.
"""

import subprocess
import sys
from decimal import Decimal
from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker import units
from checker.units import GRID, KINDS, NOT_ASKED, Dimension, Period, UnitProblem, in_unit, on_grid, read, unit_of, write

IN_PINT = {
    "m": "m",
    "mm": "mm",
    "cm": "cm",
    "km": "km",
    "um": "um",
    "ft": "ft",
    "in": "inch",
    "yd": "yard",
    "mi": "mile",
    "mil": "inch / 1000",
    "m2": "m**2",
    "mm2": "mm**2",
    "cm2": "cm**2",
    "ft2": "ft**2",
    "in2": "inch**2",
    "m3": "m**3",
    "cm3": "cm**3",
    "L": "liter",
    "mL": "milliliter",
    "ft3": "ft**3",
    "in3": "inch**3",
    "US gal": "gallon",
    "US qt": "quart",
    "imp gal": "imperial_gallon",
    "kg": "kg",
    "g": "g",
    "mg": "mg",
    "t": "tonne",
    "lb": "pound",
    "oz": "ounce",
    "short ton": "short_ton",
    "long ton": "long_ton",
    "s": "s",
    "ms": "ms",
    "us": "us",
    "min": "minute",
    "h": "hour",
    "d": "day",
    "weeks": "week",
    "m/s": "m/s",
    "mm/s": "mm/s",
    "m/min": "m/minute",
    "km/h": "km/hour",
    "mph": "mile/hour",
    "ft/s": "ft/s",
    "ft/min": "ft/minute",
    "rpm": "revolution/minute",
    "r/s": "revolution/s",
    "m3/s": "m**3/s",
    "m3/min": "m**3/minute",
    "m3/h": "m**3/hour",
    "L/s": "liter/s",
    "L/min": "liter/minute",
    "L/h": "liter/hour",
    "cfm": "ft**3/minute",
    "scfm": "ft**3/minute",
    "ft3/s": "ft**3/s",
    "ft3/h": "ft**3/hour",
    "US gal/min": "gallon/minute",
    "m3/s/m2": "m**3/s/m**2",
    "m3/h/m2": "m**3/hour/m**2",
    "L/s/m2": "liter/s/m**2",
    "cfm/ft2": "ft**3/minute/ft**2",
    "/h": "1/hour",
    "/min": "1/minute",
    "/s": "1/s",
    "Pa": "Pa",
    "hPa": "hPa",
    "kPa": "kPa",
    "MPa": "MPa",
    "GPa": "GPa",
    "mbar": "mbar",
    "bar": "bar",
    "bar(g)": "bar",
    "bar(a)": "bar",
    "psi": "psi",
    "psig": "psi",
    "psia": "psi",
    "ksi": "kip/inch**2",
    "psf": "force_pound/ft**2",
    "mm H2O": "mm * column_water",
    "in wg": "inch * column_water",
    "mm Hg": "mm * column_mercury",
    "in Hg": "inch * column_mercury",
    "K": "kelvin",
    "W": "W",
    "kW": "kW",
    "MW": "MW",
    "hp": "horsepower",
    "PS": "metric_horsepower",
    "Btu/h": "Btu_it/hour",
    "VA": "V * A",
    "kVA": "kV * A",
    "MVA": "MV * A",
    "J": "J",
    "kJ": "kJ",
    "MJ": "MJ",
    "GJ": "GJ",
    "Wh": "W * hour",
    "kWh": "kW * hour",
    "MWh": "MW * hour",
    "Btu": "Btu_it",
    "ft lbf": "ft * force_pound",
    "bar L": "bar * liter",
    "V": "V",
    "kV": "kV",
    "mV": "mV",
    "A": "A",
    "mA": "mA",
    "kA": "kA",
    "uA": "uA",
    "ohm": "ohm",
    "mohm": "milliohm",
    "kohm": "kiloohm",
    "Mohm": "megaohm",
    "Hz": "Hz",
    "kHz": "kHz",
    "MHz": "MHz",
    "GHz": "GHz",
    "N": "N",
    "daN": "10 N",
    "kN": "kN",
    "MN": "MN",
    "kgf": "force_kilogram",
    "lbf": "force_pound",
    "kip": "kip",
    "N m": "N * m",
    "kN m": "kN * m",
    "lbf ft": "force_pound * ft",
    "lbf in": "force_pound * inch",
    "kg m2": "kg * m**2",
    "kg cm2": "kg * cm**2",
    "lb ft2": "pound * ft**2",
    "kg/m3": "kg/m**3",
    "g/cm3": "g/cm**3",
    "lb/ft3": "pound/ft**3",
    "kg/s": "kg/s",
    "kg/h": "kg/hour",
    "g/s": "g/s",
    "g/h": "g/hour",
    "lb/h": "pound/hour",
    "g/m3": "g/m**3",
    "mg/m3": "mg/m**3",
    "ug/m3": "ug/m**3",
    "ppm": "1e-6",
    "ppb": "1e-9",
    "% vol": "percent",
    "lx": "lux",
    "klx": "kilolux",
    "fc": "lumen/ft**2",
    "bit": "bit",
    "B": "byte",
    "kB": "kilobyte",
    "MB": "megabyte",
    "GB": "gigabyte",
    "TB": "terabyte",
    "KiB": "kibibyte",
    "MiB": "mebibyte",
    "GiB": "gibibyte",
    "TiB": "tebibyte",
    "C": "coulomb",
    "A h": "A * hour",
    "mA h": "mA * hour",
    "%": "percent",
    "": "dimensionless",
}
NOT_IN_PINT = {"dB(A)", "dB(C)"}
ALL_UNITS = [(kind.name, unit) for kind in KINDS.values() for unit in dict.fromkeys(kind.units.values())]


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    """Definitions that are not in pint's own file are spelt out: the conventional columns of water and mercury."""
    registry = pint.UnitRegistry(non_int_type=Decimal)
    registry.define("column_mercury = 13595.1 kg/m**3 * g_0")
    registry.define("column_water = 1000 kg/m**3 * g_0")
    return registry


@pytest.mark.parametrize("kind, unit", ALL_UNITS, ids=lambda value: getattr(value, "symbol", value))
def test_a_unit_is_as_large_as_in_pint(kind: str, unit: units.Unit, registry: pint.UnitRegistry) -> None:
    if unit.symbol in NOT_IN_PINT:
        assert unit.factor == 1
        return
    if unit.shift or (kind.startswith("temperature") and unit.symbol != "K"):
        scale = {"°C": "degC", "°F": "degF"}[unit.symbol]
        name = f"delta_{scale}" if kind == "temperature_difference" else scale
        theirs = registry.Quantity(Decimal("41.5"), name).to("kelvin").magnitude
    else:
        theirs = _in_base_units(registry, Decimal("41.5") * registry.parse_expression(IN_PINT[unit.symbol]), kind)
    ours = unit.to_si(Decimal("41.5"))
    assert abs(ours - Decimal(theirs)) <= abs(ours) * Decimal("1e-12")


def _in_base_units(registry: pint.UnitRegistry, quantity: object, kind: str) -> Decimal:
    if kind == "rotation":
        return Decimal(quantity.to("revolution/s").magnitude)  # type: ignore[attr-defined]
    if kind == "illuminance":
        return Decimal(quantity.to("lux").magnitude)  # type: ignore[attr-defined]
    based = registry.Quantity(quantity).to_base_units()
    return Decimal(registry.Quantity(quantity).to("bit").magnitude if kind == "memory" else based.magnitude)


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_a_dimension_is_the_one_pint_gives_the_si_unit(kind: units.Kind, registry: pint.UnitRegistry) -> None:
    if kind.si in {"", *NOT_IN_PINT} or kind.name == "memory":
        assert str(kind.dimension) == {"memory": "bit", "period": "s"}.get(kind.name, "1")
        return
    names = ("[length]", "[mass]", "[time]", "[current]", "[temperature]", "[luminosity]")
    theirs = registry.Quantity(1, registry.parse_units(IN_PINT[kind.si])).dimensionality
    assert kind.dimension.exponents[:6] == tuple(int(theirs.get(name, 0)) for name in names)


@pytest.mark.parametrize(
    "kind, symbol, factor",
    [
        ("length", "ft", Fraction("0.3048")),
        ("length", "in", Fraction("0.0254")),
        ("length", "mi", Fraction("1609.344")),
        ("area", "ft2", Fraction("0.09290304")),
        ("area", "in2", Fraction("0.00064516")),
        ("volume", "US gal", Fraction("0.003785411784")),
        ("volume", "imp gal", Fraction("0.00454609")),
        ("volume", "ft3", Fraction("0.028316846592")),
        ("mass", "lb", Fraction("0.45359237")),
        ("mass", "short ton", Fraction("907.18474")),
        ("force", "lbf", Fraction("4.4482216152605")),
        ("force", "kgf", Fraction("9.80665")),
        ("pressure_gauge", "psi", Fraction("4.4482216152605") / Fraction("0.00064516")),
        ("energy", "Btu", Fraction("1055.05585262")),
        ("energy", "ft lbf", Fraction("1.3558179483314004")),
        ("power", "hp", Fraction("745.69987158227022")),
        ("power", "PS", Fraction("735.49875")),
        ("temperature", "°F", Fraction(5, 9)),
        ("illuminance", "fc", 1 / Fraction("0.09290304")),
    ],
)
def test_a_factor_is_exactly_the_one_of_the_handbook(kind: str, symbol: str, factor: Fraction) -> None:
    """NIST SP 811 (2008) appendix B; the metric horsepower too. From memory."""
    assert KINDS[kind].units[symbol].factor == factor


@pytest.mark.parametrize(
    "text, kind, value",
    [
        ("12 ft", "length", "3.6576"),
        ("12ft", "length", "3.6576"),
        ("  12   ft ", "length", "3.6576"),
        ("3.7 m", "length", "3.7"),
        ("1/2 in", "length", "0.0127"),
        ("2 1/2 in", "length", "0.0635"),
        ("-1/2 in", "length", "-0.0127"),
        ("5 ft 6 in", "length", "1.6764"),
        ("5 ft 0 1/2 in", "length", "1.5367"),
        ("5'6\"", "length", "1.6764"),
        ("5′-6 1/2″", "length", "1.6891"),
        ("-5 ft 6 in", "length", "-1.6764"),
        ("1/3 m", "length", "0.3333333333333333333333333333"),
        ("1.5e3 mm", "length", "1.5"),
        ("6 lb 4 oz", "mass", "2.8349523125"),
        ("1 h 30 min", "duration", "5400"),
        ("1 h 2 min 3 s", "duration", "3723"),
        ("20 °C", "temperature", "293.15"),
        ("-5 °C", "temperature", "268.15"),
        ("−5 ℃", "temperature", "268.15"),
        ("20C", "temperature", "293.15"),
        ("68 degF", "temperature", "293.15"),
        ("-40 F", "temperature", "233.15"),
        ("10 °C", "temperature_difference", "10"),
        ("18 °F", "temperature_difference", "10"),
        ("1500 cfm", "flow", "0.7079211648"),
        ("1500 CFM", "flow", "0.7079211648"),
        ("5 scfm", "free_air", "0.002359737216"),
        ("5 L/s·m²", "flow_per_area", "0.005"),
        ("1 cfm/ft²", "flow_per_area", "0.00508"),
        ("6 /min", "air_changes", "0.1"),
        ("360 /h", "air_changes", "0.1"),
        ("360 ACH", "air_changes", "0.1"),
        ("3600 rpm", "rotation", "60"),
        ("100 psi", "pressure_gauge", "689475.7293168361336722673445"),
        ("1 in wg", "pressure_difference", "249.08891"),
        ("10 bar(g)", "pressure_gauge", "1000000"),
        ("400 N·m", "torque", "400"),
        ("3 mΩ", "resistance", "0.003"),
        ("5 µm", "length", "0.000005"),
        ("50 μg/m³", "mass_concentration", "5e-8"),
        ("35 ppm", "concentration", "0.000035"),
        ("1 % vol", "concentration", "0.01"),
        ("85 dBA", "sound_level", "85"),
        ("85 dB(A)", "sound_level", "85"),
        ("85 %", "ratio", "0.85"),
        ("0.85", "ratio", "0.85"),
        (0.85, "ratio", "0.85"),
        (1, "ratio", "1"),
        ("1/2", "ratio", "0.5"),
        (3, "count", "3"),
        ("3", "count", "3"),
        (2.5, "number", "2.5"),
        (-2, "number", "-2"),
        ("16 GiB", "memory", str(16 * 8 * 2**30)),
        ("100 Ah", "charge", "360000"),
        ("250 bar L", "energy", "25000"),
    ],
)
def test_what_people_write_has_one_value(text: object, kind: str, value: str) -> None:
    found = read(text, kind)
    assert (found.value, found.kind, found.written) == (Decimal(value), kind, str(text))


@pytest.mark.parametrize(
    "text, period",
    [
        ("12 months", Period(12)),
        ("1 month", Period(1)),
        ("2 years", Period(24)),
        ("30 days", Period(0, 30)),
        ("6 weeks", Period(0, 42)),
        ("1 year 6 months", Period(18)),
        ("14months", Period(14)),
        ("not asked", NOT_ASKED),
    ],
)
def test_a_period_is_months_and_days(text: str, period: Period) -> None:
    assert read(text, "period").value == period


@pytest.mark.parametrize(
    "text, kind, says, found, wanted",
    [
        ("3.7", "length", "a length needs its unit", "3.7", "3.7 m or 3.7 ft"),
        (3.7, "length", "a length needs its unit", "3.7", "3.7 m or 3.7 ft"),
        (100, "pressure_gauge", "a gauge pressure needs its unit", "100", "100 kPa or 100 psi"),
        ("3,7 m", "length", "a decimal comma is not read", "3,7 m", "3.7 m"),
        ("0,375 in", "length", "a decimal comma is not read", "0,375 in", "0.375 in"),
        ("3,7", "length", "a decimal comma is not read", "3,7", "3.7 m or 3.7 ft"),
        ("1,5", "ratio", "a decimal comma is not read", "1,5", "1.5"),
        ("1,500 cfm", "flow", "a thousands separator is not read", "1,500 cfm", "1500 cfm"),
        ("1 500 cfm", "flow", "a thousands separator is not read", "1 500 cfm", "1500 cfm"),
        ("1\u202f500 cfm", "flow", "a thousands separator is not read", "1\\u202f500 cfm", "1500 cfm"),
        ("1'500 cfm", "flow", "a thousands separator is not read", "1'500 cfm", "1500 cfm"),
        ("1_500", "length", "a thousands separator is not read", "1_500", "1500 m or 1500 ft"),
        ("1,234.5 kg", "mass", "a thousands separator is not read", "1,234.5 kg", "1234.5 kg"),
        ("1.234,5 kg", "mass", "a thousands separator is not read", "1.234,5 kg", "1234.5 kg"),
        ("1.234.500 kg", "mass", "a thousands separator is not read", "1.234.500 kg", "1234500 kg"),
        (".5 in", "length", "a number starts with a digit", ".5 in", "0.5 in"),
        ("12. ft", "length", "a number does not end in a dot", "12. ft", "12 ft"),
        ("2-1/2 in", "length", "a whole number and a fraction stand apart by a space", "2-1/2 in", "2 1/2 in"),
        ("1/0 in", "length", "nothing is divided by zero", "1/0 in", "for example 12 ft"),
        ("5 ft 14 in", "length", "the in after ft make less than one ft", "5 ft 14 in", "74 in"),
        ("12 - 14 ft", "length", "one number is read, not a range", "12 - 14 ft", "for example 12 ft"),
        (
            "12 fts",
            "length",
            '"fts" is no unit of length that is read here',
            "12 fts",
            "12 ft if that is meant, else one of the units m, mm, cm, km, um, ft, in, yd, mi, mil",
        ),
        (
            "12 furlongs",
            "length",
            '"furlongs" is no unit of length that is read here',
            "12 furlongs",
            "one of the units m, mm, cm, km, um, ft, in, yd, mi, mil",
        ),
        (
            "5 mw",
            "power",
            '"mw" is no unit of power that is read here',
            "5 mw",
            "one of the units W, kW, MW, hp, PS, Btu/h",
        ),
        (
            "5 kw",
            "power",
            '"kw" is no unit of power that is read here',
            "5 kw",
            "5 kW if that is meant, else one of the units W, kW, MW, hp, PS, Btu/h",
        ),
        ("12 ft", "pressure_gauge", '"ft" is a unit of length, not of gauge pressure', "12 ft", "for example 100 psi"),
        ("900 lb", "force", '"lb" is a unit of mass, not of force', "900 lb", "for example 900 lbf"),
        (
            "50 mg/m3",
            "concentration",
            '"mg/m3" is a unit of concentration by mass, not of concentration by volume',
            "50 mg/m3",
            "for example 35 ppm",
        ),
        ("10 scfm", "flow", '"scfm" is a unit of flow of free air, not of flow', "10 scfm", "for example 1500 cfm"),
        (
            "14.7 psia",
            "pressure_gauge",
            '"psia" is a unit of absolute pressure, not of gauge pressure',
            "14.7 psia",
            "for example 100 psi",
        ),
        (
            "140 dB(C)",
            "sound_level",
            '"dB(C)" is a unit of C-weighted sound level, not of A-weighted sound level',
            "140 dB(C)",
            "for example 85 dB(A)",
        ),
        (
            "12 months",
            "duration",
            '"months" is a unit of calendar period, not of duration',
            "12 months",
            "for example 15 min",
        ),
        ("5 gal", "volume", '"gal" alone does not say which unit is meant', "5 gal", "5 US gal or 5 imp gal"),
        ("85 dB", "sound_level", '"dB" alone does not say which unit is meant', "85 dB", "85 dB(A) or 85 dB(C)"),
        ("3 pieces", "count", "a count takes no unit", "3 pieces", "3"),
        (3.5, "count", "a count is a whole number, zero or more", "3.5", "3"),
        (-1, "count", "a count is a whole number, zero or more", "-1", "3"),
        ("about 12 ft", "length", "a length is a number with its unit", "about 12 ft", "for example 12 ft"),
        ("NaN m", "length", "a length is a number with its unit", "NaN m", "for example 12 ft"),
        ("١٢ m", "length", "a length is a number with its unit", "١٢ m", "for example 12 ft"),
        ("", "area", "an area is a number with its unit", "nothing", "for example 20 m2"),
        (None, "length", "a length is a number with its unit", "nothing", "for example 12 ft"),
        (True, "length", "a length is a number with its unit", "yes", "for example 12 ft"),
        ([1], "length", "a length is a number with its unit", "a list", "for example 12 ft"),
        ({}, "ratio", "a ratio is a number, alone or with %", "a group of keys", "for example 85 %"),
        ("many", "count", "a count is a bare number", "many", "for example 3"),
        ("1e31 m", "length", "no quantity here is that large or that small", "1e31 m", "a number from 1e-30 to 1e30"),
        ("1e-31 m", "length", "no quantity here is that large or that small", "1e-31 m", "a number from 1e-30 to 1e30"),
        (
            "1e999999999 m",
            "length",
            "no quantity here is that large or that small",
            "1e999999999 m",
            "a number from 1e-30 to 1e30",
        ),
        (float("nan"), "ratio", "no quantity here is that large or that small", "nan", "a number from 1e-30 to 1e30"),
        (float("inf"), "ratio", "no quantity here is that large or that small", "inf", "a number from 1e-30 to 1e30"),
        pytest.param(
            10**5000,
            "number",
            "no quantity here is that large or that small",
            "a number of more than 30 digits",
            "a number from 1e-30 to 1e30",
            id="5001 digits",
        ),
        ("1" * 61, "length", "a length takes at most 60 characters", "1" * 59 + "…", "for example 12 ft"),
        (
            "1 \x1b[31mft",
            "length",
            '"\\x1b[31mft" is no unit of length that is read here',
            "1 \\x1b[31mft",
            "one of the units m, mm, cm, km, um, ft, in, yd, mi, mil",
        ),
        ("-300 °C", "temperature", "no temperature lies below absolute zero", "-300 °C", "for example 20 °C"),
        (
            "-1 kPa",
            "pressure_absolute",
            "no absolute pressure lies below absolute zero",
            "-1 kPa",
            "for example 101.3 kPa",
        ),
        ("12", "period", "a calendar period is whole years, months, weeks or days", "12", "12 months or 12 days"),
        (
            "1.5 years",
            "period",
            "a calendar period is whole years, months, weeks or days",
            "1.5 years",
            "for example 12 months",
        ),
    ],
)
def test_a_refusal_says_what_is_wrong_and_what_to_write(
    text: object,
    kind: str,
    says: str,
    found: str,
    wanted: str,
) -> None:
    with pytest.raises(UnitProblem) as refusal:
        read(text, kind)
    assert (str(refusal.value), refusal.value.found, refusal.value.wanted) == (says, found, wanted)


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_the_example_of_a_kind_is_read(kind: units.Kind) -> None:
    assert read(kind.example, kind.name).kind == kind.name


@pytest.mark.parametrize("kind, unit", ALL_UNITS, ids=lambda value: getattr(value, "symbol", value))
def test_every_spelling_is_read_as_its_unit(kind: str, unit: units.Unit) -> None:
    for spelling in unit.spellings:
        assert unit_of(f"1 {spelling}", kind) == unit.symbol
        assert unit_of(f"1{spelling}", kind) == unit.symbol


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_the_units_a_refusal_offers_are_units_of_the_kind(kind: units.Kind) -> None:
    assert kind.name == "period" or set(kind.suggested) <= set(kind.units)
    assert kind.si == "" or kind.units[kind.si].factor == 1


@pytest.mark.parametrize(
    "written, kind, unit",
    [
        ("5 ft 6 in", "length", "ft"),
        ("12 feet", "length", "ft"),
        ("0.85", "ratio", ""),
        ("85 percent", "ratio", "%"),
        ("about 12 ft", "length", None),
        ("12 months", "period", None),
        ("1e99 m", "length", None),
        ("1/2 in", "length", "in"),
    ],
)
def test_the_unit_a_person_used_is_known(written: str, kind: str, unit: str | None) -> None:
    assert unit_of(written, kind) == unit


@pytest.mark.parametrize(
    "value, kind, unit, text",
    [
        ("3.6576", "length", "ft", "12 ft"),
        ("3.6576", "length", None, "3.658 m"),
        ("1.6764", "length", "ft", "5.5 ft"),
        ("689475.729316836", "pressure_gauge", "psi", "100 psi"),
        ("689475.729316836", "pressure_gauge", "Pa", "689476 Pa"),
        ("0.85", "ratio", None, "85 %"),
        ("0.85", "ratio", "", "0.85"),
        ("3", "count", None, "3"),
        ("0", "length", "m", "0 m"),
        ("255.372222222", "temperature", "°F", "0 °F"),
        ("293.15", "temperature", None, "20 °C"),
        ("0.000035", "concentration", None, "35 ppm"),
        ("1e-12", "length", "m", "1e-12 m"),
        ("-1.5", "length", "m", "-1.5 m"),
        ("12345.67", "number", None, "12346"),
    ],
)
def test_a_value_is_written_for_people(value: str, kind: str, unit: str | None, text: str) -> None:
    assert write(Decimal(value), kind, unit) == text


@pytest.mark.parametrize(
    "value, beside, unit, text",
    [
        ("22.88", "22.86", "m", "22.88 m"),
        ("22.864", "22.86", "m", "22.864 m"),
        ("22.86", "22.864", "m", "22.86 m"),
        ("9.9996", "10", "m", "9.9996 m"),
        ("10", "9.9996", "m", "10 m"),
        ("15.24", "15.24", "ft", "50 ft"),
        ("1000.4", "1000", "m", "1000.4 m"),
        ("0.0004", "15.24", "m", "0.0004 m"),
        ("2.00000001", "2", "m", "2.00000001 m"),
        ("2.000000001", "2", "m", "2 m"),
    ],
)
def test_a_value_is_written_apart_from_its_limit(value: str, beside: str, unit: str, text: str) -> None:
    assert write(Decimal(value), "length", unit, beside=Decimal(beside)) == text


def test_a_period_is_written_in_its_own_words() -> None:
    assert [write(Period(months, days), "period") for months, days in ((12, 0), (1, 1), (0, 30), (0, 0))] == [
        "12 months",
        "1 month 1 day",
        "30 days",
        "0 days",
    ]


NUMBERS = st.decimals(min_value="-9999", max_value="9999", places=3, allow_nan=False)
KIND_AND_UNIT = st.sampled_from(ALL_UNITS)


@given(NUMBERS, KIND_AND_UNIT)
def test_a_number_comes_back_in_its_own_unit(number: Decimal, kind_and_unit: tuple[str, units.Unit]) -> None:
    """in_unit undoes read, exactly, for every unit."""
    kind, unit = kind_and_unit
    if kind in {"temperature", "pressure_absolute", "count"}:
        number = abs(number).to_integral_value()
    assert in_unit(read(f"{number:f} {unit.symbol}", kind).number, kind, unit.symbol) == number


@given(st.integers(1, 9999), st.integers(-3, 3), KIND_AND_UNIT)
def test_what_is_written_is_read_as_the_same_value(
    digits: int,
    power: int,
    kind_and_unit: tuple[str, units.Unit],
) -> None:
    """read(write(x)) is x, for numbers of four digits in every unit."""
    kind, unit = kind_and_unit
    number = Decimal(digits).scaleb(0 if kind.startswith(("temperature", "count")) else power)
    value = read(f"{number:f} {unit.symbol}", kind).number
    assert on_grid(read(write(value, kind, unit.symbol), kind).number) == on_grid(value)


@given(NUMBERS, NUMBERS, KIND_AND_UNIT)
def test_two_values_look_alike_only_if_they_are(
    one: Decimal,
    other: Decimal,
    kind_and_unit: tuple[str, units.Unit],
) -> None:
    """Written beside each other, two values have the same text if and only if they are equal on the grid."""
    kind, unit = kind_and_unit
    texts = write(one, kind, unit.symbol, beside=other), write(other, kind, unit.symbol, beside=one)
    assert (texts[0] == texts[1]) == (on_grid(one) == on_grid(other))


def _problem(text: str, kind: str) -> UnitProblem | None:
    try:
        read(text, kind)
    except UnitProblem as problem:
        return problem
    return None


@given(st.text(max_size=70), st.sampled_from(sorted(KINDS)))
def test_any_text_is_read_or_refused(text: str, kind: str) -> None:
    """Nothing but a quantity or a UnitProblem, whose words can be printed, comes of any text."""
    problem = _problem(text, kind)
    if problem is None:
        assert read(text, kind).written == text
    else:
        assert (str(problem) + problem.found + problem.wanted).isprintable()


@given(
    st.from_regex(r"[-+]?[0-9]{1,4}([.,'_ ][0-9]{1,3}){0,2} ?(ft|m|in|zork)?", fullmatch=True),
    st.sampled_from(["length", "ratio", "flow"]),
)
def test_what_a_refusal_offers_is_right(text: str, kind: str) -> None:
    """Whatever single spelling a refusal names can be read."""
    problem = _problem(text, kind)
    if problem is not None and "one of the units" not in problem.wanted:
        for offer in problem.wanted.removeprefix("for example ").split(" or "):
            assert read(offer, kind)


@pytest.mark.parametrize(
    "value, grid",
    [
        (Decimal("1.23456789012"), "1.23456789"),
        (0.1 + 0.2, "0.3"),
        (Decimal("1.234567885"), "1.23456788"),
        (7, "7"),
    ],
)
def test_the_grid_holds_nine_digits(value: Decimal | float, grid: str) -> None:
    assert on_grid(value) == Decimal(grid)


@pytest.mark.parametrize("value", [float("nan"), float("inf"), Decimal("NaN"), Decimal("-Infinity")])
def test_what_is_no_number_has_no_place_on_the_grid(value: Decimal | float) -> None:
    with pytest.raises(ValueError, match="is no finite number"):
        on_grid(value)


def test_the_grid_refuses_to_divide_by_zero() -> None:
    with pytest.raises(ZeroDivisionError):
        GRID.divide(Decimal(1), Decimal(0))


def test_dimensions_multiply_as_their_quantities_do() -> None:
    length, duration, force = (KINDS[name].dimension for name in ("length", "duration", "force"))
    assert length * length == KINDS["area"].dimension == length**2
    assert length / duration == KINDS["speed"].dimension
    assert force / length**2 == KINDS["stress"].dimension
    assert length / length == Dimension() == KINDS["ratio"].dimension
    assert str(force) == "m kg s-2"


def test_a_period_has_no_number() -> None:
    with pytest.raises(TypeError, match="a calendar period is no number: 12 months"):
        _ = read("12 months", "period").number


def test_reading_units_needs_no_heavy_library() -> None:
    code = "import checker.units, sys; print({'pint', 'pydantic', 'difflib'} & set(sys.modules))"
    run = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert run.stdout.strip() == "set()"
