"""What changed from one edition of the rulesets to the next, as a person reads it who knows codes."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Protocol

from checker.report.page import Page
from checker.report.sentences import has, say
from checker.report.shapes import Place

_SIDE_BY_SIDE = frozenset({"field", "expression", "form", "note", "bibliography", "not held", "authorities"})
"""What is too long for one sentence: before and now stand below each other."""
_ASKED = frozenset({"provision", "edition", "nearer", "farther"})


class Tried(Protocol):
    """A case that comes out otherwise."""

    @property
    def case_number(self) -> int:
        """Its number in its own edition."""

    @property
    def of_old(self) -> bool:
        """Whether it is a case of the old edition."""

    @property
    def before(self) -> str:
        """Its outcome by the old edition."""

    @property
    def after(self) -> str:
        """Its outcome by the new edition."""


class Trial(Protocol):
    """What cases show of a change."""

    @property
    def otherwise(self) -> Sequence[Tried]:
        """Cases that come out otherwise."""

    @property
    def alike(self) -> int:
        """How many do not."""

    @property
    def not_tried(self) -> int:
        """How many only one edition can read."""


class Change(Protocol):
    """One change."""

    @property
    def how(self) -> str:
        """Which way it goes."""

    @property
    def what(self) -> str:
        """Names its sentence."""

    @property
    def layer(self) -> str:
        """The layer that says it."""

    @property
    def about(self) -> str:
        """The rule or the source."""

    @property
    def part(self) -> int:
        """The part of the version that rises by it."""

    @property
    def authority(self) -> str:
        """Who asks."""

    @property
    def name(self) -> str:
        """Which limit, field or case."""

    @property
    def before(self) -> str:
        """What the old edition says."""

    @property
    def after(self) -> str:
        """What the new edition says."""

    @property
    def was_at(self) -> Place | None:
        """Where it stands in the old edition."""

    @property
    def at(self) -> Place | None:
        """Where it stands in the new edition."""

    @property
    def trial(self) -> Trial | None:
        """What cases show of it."""


class Version(Protocol):
    """What the version of a layer must do."""

    @property
    def layer(self) -> str:
        """Its name."""

    @property
    def title(self) -> str:
        """Its title."""

    @property
    def before(self) -> str | None:
        """The old version."""

    @property
    def after(self) -> str | None:
        """The new version."""

    @property
    def rises(self) -> int:
        """The part that must rise."""

    @property
    def least(self) -> str:
        """The least version that is right."""

    @property
    def enough(self) -> bool:
        """Whether it rose so far."""


class Diff(Protocol):
    """All changes and all layers."""

    @property
    def changes(self) -> Sequence[Change]:
        """By layer, then by the way they go."""

    @property
    def versions(self) -> Sequence[Version]:
        """One for each layer."""


def changes(diff: Diff, old: str, new: str, width: int = 80) -> str:
    """The versions first, then each layer's changes by the way they go; `old` and `new` name the folders."""
    page = Page(width)
    page.text(_counted("diff_count", len(diff.changes), old=old, new=new))
    page.heading(say("diff_versions"))
    for version in diff.versions:
        page.text(_version(version), first="- ")
    titles = {version.layer: version.title for version in diff.versions}
    for layer, of_layer in groupby(diff.changes, key=lambda change: change.layer):
        page.heading(say("diff_layer", layer=layer, title=titles.get(layer, "")))
        for how, group in groupby(of_layer, key=lambda change: change.how):
            page.gap()
            page.text(say(f"diff {how}"), bold=True)
            for change in group:
                _change(page, change)
    return str(page)


def _counted(key: str, count: int, **fields: object) -> str:
    return say(f"{key}_one" if count == 1 else f"{key}_none" if count == 0 else key, count=count, **fields)


def _version(version: Version) -> str:
    fields = {"layer": version.layer, "before": version.before, "after": version.after, "least": version.least}
    if version.before is None or version.after is None:
        return say("version new" if version.before is None else "version gone", **fields)
    rises = ("none", "first", "second")[version.rises]
    return say(f"version {rises}" if version.enough else f"version {rises} short", **fields)


def _change(page: Page, change: Change) -> None:
    first_part_group = change.how not in ("words", "sources", "cases")
    told = told_of(change)
    if first_part_group and change.part == 2:
        told = say("diff_no_effect", change=told)
    page.text(told, indent=3, first="- ")
    if change.what in _SIDE_BY_SIDE:
        page.row(say("label_before"), change.before or say("diff_nothing"), indent=5)
        page.row(say("label_now"), change.after or say("diff_nothing"), indent=5)
    if change.trial is not None:
        page.rows(say("label_tried"), _tried(change.trial), indent=5)
    place = change.at or change.was_at
    if place is not None:
        key = "location" if change.at is not None else "location_old"
        page.row(say("label_place"), say(key, file=place.file, line=place.line), indent=5)


def told_of(change: Change) -> str:
    """One change in one sentence."""
    key = f"change {change.what}"
    if not change.before and has(f"{key} new"):
        key += " new"
    elif not change.after and has(f"{key} gone"):
        key += " gone"
    if change.what in _ASKED and not (change.before or change.after):
        key = f"change {change.what} plain" + (" gone" if change.how == "withdrawn" else "")
    field = f"field {change.name}"
    return say(
        key,
        about=change.about,
        authority=change.authority,
        name=say(field) if has(field) else change.name,
        before=change.before,
        after=change.after,
        layer=change.layer,
    )


def _tried(trial: Trial) -> Iterator[str]:
    for each in trial.otherwise:
        key = "tried_old" if each.of_old else "tried_new"
        before, after = (say(f"outcome {outcome}").lower() for outcome in (each.before, each.after))
        yield say(key, number=each.case_number, before=before, after=after)
    if trial.alike or not trial.otherwise:
        yield say("tried_alike", alike=trial.alike)
    if trial.not_tried:
        yield say("tried_not", count=trial.not_tried)
