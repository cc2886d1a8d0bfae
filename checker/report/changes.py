"""What changed from one edition of the rulesets to the next, as a person reads it who knows codes."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Protocol

from checker.report.page import Page
from checker.report.sentences import has, say
from checker.report.shapes import Place, Provision, Rule, SourceUse
from checker.report.words import cited_words

_SIDE_BY_SIDE = frozenset({"field", "expression", "form", "note", "bibliography", "not held", "authorities"})
"""What is too long for one sentence: before and now stand below each other."""
_ASKED = frozenset({"provision", "edition", "nearer", "farther"})
_RULES = frozenset({"rule", "rule not asked"})
_SOURCED = _ASKED | {"limit", "table", "row", "from", "until", "judges"}
"""What rests on a source, which stands below it."""


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

    @property
    def rule(self) -> Rule | None:
        """The rule that came or went."""

    @property
    def source(self) -> SourceUse | None:
        """Where the values come from."""

    @property
    def was_source(self) -> SourceUse | None:
        """Where the values come from that it replaces."""

    @property
    def beside(self) -> Sequence[Provision]:
        """What others ask there."""

    @property
    def silenced(self) -> Provision | None:
        """The good practice that is not heard any more."""


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
    """Each layer's changes by the way they go, then what they ask of the versions; `old` and `new` name the folders."""
    page = Page(width)
    page.text(_counted("diff_count", len(diff.changes), old=old, new=new))
    titles = {version.layer: version.title for version in diff.versions}
    for layer, of_layer in groupby(diff.changes, key=lambda change: change.layer):
        page.heading(say("diff_layer", layer=layer, title=titles.get(layer, "")))
        for how, group in groupby(of_layer, key=lambda change: change.how):
            page.gap()
            page.text(say(f"diff {how}"), bold=True)
            for change in group:
                _change(page, change)
    _versions(page, diff)
    return str(page)


def _versions(page: Page, diff: Diff) -> None:
    """Layers whose version moves or has to; the others in one line."""
    told = [each for each in diff.versions if each.rises or each.before != each.after]
    if told:
        page.heading(say("diff_versions"))
    for version in told:
        page.text(_version(version), first="- ")
    left = [each.layer for each in diff.versions if each not in told]
    if told and left:
        page.gap()
        page.text(say("diff_unchanged", layers=say("list").join(left)))


def _counted(key: str, count: int, **fields: object) -> str:
    return say(f"{key}_one" if count == 1 else f"{key}_none" if count == 0 else key, count=count, **fields)


def _version(version: Version) -> str:
    fields = {"layer": version.layer, "before": version.before, "after": version.after, "least": version.least}
    if version.before is None or version.after is None:
        return say("version new" if version.before is None else "version gone", **fields)
    rises = ("none", "first", "second")[version.rises]
    return say(f"version {rises}" if version.enough else f"version {rises} short", **fields)


def _change(page: Page, change: Change) -> None:
    told = told_of(change)
    first_part_group = change.how not in ("words", "sources", "cases")
    if first_part_group and change.part == 2 and change.what not in _RULES:
        told = say("diff_no_effect", change=told)
    page.text(told, indent=3, first="- ")
    if change.what in _SIDE_BY_SIDE:
        page.row(say("label_before"), change.before or say("diff_nothing"), indent=5)
        page.row(say("label_now"), change.after or say("diff_nothing"), indent=5)
    for label, text in _below(change):
        page.row(say(label) if label else "", text, indent=5)
    if change.trial is not None:
        page.rows(say("label_tried"), _tried(change.trial), indent=5)
    place = change.at or change.was_at
    if place is not None:
        key = "location" if change.at is not None else "location_old"
        page.row(say("label_place"), say(key, file=place.file, line=place.line), indent=5)


def _below(change: Change) -> Iterator[tuple[str, str]]:
    """What stands below the sentence: what a rule asks, where a value comes from, and what others ask there."""
    if change.rule is not None:
        yield "label_severity", say("severity_acts", severity=change.rule.severity, acts=change.rule.acts)
        yield "label_each", change.rule.each
        yield "label_when", change.rule.when or say("diff_always")
        yield "label_require", change.rule.require
    if change.source is not None and change.what in _SOURCED:
        yield "label_source", cited_words(change.source)
        if change.was_source is not None:
            yield "label_before", cited_words(change.was_source)
    for label, others in (("label_beside", change.beside), ("label_silenced", [change.silenced])):
        for number, other in enumerate(each for each in others if each is not None):
            yield "" if number else label, _asks(other)


def _asks(provision: Provision) -> str:
    """Who asks what, in which layer."""
    asked = [say("named", name=name, value=limit.written) for name, limit in provision.limit.items()]
    asked += [say("sources_table", name=table.id) for table in provision.tables.values()]
    key = "rule_provision_asks" if asked else "rule_provision"
    return say(key, authority=provision.authority, layer=provision.layer, asked=say("list").join(asked))


def told_of(change: Change) -> str:
    """One change in one sentence."""
    key = f"change {change.what}"
    if not change.before and has(f"{key} new"):
        key += " new"
    elif not change.after and has(f"{key} gone"):
        key += " gone"
    if change.before == change.after and has(f"{key} same"):
        key += " same"
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


def reason(change: Change) -> str:
    """Why something comes out otherwise: one change, in one line, and whether its value is remembered only."""
    told = say("impact_why", how=say(f"how {change.how}"), layer=change.layer, change=told_of(change))
    remembered = change.source is not None and change.source.status == "memory"
    return say("impact_why_memory", why=told) if remembered else told


def _tried(trial: Trial) -> Iterator[str]:
    for each in trial.otherwise:
        key = "tried_old" if each.of_old else "tried_new"
        before, after = (say(f"outcome {outcome}").lower() for outcome in (each.before, each.after))
        yield say(key, number=each.case_number, before=before, after=after)
    if trial.alike or not trial.otherwise:
        yield say("tried_alike", alike=trial.alike)
    if trial.not_tried:
        yield say("tried_not", count=trial.not_tried)
