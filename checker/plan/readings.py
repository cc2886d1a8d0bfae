"""Plans without gaps made from one with gaps, so that what is true lies between what they give.

Taking an opening away or putting an obstacle in never shortens a walk; widening an opening never lengthens it. So two
readings bound every walk. The longest of all walks is another matter, for an obstacle also takes floor away from which
one might walk: there each obstacle that may stand is tried both ways.
"""

from collections.abc import Iterator
from itertools import product
from typing import Final

from msgspec.structs import replace

from checker.plan.errors import UnusablePlan
from checker.plan.shapes import OUTSIDE, Door, Plan, Point

NARROWEST_DOOR: Final = 0.05
"""m. A door of unknown width is taken to be this narrow where walks shall be longest. Our own choice."""
MOST_UNKNOWN: Final = 5
"""Obstacles of which it may be unknown whether they stand, where each is tried both ways."""


def is_settled(plan: Plan) -> bool:
    """Whether nothing in the plan is unknown, so that one reading is all there is."""
    return shortest_reading(plan) == longest_reading(plan)


def exits_of(plan: Plan) -> tuple[tuple[str, Point], ...]:
    """Doors to the outside that are not locked, as far as is known, and whose place is known."""
    doors = [(door.id, door.at) for door in plan.doors if door.to == OUTSIDE and door.locked is False]
    return tuple((name, at) for name, at in doors if at is not None)


def possible_readings(plan: Plan) -> Iterator[tuple[Plan, Plan]]:
    """For each way in which unknown obstacles may stand or not, the shortest and the longest reading.

    Raises UnusablePlan where too many are unknown.
    """
    unknown = [number for number, each in enumerate(plan.obstacles) if each.stands is None]
    if len(unknown) > MOST_UNKNOWN:
        raise UnusablePlan(f"of {len(unknown)} obstacles it is not known whether they stand in the way")
    for answers in product((False, True), repeat=len(unknown)):
        stands = dict(zip(unknown, answers, strict=True))
        obstacles = [replace(each, stands=stands.get(i, each.stands)) for i, each in enumerate(plan.obstacles)]
        known = replace(plan, obstacles=tuple(obstacles))
        yield shortest_reading(known), longest_reading(known)


def longest_reading(plan: Plan) -> Plan:
    """The plan in which walks are longest: what may be locked is locked, what may stand in the way does.

    A door whose place is not known is left out; one whose width is not known is as narrow as can be.
    """
    return replace(
        plan,
        obstacles=tuple(replace(each, stands=True) for each in plan.obstacles if each.stands is not False),
        doors=tuple(_longest(door) for door in plan.doors if door.at is not None or door.locked is True),
    )


def shortest_reading(plan: Plan) -> Plan:
    """The plan in which walks are shortest: what may be open is open, what may be out of the way is.

    A door between rooms whose place or width is not known is as wide as the walls that the rooms share. A door to the
    outside of unknown width keeps no wall back, for walks to it end at its middle.
    """
    return replace(
        plan,
        obstacles=tuple(each for each in plan.obstacles if each.stands is True),
        doors=tuple(_shortest(door) for door in plan.doors),
    )


def as_it_may_open(door: Door) -> Door:
    """The door with all ways of swinging that are left open: what its leaf sweeps is at most that."""
    return door if door.swing is not None else replace(door, swing="both", hinge=None)


def _longest(door: Door) -> Door:
    locked = door.locked is not False
    width = NARROWEST_DOOR if door.width is None and not locked and door.to != OUTSIDE else door.width
    return replace(door, locked=locked, width=width)


def _shortest(door: Door) -> Door:
    if door.locked is True:
        return door
    partly_known = door.to != OUTSIDE and (door.at is None or door.width is None)
    return replace(door, locked=False, at=None if partly_known else door.at, width=None if partly_known else door.width)
