"""Fields for text of a fixed shape: ids, references, regions, sizes of conductor."""

import re
from typing import ClassVar

from typing_extensions import override

from checker.site.entries import Refused, one_of, shown
from checker.site.fields import Scalar, Schema, as_written

IDENTIFIER = r"[a-z0-9][a-z0-9-]{0,63}"
_REGION = r"[a-z]{2}(?:-[a-z0-9]{1,8}){0,3}"
_SIZE = r"(?:[1-9][0-9]?|[1-4]/0) ?AWG|[1-9][0-9]{0,3}(?:\.[0-9]{1,2})? ?mm[2²]|0\.[1-9][0-9]? ?mm[2²]"


class Patterned(Scalar, frozen=True):
    """Text of a fixed shape."""

    @override
    def read(self, raw: object) -> str:
        pattern, says, wanted = self.shape()
        if isinstance(raw, str) and re.fullmatch(pattern, raw):
            return raw
        quoted = isinstance(raw, bool | int) and re.fullmatch(pattern, as_written(raw))
        raise Refused(says, shown(raw), f'"{as_written(raw)}" in quotes' if quoted else wanted)

    def shape(self) -> tuple[str, str, str]:
        """The pattern, what is wrong with anything else, and what would be right."""
        raise NotImplementedError

    @override
    def schema(self) -> Schema:
        return {"type": "string", "pattern": f"^(?:{self.shape()[0]})$"}


class Identifier(Patterned, frozen=True):
    """What a thing is called by other parts of the file, the same for ever."""

    @override
    def shape(self) -> tuple[str, str, str]:
        return (
            IDENTIFIER,
            "An id is one word of a-z, 0-9 and -, beginning with a letter or digit",
            "an id such as cell-1",
        )

    @override
    def schema(self) -> Schema:
        text = "One word of a-z, 0-9 and -, unique among its kind in the site; it stays the same for ever."
        return {"title": "Id", "description": text, **Patterned.schema(self), "examples": ["cell-1"]}


class Reference(Patterned, frozen=True):
    """The id of a thing of one kind; some fields also take a word that is no thing."""

    kind: str
    besides: tuple[str, ...] = ()

    @property
    @override
    def name(self) -> str:
        return "-or-".join((f"{self.kind}-id", *self.besides))

    @override
    def shape(self) -> tuple[str, str, str]:
        what = self.kind.replace("_", " ")
        return (
            IDENTIFIER,
            f"The id of a {what} is wanted here",
            one_of((f"the id of a {what} in this file", *self.besides)),
        )

    @override
    def schema(self) -> Schema:
        return {"title": f"Id of a {self.kind.replace('_', ' ')}", **Patterned.schema(self)}


class OnTheFloor(Patterned, frozen=True):
    """The id of something that stands on the floor of a storey or swings over it, or the word for a wall of a room."""

    KINDS: ClassVar[tuple[str, ...]] = ("dyno", "obstacle", "partition", "door")
    WALL: ClassVar[str] = "wall"

    @override
    def shape(self) -> tuple[str, str, str]:
        return (
            IDENTIFIER,
            "The id of something on the floor is wanted here",
            "the id of a machine, an obstacle, a partition or a door in this file, or wall",
        )

    @override
    def schema(self) -> Schema:
        return {"title": "Id of something on the floor, or wall", **Patterned.schema(self)}


class Region(Patterned, frozen=True):
    """A country, or a part of one."""

    @override
    def shape(self) -> tuple[str, str, str]:
        return _REGION, "This is not the code of a region", "a code such as us, gb or us-ca"

    @override
    def schema(self) -> Schema:
        return {"title": "Region", **Patterned.schema(self), "examples": ["us-ca", "gb"]}


class Designation(Patterned, frozen=True):
    """The size of a conductor as the trade names it, which is not an area: 8 AWG, 2/0 AWG, 10 mm2."""

    @override
    def read(self, raw: object) -> str:
        number, unit = re.fullmatch(r"(.*[0-9]) ?(AWG|mm2|mm²)", Patterned.read(self, raw)).groups()  # type: ignore[union-attr]
        return f"{number} {unit.replace('²', '2')}"

    @override
    def shape(self) -> tuple[str, str, str]:
        return _SIZE, "This is no size of conductor", "a size such as 8 AWG, 2/0 AWG or 10 mm2"

    @override
    def schema(self) -> Schema:
        return {"title": "Size of conductor", **Patterned.schema(self), "examples": ["8 AWG", "2/0 AWG", "10 mm2"]}
