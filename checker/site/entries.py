"""What was recorded: a value with its evidence, a thing that could not be reached, or the word that there is none."""

import datetime
from collections.abc import Iterable
from decimal import Decimal
from enum import Enum
from typing import Final

from msgspec import Struct

EVIDENCE: Final = ("assumed", "estimated", "told", "drawing", "read", "seen", "paper", "measured", "tested")
"""The words that weigh what was recorded, weakest first."""

NEVER: Final = datetime.date.min
"""The day that stands for `never`: recorded, and not done yet."""

Path = tuple[str | int, ...]
"""Where something stands in a site file: names of fields and numbers of members."""
Pair = tuple[Decimal, Decimal]
Value = Decimal | str | bool | int | datetime.date | Pair | tuple[Pair, ...]


class Entry(Struct, frozen=True):
    """One recorded value. Quantities are exact decimals in SI; lengths of a point or an outline are metres."""

    value: Value
    written: str
    """As the surveyor wrote it, unit and all."""
    evidence: str | None = None
    """A word of EVIDENCE, or None where a bare value takes the survey's own."""
    plus_minus: Decimal | None = None
    """Expanded uncertainty (k = 2) in SI."""
    instrument: str | None = None
    on: datetime.date | None = None
    by: str | None = None
    note: str | None = None
    photo: str | None = None
    issuer: str | None = None
    result: str | None = None
    """What a paper found: satisfactory or unsatisfactory."""
    open_defects: str | None = None


class NotReached(Struct, frozen=True):
    """Looked for, and could not be reached: a limit of the survey."""

    why: str


class Nothing(Enum):
    """Recorded: there is none."""

    NOTHING = "none"


NOTHING: Final = Nothing.NOTHING

Recorded = Entry | NotReached | None
"""A field that holds one value. None: not recorded."""


_MOST_NAMES = 300
"""Among more names than these none is looked for: a file of thousands of misspelt ids is answered at once as well."""


class Refused(ValueError):
    """A field cannot hold what was written. Raised by reading it; `at` leads from the field to the part meant."""

    def __init__(self, says: str, found: str, wanted: str, at: tuple[str | int, ...] = ()) -> None:
        """Keep the four parts of the message: what is wrong, what was found, what to write, and where."""
        super().__init__(f"{says}. Found {found}; write {wanted}")
        self.says, self.found, self.wanted, self.at = says, found, wanted, at

    def within(self, *steps: str | int) -> "Refused":
        """The same refusal, seen from further out."""
        return Refused(self.says, self.found, self.wanted, (*steps, *self.at))


def shown(raw: object) -> str:
    """What was written, for a message: text in quotes, answers as yes and no, the rest in a few words."""
    match raw:
        case None:
            return "nothing"
        case bool():
            return "yes" if raw else "no"
        case str():
            return f'"{raw}"'
        case dict():
            keys = ", ".join(list(raw)[:4])
            return f"fields of its own ({keys})" if keys else "an empty set of fields"
        case list():
            return f"a list of {len(raw)}" if raw else "an empty list"
    return str(raw)


def nearest(word: str, words: Iterable[str]) -> str | None:
    """The one of `words` that `word` was probably meant to be, or None where none is near."""
    from difflib import get_close_matches

    known = sorted(words)
    close = get_close_matches(word.lower()[:100], known, n=1, cutoff=0.7) if len(known) <= _MOST_NAMES else []
    return close[0] if close else None


def one_of(words: Iterable[str]) -> str:
    """The words as a choice: a, b or c."""
    *most, last = words
    return f"{', '.join(most)} or {last}" if most else last
