"""What changed from one edition of the rulesets to the next, as a person reads it who knows codes."""

import datetime as dt
from collections.abc import Iterator, Sequence
from itertools import groupby

from checker.report.asked_words import asked_words, day_words, limit_words, spaced, span_words
from checker.report.change_shapes import Change, Diff, Trial, Version
from checker.report.page import Page
from checker.report.sentences import has, say
from checker.report.shapes import Provision
from checker.report.words import cited_words

_SIDE_BY_SIDE = frozenset({"field", "expression", "form", "note", "bibliography", "not held", "authorities"})
"""What is too long for one sentence: before and now stand below each other."""
_REPLACED = frozenset({"edition", "nearer", "farther"})
_ASKED = _REPLACED | {"provision"}
_RULES = frozenset({"rule", "rule not asked"})
_DAYS = frozenset({"from", "until"})
_SOURCED = _ASKED | _DAYS | {"limit", "table", "row", "judges"}
"""What rests on a source, which stands below it."""
_NAMES_ITSELF = frozenset({"name", "merged", "layer of rule", "bibliography"})
"""Sentences that hold the name of what they are about."""


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
        page.row(say(label), text, indent=5)
    _others(page, change)
    if change.trial is not None:
        page.rows(say("label_tried"), _tried(change.trial), indent=5)
    place = change.at or change.was_at
    if place is not None:
        key = "location" if change.at is not None else "location_old"
        page.row(say("label_place"), say(key, file=place.file, line=place.line), indent=5)


def _below(change: Change) -> Iterator[tuple[str, str]]:
    """What stands below the sentence: what a rule asks, where a value comes from, and on which days it holds."""
    if change.rule is not None:
        yield "label_severity", say("severity_acts", severity=change.rule.severity, acts=change.rule.acts)
        yield "label_each", change.rule.each
        yield "label_when", change.rule.when or say("diff_always")
        yield "label_require", change.rule.require
    shown = change.now or change.was
    if shown is None or change.what not in _SOURCED:
        return
    yield "label_source", cited_words(shown.source)
    if shown.source.note:
        yield "label_note", shown.source.note
    if change.what in _REPLACED and change.was is not None:
        yield "label_before", cited_words(change.was.source)
    if (shown.from_ or shown.until) and change.what not in _DAYS:
        yield "label_in_force", span_words(shown.from_, shown.until)
    if change.stood is not None and change.what != "edition":
        yield "label_until_then", _stands(change.stood, change)
    if change.follows is not None:
        yield "label_after_that", _stands(change.follows, change)


def _stands(provisions: Sequence[Provision], change: Change) -> str:
    """Who asks what; by name alone where it is told below."""
    below = [(each.provision.authority, each.provision.layer) for each in change.beside]
    if provisions and all((each.authority, each.layer) in below for each in provisions):
        names = (say("rule_provision", authority=each.authority, layer=each.layer) for each in provisions)
        return say("diff_without_it", names=say("list").join(names))
    return say("parted").join(_asks(each, change) for each in provisions) or say("provisions_nobody")


def _asks(provision: Provision, change: Change) -> str:
    """Who asks what, in which layer."""
    asked = asked_words(provision, change.operators)
    key = "rule_provision_asks" if asked else "rule_provision"
    return say(key, authority=provision.authority, layer=provision.layer, asked=asked)


def _others(page: Page, change: Change) -> None:
    """What stands beside a provision or is silenced by it, each limit beside the other one."""
    again = "diff_heard_again" if change.what == "provision" and change.now is None else "diff_silences"
    for key, others in (("diff_beside", change.beside), (again, change.silenced)):
        for other in others:
            page.text(say(key, asks=_asks(other.provision, change)), indent=5)
            if other.provision.source.note and change.beside:
                page.row(say("label_note"), other.provision.source.note, indent=7, across=6)
            for one in other.limits:
                way = f"diff_limit {one.way}" + (" beside" if key == "diff_beside" else "")
                told = say(way, name=spaced(one.name), own=one.own, other=one.other)
                page.text(told, indent=7, first="- ")


def told_of(change: Change, *, alone: bool = True) -> str:
    """One change in one sentence; not `alone`: under the id of its rule, which is not said again."""
    key = f"change {change.what}"
    before, after = _sides(change)
    if not before and has(f"{key} new"):
        key += " new"
    elif not after and has(f"{key} gone"):
        key += " gone"
    if before == after and has(f"{key} same"):
        key += " same"
    if change.what in _ASKED and not (before or after):
        key = f"change {change.what} plain" + (" gone" if change.how == "withdrawn" else "")
    field = f"field {change.name}"
    told = say(
        key,
        about=change.about,
        authority=change.authority,
        name=say(field) if has(field) else _name(change),
        before=before,
        after=after,
        layer=change.layer,
    )
    if not alone or not change.about or change.what in _NAMES_ITSELF:
        return told
    return say("diff_about", about=change.about, change=told)


def _name(change: Change) -> str:
    if change.what == "edition":
        return day_words(dt.date.fromisoformat(change.name))
    return spaced(change.name) if change.what == "limit" else change.name


def _sides(change: Change) -> tuple[str, str]:
    """What stood before and what stands now, in words."""
    before, after = change.before, change.after
    if change.what in _DAYS:
        days = (side and day_words(dt.date.fromisoformat(side)) for side in (before, after))
        return next(days), next(days)
    if change.what == "limit":
        return before, limit_words(change.name, after, change.operators.get(change.name)) if after else ""
    if change.what in _ASKED:
        left_out = change.alike
        sides = ((change.was, before), (change.now, after))
        said = [asked_words(one, change.operators, left_out) if one is not None and side else "" for one, side in sides]
        return said[0], said[1]
    return before, after


def reason(change: Change) -> str:
    """Why something comes out otherwise, under its rule: one change in one line, from when, and if only remembered."""
    told = say("impact_why", how=say(f"how {change.how}"), layer=change.layer, change=told_of(change, alone=False))
    now = change.now
    if now is not None and now.from_ is not None and change.what in _SOURCED - _DAYS - {"edition"}:
        told = say("impact_why_from", why=told, day=day_words(now.from_))
    remembered = now is not None and change.what in _SOURCED and now.source.status == "memory"
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
