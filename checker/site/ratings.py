"""Ratings of fire extinguishers, as their labels print them.

The forms are those of UL 711 (`4-A:80-B:C`), EN 3-7 (`21A 113B C`) and AS/NZS 1850 (`4A:60B:E`), from memory of the
standards, to be confirmed. They come from different tests: nothing here turns one into another.
"""

import re
from typing import Any, Final

from msgspec import Struct

SYSTEMS: Final = ("UL 711", "EN 3", "AS/NZS 1850")

_LETTERS = {"UL 711": "ABCDK", "EN 3": "ABCDF", "AS/NZS 1850": "ABCDEF"}
_NUMBERED = {"UL 711": "AB", "EN 3": "ABF", "AS/NZS 1850": "ABF"}
_EXAMPLES = {"UL 711": "4-A:80-B:C", "EN 3": "21A 113B C", "AS/NZS 1850": "4A:60B:E"}
_PART = re.compile(r"(?:([1-9][0-9]{0,3}) ?-? ?)?([A-Z])[ :,/]*")


class UnreadableRating(ValueError):
    """A rating cannot be read in its system. Raised by read_rating."""

    def __init__(self, says: str, wanted: str) -> None:
        """Keep what is wrong and what to write."""
        super().__init__(f"{says}; write {wanted}")
        self.says, self.wanted = says, wanted


class Rating(Struct, frozen=True):
    """What a label promises. Numbers are those of the rating's own system; 0 where a class is not on the label."""

    system: str
    a: int = 0
    b: int = 0
    c: bool = False
    """UL 711: safe on live electrical equipment. EN 3 and AS/NZS 1850: gas fires."""
    d: bool = False
    e: bool = False
    """AS/NZS 1850 only: safe on live electrical equipment."""
    f: int = 0
    """EN 3 and AS/NZS 1850."""
    k: bool = False
    """UL 711 only."""


def read_rating(text: str, system: str) -> Rating:
    """The rating that a label prints. Raises UnreadableRating."""
    if system not in SYSTEMS:
        raise UnreadableRating(f"{system} is no system of ratings known here", " or ".join(SYSTEMS))
    wanted = f"the label's own text, such as {_EXAMPLES[system]}"
    found: dict[str, Any] = {}
    place = 0
    label = text.strip()
    if system == "EN 3" and (sign := next((sign for sign in ":-" if sign in label), None)):
        raise UnreadableRating(f"A rating of EN 3 has no {sign!r}; this looks like one of UL 711", wanted)
    while place < len(label):
        part = _PART.match(label, place)
        if part is None:
            raise UnreadableRating(f"This is no rating of {system}", wanted)
        number, letter = part.groups()
        found_before = letter.lower() in found
        _check_part(number, letter, found_before, system, wanted)
        found[letter.lower()] = int(number) if number else True
        place = part.end()
    if not found:
        raise UnreadableRating(f"This is no rating of {system}", wanted)
    return Rating(system, **found)


def _check_part(number: str | None, letter: str, found_before: bool, system: str, wanted: str) -> None:
    if letter not in _LETTERS[system]:
        raise UnreadableRating(f"{system} has no class {letter}", wanted)
    if found_before:
        raise UnreadableRating(f"Class {letter} stands here twice", wanted)
    if number is None and letter in _NUMBERED[system]:
        raise UnreadableRating(f"Class {letter} of {system} comes with a number", wanted)
    if number is not None and letter not in _NUMBERED[system]:
        raise UnreadableRating(f"Class {letter} of {system} comes without a number", wanted)
