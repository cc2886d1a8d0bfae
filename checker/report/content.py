"""What a report says and in which order, in words, before a format sets it on a page.

Every format draws the same content, so none can say more, less or anything else than another. All texts are plain and
may hold what a stranger wrote: each format makes them harmless on its own page.
"""

from typing import TypeAlias

from msgspec import Struct

from checker.report.plan_model import FloorPlan


class Paragraph(Struct, frozen=True):
    """Some sentences."""

    text: str
    strong: bool = False


class Caution(Struct, frozen=True):
    """Sentences that stand apart, so that nobody reads past them."""

    text: str


class Items(Struct, frozen=True):
    """A list without order, below its lead where it has one."""

    items: tuple[str, ...]
    lead: str = ""


class Row(Struct, frozen=True):
    """A label and what it stands for: a text in Markdown, if there is one, and then plain lines."""

    label: str
    lines: tuple[str, ...]
    markdown: str = ""


class Rows(Struct, frozen=True):
    """Labelled lines, below their lead where they have one."""

    rows: tuple[Row, ...]
    lead: str = ""


class WorkingStep(Struct, frozen=True):
    """One computed quantity and the lines that lead to it."""

    name: str
    lines: tuple[str, ...]


class Entry(Struct, frozen=True):
    """One finding in full."""

    id: str
    """The id of the finding: SITE/RULE/SUBJECT."""
    number: int
    severity: str
    heading: str
    title: str
    short: str
    """Severity, title and place in one line, for a list of contents."""
    rows: tuple[Row, ...]
    working: tuple[WorkingStep, ...]
    reference: tuple[Row, ...]
    """Rule and file: for who wants to look it up."""


class Section(Struct, frozen=True):
    """A heading and what stands below it. `name` is the same in every language and edition."""

    name: str
    heading: str
    parts: "tuple[Part, ...]"


Part: TypeAlias = Paragraph | Caution | Items | Rows | Entry | Section


class Content(Struct, frozen=True):
    """The report of one site."""

    site: str
    """The id of the site."""
    title: str
    running_head: str
    """Site and day in one line, to stand on each printed page."""
    head: tuple[Part, ...]
    plans: tuple[FloorPlan, ...]
    """Drawn where a format can draw."""
    plans_elsewhere: str
    """What a format says that cannot; empty where there are none."""
    sections: tuple[Section, ...]
