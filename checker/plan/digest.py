"""A fingerprint of a question about a plan: the same question, however it came about, has the same one."""

import hashlib
from functools import lru_cache
from math import isfinite
from typing import Any

from msgspec import Struct
from msgspec.json import encode

from checker.plan.shapes import Plan


def digest_of(question: Any) -> str:
    """SHA-256 over the question as canonical JSON, in hexadecimal.

    Structs, mappings, sequences, numbers, words, answers and None; a number counts by its value, 2 as 2.0.
    Raises ValueError for a number that is none, TypeError for anything else.
    """
    return hashlib.sha256(encode(_plain(question), order="sorted")).hexdigest()


@lru_cache(maxsize=64)
def _of_plan(plan: Plan) -> str:
    """The fingerprint of a plan, which many questions share."""
    return digest_of([getattr(plan, name) for name in plan.__struct_fields__])


def _plain(value: Any) -> Any:
    if isinstance(value, Plan):
        return {"": "Plan", "of": _of_plan(value)}
    if isinstance(value, Struct):
        return {"": type(value).__name__} | {name: _plain(getattr(value, name)) for name in value.__struct_fields__}
    match value:
        case None | bool() | str():
            return value
        case int() | float():
            if not isfinite(value):
                raise ValueError(f"{value} is no number")
            return float(value) + 0.0
        case tuple() | list():
            return [_plain(each) for each in value]
        case dict():
            return {str(key): _plain(each) for key, each in value.items()}
    raise TypeError(f"{type(value).__name__} is no part of a question")
