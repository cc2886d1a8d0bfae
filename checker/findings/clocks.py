"""What the parts of a requirement count: the period and the day of each, and which of several falls due last."""

from collections.abc import Mapping, Sequence
from typing import Any, Final

from checker.findings.evidence import resolved
from checker.findings.judge import Compiled
from checker.findings.margin import Reading
from checker.findings.result import Clock, Value
from checker.findings.values import value
from checker.rules.model import Provision
from checker.rules.tree import Tree, text
from checker.site import NEVER

UNNAMED: Final = "every"
"""What a limit is called that says nothing of what is done: the day it counts from says more."""


def clocks_of(
    compiled: Compiled, readings: Sequence[Reading], facts: Mapping[str, Any], provision: Provision
) -> tuple[Clock | None, ...]:
    """The clock of each part; None for a part that counts from no day."""
    if not compiled.tells_of_clocks:
        return (None,) * len(readings)
    leading = _leading(compiled.clocks, readings)
    return tuple(
        None if number is None else _clock(number, part, facts, provision, leads=leading[number] == at)
        for at, (number, part) in enumerate(zip(compiled.clocks, readings, strict=True))
    )


def _leading(numbers: Sequence[int | None], readings: Sequence[Reading]) -> dict[int, int]:
    """For each clock the part with the latest day due; of none that is known the first."""
    found: dict[int, int] = {}
    for at, (number, part) in enumerate(zip(numbers, readings, strict=True)):
        if number is None:
            continue
        best = readings[found.setdefault(number, at)].measured
        if (part.measured or NEVER) > (best or NEVER) or best is None is not part.measured:
            found[number] = at
    return found


def _clock(number: int, part: Reading, facts: Mapping[str, Any], provision: Provision, *, leads: bool) -> Clock:
    counted = part.spec.counts_from
    assert counted is not None
    day, period = counted
    since = day[2] if day[0] == "get" else text(day)
    name, every = _period(period, facts, provision)
    on = value(resolved(day)(facts), "date")
    return Clock(number=number, name=name or since, every=every, since=since, on=on, leads=leads)


def _period(tree: Tree, facts: Mapping[str, Any], provision: Provision) -> tuple[str, Value | None]:
    """The name of a period and how the provision writes it."""
    match tree:
        case ["period", _, _, written]:
            return "", Value(value=written, unit="", kind="period", as_written=written)
        case ["get", ["name", "limit"], name]:
            limit = provision.limit.get(name)
            every = None if limit is None else value(limit.value, limit.kind, limit.written)
            return ("" if name == UNNAMED else str(name)), every
        case ["call", ["get", ["get", ["name", "table"], table], column], _]:
            found = resolved(tree)(facts)
            rows = provision.tables[table].rows if table in provision.tables else ()
            written = next((row.written[column] for row in rows if row.cells[column] == found), None)
            return column, value(found, "period", written)
    return "", None
