"""A file as read: its data, and the line and column of every value and key."""

import json
import re
from functools import cached_property
from typing import Any

from msgspec import Struct

from checker.reading.problems import Mark

Path = tuple[str | int, ...]
_WORD = re.compile(r"[^\W\d][\w-]*").fullmatch
_ID = re.compile(r"(?![0-9]+\Z)[\w-]+").fullmatch


class Place(Struct, frozen=True):
    """Where a value stands, where its key stands (a list member: the value), and the places within it."""

    value: Mark
    key: Mark
    within: "dict[str, Place] | list[Place] | None" = None


class Document(Struct, frozen=True, eq=False, dict=True):
    """A read file: plain dicts with text keys, lists, text, numbers, true, false and None."""

    file: str
    data: Any
    text: str
    _places: Place | None = None

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Document) and (self.file, self.data) == (other.file, other.data)

    def __repr__(self) -> str:
        return f"Document({self.file!r}, {self.data!r})"

    def mark(self, path: Path) -> Mark:
        """Where the value at this path starts; for a path that is not there, where its nearest parent starts."""
        return self._nearest(path)[0].value

    def key_mark(self, path: Path) -> Mark:
        """Where the key of the value at this path starts; otherwise as `mark`."""
        place, whole = self._nearest(path)
        return place.key if whole else place.value

    def place(self, path: Path) -> str:
        """The path in words, list members by their id where they have one: rooms[cell].height."""
        named: list[str | int] = []
        here = self.data
        for part in path:
            try:
                here = here[part]
            except (KeyError, IndexError, TypeError):
                here = None
            name = here.get("id") if isinstance(here, dict) and isinstance(part, int) else None
            named.append(_Id(name) if isinstance(name, str) and _ID(name) else part)
        return spell(tuple(named))

    def source_line(self, number: int) -> str:
        """The text of a line, counted from 1, without its end; empty if there is no such line."""
        return self._lines[number - 1] if 0 < number <= len(self._lines) else ""

    @cached_property
    def _lines(self) -> list[str]:
        return re.split(r"\r\n|\r|\n", self.text)

    @cached_property
    def _root(self) -> Place:
        if self._places is not None:
            return self._places
        from checker.reading.json_tree import places  # JSON is read without positions until one is asked for

        return places(self.text)

    def _nearest(self, path: Path) -> tuple[Place, bool]:
        place = self._root
        for part in path:
            inner = _inner(place, part)
            if inner is None:
                return place, False
            place = inner
        return place, True


def _inner(place: Place, part: str | int) -> Place | None:
    within = place.within
    if isinstance(within, dict):
        return within.get(part) if isinstance(part, str) else None
    return within[part] if within and isinstance(part, int) and 0 <= part < len(within) else None


class _Id(str):
    """The id of a list member, spelt in brackets."""


def spell(path: Path) -> str:
    """A path as people write it: ("rooms", 0, "height") is rooms[0].height; other keys than words are quoted."""
    text = ""
    for part in path:
        if isinstance(part, int | _Id):
            text += f"[{part}]"
        elif _WORD(part):
            text += f".{part}" if text else part
        else:
            text += f"[{json.dumps(part, ensure_ascii=False)}]"
    return text
