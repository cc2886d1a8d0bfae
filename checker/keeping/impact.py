"""What another edition of the rulesets would change at sites: each finding that comes out otherwise, and why.

Apart from these stand the findings that keep their outcome and are held against another limit, or have another margin.
"""

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from pathlib import Path
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from checker.findings.check import findings_of
from checker.findings.exit_code import SEVERITIES
from checker.findings.result import Finding
from checker.findings.weigh import WORST_FIRST
from checker.keeping.asked import region_in
from checker.keeping.changes import Change
from checker.keeping.diff import diff, pairs
from checker.keeping.shifts import BROKE, NOT_ASKED, At, Shift, bears_on, come_to, shift, shifted
from checker.quantities import facts
from checker.reading import Problem, Unreadable, read_file
from checker.rules import Rulebook
from checker.rules.model import Provision
from checker.rules.rulebook import NoRegion
from checker.site import Site, read_site
from checker.vocabulary import Severity

SUFFIXES: Final = (".yaml", ".yml", ".json")
OUTCOMES: Final[tuple[str, ...]] = (BROKE, *WORST_FIRST, NOT_ASKED)
"""What a finding can come to, worst first."""
IDLE: Final = {NOT_ASKED, "not applicable"}
"""From the one to the other nothing is asked of anybody: such findings are counted only."""


class Move(Struct, frozen=True):
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


class Judged(Struct, frozen=True):
    """A site that both editions judged."""

    site: str
    file: str
    region: str
    moves: tuple[Move, ...]
    shifts: tuple[Shift, ...] = ()
    idle: int = 0
    """Findings that are asked now, or no more, of things to which the rule does not apply."""
    layers_before: tuple[str, ...] = ()
    """By which layers the old edition judged it, nearest first."""
    layers_after: tuple[str, ...] = ()


class NotJudged(Struct, frozen=True):
    """A file that holds no site which can be judged."""

    file: str
    problems: tuple[Problem, ...]
    """What is wrong with the file; none where the site only names no region."""


class NotShown(Struct, frozen=True):
    """A provision that changed and is not in force on the day, so that nothing of it shows."""

    rule: str
    authority: str
    layer: str
    begins: bool
    """Whether it begins later; else it has ended."""
    day: dt.date
    """Its first day, or its last."""


class Impact(Struct, frozen=True):
    """What would change at all sites, in the order of their files."""

    judged: tuple[Judged, ...]
    not_judged: tuple[NotJudged, ...]
    regions_without_site: tuple[str, ...] = ()
    """Layers that ask otherwise and belong to no site's own region; none where one region was named for all."""
    not_laid: tuple[str, ...] = ()
    """Layers for any region that ask otherwise and were not laid on."""
    not_shown: tuple[NotShown, ...] = ()
    """What changed and is not in force on the day."""


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
    region: str | None = None,
    not_read: Sequence[NotJudged] = (),
) -> Impact:
    """Every site read once and judged by both editions, region by region, so that each is made ready once for it.

    `region` replaces the one that each site names. `not_read`, the files that held no site, stand among what was not
    judged.
    """
    called = {one: other for one, other in pairs(old, new) if one is not None and other is not None}
    causes: dict[str, list[Change]] = {}
    found = [change for change in diff(old, new).changes if change.part == 1]
    asks_otherwise = [change for change in found if change.about]
    for change in asks_otherwise:
        causes.setdefault(change.about, []).append(change)
    if all(change.what != "extends" for change in found):
        old, new = _only_what_is_asked_otherwise(old, new, set(causes), called)
    judged, not_judged = [], list(not_read)
    for site in sorted(sites, key=lambda each: str(getattr(each.region, "value", ""))):
        asked = region or str(getattr(site.region, "value", "") or "")
        try:
            held = [
                book.held_region(asked and region_in(book, other, asked)) for book, other in pairwise((old, new, old))
            ]
        except NoRegion:
            not_judged.append(NotJudged(site.document.file, ()))
            continue
        known = facts(site)
        found_by = [
            findings_of(site, known, book, region=name, as_of=as_of)
            for book, name in zip((old, new), held, strict=True)
        ]
        layers = [tuple(layer.name for layer in book.chain(name)) for book, name in zip((old, new), held, strict=True)]
        at = At(site.id, site.document.file, held[1])
        judged.append(_judged(at, layers, found_by, called, causes))
    heard = {layer.name for each in judged for layer in new.chain(each.region)}
    unheard = sorted({change.layer for change in asks_otherwise if change.layer in new.layers} - heard)
    return Impact(
        tuple(sorted(judged, key=lambda each: each.file)),
        tuple(sorted(not_judged, key=lambda each: each.file)),
        tuple(name for name in unheard if region is None and not new.layers[name].lies_on_any_region),
        tuple(name for name in unheard if new.layers[name].lies_on_any_region),
        tuple(_not_shown(asks_otherwise, as_of)),
    )


def _only_what_is_asked_otherwise(
    old: Rulebook, new: Rulebook, changed: set[str], called: Mapping[str, str]
) -> tuple[Rulebook, Rulebook]:
    """Both editions without the rules of which no thing can be asked otherwise, since those come out as they did.

    Asked otherwise is what changed, and what a layer asks that is laid on in one edition only.
    """
    laid = set(old.laid) ^ set(new.laid)
    asked = changed | {each.rule for book in (old, new) for each in book.all_provisions if each.layer in laid}
    return (
        replace(old, rules={id: rule for id, rule in old.rules.items() if called.get(id, id) in asked or id in asked}),
        replace(new, rules={id: rule for id, rule in new.rules.items() if id in asked}),
    )


def _not_shown(changes: Iterable[Change], day: dt.date) -> Iterator[NotShown]:
    """Each provision that changed and speaks on another day only, once."""
    told = set()
    for change in changes:
        held = [one for one in _changed(change) if one is not None]
        if not held or any(one.speaks_on(day) for one in held):
            continue
        begins = [one.from_ for one in held if one.from_ is not None and one.from_ > day]
        ended = [one.until for one in held if one.until is not None]
        found = NotShown(change.about, change.authority, change.layer, bool(begins), min(begins or ended))
        if found not in told:
            told.add(found)
            yield found


def _changed(change: Change) -> tuple[Provision | None, ...]:
    """The provision that a change is about, in both editions; not the one that it replaces or that replaces it."""
    if change.what in ("edition", "nearer"):
        return (change.now,)
    return (change.was,) if change.what == "farther" else (change.was, change.now)


def _judged(
    at: At,
    layers: Sequence[tuple[str, ...]],
    found_by: Sequence[Sequence[Finding]],
    called: Mapping[str, str],
    causes: Mapping[str, Sequence[Change]],
) -> Judged:
    """What one site is told; layers and findings by the old edition, then by the new."""
    old = {_about(each, called): each for each in found_by[0]}
    new = {_about(each, {}): each for each in found_by[1]}
    moves = [
        _move(at, old.get(about), new.get(about), causes.get(about[0], ()))
        for about in {**new, **old}
        if come_to(old.get(about)) != come_to(new.get(about))
    ]
    told = [move for move in moves if {move.before, move.after} != IDLE]
    ordered = sorted(told, key=lambda one: (OUTCOMES.index(one.after), OUTCOMES.index(one.before),
                                             SEVERITIES.index(one.severity), one.rule, one.subject))  # fmt: skip
    shifts = tuple(
        shift(at, old[about], new[about], causes.get(about[0], ()))
        for about in sorted(old.keys() & new.keys())
        if shifted(old[about], new[about])
    )
    return Judged(
        at.site,
        at.file,
        at.region,
        tuple(ordered),
        shifts,
        len(moves) - len(told),
        *layers,
    )


def _about(finding: Finding, called: Mapping[str, str]) -> tuple[str, str, str]:
    """The rule by its new id, and what it was asked of."""
    return called.get(finding.rule, finding.rule), finding.subject.kind, finding.subject.id


def _move(at: At, old: Finding | None, new: Finding | None, causes: Sequence[Change]) -> Move:
    shown = new or old
    assert shown is not None
    return Move(
        site=at.site,
        file=at.file,
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
