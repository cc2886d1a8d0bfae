"""Exceptions and accepted alternatives: marks on what is not met, and a notice of each that serves nothing."""

import datetime as dt
from collections.abc import Iterator, Mapping
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from checker.findings.result import Finding, Granted, Notice
from checker.rules.model import Rule
from checker.site import Site
from checker.site.model_granted import AcceptedAlternative, GrantedException

Kind = Literal["exception", "accepted_alternative"]


class Grant(Struct, frozen=True):
    """One exception or accepted alternative, with the rule and the things that it is for."""

    kind: Kind
    place: str
    rule: str
    subjects: tuple[str, ...]
    mark: Granted

    def runs_on(self, day: dt.date) -> bool:
        """Whether it has begun and has not lapsed on a day."""
        return self.mark.since <= day and (self.mark.until is None or day <= self.mark.until)

    def turns(self) -> Iterator[dt.date]:
        """The days on which it begins and on which it has lapsed."""
        yield self.mark.since
        if self.mark.until is not None and self.mark.until < dt.date.max:
            yield self.mark.until + dt.timedelta(days=1)

    def is_for(self, finding: Finding) -> bool:
        """Whether it speaks of a finding's rule and thing."""
        return finding.rule == self.rule and finding.subject.path in self.subjects

    def covers(self, finding: Finding) -> bool:
        """Whether every authority whose demand is not met is the one that granted it: nobody sets another's aside."""
        short = {asked.authority for asked in finding.provisions if asked.outcome == "not met"}
        return finding.outcome == "not met" and short == {self.mark.authority}


def grants(site: Site, rules: Mapping[str, Rule]) -> tuple[Grant, ...]:
    """All that the site records as granted, in the order of the file.

    What was granted under an id that a rule had before is for that rule, unless others became part of it as well.
    """
    now = {rule.was[0]: rule.id for rule in rules.values() if len(rule.was) == 1 and rule.was[0] not in rules}
    exceptions = site.exceptions if isinstance(site.exceptions, tuple) else ()
    alternatives = site.accepted_alternatives if isinstance(site.accepted_alternatives, tuple) else ()
    held = (
        *(_exception(number, each) for number, each in enumerate(exceptions)),
        *(_alternative(number, each) for number, each in enumerate(alternatives)),
    )
    return tuple(replace(grant, rule=now.get(grant.rule, grant.rule)) for grant in held)


def _exception(number: int, each: GrantedException) -> Grant:
    mark = Granted(
        authority=each.authority,
        by=each.by,
        why=each.why,
        since=each.since,
        until=each.until,
        interim=each.interim,
        paper=each.paper or "",
        conditions="",
    )
    return Grant("exception", f"exceptions[{number}]", each.rule, each.subjects, mark)


def _alternative(number: int, each: AcceptedAlternative) -> Grant:
    mark = Granted(
        authority=each.authority,
        by=each.by,
        why="",
        since=each.on,
        until=each.until,
        interim="",
        paper=each.paper,
        conditions=each.conditions,
    )
    return Grant("accepted_alternative", f"accepted_alternatives[{number}]", each.rule, each.subjects, mark)


def marked(finding: Finding, held: tuple[Grant, ...], day: dt.date) -> Finding:
    """The finding with the marks of what was granted for it. Its outcome stays what it is."""
    for grant in held:
        if grant.is_for(finding) and grant.runs_on(day) and grant.covers(finding):
            if grant.kind == "exception":
                finding = replace(finding, exception=grant.mark)
            else:
                finding = replace(finding, accepted_alternative=grant.mark)
    return finding


def stale(
    held: tuple[Grant, ...], findings: tuple[Finding, ...], day: dt.date, rules: Mapping[str, Rule]
) -> Iterator[Notice]:
    """A notice of each grant that marks nothing, and why."""
    part_of = {id: rule.id for rule in rules.values() for id in rule.was if id not in rules}
    for grant in held:
        if grant.rule in part_of:
            yield _notice(grant, "grant for part", now=part_of[grant.rule])
            continue
        meant = [finding for finding in findings if grant.is_for(finding)]
        missing = [path for path in grant.subjects if path not in {finding.subject.path for finding in meant}]
        for path in missing:
            yield _notice(grant, "grant for nothing", subject=path)
        if meant and not grant.runs_on(day):
            yield _notice(grant, "grant not begun" if day < grant.mark.since else "grant lapsed")
        for finding in meant if grant.runs_on(day) else ():
            if finding.outcome != "not met":
                yield _notice(grant, "grant not needed", subject=finding.subject.path)
            elif not grant.covers(finding):
                yield _notice(grant, "grant by another", subject=finding.subject.path)


def _notice(grant: Grant, kind: str, **more: str) -> Notice:
    until = grant.mark.until.isoformat() if grant.mark.until else ""
    values = {"rule": grant.rule, "authority": grant.mark.authority, "until": until, **more}
    return Notice(kind=kind, about=grant.place, values=values)
