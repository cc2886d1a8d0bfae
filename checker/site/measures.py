"""Fields for quantities, points and outlines: what is read to SI."""

from decimal import Decimal
from typing import Any, Literal

from typing_extensions import override

from checker import units
from checker.site.entries import Pair, Refused, shown
from checker.site.fields import Scalar, Schema

Sign = Literal["any", "not negative", "positive"]

_DIFFERENCES = {
    "temperature": "temperature_difference",
    "pressure_gauge": "pressure_difference",
    "pressure_absolute": "pressure_difference",
}


class Measured(Scalar, frozen=True):
    """A quantity of one kind, read to SI."""

    kind: str
    sign: Sign = "not negative"

    @property
    @override
    def name(self) -> str:
        return self.kind

    @property
    @override
    def uncertainty(self) -> "Uncertainty":
        return Uncertainty(_DIFFERENCES.get(self.kind, self.kind))

    @override
    def read(self, raw: object) -> Decimal:
        try:
            return units.read(raw, self.kind).number
        except units.UnitProblem as problem:
            says = str(problem)
            raise Refused(says[0].upper() + says[1:], shown(raw), problem.wanted) from None

    @override
    def schema(self) -> Schema:
        kind = units.KINDS[self.kind]
        title = kind.title[0].upper() + kind.title[1:]
        return {
            "title": title,
            "description": f"{title} with its unit, one of {', '.join(kind.symbols)}.",
            "type": "string",
            "pattern": _pattern(kind),
            "maxLength": units.LONGEST,
            "examples": [kind.example],
        }


class Uncertainty(Measured, frozen=True):
    """How far the true value may lie from the one recorded, to either side."""

    @override
    def read(self, raw: object) -> Decimal:
        value = Measured.read(self, raw)
        if value < 0:
            raise Refused("An uncertainty is not below 0", shown(raw), "it without the minus")
        return value


def _pattern(kind: units.Kind) -> str:
    """What every text of the kind matches: a number first, a unit last. checker.units reads more exactly."""
    spelt = sorted({_spelling(spelling) for spelling in kind.units})
    return rf"^\s*[-+−]?[0-9](?:[\s\S]*[^A-Za-z])?(?:{'|'.join(spelt)})\s*$"


def _spelling(unit: str) -> str:
    plain = "".join(rf"\{sign}" if sign in r".()+*?[]{}^$|\\" else sign for sign in unit)
    for written, also in _ALSO.items():
        plain = plain.replace(written, also)
    return "".join(_SIGNS.get(sign, sign) for sign in plain)


_SIGNS = {
    "2": "[2²]",
    "3": "[3³]",
    "u": "[uµμ]",
    "'": "['′]",
    '"': '["″]',
    "°": "[°º]",
    " ": r"[\s·⋅]*",
    "/": r"\s*/\s*",
}
_ALSO = {"ohm": "(?:ohm|[\u03a9\u2126])", "°C": "(?:°C|\u2103)", "°F": "(?:°F|\u2109)"}
"""Other ways to write a sign, as checker.units reads them."""

MOST_CORNERS = 200
_COORDINATE = Measured("length", "any")


class Point(Scalar, frozen=True):
    """A place on the storey: x to the right, y up."""

    @property
    @override
    def uncertainty(self) -> "Uncertainty":
        return Uncertainty("length")

    @override
    def read(self, raw: object) -> Pair:
        if not isinstance(raw, list) or len(raw) != 2:
            raise Refused("A point is a pair of lengths, x and y", shown(raw), "[12 ft, 3 ft]")
        x, y = (read_member(_COORDINATE, raw, place) for place in (0, 1))
        return x, y

    @override
    def member(self, step: str | int) -> Measured:
        return _COORDINATE

    @override
    def schema(self) -> Schema:
        return {
            "title": "Point",
            "description": "x to the right and y up, both with a unit: [12 ft, 3 ft].",
            "type": "array",
            "items": _COORDINATE.schema(),
            "minItems": 2,
            "maxItems": 2,
        }


def read_member(field: Scalar, raw: list[object], place: int) -> Any:
    """The value of one member of a list; a refusal says which."""
    try:
        return field.read(raw[place])
    except Refused as refusal:
        raise refusal.within(place) from None


class Line(Scalar, frozen=True):
    """Points that a line on the floor runs through, from end to end."""

    @property
    @override
    def uncertainty(self) -> "Uncertainty":
        return Uncertainty("length")

    @override
    def read(self, raw: object) -> tuple[Pair, ...]:
        if not isinstance(raw, list) or not 2 <= len(raw) <= MOST_CORNERS:
            says, wanted = self.wanted()
            raise Refused(says, shown(raw), wanted)
        return tuple(read_member(Point(), raw, place) for place in range(len(raw)))

    def wanted(self) -> tuple[str, str]:
        """What anything else than points should be, and how that is written."""
        return f"A line is a list of 2 to {MOST_CORNERS} points", "[[3 m, 0 m], [3 m, 2.5 m]]"

    @override
    def member(self, step: str | int) -> Point:
        return Point()

    @override
    def schema(self) -> Schema:
        return {
            "title": "Line",
            "description": "The points it runs through, from end to end.",
            "type": "array",
            "items": Point().schema(),
            "minItems": 2,
            "maxItems": MOST_CORNERS,
        }


class Outline(Line, frozen=True):
    """The corners of an area in order, all the way round."""

    @override
    def read(self, raw: object) -> tuple[Pair, ...]:
        corners = Line.read(self, raw)
        return corners if len(corners) > 2 else _rectangle(*corners)

    @override
    def wanted(self) -> tuple[str, str]:
        return (
            f"An outline is a list of 3 to {MOST_CORNERS} points, or of 2 for a rectangle",
            "[[0 ft, 0 ft], [20 ft, 0 ft], [20 ft, 30 ft]]",
        )

    @override
    def schema(self) -> Schema:
        return {
            **Line.schema(self),
            "title": "Outline",
            "description": "The corners in order, all the way round; the last joins the first. "
            "Two points are opposite corners of a rectangle along the axes.",
        }


def _rectangle(one: Pair, other: Pair) -> tuple[Pair, ...]:
    return one, (other[0], one[1]), other, (one[0], other[1])
