"""A result as plain text for a terminal or a printer."""

from collections.abc import Iterable

from checker.findings.result import Result
from checker.report import Drawing
from checker.report.advice import paragraphs
from checker.report.blocks import content
from checker.report.content import Caution, Entry, Items, Paragraph, Part, Row, Rows, Section
from checker.report.page import Page
from checker.report.sentences import say

_SEPARATOR = "\n" + "=" * 40 + "\n\n"
_INDENTS = (0, 3, 4)
_ACROSS = (11, 12, 12)
"""Of labelled lines and their labels: in the head, in a section, in a section within one."""


def render(result: Result, width: int = 80, colour: bool = False, details: bool = False) -> str:
    """The whole report, each line at most `width` columns. `details` shows the full working of what is fine as well."""
    page, told = Page(width, colour), content(result, details)
    page.text(told.title, bold=True)
    _parts(page, told.head)
    if told.plans_elsewhere:
        page.text(told.plans_elsewhere)
    _parts(page, told.sections)
    return str(page)


def render_all(results: Iterable[Result], drawing: Drawing) -> str:
    """The reports one after another."""
    return _SEPARATOR.join(render(one, drawing.width, drawing.colour, drawing.details) for one in results)


def _parts(page: Page, parts: Iterable[Part], depth: int = 0) -> None:
    for part in parts:
        match part:
            case Paragraph():
                page.text(part.text, bold=part.strong)
            case Caution():
                _caution(page, part, depth)
            case Items():
                _items(page, part)
            case Rows():
                _rows(page, part, depth)
            case Entry():
                _entry(page, part)
            case Section():
                _section(page, part, depth)


def _section(page: Page, section: Section, depth: int) -> None:
    if depth:
        page.gap()
        page.text(section.heading, bold=True)
    else:
        page.heading(section.heading)
    _parts(page, section.parts, depth + 1)


def _caution(page: Page, caution: Caution, depth: int) -> None:
    if not depth:
        page.gap()
    page.text(caution.text)
    page.gap()


def _items(page: Page, items: Items) -> None:
    if items.lead:
        page.text(items.lead)
    for item in items.items:
        page.text(item, indent=3, first="- ")


def _rows(page: Page, rows: Rows, depth: int) -> None:
    if rows.lead:
        page.text(rows.lead, indent=2)
    for row in rows.rows:
        page.rows(row.label, row.lines, _INDENTS[depth], _ACROSS[depth])


def _entry(page: Page, entry: Entry) -> None:
    page.gap()
    page.text(entry.heading, first=f"{entry.number}. ", bold=True, fg="red" if entry.severity == "critical" else None)
    page.text(entry.title, indent=3)
    for row in entry.rows:
        page.rows(row.label, _lines(row))
    for number, step in enumerate(entry.working, 1):
        page.rows("" if number > 1 else say("label_working"), (f"{number}. {step.name}", *step.lines))
    for row in entry.reference:
        page.rows(row.label, row.lines)


def _lines(row: Row) -> list[str]:
    return [first + text for first, text in (*paragraphs(row.markdown), *(("", line) for line in row.lines))]
