"""What another edition of the rulesets would change at sites: each finding that comes out otherwise, and why.

Apart from these stand the findings that keep their outcome and are held against another limit, or have another margin.
"""

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from checker.findings.check import check
from checker.findings.exit_code import SEVERITIES
from checker.findings.result import Finding, Result
from checker.findings.weigh import WORST_FIRST
from checker.keeping.changes import Change
from checker.keeping.diff import diff, pairs
from checker.keeping.shifts import BROKE, NOT_ASKED, Shift, bears_on, come_to, shift, shifted
from checker.reading import Problem, Unreadable, read_file
from checker.rules import Rulebook
from checker.rules.rulebook import NoRegion
from checker.rules.vocabulary import Severity
from checker.site import Site, read_site

SUFFIXES: Final = (".yaml", ".yml", ".json")
OUTCOMES: Final[tuple[str, ...]] = (BROKE, *WORST_FIRST, NOT_ASKED)
"""What a finding can come to, worst first."""


@dataclass(frozen=True, slots=True)
class Move:
    """One finding that comes out otherwise."""

    site: str
    file: str
    rule: str
    """Its id in the new edition; in the old one if it was withdrawn."""
    title: str
    severity: Severity
    acts: str
    place: tuple[str, ...]
    subject: str
    before: str
    """An outcome, `rule broke`, or `not asked`."""
    after: str
    why: tuple[Change, ...]
    """The changes of the rulesets that it comes from."""
    asked_now: tuple[tuple[str, str], ...]
    """Authorities, each with its layer, that only the new edition cites."""
    asked_no_more: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Judged:
    """A site that both editions judged."""

    site: str
    file: str
    region: str
    findings: int
    """How many the new edition makes."""
    moves: tuple[Move, ...]
    shifts: tuple[Shift, ...] = ()


@dataclass(frozen=True, slots=True)
class NotJudged:
    """A file that holds no site which can be judged."""

    file: str
    problems: tuple[Problem, ...]
    """What is wrong with the file; none where the site only names no region."""


@dataclass(frozen=True, slots=True)
class Impact:
    """What would change at all sites, in the order of their files."""

    judged: tuple[Judged, ...]
    not_judged: tuple[NotJudged, ...]
    regions_without_site: tuple[str, ...] = ()
    """Layers that ask otherwise and belong to no site's own region; none where one region was named for all."""
    not_laid: tuple[str, ...] = ()
    """Layers for any region that ask otherwise and were not laid on."""


def sites_below(folder: Path) -> tuple[tuple[Site, ...], tuple[NotJudged, ...]]:
    """The sites in all YAML and JSON files of a folder and the folders in it; and the files that cannot be read."""
    sites, not_read = [], []
    for path in sorted(each for each in folder.rglob("*") if each.suffix in SUFFIXES and each.is_file()):
        try:
            sites.append(read_site(read_file(path)))
        except Unreadable as unreadable:
            not_read.append(NotJudged(str(path), unreadable.problems))
    return tuple(sites), tuple(not_read)


def impact(
    sites: Iterable[Site],
    old: Rulebook,
    new: Rulebook,
    *,
    as_of: dt.date,
    program_version: str,
    region: str | None = None,
    not_read: Sequence[NotJudged] = (),
) -> Impact:
    """Every site judged by both editions, region by region, so that each edition is made ready once for a region.

    `region` replaces the one that each site names. `not_read`, the files that held no site, stand among what was not
    judged.
    """
    called = {one: other for one, other in pairs(old, new) if one is not None and other is not None}
    causes: dict[str, list[Change]] = {}
    asks_otherwise = [change for change in diff(old, new).changes if change.part == 1 and change.about]
    for change in asks_otherwise:
        causes.setdefault(change.about, []).append(change)
    judged, not_judged = [], list(not_read)
    for site in sorted(sites, key=lambda each: str(getattr(each.region, "value", ""))):
        try:
            before, after = (
                check(site, book, region=region, as_of=as_of, program_version=program_version) for book in (old, new)
            )
        except NoRegion:
            not_judged.append(NotJudged(site.document.file, ()))
            continue
        judged.append(_judged(before, after, called, causes))
    heard = {layer.name for each in judged for layer in new.chain(each.region)}
    unheard = sorted({change.layer for change in asks_otherwise if change.layer in new.layers} - heard)
    return Impact(
        tuple(sorted(judged, key=lambda each: each.file)),
        tuple(sorted(not_judged, key=lambda each: each.file)),
        tuple(name for name in unheard if region is None and not new.layers[name].lies_on_any_region),
        tuple(name for name in unheard if new.layers[name].lies_on_any_region),
    )


def _judged(before: Result, after: Result, called: Mapping[str, str], causes: Mapping[str, Sequence[Change]]) -> Judged:
    old = {_about(each, called): each for each in before.findings}
    new = {_about(each, {}): each for each in after.findings}
    moves = [
        _move(after, old.get(about), new.get(about), causes.get(about[0], ()))
        for about in {**new, **old}
        if come_to(old.get(about)) != come_to(new.get(about))
    ]
    ordered = sorted(moves, key=lambda one: (OUTCOMES.index(one.after), OUTCOMES.index(one.before),
                                             SEVERITIES.index(one.severity), one.rule, one.subject))  # fmt: skip
    shifts = tuple(
        shift(after, old[about], new[about], causes.get(about[0], ()))
        for about in sorted(old.keys() & new.keys())
        if shifted(old[about], new[about])
    )
    return Judged(after.site.id, after.site.file, after.region, len(after.findings), tuple(ordered), shifts)


def _about(finding: Finding, called: Mapping[str, str]) -> tuple[str, str, str]:
    """The rule by its new id, and what it was asked of."""
    return called.get(finding.rule, finding.rule), finding.subject.kind, finding.subject.id


def _move(result: Result, old: Finding | None, new: Finding | None, causes: Sequence[Change]) -> Move:
    shown = new or old
    assert shown is not None
    return Move(
        site=result.site.id,
        file=result.site.file,
        rule=shown.rule,
        title=shown.title,
        severity=shown.severity,
        acts=shown.acts,
        place=shown.subject.place,
        subject=f"{shown.subject.kind} {shown.subject.id}",
        before=come_to(old),
        after=come_to(new),
        why=tuple(change for change in causes if bears_on(change, old, new)),
        asked_now=tuple(sorted(_asked(new) - _asked(old))),
        asked_no_more=tuple(sorted(_asked(old) - _asked(new))),
    )


def _asked(finding: Finding | None) -> set[tuple[str, str]]:
    return set() if finding is None else {(each.authority, each.layer) for each in finding.provisions}
