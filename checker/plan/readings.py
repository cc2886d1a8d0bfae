"""Two plans without gaps from one with gaps: the true walk lies between the walks in them.

Taking an opening away or putting an obstacle in never shortens a walk; widening an opening never lengthens it.
"""

from dataclasses import replace
from typing import Final

from checker.plan.shapes import OUTSIDE, Door, Plan

NARROWEST_DOOR: Final = 0.05
"""m. A door of unknown width is taken to be this narrow where walks shall be longest. Our own choice."""


def is_settled(plan: Plan) -> bool:
    """Whether nothing in the plan is unknown, so that one reading is all there is."""
    return shortest_reading(plan) == plan == longest_reading(plan)


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


def _longest(door: Door) -> Door:
    locked = door.locked is not False
    width = NARROWEST_DOOR if door.width is None and not locked and door.to != OUTSIDE else door.width
    return replace(door, locked=locked, width=width)


def _shortest(door: Door) -> Door:
    if door.locked is True:
        return door
    partly_known = door.to != OUTSIDE and (door.at is None or door.width is None)
    return replace(door, locked=False, at=None if partly_known else door.at, width=None if partly_known else door.width)
