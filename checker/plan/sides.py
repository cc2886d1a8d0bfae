"""Sides of outlines in plain arithmetic, for what has to be known before any geometry library is worth its start."""

from collections.abc import Iterable
from itertools import pairwise
from math import hypot
from typing import Final, NamedTuple

from checker.plan.shapes import Outline, Point

SNAP: Final = 0.05
"""m. What is drawn this little off the wall or the floor that it belongs to is taken to be on it."""
THICKEST_WALL: Final = 1.0
"""m. Rooms farther apart than this share no wall."""

Side = tuple[Point, Point]


class Nearest(NamedTuple):
    """The side of an outline that lies nearest to a point."""

    side: Side
    distance: float
    along: float
    """From the side's first end to the foot of the point, in m; less than 0 or more than the side beyond its ends."""
    foot: Point
    """The point of the side that is nearest."""


def nearest_of(at: Point, sides: Iterable[Side]) -> Nearest:
    """The nearest of some sides, the first of several. Raises ValueError where there is none."""
    return min((_seen_from(at, side) for side in sides), key=lambda each: each.distance)


def nearest_side(at: Point, outline: Outline) -> Nearest:
    """The nearest side of an outline, the first of several."""
    return nearest_of(at, pairwise((*outline, outline[0])))


def opening(at: Point, width: float, outline: Outline) -> Side | None:
    """The stretch of an outline that a door takes up; None if it is in none of its sides."""
    nearest = nearest_side(at, outline)
    return stretch(nearest, width) if nearest.distance <= THICKEST_WALL / 2 + SNAP else None


def stretch(nearest: Nearest, width: float) -> Side | None:
    """The part of a side that lies within half a width of the foot of a point; None if there is none."""
    (x1, y1), (x2, y2) = nearest.side
    length = _length(nearest.side)
    first, last = max(0.0, nearest.along - width / 2), min(length, nearest.along + width / 2)
    if last <= first:
        return None
    dx, dy = (x2 - x1) / length, (y2 - y1) / length
    return (x1 + first * dx, y1 + first * dy), (x1 + last * dx, y1 + last * dy)


def inwards(side: Side, outline: Outline) -> Point:
    """The direction of length 1 that leads from a side of an outline into it."""
    (x1, y1), (x2, y2) = side
    length = _length(side)
    turn = 1.0 if sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairwise((*outline, outline[0]))) > 0 else -1.0
    return turn * (y1 - y2) / length, turn * (x2 - x1) / length


def apart(one: Side, other: Side) -> float:
    """The least distance between two straight pieces; 0 where they cross."""
    if _turns(one, other[0]) * _turns(one, other[1]) < 0 and _turns(other, one[0]) * _turns(other, one[1]) < 0:
        return 0.0
    ends = [(one[0], other), (one[1], other), (other[0], one), (other[1], one)]
    return min(_seen_from(point, side).distance for point, side in ends)


def _seen_from(at: Point, side: Side) -> Nearest:
    (x1, y1), (x2, y2) = side
    length = _length(side)
    along = ((at[0] - x1) * (x2 - x1) + (at[1] - y1) * (y2 - y1)) / length if length else 0.0
    share = min(1.0, max(0.0, along / length)) if length else 0.0
    foot = x1 + share * (x2 - x1), y1 + share * (y2 - y1)
    return Nearest(side, hypot(at[0] - foot[0], at[1] - foot[1]), along, foot)


def _length(side: Side) -> float:
    (x1, y1), (x2, y2) = side
    return hypot(x2 - x1, y2 - y1)


def _turns(side: Side, point: Point) -> float:
    (x1, y1), (x2, y2) = side
    return (x2 - x1) * (point[1] - y1) - (y2 - y1) * (point[0] - x1)
