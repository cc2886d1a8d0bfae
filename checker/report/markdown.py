"""A result as Markdown (CommonMark). A text is one line, so that it reads well wherever it is pasted.

What a stranger wrote stays text: no name makes a link, an image, a tag, a heading or a list. Marks of some common
extensions (bare addresses, tables, struck words, formulas) are taken for what they would mean there.
"""

import re
from collections.abc import Iterable, Iterator, Sequence

from checker.findings.result import Result
from checker.report import Drawing
from checker.report.advice import paragraphs
from checker.report.blocks import content
from checker.report.content import Caution, Entry, Items, Paragraph, Part, Row, Rows, Section, WorkingStep
from checker.report.page import GLUE, clean
from checker.report.sentences import say

_MARKS = re.compile(
    "|".join(
        (
            r"[\\`*~|$]",  # code, emphasis, struck words, tables, formulas
            r"(?<![^\W_])_|_(?![^\W_])",  # emphasis, but not within a word
            r"\](?=\()",  # the middle of a link
            r"<(?![ =\d])",  # tags and addresses
            r"&(?=[#\w])",  # characters by name or number
            r":(?=//)|(?<=mailto):|(?<=www)\.|(?<=\w)@(?=\w)",  # bare addresses
        )
    ),
    re.IGNORECASE,
)
_AT_START = re.compile(r"(?:[-+](?=\s|$)|-(?=[-\s]+$)|=(?==*$)|>|\#(?=\#{0,5}(?:\s|$))|\[)")
"""What makes a list, a rule, a heading, a quotation, a box to tick or what links refer to at the start of a line."""
_NUMBERED = re.compile(r"(\d{1,9})([.)])(?=\s|$)")
_AT_END = re.compile(r"(?<!\S)#+$")
"""What would close a heading."""


def render(result: Result, details: bool = False) -> str:
    """The whole report. `details` shows the full working of what is fine as well."""
    told = content(result, details)
    plans = (escaped(told.plans_elsewhere),) if told.plans_elsewhere else ()
    return "\n\n".join((f"# {escaped(told.title)}", *_parts(told.head, 1), *plans, *_parts(told.sections, 1))) + "\n"


def render_all(results: Iterable[Result], drawing: Drawing) -> str:
    """One document with a part for each site."""
    return "\n".join(render(result, drawing.details) for result in results)


def escaped(text: str) -> str:
    """The text on one line, as Markdown that shows it as it is."""
    line = " ".join(clean(text).replace(GLUE, " ").split())
    line = _AT_END.sub(r"\\\g<0>", _MARKS.sub(r"\\\g<0>", line))
    if _AT_START.match(line):
        return f"\\{line}"
    if numbered := _NUMBERED.match(line):
        return f"{numbered[1]}\\{line[numbered.end(1) :]}"
    return line


def _parts(parts: Iterable[Part], depth: int) -> Iterator[str]:
    for part in parts:
        match part:
            case Paragraph():
                yield _strong(part.text) if part.strong else escaped(part.text)
            case Caution():
                yield f"> {escaped(part.text)}"
            case Items():
                yield from _listed(part.lead, (f"- {escaped(item)}" for item in part.items))
            case Rows():
                yield from _listed(part.lead, map(_row, part.rows))
            case Entry():
                yield from _entry(part, depth)
            case Section():
                yield _heading(part.heading, depth)
                yield from _parts(part.parts, depth + 1)


def _heading(text: str, depth: int) -> str:
    return f"{'#' * (depth + 1)} {escaped(text)}"


def _strong(text: str) -> str:
    return f"**{inner}**" if (inner := escaped(text)) else ""


def _listed(lead: str, lines: Iterable[str]) -> Iterator[str]:
    if lead:
        yield _strong(lead)
    yield "\n".join(lines)


def _entry(entry: Entry, depth: int) -> Iterator[str]:
    yield f"{'#' * (depth + 1)} {entry.number}. {escaped(entry.heading)}"
    yield _strong(entry.title)
    rows = [*map(_row, entry.rows), *_working(entry.working), *map(_row, entry.reference)]
    yield "\n".join(rows)


def _row(row: Row) -> str:
    lines = [*(escaped(paragraph.text) for paragraph in paragraphs(row.markdown)), *map(escaped, row.lines)]
    label = f"- **{escaped(row.label)}:**"
    return f"{label} {lines[0]}" if len(lines) == 1 else "\n".join((label, *(f"  - {line}" for line in lines)))


def _working(steps: Sequence[WorkingStep]) -> Iterator[str]:
    if steps:
        yield f"- **{say('label_working')}:**"
    for number, step in enumerate(steps, 1):
        yield f"  {number}. {escaped(step.name)}"
        yield from (f"     {' ' * (number > 9)}- {escaped(line)}" for line in step.lines)
