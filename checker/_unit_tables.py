"""Kinds of quantity and their units: the tables behind checker.units.

Every factor is exact. Base factors, from memory of NIST SP 811 (2008) appendix B and of the SI brochure, to
be confirmed there: foot 0.3048 m, pound 0.453 592 37 kg, standard gravity 9.806 65 m/s2, US gallon 231 in3,
imperial gallon 4.546 09 L, Btu (International Table) 1055.055 852 62 J, conventional columns of water
(1000 kg/m3) and mercury (13 595.1 kg/m3).
Rotation is kept in revolutions a second (the rotational frequency of ISO 80000-3), not in radians.
"""

from collections.abc import Mapping
from decimal import ROUND_HALF_EVEN, Context, Decimal
from fractions import Fraction
from types import MappingProxyType

from msgspec import Struct

BASES = ("m", "kg", "s", "A", "K", "cd", "bit")
EXACT = Context(prec=160, rounding=ROUND_HALF_EVEN)
KEPT = Context(prec=28, rounding=ROUND_HALF_EVEN)
_SHOWN = Context(prec=25, rounding=ROUND_HALF_EVEN)


class Dimension(Struct, frozen=True):
    """The whole-number exponents of m, kg, s, A, K, cd and bit, in this order."""

    exponents: tuple[int, ...] = (0,) * len(BASES)

    def __mul__(self, other: "Dimension") -> "Dimension":
        return Dimension(tuple(a + b for a, b in zip(self.exponents, other.exponents, strict=True)))

    def __truediv__(self, other: "Dimension") -> "Dimension":
        return Dimension(tuple(a - b for a, b in zip(self.exponents, other.exponents, strict=True)))

    def __pow__(self, power: int) -> "Dimension":
        return Dimension(tuple(a * power for a in self.exponents))

    def __str__(self) -> str:
        words = (base if n == 1 else f"{base}{n}" for base, n in zip(BASES, self.exponents, strict=True) if n)
        return " ".join(words) or "1"


class Unit(Struct, frozen=True):
    """One unit of a kind. A value in SI is (number + shift) * factor; only temperatures are shifted."""

    symbol: str
    """How we write it."""
    factor: Fraction
    shift: Decimal
    spellings: tuple[str, ...]
    """What is read as this unit, the symbol first."""
    times: Decimal
    over: Decimal
    """factor = times / over, where over is 1 if the factor ends in decimal."""

    def to_si(self, number: Decimal) -> Decimal:
        """The number, given in this unit, in SI: exact, or to 28 digits where the factor never ends."""
        if self.shift:
            number = EXACT.add(number, self.shift)
        value = EXACT.multiply(number, self.times)
        return value if self.over == 1 else KEPT.divide(value, self.over)

    def from_si(self, value: Decimal) -> Decimal:
        """The SI value in this unit, to 25 digits, so that what to_si rounded comes back as it was."""
        number = EXACT.divide(EXACT.multiply(value, self.over), self.times)
        return _SHOWN.plus(EXACT.subtract(number, self.shift))


class Kind(Struct, frozen=True):
    """What a number measures: more than its dimension."""

    name: str
    title: str
    """The name in words, without an article."""
    dimension: Dimension
    si: str
    """The unit values are kept in; empty for pure numbers and for periods."""
    units: Mapping[str, Unit]
    """Accepted spelling: unit. The spelling "" stands for a bare number, where one is enough."""
    guarded: bool
    """True where a kind of the same dimension must never be mixed with this one."""
    example: str
    suggested: tuple[str, ...]
    """The units a refusal offers, metric first; the first is the one values are written in by default."""

    @property
    def symbols(self) -> tuple[str, ...]:
        """The units as we write them, each once."""
        return tuple(dict.fromkeys(unit.symbol for unit in self.units.values() if unit.symbol))


def _ends_in_decimal(denominator: int) -> bool:
    for prime in (2, 5):
        while denominator % prime == 0:
            denominator //= prime
    return denominator == 1


def _unit(symbol: str, factor: Fraction | int | str, *others: str, shift: str = "0") -> Unit:
    exact = Fraction(factor)
    times, over = Decimal(exact.numerator), Decimal(exact.denominator)
    if _ends_in_decimal(exact.denominator):
        times, over = EXACT.divide(times, over), Decimal(1)
    return Unit(symbol, exact, Decimal(shift), (symbol, *others), times, over)


def _dimension(text: str) -> Dimension:
    exponents = dict.fromkeys(BASES, 0)
    for word in text.split():
        base = next(b for b in sorted(BASES, key=len, reverse=True) if word.startswith(b))
        exponents[base] = int(word[len(base):] or 1)
    return Dimension(tuple(exponents.values()))


def _kind(
    name: str, dimension: str, si: str, example: str, suggested: str, *units: Unit,
    title: str = "", guarded: bool = False,
) -> Kind:
    spelt = {spelling: unit for unit in units for spelling in unit.spellings}
    return Kind(
        name, title or name.replace("_", " "), _dimension(dimension), si, MappingProxyType(spelt), guarded,
        example, tuple(suggested.split(", ")),
    )


_MILLI, _MICRO, _PERCENT = Fraction(1, 1000), Fraction(1, 10**6), Fraction(1, 100)
_FT = Fraction("0.3048")
_IN = _FT / 12
_LB = Fraction("0.45359237")
_G = Fraction("9.80665")
_LBF = _LB * _G
_PSI = _LBF / _IN**2
_WATER, _MERCURY = 1000 * _G, Fraction("13595.1") * _G
_US_GAL, _IMP_GAL = 231 * _IN**3, Fraction("0.00454609")
_BTU = Fraction("1055.05585262")
_HP, _PS = 550 * _FT * _LBF, 75 * _G

_BARE = _unit("", 1)

_FLOW = (
    _unit("m3/s", 1), _unit("m3/min", Fraction(1, 60)), _unit("m3/h", Fraction(1, 3600), "m3/hr"),
    _unit("L/s", _MILLI, "l/s"), _unit("L/min", _MILLI / 60, "l/min"), _unit("L/h", _MILLI / 3600, "l/h"),
    _unit("cfm", _FT**3 / 60, "CFM", "ft3/min", "cu ft/min"), _unit("ft3/s", _FT**3, "cfs"),
    _unit("ft3/h", _FT**3 / 3600, "cfh"),
    _unit("US gal/min", _US_GAL / 60),
)
_PRESSURE = (
    _unit("Pa", 1), _unit("hPa", 100), _unit("kPa", 1000), _unit("MPa", 10**6), _unit("mbar", 100),
    _unit("bar", 10**5),
    _unit("psi", _PSI, "PSI", "lbf/in2"),
)
_COLUMNS = (
    _unit("mm H2O", _WATER / 1000, "mmH2O", "mm wg", "mm wc"),
    _unit(
        "in wg", _WATER * _IN, "in wc", "in. wg", "in. wc", "in w.g.", "in w.c.", "inwg", "inwc", "inH2O", "in H2O",
    ),
)
_KG_PER_M3 = _unit("kg/m3", 1)

_ALL = (
    _kind(
        "length", "m", "m", "12 ft", "m, ft",
        _unit("m", 1, "metre", "metres", "meter", "meters"), _unit("mm", _MILLI),
        _unit("cm", _PERCENT), _unit("km", 1000),
        _unit("um", _MICRO), _unit("ft", _FT, "'", "foot", "feet"),
        _unit("in", _IN, '"', "in.", "inch", "inches"),
        _unit("yd", 3 * _FT, "yard", "yards"), _unit("mi", 5280 * _FT, "mile", "miles"),
        _unit("mil", _IN / 1000, "mils"),
    ),
    _kind(
        "area", "m2", "m2", "20 m2", "m2, ft2",
        _unit("m2", 1, "sq m"), _unit("mm2", _MICRO, "sq mm"), _unit("cm2", _PERCENT**2, "sq cm"),
        _unit("ft2", _FT**2, "sq ft", "sqft"), _unit("in2", _IN**2, "sq in", "sqin"),
    ),
    _kind(
        "volume", "m3", "m3", "120 m3", "m3, ft3",
        _unit("m3", 1, "cu m"), _unit("cm3", _MICRO),
        _unit("L", _MILLI, "l", "litre", "litres", "liter", "liters"),
        _unit("mL", _MICRO, "ml"), _unit("ft3", _FT**3, "cu ft", "cuft"), _unit("in3", _IN**3, "cu in"),
        _unit("US gal", _US_GAL), _unit("US qt", _US_GAL / 4), _unit("imp gal", _IMP_GAL),
    ),
    _kind(
        "mass", "kg", "kg", "250 kg", "kg, lb",
        _unit("kg", 1), _unit("g", _MILLI), _unit("mg", _MICRO), _unit("t", 1000, "tonne", "tonnes"),
        _unit("lb", _LB, "lbs", "lbm"), _unit("oz", _LB / 16), _unit("short ton", 2000 * _LB),
        _unit("long ton", 2240 * _LB),
    ),
    _kind(
        "duration", "s", "s", "15 min", "s, min",
        _unit("s", 1, "sec", "second", "seconds"), _unit("ms", _MILLI), _unit("us", _MICRO),
        _unit("min", 60, "minute", "minutes"), _unit("h", 3600, "hr", "hrs", "hour", "hours"),
        _unit("d", 86400, "day", "days"), _unit("weeks", 7 * 86400, "week"),
    ),
    _kind(
        "speed", "m s-1", "m/s", "200 km/h", "m/s, ft/min",
        _unit("m/s", 1), _unit("mm/s", _MILLI), _unit("m/min", Fraction(1, 60)), _unit("km/h", Fraction(1000, 3600)),
        _unit("mph", 5280 * _FT / 3600, "mi/h"),
        _unit("ft/s", _FT, "fps"), _unit("ft/min", _FT / 60, "fpm", "FPM"),
    ),
    _kind(
        "rotation", "s-1", "r/s", "3000 rpm", "rpm",
        _unit("rpm", Fraction(1, 60), "RPM", "r/min", "rev/min"), _unit("r/s", 1, "rev/s"),
        guarded=True,
    ),
    _kind("flow", "m3 s-1", "m3/s", "1500 cfm", "m3/h, cfm", *_FLOW),
    _kind(
        "free_air", "m3 s-1", "m3/s", "10 scfm", "L/s, scfm", *_FLOW, _unit("scfm", _FT**3 / 60, "SCFM"),
        title="flow of free air", guarded=True,
    ),
    _kind(
        "flow_per_area", "m s-1", "m3/s/m2", "1.5 cfm/ft2", "L/s/m2, cfm/ft2",
        _unit("m3/s/m2", 1, "m3/(s m2)", "m3/s m2"),
        _unit("m3/h/m2", Fraction(1, 3600), "m3/(h m2)", "m3/h m2"),
        _unit("L/s/m2", _MILLI, "l/s/m2", "L/(s m2)", "L/s m2", "L/s per m2"),
        _unit("cfm/ft2", _FT / 60, "CFM/ft2", "cfm/sq ft", "cfm per ft2"),
        title="flow per area",
    ),
    _kind(
        "air_changes", "s-1", "/s", "6 /h", "/h, /min",
        _unit("/h", Fraction(1, 3600), "/hr", "per h", "per hour", "ach", "ACH"),
        _unit("/min", Fraction(1, 60), "per min", "per minute"), _unit("/s", 1, "per s", "per second"),
        title="rate of air change",
    ),
    _kind(
        "pressure_gauge", "kg m-1 s-2", "Pa", "100 psi", "kPa, psi", *_PRESSURE, *_COLUMNS,
        _unit("psig", _PSI, "psi(g)"), _unit("bar(g)", 10**5, "barg"), title="gauge pressure", guarded=True,
    ),
    _kind(
        "pressure_absolute", "kg m-1 s-2", "Pa", "101.3 kPa", "kPa, psia", *_PRESSURE,
        _unit("psia", _PSI, "psi(a)"), _unit("bar(a)", 10**5, "bara"),
        _unit("mm Hg", _MERCURY / 1000, "mmHg"),
        _unit("in Hg", _MERCURY * _IN, "inHg"),
        title="absolute pressure", guarded=True,
    ),
    _kind(
        "pressure_difference", "kg m-1 s-2", "Pa", "0.5 in wg", "Pa, in wg", *_PRESSURE, *_COLUMNS,
        title="pressure difference",
    ),
    _kind(
        "stress", "kg m-1 s-2", "Pa", "25 MPa", "MPa, psi",
        _unit("Pa", 1), _unit("kPa", 1000, "kN/m2"), _unit("MPa", 10**6, "N/mm2"),
        _unit("GPa", 10**9, "kN/mm2"),
        _unit("psi", _PSI, "PSI", "lbf/in2"), _unit("ksi", 1000 * _PSI),
        _unit("psf", _LBF / _FT**2, "lbf/ft2"),
    ),
    _kind(
        "temperature", "K", "K", "20 °C", "°C, °F",
        _unit("°C", 1, "C", "degC", "deg C", shift="273.15"),
        _unit("°F", "5/9", "F", "degF", "deg F", shift="459.67"),
        _unit("K", 1), guarded=True,
    ),
    _kind(
        "temperature_difference", "K", "K", "15 K", "K, °F",
        _unit("K", 1), _unit("°C", 1, "C", "degC", "deg C"), _unit("°F", "5/9", "F", "degF", "deg F"),
        title="temperature difference", guarded=True,
    ),
    _kind(
        "power", "kg m2 s-3", "W", "150 kW", "kW, hp",
        _unit("W", 1), _unit("kW", 1000), _unit("MW", 10**6), _unit("hp", _HP, "HP"), _unit("PS", _PS),
        _unit("Btu/h", _BTU / 3600, "BTU/h", "Btu/hr", "BTU/hr"),
    ),
    _kind(
        "apparent_power", "kg m2 s-3", "VA", "20 kVA", "kVA", _unit("VA", 1), _unit("kVA", 1000),
        _unit("MVA", 10**6),
        title="apparent power", guarded=True,
    ),
    _kind(
        "energy", "kg m2 s-2", "J", "5 kWh", "kJ, kWh",
        _unit("J", 1), _unit("kJ", 1000), _unit("MJ", 10**6), _unit("GJ", 10**9), _unit("Wh", 3600, "W h"),
        _unit("kWh", 3600000, "kW h"), _unit("MWh", 3600 * 10**6, "MW h"), _unit("Btu", _BTU, "BTU"),
        _unit("ft lbf", _FT * _LBF, "ft-lbf"), _unit("bar L", 100, "bar l", "bar litres"),
    ),
    _kind(
        "voltage", "kg m2 s-3 A-1", "V", "240 V", "V", _unit("V", 1, "volt", "volts"),
        _unit("kV", 1000), _unit("mV", _MILLI),
    ),
    _kind(
        "current", "A", "A", "60 A", "A",
        _unit("A", 1, "amp", "amps"), _unit("mA", _MILLI), _unit("kA", 1000), _unit("uA", _MICRO),
    ),
    _kind(
        "resistance", "kg m2 s-3 A-2", "ohm", "0.5 ohm", "ohm",
        _unit("ohm", 1, "ohms"), _unit("mohm", _MILLI), _unit("kohm", 1000), _unit("Mohm", 10**6),
    ),
    _kind(
        "frequency", "s-1", "Hz", "60 Hz", "Hz", _unit("Hz", 1), _unit("kHz", 1000),
        _unit("MHz", 10**6), _unit("GHz", 10**9),
    ),
    _kind(
        "force", "kg m s-2", "N", "900 lbf", "N, lbf",
        _unit("N", 1), _unit("daN", 10), _unit("kN", 1000), _unit("MN", 10**6), _unit("kgf", _G),
        _unit("lbf", _LBF),
        _unit("kip", 1000 * _LBF, "kips"),
    ),
    _kind(
        "torque", "kg m2 s-2", "N m", "400 N m", "N m, lbf ft",
        _unit("N m", 1, "Nm"), _unit("kN m", 1000, "kNm"),
        _unit("lbf ft", _LBF * _FT, "lb ft", "lb-ft", "lbf-ft", "ft lb", "ft-lb", "ft lbf"),
        _unit("lbf in", _LBF * _IN, "lb in", "lb-in", "in lb", "in-lb", "in lbf"), guarded=True,
    ),
    _kind(
        "inertia", "kg m2", "kg m2", "12 kg m2", "kg m2, lb ft2",
        _unit("kg m2", 1, "kgm2"), _unit("kg cm2", _PERCENT**2), _unit("lb ft2", _LB * _FT**2),
        title="moment of inertia",
    ),
    _kind(
        "density", "kg m-3", "kg/m3", "750 kg/m3", "kg/m3, lb/ft3",
        _KG_PER_M3, _unit("g/cm3", 1000, "kg/L"), _unit("lb/ft3", _LB / _FT**3, "pcf"),
    ),
    _kind(
        "mass_flow", "kg s-1", "kg/s", "60 g/h", "g/h, lb/h",
        _unit("kg/s", 1), _unit("kg/h", Fraction(1, 3600)), _unit("g/s", _MILLI), _unit("g/h", _MILLI / 3600),
        _unit("lb/h", _LB / 3600, "lb/hr"),
        title="mass flow",
    ),
    _kind(
        "concentration", "", "", "35 ppm", "ppm",
        _unit("ppm", _MICRO, "PPM"), _unit("ppb", _MICRO / 1000),
        _unit("% vol", _PERCENT, "%vol", "vol %", "vol%", "% v/v"),
        title="concentration by volume", guarded=True,
    ),
    _kind(
        "mass_concentration", "kg m-3", "kg/m3", "5 mg/m3", "mg/m3",
        _KG_PER_M3, _unit("g/m3", _MILLI), _unit("mg/m3", _MICRO), _unit("ug/m3", _MICRO / 1000),
        title="concentration by mass", guarded=True,
    ),
    _kind(
        "sound_level", "", "dB(A)", "85 dB(A)", "dB(A)", _unit("dB(A)", 1, "dBA", "dB A"),
        title="A-weighted sound level", guarded=True,
    ),
    _kind(
        "sound_level_c", "", "dB(C)", "135 dB(C)", "dB(C)", _unit("dB(C)", 1, "dBC", "dB C"),
        title="C-weighted sound level", guarded=True,
    ),
    _kind(
        "illuminance", "cd m-2", "lx", "300 lx", "lx, fc",
        _unit("lx", 1, "lux"), _unit("klx", 1000),
        _unit("fc", 1 / _FT**2, "ft-candle", "footcandle", "footcandles", "lm/ft2"),
    ),
    _kind(
        "memory", "bit", "bit", "16 GB", "GB, GiB",
        _unit("bit", 1), _unit("B", 8), _unit("kB", 8000), _unit("MB", 8 * 10**6),
        _unit("GB", 8 * 10**9), _unit("TB", 8 * 10**12),
        _unit("KiB", 8 * 2**10), _unit("MiB", 8 * 2**20), _unit("GiB", 8 * 2**30), _unit("TiB", 8 * 2**40),
    ),
    _kind(
        "charge", "A s", "C", "100 A h", "A h",
        _unit("C", 1), _unit("A h", 3600, "Ah"), _unit("mA h", "3.6", "mAh"), title="electric charge",
    ),
    _kind("ratio", "", "", "85 %", "%", _unit("%", _PERCENT, "percent", "per cent"), _BARE),
    _kind("count", "", "", "3", "", _BARE),
    _kind("number", "", "", "2.5", "", _BARE),
    _kind("period", "s", "", "12 months", "months", guarded=True, title="calendar period"),
)
KINDS: Mapping[str, Kind] = MappingProxyType({kind.name: kind for kind in _ALL})

AMBIGUOUS: Mapping[str, tuple[str, ...]] = MappingProxyType({
    "gal": ("US gal", "imp gal"),
    "gallon": ("US gal", "imp gal"),
    "gallons": ("US gal", "imp gal"),
    "gpm": ("US gal/min",),
    "gal/min": ("US gal/min",),
    "ton": ("t", "short ton", "long ton"),
    "tons": ("t", "short ton", "long ton"),
    "dB": ("dB(A)", "dB(C)"),
})
"""Spellings that leave open which unit is meant, and what to write in their place."""
