"""What changes that are decided already will do: limits that begin or end on a known day, findings that turn."""

import datetime as dt
from decimal import Decimal

from msgspec.structs import replace

from checker.findings.check import check
from checker.findings.result import Finding, Part, Result, Turn
from checker.rules import Rulebook
from checker.site import Site

ONE_DAY = dt.timedelta(days=1)
A_DAY = Decimal(86400)
"""In the seconds of a margin."""


def days_of_change(rulebook: Rulebook, region: str, after: dt.date, days: int) -> tuple[dt.date, ...]:
    """The days within a span on which a provision of a region, or of a layer laid on it, begins or has ended."""
    last = after + dt.timedelta(days=days)
    layers = {layer.name for layer in rulebook.chain(region)}
    found: set[dt.date] = set()
    for provision in rulebook.all_provisions:
        if provision.layer in layers:
            found |= {provision.from_} if provision.from_ else set()
            found |= {provision.until + ONE_DAY} if provision.until and provision.until < dt.date.max else set()
    return tuple(sorted(day for day in found if after < day <= last))


def with_upcoming(site: Site, rulebook: Rulebook, result: Result, days: int) -> Result:
    """The result with the findings that a decided change will turn in the next `days` days, or hold to more.

    A finding that is not met and will be held to a stricter limit stays not met: who mends it meanwhile should mend it
    far enough.

    Each day of change is judged beside the day before it, so that what merely falls due is not counted as a change.
    """
    turns: list[Turn] = []
    for day in days_of_change(rulebook, result.region, result.as_of, days):
        before, after = (_findings(site, rulebook, result, each) for each in (day - ONE_DAY, day))
        for name in sorted(before.keys() | after.keys()):
            old, new = before.get(name), after.get(name)
            turned = _outcome(old) != _outcome(new) or _asks_more_of_what_fails(old, new)
            if turned and _asked(old) != _asked(new):
                shown = new or old
                assert shown is not None
                turns.append(
                    Turn(
                        day=day,
                        finding=name,
                        title=shown.title,
                        subject=shown.subject,
                        before=_outcome(old),
                        after=_outcome(new),
                        provisions=shown.provisions,
                    )
                )
    return replace(result, upcoming=tuple(turns))


def _findings(site: Site, rulebook: Rulebook, result: Result, day: dt.date) -> dict[str, Finding]:
    version = result.program.version
    made = check(site, rulebook, region=result.region, as_of=day, program_version=version)
    return {finding.id: finding for finding in made.findings}


def _outcome(finding: Finding | None) -> str:
    return finding.outcome if finding is not None else "not asked"


def _asked(finding: Finding | None) -> object:
    return finding and [(asked.layer, asked.authority, asked.limit, asked.location) for asked in finding.provisions]


def _asks_more_of_what_fails(old: Finding | None, new: Finding | None) -> bool:
    """Whether a finding that is not met leaves less room in one of its parts than the day before."""
    if old is None or new is None or (old.outcome, new.outcome) != ("not met", "not met"):
        return False
    before = {part.text: part for part in old.parts}
    return any(part.text in before and _less_room(before[part.text], part) for part in new.parts)


def _less_room(old: Part, new: Part) -> bool:
    """Less by another limit; what is overdue has a day less each day."""
    if old.margin is None or new.margin is None:
        return False
    by_itself = A_DAY if new.measured is not None and new.measured.kind == "date" else Decimal(0)
    return Decimal(new.margin.value) < Decimal(old.margin.value) - by_itself
