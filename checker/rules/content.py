"""The digest of what a ruleset file says, however its entries and fields are ordered and however it is written."""

import hashlib
from typing import Any, Final

from msgspec.json import encode

_ENTRIES: Final = frozenset({"rules", "tables", "provisions"})
"""The lists of a topic's file, whose entries stand in no order."""


def digest_of(data: object) -> str:
    """The digest of what a file says: entries may stand in any order, and fields; keys of a table stand as called."""
    return hashlib.sha256(_in_order(data)).hexdigest()


def _in_order(data: object) -> bytes:
    return encode(_ordered(data), order="sorted")


def _ordered(data: object) -> object:
    if isinstance(data, list):
        return [_ordered(each) if isinstance(each, (dict, list)) else each for each in data]
    if not isinstance(data, dict):
        return data
    ordered: dict[str, Any] = {
        name: _ordered(value) if isinstance(value, (dict, list)) else value for name, value in data.items()
    }
    for name in _ENTRIES & ordered.keys():
        if isinstance(ordered[name], list):
            ordered[name] = sorted(ordered[name], key=_in_order)
    if isinstance(keys := ordered.get("keys"), dict):
        ordered["keys"] = list(keys.items())
    return ordered
