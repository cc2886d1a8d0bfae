"""Paths of a quantity's inputs, from the thing it belongs to.

height                             a field, or another quantity
readings.noise_level               a group's field
air_system.pipe_bore               through a reference
dynos[*].highest_power             of every member of a list
fans[moves=out of the room].flow   of the members where a field holds a word
straps[pulls=rearward,sound=yes].usable_load   of those where one field holds a word and another an answer
walks[*].distance?                 a gap is handed to the formula instead of stopping it
"""

import re

from msgspec import Struct

_STEP = re.compile(r"([a-z][a-z0-9_]*)(?:\[(\*|[a-z][a-z0-9_]*=[^],=]+(?:,[a-z][a-z0-9_]*=[^],=]+)*)\])?")
_ANSWERS = {"yes": True, "no": False}


class PathStep(Struct, frozen=True):
    """One name of a path; `each` says that it names a list."""

    name: str
    each: bool = False
    where: tuple[tuple[str, str | bool], ...] = ()
    """Fields and words or answers: only members where each field holds its own."""


class Path(Struct, frozen=True):
    """A path as steps."""

    text: str
    steps: tuple[PathStep, ...]
    gaps: bool
    """Whether the formula takes a Missing in place of a value."""
    many: bool
    """Whether the path leads to several values."""
    near: bool
    """Whether it leads to the thing's own field and no further."""


def path_from(text: str) -> Path:
    """The path that is written; raises ValueError where it is none."""
    steps = []
    for part in text.removesuffix("?").split("."):
        found = _STEP.fullmatch(part)
        if found is None:
            raise ValueError(f"{text!r} is no path of an input")
        name, each = found.groups()
        held = [one.split("=") for one in each.split(",")] if each and each != "*" else ()
        steps.append(PathStep(name, bool(each), tuple((field, _ANSWERS.get(word, word)) for field, word in held)))
    return Path(text, tuple(steps), text.endswith("?"), any(step.each for step in steps), len(steps) == 1)
