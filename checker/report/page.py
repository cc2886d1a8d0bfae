"""A page of plain text: clean, wrapped to a width, with a few lines in bold or one colour.

Everything a person reads on a terminal passes through here, so this is where text from strangers is made harmless.
"""

import re
import unicodedata
from collections.abc import Callable, Iterable, Iterator

import click

GLUE = "\N{NO-BREAK SPACE}"
"""Keeps a number and its unit on one line; printed as a plain space."""
_LONGEST = 4000
_SPACES = dict.fromkeys(map(ord, "\n\r\t\v\f\N{LINE SEPARATOR}\N{PARAGRAPH SEPARATOR}\N{NEXT LINE}"), " ")
_ORDINARY = re.compile("[ -~\u00a0-\u00ac\u00ae-\u02ff\u2010-\u2027\u2030-\u205e\u2190-\u22ff]*")
"""Text of which every character is printed as it is and takes one column: no more is looked at."""
_JOINERS = "\N{ZERO WIDTH NON-JOINER}\N{ZERO WIDTH JOINER}"
_MOST_MARKS = 3
_WIDEST = 2


def clean(text: str, longest: int = _LONGEST) -> str:
    """The text on one line, shortened, with control, format and unassigned characters spelt out instead of obeyed."""
    if len(text) > longest:
        text = text[: longest - 1] + "…"
    return text if _ORDINARY.fullmatch(text) else "".join(_shown(text.translate(_SPACES)))


def _shown(text: str) -> Iterator[str]:
    marks = 0
    for character in text:
        category = unicodedata.category(character)
        marks = marks + 1 if category in ("Mn", "Me") else 0
        if category.startswith("C") and character not in _JOINERS:
            yield f"<U+{ord(character):04X}>"
        elif marks <= _MOST_MARKS:
            yield character


def columns(text: str) -> int:
    """How many columns of a terminal a clean text takes: East Asian wide characters take two, combining marks none."""
    return len(text) if text.isascii() or _ORDINARY.fullmatch(text) else sum(map(_columns_of, text))


def _columns_of(character: str) -> int:
    if unicodedata.category(character) in ("Mn", "Me", "Cf"):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def wrap(text: str, width: int, first: str = "", rest: str = "") -> list[str]:
    """Lines of at most `width` columns; the first begins with `first`, the others with `rest`.

    A word too long for a line is broken. What a line begins with leaves room for two columns at least.
    """
    measure = len if _ORDINARY.fullmatch(text) else columns
    left, beside = columns(first), columns(rest)
    if measure is len and left == beside and (cut := _cut(text, width - left)) is not None:
        return [f"{rest if number else first}{line}".rstrip().replace(GLUE, " ") for number, line in enumerate(cut)]
    lines, line, room = [], first, width - left
    fresh = True
    for word in _words(text, width - max(left, beside), measure):
        needed = measure(word) + (not fresh)
        if needed > room:
            lines.append(line)
            line, room, fresh, needed = rest, width - beside, True, measure(word)
        line += word if fresh else " " + word
        room -= needed
        fresh = False
    return [full.rstrip().replace(GLUE, " ") for full in [*lines, line]]


def _cut(text: str, width: int) -> list[str] | None:
    """A text cut at spaces; None where that is not enough: spaces side by side, a word too long for a line."""
    if "  " in text or text != text.strip(" "):
        return None
    lines = []
    while len(text) > width:
        space = text.rfind(" ", 0, width + 1)
        if space < 0:
            return None
        lines.append(text[:space])
        text = text[space + 1 :]
    return [*lines, text]


def _words(text: str, width: int, measure: Callable[[str], int]) -> Iterator[str]:
    most = max(width, _WIDEST)
    for word in text.split(" "):
        while measure(word) > most:
            head = _head(word, most)
            yield head
            word = word[len(head) :]
        if word:
            yield word


def _head(word: str, width: int) -> str:
    taken = 0
    for place, character in enumerate(word):
        taken += _columns_of(character)
        if taken > width:
            return word[:place]
    return word


class Page:
    """Lines in the making. `indent` and `across` are columns at the left; every text is cleaned and wrapped."""

    def __init__(self, width: int = 80, colour: bool = False) -> None:
        self._lines: list[str] = []
        self._width = width
        self._colour = colour

    def text(self, text: str, indent: int = 0, first: str = "", *, bold: bool = False, fg: str | None = None) -> None:
        """A paragraph; `first` hangs out at its left."""
        lead = " " * indent + clean(first)
        self._add(wrap(clean(text), self._width, lead, " " * columns(lead)), bold, fg)

    def row(self, label: str, text: str, indent: int = 3, across: int = 11) -> None:
        """A paragraph to the right of its label, which takes `across` columns, or below one that is longer."""
        left, rest = " " * indent + clean(label), " " * (indent + across)
        gap = columns(rest) - columns(left)
        if gap < 1:
            self.text(label, indent)
        self._add(wrap(clean(text), self._width, left + " " * gap if gap >= 1 else rest, rest))

    def rows(self, label: str, texts: Iterable[str], indent: int = 3, across: int = 11) -> None:
        """Paragraphs under one label, each on a line of its own; nothing when there are none."""
        for number, text in enumerate(texts):
            self.row("" if number else label, text, indent, across)

    def heading(self, text: str) -> None:
        """A line in bold, ruled off, after an empty one."""
        self.gap()
        lines = wrap(clean(text), self._width)
        self._add(lines, bold=True)
        self._add(["-" * min(max(map(columns, lines)), self._width)])

    def gap(self) -> None:
        """One empty line, unless one is there already."""
        if self._lines and self._lines[-1]:
            self._lines.append("")

    def _add(self, lines: list[str], bold: bool = False, fg: str | None = None) -> None:
        styled = self._colour and (bold or fg)
        self._lines += [click.style(line, bold=bold or None, fg=fg) for line in lines] if styled else lines

    def __str__(self) -> str:
        return "\n".join(self._lines).rstrip("\n") + "\n"
