"""Values that cannot be so: less than nothing, days out of order, ratings that no label prints."""

import datetime
from collections.abc import Iterator
from decimal import Decimal

from checker import units
from checker.site.entries import NEVER, Entry, one_of, shown
from checker.site.flaws import Flaw
from checker.site.measures import Measured
from checker.site.model_fire import Extinguisher
from checker.site.parts import fields_marked
from checker.site.ratings import SYSTEMS, UnreadableRating, read_rating
from checker.site.walk import Located

_IN_ORDER = (
    ("site", "built_on", "altered_on"),
    ("site.survey", "on", "until"),
    ("site.survey", "on", "issued_on"),
    ("detector", "calibrated_on", "calibration_due"),
)
"""Kind, and two of its days of which the second cannot come before the first."""


def number_flaws(located: list[Located]) -> Iterator[Flaw]:
    """Quantities below nothing, and sizes of nothing."""
    for found in located:
        for field in fields_marked(type(found.part), Measured):
            entry = getattr(found.part, field.name)
            if isinstance(entry, Entry) and isinstance(entry.value, Decimal) and isinstance(field.marker, Measured):
                yield from _number_flaws((*found.path, field.name), entry, entry.value, field.marker)
    for found in located:
        if isinstance(found.part, Extinguisher):
            yield from _upside_down(found, found.part)


def _number_flaws(path: tuple[str | int, ...], entry: Entry, value: Decimal, marker: Measured) -> Iterator[Flaw]:
    title = units.KINDS[marker.kind].title
    above = "above 0" if marker.sign == "positive" else "of 0 or more"
    if marker.sign != "any" and (value < 0 or (value == 0 and marker.sign == "positive")):
        yield Flaw(
            path,
            f"No {title} here can be {'below 0' if value < 0 else '0'}",
            shown(entry.written),
            f"a {title} {above}",
        )


def _upside_down(found: Located, unit: Extinguisher) -> Iterator[Flaw]:
    top, base = unit.top_height, unit.base_height
    if isinstance(top, Entry) and isinstance(base, Entry) and top.value < base.value:  # type: ignore[operator]
        says = "The top of an extinguisher is not below its base"
        yield Flaw((*found.path, "top_height"), says, shown(top.written), f"a height above {base.written}")


def date_flaws(located: list[Located]) -> Iterator[Flaw]:
    """Days that come before what they must follow."""
    for found in located:
        for kind, earlier, later in _IN_ORDER:
            if found.kind == kind:
                first, second = getattr(found.part, earlier), getattr(found.part, later)
                if isinstance(first, Entry) and isinstance(second, Entry) and _before(second.value, first.value):
                    says = f"{later} cannot come before {earlier}"
                    yield Flaw((*found.path, later), says, shown(second.written), f"{first.written} or later")


def _before(second: object, first: object) -> bool:
    if not isinstance(second, datetime.date) or not isinstance(first, datetime.date) or NEVER in (first, second):
        return False
    return second < first


def rating_flaws(located: list[Located]) -> Iterator[Flaw]:
    """Ratings without their system, and ratings that cannot be read in it."""
    for found in located:
        unit = found.part
        if not isinstance(unit, Extinguisher) or not isinstance(unit.rating, Entry):
            continue
        path, rating = (*found.path, "rating"), str(unit.rating.value)
        if not isinstance(unit.rating_system, Entry):
            says = "A rating means nothing without the system it belongs to"
            yield Flaw(path, says, shown(rating), f"rating_system: {one_of(SYSTEMS)} beside it")
            continue
        try:
            read_rating(rating, str(unit.rating_system.value))
        except UnreadableRating as problem:
            yield Flaw(path, problem.says, shown(rating), problem.wanted)
