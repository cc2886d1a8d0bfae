"""A rule's advice, written in Markdown, as plain paragraphs or as HTML in which nothing can be followed or fetched."""

import re
from collections.abc import Iterable, Iterator
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from checker.report.page import clean
from checker.report.sentences import say

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.token import Token

_MARKED = re.compile(
    r"[*`#\[\]<>&\\|~\t]|(?<![A-Za-z0-9])_|_(?![A-Za-z0-9])"
    r"|^\s*(?:[-+]|\d+[.)])(?:\s|$)|^\s*(?:-+|=+)\s*$|^ {4}|  $",
    re.MULTILINE,
)
"""What may mean something in Markdown; without it a text stands as it is and no parser is needed."""
_PARTED = re.compile(r"\n\s*\n")
_LONGEST_ADDRESS = 200
_LIMIT = re.compile(r"\{limit\.([a-z0-9_]+)\}")


class Paragraph(NamedTuple):
    """One block of text; `first` hangs out at its left: a dash or number of a list."""

    first: str
    text: str


def paragraphs(markdown: str) -> tuple[Paragraph, ...]:
    """The blocks of a Markdown text without their marks, in order."""
    text = markdown.strip()
    if not _MARKED.search(text):
        parts = (part.split("\n") for part in _PARTED.split(text)) if text else ()
        return tuple(Paragraph("", " ".join(line.strip() for line in lines)) for lines in parts)
    return tuple(_blocks(_parser().parse(text)))


def with_limits_named(markdown: str) -> str:
    """The advice of a rule apart from any site: no provision governs, so that a limit it names goes by its name."""
    return _LIMIT.sub(lambda found: say("advice_limit", name=found[1]), markdown)


def as_html(markdown: str) -> str:
    """The text as HTML. Tags in it are text; a link is its words and its address; a picture is its words.

    A heading becomes a paragraph of class `lead`, since the page has headings of its own.
    """
    parser = _parser()
    tokens = parser.parse(markdown)
    for token in tokens:
        _tame(token)
    return str(parser.renderer.render(tokens, parser.options, {}))


@cache
def _parser() -> "MarkdownIt":
    from markdown_it import MarkdownIt

    return MarkdownIt("commonmark", {"html": False})


def _tame(token: "Token") -> None:
    token.attrs = {"start": token.attrs["start"]} if "start" in token.attrs else {}
    token.info = ""
    token.content = "\n".join(map(clean, token.content.split("\n")))
    if token.type in ("heading_open", "heading_close"):
        token.tag = "p"
        token.attrs = {"class": "lead"} if token.nesting > 0 else {}
    if token.children:
        token.children = list(_without_links(token.children))


def _without_links(tokens: "Iterable[Token]") -> "Iterator[Token]":
    address = ""
    for token in tokens:
        if token.type == "link_open":
            address = "" if token.markup == "autolink" else str(token.attrs["href"])
        elif token.type == "link_close":
            token.type, token.tag, token.nesting = "text", "", 0
            token.content = say("address", address=clean(address, _LONGEST_ADDRESS)) if address else ""
            yield token
        elif token.type == "image":
            yield from _without_links(token.children or ())
        else:
            _tame(token)
            yield token


def _blocks(tokens: "list[Token]") -> Iterator[Paragraph]:
    first = ""
    for token in tokens:
        if token.type == "list_item_open":
            first = f"{token.info}. " if token.info else "- "
        elif token.type == "inline":
            yield Paragraph(first, "".join(map(_plain, token.children or ())))
            first = ""
        elif token.type in ("fence", "code_block"):
            yield Paragraph(first, token.content.strip())
            first = ""


def _plain(token: "Token") -> str:
    return " " if token.type in ("softbreak", "hardbreak") else token.content
