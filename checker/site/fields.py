"""Kinds of field: each reads one value as people write it and gives the JSON Schema of what it reads.

A marker stands in a model's annotation, `Annotated[Recorded, Measured("length")]`. The same marker serves pydantic when
a site is built, the schema when it is generated, and the wording when something is refused.
"""

import datetime
import re
from abc import ABCMeta, abstractmethod
from collections.abc import Callable
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from msgspec import Struct, StructMeta
from typing_extensions import override

from checker.site.entries import EVIDENCE, NEVER, Entry, NotReached, Recorded, Refused, Value, nearest, one_of, shown

if TYPE_CHECKING:
    from pydantic_core import CoreSchema

Schema = dict[str, Any]
_DAY = r"[12][0-9]{3}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])"


class _Abstract(StructMeta, ABCMeta):
    """For classes of values that leave some of their ways to the classes below them."""


class Scalar(Struct, frozen=True, metaclass=_Abstract):
    """A field that holds one value."""

    @property
    def name(self) -> str | None:
        """Under which name schemas share this field's definition; None where it stands in the field itself."""
        return type(self).__name__.lower()

    @property
    def uncertainty(self) -> "Scalar | None":
        """The field that reads the value's uncertainty; None where it has none."""
        return None

    @abstractmethod
    def read(self, raw: object) -> Value:
        """The value; raises Refused."""

    def member(self, step: str | int) -> "Scalar":
        """The field that reads one part of this field's value; raises KeyError where the value has no parts."""
        raise KeyError(step)

    @abstractmethod
    def schema(self) -> Schema:
        """The JSON Schema of a bare value, which never allows null."""

    def record(self, raw: object) -> Recorded:
        """The entry for a bare value or an evidence object; raises Refused."""
        if raw is None:
            return None
        if not isinstance(raw, dict):
            return Entry(self.read(raw), as_written(raw))
        if "not_reached" in raw:
            return unreached(raw)
        strange = [key for key in raw if key not in EVIDENCE_FIELDS and key not in ("value", "plus_minus")]
        if strange:
            raise Refused("Evidence has no such field", shown(strange[0]), one_of(EVIDENCE_FIELDS)).within(strange[0])
        value = read_part(self, raw, "value")
        kept = {
            name: read_part(field, raw, name) for name, field in EVIDENCE_FIELDS.items() if raw.get(name) is not None
        }
        if "plus_minus" in raw and self.uncertainty is None:
            raise Refused(
                "Only a quantity has an uncertainty", shown(raw["plus_minus"]), "the value without plus_minus"
            )
        if self.uncertainty and raw.get("plus_minus") is not None:
            kept["plus_minus"] = read_part(self.uncertainty, raw, "plus_minus")
        return Entry(value, as_written(raw["value"]), **kept)


def read_by(reads: Callable[[Any], object]) -> "CoreSchema":
    """How pydantic reads a field by a function of our own that raises Refused."""
    return {"type": "function-plain", "function": {"type": "no-info", "function": reads}}


def unreached(raw: dict[str, object]) -> NotReached:
    """Why something was not reached; raises Refused."""
    if len(raw) > 1:
        raise Refused("What could not be reached has no other fields", shown(raw), "not_reached alone")
    return NotReached(read_part(REASON, raw, "not_reached"))


def read_part(field: Scalar, raw: dict[str, object], name: str) -> Any:
    """The value of one field of an evidence object; a refusal says which."""
    try:
        return field.read(raw.get(name))
    except Refused as refusal:
        raise refusal.within(name) from None


def as_written(raw: object) -> str:
    """The text a person would recognise as what they wrote."""
    match raw:
        case bool():
            return "yes" if raw else "no"
        case list():
            return ", ".join(f"({as_written(item)})" if isinstance(item, list) else as_written(item) for item in raw)
    return str(raw)


class Word(Scalar, frozen=True):
    """One word of a closed choice."""

    choices: tuple[str, ...]

    @property
    @override
    def name(self) -> None:
        return None

    @override
    def read(self, raw: object) -> str:
        if isinstance(raw, str) and raw in self.choices:
            return raw
        near = nearest(raw, self.choices) if isinstance(raw, str) else None
        says = "This is not one of the words for it" if isinstance(raw, str) else "A word is wanted here"
        raise Refused(says, shown(raw), near or one_of(self.choices))

    @override
    def schema(self) -> Schema:
        return {"enum": list(self.choices)}


def word(*choices: str) -> Word:
    """One of these words, in the order in which people are offered them."""
    return Word(choices)


class Answer(Scalar, frozen=True):
    """Yes or no."""

    @override
    def read(self, raw: object) -> bool:
        if isinstance(raw, bool):
            return raw
        quoted = isinstance(raw, str) and raw.lower() in ("yes", "no", "true", "false")
        raise Refused(
            "This is a question of yes or no",
            shown(raw),
            "yes or no, small and without quotes" if quoted else "yes or no",
        )

    @override
    def schema(self) -> Schema:
        return {"title": "Yes or no", "type": "boolean", "examples": [True, False]}


class Check(Answer, frozen=True):
    """Yes or no, found on a day: the day of the entry, else of the survey."""

    @override
    def schema(self) -> Schema:
        return {**Answer.schema(self), "title": "Yes or no, as found on the day of the check"}


class Day(Scalar, frozen=True):
    """A day of the calendar; for what can be done again, also `never`."""

    or_never: bool = False

    @property
    @override
    def name(self) -> str:
        return "day-or-never" if self.or_never else "day"

    @override
    def read(self, raw: object) -> datetime.date:
        if raw == "never" and self.or_never:
            return NEVER
        says = "This is not a day as ISO 8601 writes it"
        if isinstance(raw, str) and re.fullmatch(_DAY, raw):
            try:
                return datetime.date.fromisoformat(raw)
            except ValueError:
                says = "The calendar has no such day"
        raise Refused(says, shown(raw), "year-month-day, such as 2026-11-03" + ", or never" * self.or_never)

    @override
    def schema(self) -> Schema:
        calendar = {"pattern": f"^{_DAY}$", "format": "date"}
        described = {"title": "Day", "description": "Year-month-day.", "type": "string", "examples": ["2026-11-03"]}
        if not self.or_never:
            return {**described, **calendar}
        described |= {"description": "Year-month-day; never: not done yet.", "examples": ["2026-11-03", "never"]}
        return {**described, "if": {"const": "never"}, "else": calendar}


class Text(Scalar, frozen=True):
    """Words in a person's own language."""

    @override
    def read(self, raw: object) -> str:
        if isinstance(raw, str) and raw.strip():
            return raw
        if isinstance(raw, bool | int | float):
            raise Refused(
                "Words are wanted here, and this reads as something else", shown(raw), f'"{as_written(raw)}" in quotes'
            )
        raise Refused("Words are wanted here", shown(raw), "some words, or leave the field out")

    @override
    def schema(self) -> Schema:
        return {"title": "Text", "type": "string", "pattern": r"\S"}


class Count(Scalar, frozen=True):
    """A whole number of things."""

    least: int = 0
    most: int = 100_000

    @property
    @override
    def name(self) -> None:
        return None

    @override
    def read(self, raw: object) -> Decimal:
        if isinstance(raw, int | float) and not isinstance(raw, bool) and raw == int(raw):
            if self.least <= raw <= self.most:
                return Decimal(int(raw))
            raise Refused(
                "No such number is possible here", shown(raw), f"a whole number from {self.least} to {self.most}"
            )
        raise Refused(
            "A whole number is wanted here",
            shown(raw),
            f"a number such as {max(self.least, 3)}, without unit or quotes",
        )

    @override
    def schema(self) -> Schema:
        return {"title": "Whole number", "type": "integer", "minimum": self.least, "maximum": self.most}


REASON = Text()
EVIDENCE_FIELDS: dict[str, Scalar] = {
    "evidence": word(*EVIDENCE),
    "instrument": Text(),
    "on": Day(),
    "by": Text(),
    "note": Text(),
    "photo": Text(),
    "issuer": Text(),
    "result": word("satisfactory", "unsatisfactory"),
    "open_defects": Text(),
}
"""What an evidence object may hold beside `value` and `plus_minus`."""
