"""A value that a comma ended: in braces YAML reads `{flow: 5,400 cfm}` as flow: 5 and a key `400 cfm` without value."""

from collections.abc import Collection, Iterator, Mapping
from itertools import pairwise
from typing import Any

from msgspec import Struct


class Cut(Struct, frozen=True):
    """A key that holds a number only, and the key that the rest of its value became."""

    key: str
    rest: str
    written: str
    """The value as the file has it, comma and all."""


def cut_at_commas(fields: Mapping[str, Any], known: Collection[str]) -> Iterator[Cut]:
    """Where a known field holds a whole number, and the next key is unknown, begins with a digit and holds nothing."""
    for (key, number), (rest, value) in pairwise(fields.items()):
        if key in known and type(number) is int and value is None and rest not in known and rest[0] in "0123456789":
            yield Cut(key, rest, f"{number},{rest}")
