"""Values in words for people: their own unit where they wrote one, the same unit where two are compared."""

import datetime as dt
import re
from decimal import Decimal
from typing import Literal, NamedTuple

from msgspec.structs import replace

from checker import units
from checker.findings.result import Value
from checker.report.page import GLUE, columns
from checker.report.sentences import has, say
from checker.report.shapes import SourceUse

Country = Literal["us", "metric"]

_US = {
    "length": "ft", "area": "ft2", "volume": "ft3", "mass": "lb", "speed": "ft/min", "flow": "cfm", "free_air": "scfm",
    "flow_per_area": "cfm/ft2", "pressure_gauge": "psi", "pressure_absolute": "psia", "stress": "psi",
    "temperature": "°F", "temperature_difference": "°F", "power": "hp", "force": "lbf", "torque": "lbf ft",
    "inertia": "lb ft2", "density": "lb/ft3",
}  # fmt: skip
"""What a workshop in the United States writes where that is not the metric unit."""
_SMALL = {
    "ft": (Decimal("0.3048"), "in"),
    "m": (Decimal("0.1"), "mm"),
    "ft2": (Decimal("0.001"), "mm2"),
    "m2": (Decimal("0.001"), "mm2"),
}
"""Below this, in SI, a size is told in the smaller unit; the area of a conductor in mm2 everywhere."""
_LARGE = {"s": ((Decimal(7200), "h"), (Decimal(120), "min"))}
"""From here on, in SI, a time is told in the longer unit."""
_OTHER_SYSTEM = {
    "ft": "m",
    "yd": "m",
    "mi": "km",
    "in": "mm",
    "mil": "um",
    "m": "ft",
    "cm": "in",
    "mm": "in",
    "K": "°F",
}
_IN_BOTH = ("length", "temperature_difference")
"""Kinds of which a reader in the United States gets both systems."""
_EACH = re.compile(r" /(s|min|h|d)$")
_LONGEST_GLUED = 24
_NEVER = dt.date.min.isoformat()
_DAY = Decimal(86400)


class Compared(NamedTuple):
    """Two values told in one unit."""

    measured: str | None
    limit: str | None


def country_of(region: str) -> Country:
    """Whose units a region uses."""
    return "us" if region.partition("-")[0] == "us" else "metric"


def value_words(value: Value, beside: Value | None, country: Country) -> str:
    """The value as it was written, or as a person of that country would write it.

    With `beside`, in that one's unit where this one was computed, and with as many digits as tell the two apart.
    """
    if not _is_number(value):
        return _plain(value)
    return _written(value) or _number(value, _unit(value, beside, country), beside)


def compared(measured: Value | None, limit: Value | None, country: Country) -> Compared:
    """A measured value and its limit in one unit: the one the measurement was written in, else the limit's.

    What was written in another unit follows in brackets; so does the other system where paper carries both.
    """
    first = measured or limit
    unit = _unit(first, limit, country) if first and _is_number(first) else ""
    return Compared(
        _beside_other(measured, limit, unit, country) if measured else None,
        _beside_other(limit, measured, unit, country) if limit else None,
    )


def margin_words(
    margin: Value, measured: Value | None, limit: Value | None, operator: str | None, country: Country
) -> str:
    """How much room there is, or how much is wanting, in the unit of the comparison."""
    amount = Decimal(margin.value) if not isinstance(margin.value, str) else Decimal(0)
    if amount == 0:
        return say("margin_none")
    room = "room" if amount > 0 else "short" if operator in ("ge", "gt") else "over"
    if any(side is not None and side.kind == "date" for side in (measured, limit)):
        return _days(abs(amount), f"days_{room}")
    size = replace(margin, value=abs(amount), as_written=None)
    shared = _unit(measured or margin, limit, country)
    unit = shared if shared in _units_of(margin.kind) else _unit(size, None, country)
    return say(f"margin_{room}", amount=_number(size, unit, None))


def uncertainty_words(plus_minus: Value, value: Value, country: Country) -> str:
    """A plus or minus in the unit of the value it belongs to; a length by its own size."""
    own = _unit(value, None, country)
    fits = plus_minus.kind != "length" and own in _units_of(plus_minus.kind)
    return _number(plus_minus, own if fits else _unit_of_country(plus_minus, country), None)


def status_words(status: str, read_in: str | None) -> str:
    """How a value is known: read, and in which print, told by somebody else, or remembered."""
    if has(in_words := f"status {status} in {read_in}"):
        return say(in_words)
    told = say(f"status {status}")
    return say("status_read_in", status=told, read_in=read_in) if read_in else told


def cited_words(use: SourceUse) -> str:
    """A source as a ruleset cites it, and how its value is known; from memory without clause: it could be quoted."""
    if use.source is None:
        return say("common practice")
    parts = [use.source.designation, use.source.edition, use.clause if use.status != "memory" else None]
    told = say("list").join(part for part in parts if part)
    return say("source_status", source=told, status=status_words(use.status, use.read_in))


def operator_words(operator: str | None, limit: str, kind: str) -> str:
    """The limit with its comparison in words: `at most 50 ft`."""
    keys = (f"is {operator} {kind}", f"is {operator}", "is")
    return say(next(filter(has, keys)), limit=limit)


def _days(amount: Decimal, key: str) -> str:
    days = (amount / _DAY).to_integral_value()
    return say(key if days != 1 else f"{key}_one", days=f"{days}")


def _beside_other(value: Value, other: Value | None, unit: str, country: Country) -> str:
    if not _is_number(value):
        return _plain(value)
    own = _own_unit(value)
    if own and own != unit:
        return f"{_number(value, unit, other)} ({_written(value)})"
    words = _written(value) or _number(value, unit, other)
    second = _OTHER_SYSTEM.get(unit) if country == "us" and value.kind in _IN_BOTH else None
    return f"{words} ({_number(value, second, other)})" if second else words


def _is_number(value: Value) -> bool:
    return not isinstance(value.value, bool | str)


def _plain(value: Value) -> str:
    if isinstance(value.value, bool):
        return say("yes" if value.value else "no")
    if value.kind == "date" and value.value == _NEVER:
        return say("never")
    return value.as_written or str(value.value)


def _written(value: Value) -> str | None:
    return value.as_written and _glued(value.as_written)


def _own_unit(value: Value) -> str | None:
    return units.unit_of(value.as_written, value.kind) if value.as_written else None


def _unit(value: Value, beside: Value | None, country: Country) -> str:
    own = _own_unit(value)
    if own is None and beside is not None and beside.kind == value.kind:
        own = _own_unit(beside)
    return own or _unit_of_country(value, country)


def _unit_of_country(value: Value, country: Country) -> str:
    if value.kind not in units.KINDS:
        return value.unit
    usual = _US.get(value.kind) if country == "us" else None
    unit = usual or units.KINDS[value.kind].suggested[0]
    for least, large in _LARGE.get(unit, ()):
        if abs(Decimal(value.value)) >= least:
            return large
    below, small = _SMALL.get(unit, (Decimal(0), unit))
    return small if abs(Decimal(value.value)) < below else unit


def _units_of(kind: str) -> tuple[str, ...]:
    return units.KINDS[kind].symbols if kind in units.KINDS else ()


def _number(value: Value, unit: str, beside: Value | None) -> str:
    amount = Decimal(value.value)
    if value.kind not in units.KINDS:
        return _glued(f"{amount.normalize():f} {value.unit}".rstrip())
    other = Decimal(beside.value) if beside is not None and beside.kind == value.kind and _is_number(beside) else None
    return _glued(units.write(amount, value.kind, unit or None, beside=other))


def _glued(text: str) -> str:
    text = _EACH.sub(lambda found: f" {say(f'each {found[1]}')}", text)
    return text.replace(" ", GLUE) if columns(text) <= _LONGEST_GLUED else text
