"""Where the values of the rulesets come from, as those who keep them read it: who uses what, and what is to confirm."""

from collections.abc import Mapping, Sequence
from typing import Protocol

from checker.report.page import Page
from checker.report.sentences import say
from checker.report.shapes import Entry, Formula, Provision
from checker.report.words import status_words


class Resting(Protocol):
    """A source, and what rests on it."""

    @property
    def source(self) -> Entry:
        """The entry of the bibliography."""

    @property
    def provisions(self) -> Sequence[Provision]:
        """Whose values come from it."""


class Sources(Protocol):
    """Who uses which source."""

    @property
    def by_status(self) -> Mapping[str, int]:
        """How many provisions have each status."""

    @property
    def used(self) -> Sequence[Resting]:
        """Sources in the order in which they are drawn."""

    @property
    def common_practice(self) -> Sequence[Provision]:
        """What names no source."""

    @property
    def to_confirm(self) -> Sequence[Provision]:
        """What is remembered only."""

    @property
    def formulas_to_confirm(self) -> Sequence[Formula]:
        """Formulas with something remembered only."""

    @property
    def unused(self) -> Sequence[Entry]:
        """Sources on which nothing rests."""


def sources(found: Sources, status: str | None = None, width: int = 80) -> str:
    """What rests on each source, what is still to confirm, and sources nobody uses.

    With `status`, only what has it: `found` holds no other provisions then, and nobody asks what is not used.
    """
    page = Page(width)
    if status is None:
        counts = (say("sources_count", count=count, status=name) for name, count in found.by_status.items())
        page.text(say("sources_counts", counts=say("list").join(counts)))
    if (found.used and status == "common practice") or status in (None, "verified", "secondary"):
        page.heading(say("sources_used", count=len(found.used)))
        for each in found.used:
            _entry(page, each.source)
            for one in each.provisions:
                _provision(page, one)
    if status in (None, "common practice"):
        page.heading(say("sources_common_practice", count=len(found.common_practice)))
        for one in found.common_practice:
            _provision(page, one)
    if status in (None, "memory"):
        _to_confirm(page, found, clauses=status is not None)
    if status is None:
        page.heading(say("sources_unused", count=len(found.unused)))
        for source in found.unused:
            _entry(page, source)
            page.row(say("label_place"), say("location", file=source.location.file, line=source.location.line))
    return str(page)


def _to_confirm(page: Page, found: Sources, *, clauses: bool) -> None:
    """The list of what to look up; where it was asked for by itself, with the clauses to begin at."""
    page.heading(say("sources_to_confirm", count=len(found.to_confirm) + len(found.formulas_to_confirm)))
    page.text(say("sources_to_confirm_how"))
    for one in found.to_confirm:
        page.gap()
        if one.source.source is not None:
            _entry(page, one.source.source)
        _provision(page, one, remembered=clauses)
        if one.source.note:
            page.row(say("label_note"), one.source.note, indent=5, across=6)
    for formula in found.formulas_to_confirm:
        page.gap()
        page.text(say("sources_formula", name=formula.name), bold=True)
        page.row(say("label_formula"), formula.formula)
        page.row(say("label_source"), formula.source)


def _entry(page: Page, source: Entry) -> None:
    """What a source is; the id is what provisions write."""
    page.gap()
    edition = say("sources_edition", edition=source.edition) if source.edition else ""
    page.text(say("sources_entry", designation=source.designation, edition=edition, title=source.title), bold=True)
    page.text(say("sources_id", kind=source.kind, id=source.id), indent=3)


def _provision(page: Page, one: Provision, *, remembered: bool = False) -> None:
    """What one provision takes from its source, how it is known, and where it stands.

    `remembered`: with a clause from memory too, which tells whoever confirms the value where to begin. Nowhere else is
    that clause shown: it could be quoted.
    """
    page.text(say("sources_use", rule=one.rule, authority=one.authority, layer=one.layer), indent=3, first="- ")
    values = [say("named", name=name, value=limit.written) for name, limit in one.limit.items()]
    values += [say("sources_table", name=table.id) for table in one.tables.values()]
    told = [say("list").join(values)] if values else []
    if one.source.clause and one.source.status != "memory":
        told.append(one.source.clause)
    if one.source.clause and remembered:
        told.append(say("sources_clause_remembered", clause=one.source.clause))
    if one.source.source is not None:
        told.append(status_words(one.source.status, one.source.read_in))
    at = say("location", file=one.location.file, line=one.location.line)
    page.text(say("parted").join([*told, at]), indent=5)
