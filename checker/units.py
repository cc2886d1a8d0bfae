"""Quantities as people write them, and as exact numbers in SI.

A number has a kind, which is more than its dimension: a gauge pressure is not an absolute one. Nothing is converted
from one kind to another here, and nothing is guessed: what can be read in two ways is refused with the right spelling.
"""

import re
from decimal import (
    ROUND_HALF_EVEN,
    ROUND_HALF_UP,
    Context,
    Decimal,
    DivisionByZero,
    InvalidOperation,
    Overflow,
)
from fractions import Fraction
from functools import lru_cache

from msgspec import Struct

from checker._unit_tables import AMBIGUOUS, EXACT, KEPT, KINDS, Dimension, Kind, Unit

# fmt: off
__all__ = [
    "GRID", "KINDS", "NOT_ASKED", "Dimension", "Kind", "Period", "Quantity", "Unit", "UnitProblem",
    "in_unit", "on_grid", "read", "unit_of", "visible", "write",
]
# fmt: on

GRID = Context(prec=9, rounding=ROUND_HALF_EVEN, traps=[InvalidOperation, DivisionByZero, Overflow])
"""The nine significant digits on which facts and computed values are compared."""

LONGEST = 60
"""The most characters of a written quantity."""
_EXTENT = 30
"""Numbers from 1e-30 to below 1e31 are read."""

_PLAIN = re.compile(r"([-+−]?[0-9]+(?:\.[0-9]+)?(?:[eE][-+]?[0-9]{1,3})?)[ \t]*(.*)", re.DOTALL).fullmatch
_FRACTION = re.compile(r"([-+−]?)(?:([0-9]{1,9}) )?([0-9]{1,9})/([0-9]{1,9}) ?(.*)").fullmatch
_TWO_PARTS = re.compile(r"([-+−]?)([0-9]{1,9}) ?([^0-9.,/+-]*[^0-9.,/+ -])[ -]?([0-9].*)").fullmatch
_PAIRS = frozenset({("ft", "in"), ("lb", "oz"), ("h", "min"), ("min", "s")})
_PERIOD = re.compile(r"(?:[0-9]{1,5} ?(?:years?|months?|weeks?|days?) ?)+").fullmatch
_PERIOD_PARTS = re.compile(r"([0-9]+) ?(year|month|week|day)").findall
# fmt: off
_SIGNS = str.maketrans({
    "²": "2", "³": "3", "µ": "u", "μ": "u", "Ω": "ohm", "\u2126": "ohm", "·": " ", "⋅": " ", "′": "'", "″": '"',
    "º": "°", "℃": "°C", "℉": "°F",
})
# fmt: on


class Period(Struct, frozen=True):
    """A stretch of the calendar: months and days, neither of which is a fixed number of the other."""

    months: int = 0
    days: int = 0

    def __str__(self) -> str:
        if self == NOT_ASKED:
            return "not asked"
        parts = [(self.months, "month"), (self.days, "day")]
        return " ".join(f"{n} {word}{'' if n == 1 else 's'}" for n, word in parts if n) or "0 days"


NOT_ASKED = Period(months=10**9)
"""The period, written `not asked`, of what nobody asks again: longer than the calendar, so that it is never over."""


class Quantity(Struct, frozen=True):
    """A value in SI (of the kind `period`: a Period), its kind, and how it was written."""

    value: Decimal | Period
    kind: str
    written: str

    @property
    def number(self) -> Decimal:
        """The value in SI; TypeError for a period, which has no SI value."""
        if isinstance(self.value, Period):
            raise TypeError(f"a calendar period is no number: {self.value}")
        return self.value


class UnitProblem(ValueError):
    """What is written is not a quantity of the kind that was asked for. Its text says what is wrong with it."""

    def __init__(self, says: str, found: str, wanted: str) -> None:
        """What is wrong, what was found (made harmless to print), and what to write."""
        self.found, self.wanted = visible(found), wanted
        super().__init__(says)


def visible(text: str, most: int = LONGEST) -> str:
    """The text with control and other unseen characters spelt out, cut to `most` characters."""
    cut = text[: most + 1]
    if not cut.isprintable():
        cut = "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in cut)
    return cut if len(cut) <= most else cut[: most - 1] + "…"


def on_grid(value: Decimal | float) -> Decimal:
    """The value to nine significant digits. Raises ValueError for what is no finite number."""
    number = value if isinstance(value, Decimal) else Decimal(value)
    if not number.is_finite():
        raise ValueError(f"{value} is no finite number")
    return GRID.plus(number)


def read(text: object, kind: str) -> Quantity:
    """The quantity of this kind that the text says. Raises UnitProblem, which gives the right spelling."""
    known = KINDS[kind]
    if type(text) is str:
        match = _PLAIN(text)
        if match and len(text) <= LONGEST:
            number, spelling = match.groups()
            unit = known.units.get(spelling)
            if unit is not None:
                return _within_bounds(unit.to_si(_decimal(number, text)), known, text)
        return _read_slowly(text, known)
    if isinstance(text, (int, float)) and not isinstance(text, bool):
        if not abs(text) < 10 ** (_EXTENT + 1):
            raise _too_far(repr(text) if isinstance(text, float) else f"a number of more than {_EXTENT} digits")
        return _read_slowly(repr(text), known)
    raise UnitProblem(_shape(known), _in_words(text), _example(known))


def in_unit(value: Decimal, kind: str, unit: str) -> Decimal:
    """The SI value in the unit, to 25 digits. Raises KeyError for a unit this kind does not have."""
    return KINDS[kind].units[unit].from_si(value)


@lru_cache(maxsize=1024)
def unit_of(written: str, kind: str) -> str | None:
    """The unit a person used, as we write it ("" for a bare number, ft for 5 ft 6 in); None if it cannot be read."""
    try:
        parsed = _parse(_tidy(written[: LONGEST + 1]), KINDS[kind])
    except UnitProblem:
        return None
    return parsed[1].symbol if parsed else None


@lru_cache(maxsize=1024)
def write(
    value: Decimal | Period, kind: str, unit: str | None = None, *, beside: Decimal | Period | None = None
) -> str:
    """The SI value for people, in this unit or the first one we suggest for its kind.

    Four significant digits, whole units always; more where it takes them to show a difference from `beside`.
    """
    if isinstance(value, Period):
        return str(value)
    known = KINDS[kind]
    chosen = known.units[known.suggested[0] if unit is None else unit]
    one = _Shown(value, chosen)
    if isinstance(beside, Decimal):
        return f"{one.apart_from(_Shown(beside, chosen))} {chosen.symbol}".rstrip()
    return f"{one.text(0)} {chosen.symbol}".rstrip()


class _Shown:
    """A number on the grid, in a unit, with the places it takes to show it."""

    def __init__(self, value: Decimal, unit: Unit) -> None:
        self.value = on_grid(value)
        self.number = unit.from_si(self.value)
        step = EXACT.divide(Decimal((0, (1,), self.value.adjusted() - 8)), unit.times) * unit.over
        # A shifted unit shows fewer digits of the grid than nine; its last one is noise.
        self.places = max(0, min(3 - self.number.adjusted(), -step.adjusted() - 1))

    def text(self, places: int) -> str:
        """The number to its own places, or to `places` if these are more; without trailing zeros."""
        last = Decimal((0, (1,), -max(self.places, places)))
        number = self.number.quantize(last, rounding=ROUND_HALF_UP, context=EXACT)
        if not number:
            return "0"
        plain = number.normalize(EXACT)
        return f"{plain:f}" if -10 < plain.adjusted() < 16 else f"{plain:e}"

    def apart_from(self, other: "_Shown") -> str:
        """The number to as many places as keep the two texts apart, if their values differ."""
        if self.value == other.value:
            return self.text(0)
        places = 0
        while (text := self.text(places)) == other.text(places):
            places += 1
        return text


def _decimal(number: str, written: str) -> Decimal:
    value = Decimal(number.replace("−", "-"))
    if not -_EXTENT <= value.adjusted() <= _EXTENT:
        raise _too_far(written)
    return value


def _too_far(written: str) -> UnitProblem:
    wanted = f"a number from 1e-{_EXTENT} to 1e{_EXTENT}"
    return UnitProblem("no quantity here is that large or that small", written, wanted)


def _within_bounds(value: Decimal, kind: Kind, written: str) -> Quantity:
    name = kind.name
    if name == "count":
        if value < 0 or value != value.to_integral_value():
            raise UnitProblem("a count is a whole number, zero or more", written, kind.example)
    elif value < 0 and name in {"temperature", "pressure_absolute"}:
        raise UnitProblem(f"no {kind.title} lies below absolute zero", written, _example(kind))
    return Quantity(value, name, written)


def _read_slowly(text: str, kind: Kind) -> Quantity:
    if len(text) > LONGEST:
        raise UnitProblem(f"{_a(kind.title)} takes at most {LONGEST} characters", text, _example(kind))
    tidy = _tidy(text)
    if kind.name == "period":
        return Quantity(_period(tidy), kind.name, text)
    parsed = _parse(tidy, kind)
    if parsed is None:
        raise _refusal(text, tidy, kind)
    return _within_bounds(parsed[0], kind, text)


def _tidy(text: str) -> str:
    return " ".join(text.translate(_SIGNS).split())


@lru_cache(maxsize=1024)
def _unit_spelt(kind: str, spelling: str) -> Unit | None:
    units = KINDS[kind].units
    return units.get(spelling) or units.get(spelling.replace(" / ", "/"))


def _parse(tidy: str, kind: Kind) -> tuple[Decimal, Unit] | None:
    """Value in SI and unit of a plain number, a fraction, or two parts as in 5 ft 6 in; None if it is none of them."""
    match = _PLAIN(tidy)
    unit = _unit_spelt(kind.name, match[2]) if match else None
    if match and unit:
        return unit.to_si(_decimal(match[1], tidy)), unit
    match = _FRACTION(tidy)
    unit = _unit_spelt(kind.name, match[5]) if match else None
    if match and unit:
        if int(match[4]) == 0:
            raise UnitProblem("nothing is divided by zero", tidy, _example(kind))
        number = int(match[2] or 0) + Fraction(int(match[3]), int(match[4]))
        return _exactly((-number if match[1] in {"-", "−"} else number), unit), unit
    match = _TWO_PARTS(tidy)
    unit = _unit_spelt(kind.name, match[3]) if match else None
    rest = _parse(match[4], kind) if match and unit else None
    if match and unit and rest and (unit.symbol, rest[1].symbol) in _PAIRS:
        value = EXACT.add(unit.to_si(Decimal(match[2])), rest[0])
        value = -value if match[1] in {"-", "−"} else value
        if rest[0] >= unit.times:
            wanted = write(value, kind.name, rest[1].symbol)
            says = f"the {rest[1].symbol} after {unit.symbol} make less than one {unit.symbol}"
            raise UnitProblem(says, tidy, wanted)
        return value, unit
    return None


def _exactly(number: Fraction, unit: Unit) -> Decimal:
    value = (number + Fraction(unit.shift)) * unit.factor
    return KEPT.divide(Decimal(value.numerator), Decimal(value.denominator))


def _period(tidy: str) -> Period:
    if tidy == str(NOT_ASKED):
        return NOT_ASKED
    if not _PERIOD(tidy):
        wanted = f"{tidy} months or {tidy} days" if tidy.isdecimal() and tidy.isascii() else "for example 12 months"
        raise UnitProblem("a calendar period is whole years, months, weeks or days", tidy or "nothing", wanted)
    total = dict.fromkeys(("year", "month", "week", "day"), 0)
    for number, word in _PERIOD_PARTS(tidy):
        total[word] += int(number)
    return Period(12 * total["year"] + total["month"], 7 * total["week"] + total["day"])


def _refusal(text: str, tidy: str, kind: Kind) -> UnitProblem:
    """Why the text is no quantity of this kind; the first of the reasons that fits."""
    if not tidy:
        return UnitProblem(_shape(kind), "nothing", _example(kind))
    for says, respelt in _respellings(tidy):
        return UnitProblem(says, text, _offer(respelt, kind))
    match = _PLAIN(tidy)
    if match is None:
        return UnitProblem(_shape(kind), text, _example(kind))
    if re.match(r"[-–—] ?[0-9]", match[2]):
        return UnitProblem("one number is read, not a range", text, _example(kind))
    number, spelling = match.groups()
    _decimal(number, text)
    if not spelling:
        return UnitProblem(f"{_a(kind.title)} needs its unit", text, _offer(number, kind))
    if not kind.symbols:
        return UnitProblem(f"{_a(kind.title)} takes no unit", text, number)
    if spelling in AMBIGUOUS:
        wanted = _choices(number, AMBIGUOUS[spelling])
        return UnitProblem(f'"{spelling}" alone does not say which unit is meant', text, wanted)
    return UnitProblem(*_strange_unit(number, visible(spelling, 20), kind, text))


def _strange_unit(number: str, spelling: str, kind: Kind, text: str) -> tuple[str, str, str]:
    near = _near(spelling, kind)
    other = next((k for k in KINDS.values() if _unit_spelt(k.name, spelling)), None)
    if other is None and _PERIOD(f"1 {spelling}"):
        other = KINDS["period"]
    if other is not None:
        return f'"{spelling}" is a unit of {other.title}, not of {kind.title}', text, _example(kind)
    offer = f"{number} {near} if that is meant, else " if near else ""
    wanted = f"{offer}one of the units {', '.join(kind.symbols)}"
    return f'"{spelling}" is no unit of {kind.title} that is read here', text, wanted


def _near(spelling: str, kind: Kind) -> str | None:
    from difflib import get_close_matches

    folded: dict[str, set[str]] = {}
    for known, unit in kind.units.items():
        folded.setdefault(known.casefold(), set()).add(unit.symbol)
    near = get_close_matches(spelling.casefold(), folded, n=1, cutoff=0.75)
    symbols = folded[near[0]] if near else set()
    # m and M before a unit are a thousand million apart: never offer one for the other.
    if len(symbols) != 1 or {spelling[0], *(symbol[0] for symbol in symbols)} == {"m", "M"}:
        return None
    return min(symbols)


_DIGITS = re.compile(r"([-+−]?)([0-9](?:[0-9.,_'’ ]*[0-9])?)(?![0-9'’])(?: ?)(.*)").fullmatch
_GROUPED = re.compile(r"[0-9]{1,3}([.,_'’ ])[0-9]{3}(?:\1[0-9]{3})*(?:[.,][0-9]+)?").fullmatch
_COMMA = re.compile(r"[0-9]+,[0-9]+").fullmatch


def _respellings(tidy: str) -> list[tuple[str, str]]:
    """What is wrong with how the number is spelt, and the text with the number spelt rightly; empty if nothing is."""
    if tidy[0] == "." and tidy[1:2].isdigit():
        return [("a number starts with a digit", f"0{tidy}")]
    if match := re.fullmatch(r"([-+−]?[0-9]+)\.(?![0-9]) ?(.*)", tidy):
        return [("a number does not end in a dot", f"{match[1]} {match[2]}")]
    if match := re.fullmatch(r"([0-9]+)-([0-9]+/[0-9]+.*)", tidy):
        return [("a whole number and a fraction stand apart by a space", f"{match[1]} {match[2]}")]
    match = _DIGITS(tidy)
    if match is None:
        return []
    sign, digits, rest = match.groups()
    grouped = _GROUPED(digits)
    if _COMMA(digits) and (not grouped or digits.startswith("0,")):
        return [("a decimal comma is not read", f"{sign}{digits.replace(',', '.')} {rest}")]
    if grouped and (grouped[1] != "." or digits.count(".") > 1 or "," in digits):
        tail = digits[digits.rindex(grouped[1]) + 4 :].replace(",", ".")
        whole = re.sub(r"[^0-9]", "", digits[: len(digits) - len(tail)])
        return [("a thousands separator is not read", f"{sign}{whole}{tail} {rest}")]
    if "_" in digits and not re.search(r"[.,'’ ]", digits):
        return [("a thousands separator is not read", f"{sign}{digits.replace('_', '')} {rest}")]
    return []


def _offer(respelt: str, kind: Kind) -> str:
    """The text as it would be right, if it is; with the units of the kind if it is a number alone; else an example."""
    respelt = respelt.strip()
    match = _PLAIN(respelt)
    if match and not match[2] and "" not in kind.units:
        return _choices(respelt, kind.suggested)
    try:
        return respelt if _parse(respelt, kind) else _example(kind)
    except UnitProblem:
        return _example(kind)


def _choices(number: str, units: tuple[str, ...]) -> str:
    return " or ".join(f"{number} {unit}" for unit in units)


def _example(kind: Kind) -> str:
    return f"for example {kind.example}"


def _shape(kind: Kind) -> str:
    if "" not in kind.units:
        return f"{_a(kind.title)} is a number with its unit"
    alone = f"is a number, alone or with {kind.symbols[0]}" if kind.symbols else "is a bare number"
    return f"{_a(kind.title)} {alone}"


def _a(title: str) -> str:
    return f"{'an' if title[0] in 'aeioAEIO' else 'a'} {title}"


def _in_words(value: object) -> str:
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dict):
        return "a group of keys"
    return "a list" if isinstance(value, (list, tuple)) else type(value).__name__
