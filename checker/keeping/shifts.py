"""Findings that keep their outcome while what they are held against moves: another limit, or another margin."""

from collections.abc import Sequence
from typing import Final

from msgspec import Struct

from checker.findings.result import Finding, ProvisionResult, Value
from checker.keeping.changes import Change
from checker.rules.model import Place
from checker.vocabulary import Severity

NOT_ASKED: Final = "not asked"
BROKE: Final = "rule broke"


class At(Struct, frozen=True):
    """Which site it is, where it is described, and by which region the new edition judges it."""

    site: str
    file: str
    region: str


class Asks(Struct, frozen=True):
    """What governs a finding: who asks, by which limits, and how much room that leaves."""

    authority: str
    layer: str
    limits: tuple[tuple[str, Value], ...]
    """By name, as the provision gives them; none where a table or the rule itself holds the limit."""
    measured: Value | None
    limit: Value | None
    operator: str | None
    margin: Value | None
    part: str
    """The part of the rule that decides, as that writes it; a margin belongs to it alone."""


class Shift(Struct, frozen=True):
    """One finding with the same outcome, held against another limit or with another margin."""

    site: str
    region: str
    rule: str
    title: str
    severity: Severity
    acts: str
    place: tuple[str, ...]
    subject: str
    outcome: str
    before: Asks
    after: Asks
    why: tuple[Change, ...]


def come_to(finding: Finding | None) -> str:
    """The outcome of a finding, that its rule broke, or that nobody asks."""
    if finding is None:
        return NOT_ASKED
    return BROKE if finding.because == "rule broke" else finding.outcome


def shifted(old: Finding, new: Finding) -> bool:
    """Whether a finding that was judged comes to the same by another limit, or with another margin."""
    if come_to(old) != come_to(new) or new.outcome == "not applicable":
        return False
    return _held_against(old) != _held_against(new)


def _held_against(finding: Finding) -> object:
    """What a finding is held against and what room that leaves, whatever the words and whoever asks it."""
    limits = {name: limit.value for name, limit in _governing(finding).limit.items()}
    return limits, *(each and each.value for each in (finding.limit, finding.margin))


def _governing(finding: Finding) -> ProvisionResult:
    return next(each for each in finding.provisions if each.governs)


def _asks(finding: Finding) -> Asks:
    governs = _governing(finding)
    limits = tuple(sorted(governs.limit.items()))
    part = next((each.text for each in finding.parts if each.governs), "")
    return Asks(governs.authority, governs.layer, limits, finding.measured, finding.limit, finding.operator,
                finding.margin, part)  # fmt: skip


def shift(at: At, old: Finding, new: Finding, causes: Sequence[Change]) -> Shift:
    """Both sides of a finding that shifted; `causes` are the changes of its rule."""
    return Shift(
        site=at.site,
        region=at.region,
        rule=new.rule,
        title=new.title,
        severity=new.severity,
        acts=new.acts,
        place=new.subject.place,
        subject=f"{new.subject.kind} {new.subject.id}",
        outcome=new.outcome,
        before=_asks(old),
        after=_asks(new),
        why=tuple(change for change in causes if bears_on(change, old, new)),
    )


def bears_on(change: Change, old: Finding | None, new: Finding | None) -> bool:
    """Whether a change can be behind a finding: one of the rule itself, or of a provision that was asked there."""
    if not change.authority:
        return True
    return _cites(old, change.was_at) or _cites(new, change.at)


def _cites(finding: Finding | None, place: Place | None) -> bool:
    if finding is None or place is None:
        return False
    cited = ((each.location.file, each.location.line) for each in finding.provisions)
    return (place.file, place.line) in cited
