"""Paths by which a site file speaks of its own parts: `rooms[store]`, `rooms[*].doors[*].locked`, `survey.by`."""

from collections.abc import Iterator

from msgspec import Struct
from typing_extensions import override

from checker.site.fields import Schema
from checker.site.names import IDENTIFIER, Patterned

_STEP = rf"[a-z][a-z0-9_]*(?:\[(?:\*|{IDENTIFIER})\])?"
_PATH = rf"{_STEP}(?:\.{_STEP}){{0,5}}"


class Step(Struct, frozen=True):
    """One name of a path, with the id of the member it means: `*` for every one, None for the field as a whole."""

    name: str
    which: str | None

    def __str__(self) -> str:
        return self.name if self.which is None else f"{self.name}[{self.which}]"


def steps(text: str) -> Iterator[Step]:
    """The steps of a path that About has read."""
    for part in text.split("."):
        name, _, which = part.rstrip("]").partition("[")
        yield Step(name, which or None)


class About(Patterned, frozen=True):
    """A path from the site to one of its parts."""

    @override
    def shape(self) -> tuple[str, str, str]:
        return (
            _PATH,
            "A path to a part of this file is wanted here",
            "a path such as rooms[cell].height or extinguishers",
        )

    @override
    def schema(self) -> Schema:
        text = "Names joined by dots; the id of a list's member, or *, in brackets."
        return {
            "title": "Path",
            "description": text,
            **Patterned.schema(self),
            "examples": ["rooms[*].doors[*].locked"],
        }
