"""From what an evaluation holds to the values of a result."""

import datetime as dt
from decimal import Decimal
from typing import Any, Final

from checker.findings.result import Value
from checker.site import NEVER
from checker.units import KINDS, Period

_OF_MARGINS: Final = {
    "date": "duration",
    "temperature": "temperature_difference",
    "pressure_gauge": "pressure_difference",
    "pressure_absolute": "pressure_difference",
}


def value(found: Any, kind: str, as_written: str | None = None) -> Value | None:
    """A value of a result; None for what is unknown."""
    if isinstance(found, Decimal):
        unit = KINDS[kind].si if kind in KINDS else ""
        return Value(value=found, unit=unit, kind=kind, as_written=as_written)
    if found is None:
        return None
    if isinstance(found, bool):
        return Value(value=found, unit="", kind="answer", as_written=as_written)
    if isinstance(found, dt.date):
        day = "never" if found == NEVER else found.isoformat()
        return Value(value=day, unit="", kind="date", as_written=as_written)
    if isinstance(found, Period):
        return Value(value=as_written or str(found), unit="", kind="period", as_written=as_written)
    return Value(value=str(found), unit="", kind="word", as_written=as_written)


def margin_kind(kind: str) -> str:
    """The kind that a margin has: days between dates, a difference between temperatures or pressures."""
    return _OF_MARGINS.get(kind, kind)
