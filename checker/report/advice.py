"""A rule's advice, written in Markdown, as plain paragraphs."""

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from markdown_it.token import Token

_MARKED = re.compile(r"[*_`#\[\]<>&\\|~\n]|^\s*(?:[-+]|\d+[.)])\s")
"""What may mean something in Markdown; without it a text stands as it is and no parser is needed."""


class Paragraph(NamedTuple):
    """One block of text; `first` hangs out at its left: a dash or number of a list."""

    first: str
    text: str


def paragraphs(markdown: str) -> tuple[Paragraph, ...]:
    """The blocks of a Markdown text without their marks, in order."""
    text = markdown.strip()
    if not _MARKED.search(text):
        return (Paragraph("", text),) if text else ()
    from markdown_it import MarkdownIt

    return tuple(_blocks(MarkdownIt("commonmark", {"html": False}).parse(text)))


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
