"""Results drawn for people and for programs: one module a format; nothing is computed here."""

from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from checker.findings.result import Result


class Drawing(NamedTuple):
    """How a format that has a choice draws: columns, colour, and whether every finding shows its full working."""

    width: int = 80
    colour: bool = False
    details: bool = False


def _text(results: "Iterable[Result]", drawing: Drawing) -> str:
    from checker.report import text

    return text.render_all(results, drawing)


def _json(results: "Iterable[Result]", drawing: Drawing) -> str:
    from checker.report import json_

    return json_.render_all(results, drawing)


def _html(results: "Iterable[Result]", drawing: Drawing) -> str:
    from checker.report import html

    return html.render_all(results, drawing)


def _markdown(results: "Iterable[Result]", drawing: Drawing) -> str:
    from checker.report import markdown

    return markdown.render_all(results, drawing)


FORMATS: Mapping[str, Callable[["Iterable[Result]", Drawing], str]] = MappingProxyType(
    {"text": _text, "html": _html, "markdown": _markdown, "json": _json}
)
"""Name of a format: what draws results in it. A format's module is imported when it draws.

Results are drawn one by one: none is held longer than it takes, so that they may be many."""
