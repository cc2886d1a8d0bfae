"""Findings that keep their outcome by another limit or with another margin, as part of what a change does."""

from collections.abc import Sequence
from itertools import groupby
from typing import Protocol

from checker.findings.result import Value
from checker.report.change_shapes import JudgedTwice
from checker.report.changes import reason
from checker.report.page import Page
from checker.report.part_words import part_name
from checker.report.sentences import say
from checker.report.words import Country, country_of, margin_words, value_words

_WORST_FIRST = ("rule broke", "not met", "undetermined", "met", "not applicable", "not asked")


class Asks(Protocol):
    """What governs a finding."""

    @property
    def limits(self) -> Sequence[tuple[str, Value]]:
        """The limits of the provision that governs."""

    @property
    def measured(self) -> Value | None:
        """What is compared."""

    @property
    def limit(self) -> Value | None:
        """What it is compared with."""

    @property
    def operator(self) -> str | None:
        """How."""

    @property
    def margin(self) -> Value | None:
        """How much room there is."""

    @property
    def part(self) -> str:
        """The part of the rule that decides."""


class Shift(JudgedTwice, Protocol):
    """One finding with the same outcome by another limit or with another margin."""

    @property
    def region(self) -> str:
        """The region it was judged by."""

    @property
    def outcome(self) -> str:
        """What it comes to by both editions."""

    @property
    def before(self) -> Asks:
        """What governs by the old edition."""

    @property
    def after(self) -> Asks:
        """What governs by the new edition."""


def rank(outcome: str) -> int:
    """Where an outcome stands among all that a finding can come to, worst first."""
    return _WORST_FIRST.index(outcome)


def draw_shifts(page: Page, shifts: Sequence[Shift]) -> None:
    """Rule by rule and limit by limit, each thing with its margin before and now."""
    if shifts:
        page.heading(say("impact_shifts", count=len(shifts)))
    for _, of_rule in groupby(sorted(shifts, key=lambda shift: shift.rule), key=lambda shift: shift.rule):
        group = list(of_rule)
        first = group[0]
        page.gap()
        page.text(
            say("impact_rule", rule=first.rule, severity=say(f"severity {first.severity}"), acts=first.acts), bold=True
        )
        page.text(first.title)
        page.rows(say("label_why"), dict.fromkeys(reason(change) for shift in group for change in shift.why))
        alike: dict[str, list[Shift]] = {}
        for shift in sorted(group, key=lambda shift: rank(shift.outcome)):
            alike.setdefault(_shift(shift), []).append(shift)
        for told, those in alike.items():
            page.text(say("impact_shift_group", shift=told, count=len(those)), indent=3)
            for shift in those:
                page.text(_shift_line(shift), indent=6, first="- ")


def _shift(shift: Shift) -> str:
    """The outcome, and the limits that are others now."""
    outcome, country = say(f"outcome {shift.outcome}"), country_of(shift.region)
    before, after = dict(shift.before.limits), dict(shift.after.limits)
    names = [name for name in after if name in before and before[name].value != after[name].value]
    if names:
        sides = [
            say("list").join(say("named", name=name, value=value_words(side[name], None, country)) for name in names)
            for side in (before, after)
        ]
    else:
        compared = (shift.before.limit, shift.after.limit)
        sides = [value_words(each, None, country) for each in compared if each is not None]
    if len(sides) < len((before, after)) or sides[0] == sides[1]:
        return say("impact_shift_margin", outcome=outcome)
    return say("impact_shift", outcome=outcome, before=sides[0], after=sides[1])


def _shift_line(shift: Shift) -> str:
    """Where it is and how much room there is; of a margin before and now only where the same part decides."""
    place = place_words(shift.place, shift.site, shift.subject)
    line = say("impact_shift_line", site=shift.site, place=place) if place else shift.site
    before, after = (_room(each, country_of(shift.region)) for each in (shift.before, shift.after))
    if shift.before.part and shift.after.part and shift.before.part != shift.after.part:
        name = part_name(shift.after.part)
        return say("impact_shift_decides" if after else "impact_shift_decides_bare", line=line, part=name, after=after)
    both = before and after and before != after
    return say("impact_shift_room", line=line, before=before, after=after) if both else line


def _room(asks: Asks, country: Country) -> str:
    return margin_words(asks.margin, asks.measured, asks.limit, asks.operator, country) if asks.margin else ""


def place_words(place: Sequence[str], site: str, subject: str) -> str:
    """Where something is within its site, which is named beside it; empty where it is the site as a whole."""
    inside = place[1:] if place and (place[0] == site or place[0].endswith(f"({site})")) else place
    return say("place_separator").join(inside) if place else subject
