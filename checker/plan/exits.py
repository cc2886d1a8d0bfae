"""How far one walks before the ways to two exits part."""

from collections.abc import Sequence
from itertools import combinations, pairwise
from math import hypot
from typing import Final

from checker.plan.floor import Floor
from checker.plan.results import SharedStart
from checker.plan.shapes import Point
from checker.plan.walking import walk

ALIKE: Final = 1e-6
"""m. Points nearer to each other than this are one."""


def shared_start(floor: Floor, start: Point, exits: Sequence[Point]) -> SharedStart:
    """How far the shortest ways from a place to two exits run together, for the two exits where that is least.

    Somebody who gives up the shortest way may have a choice sooner, so the true common path is at most this.
    Raises NotOnFloor.
    """
    ways = [walk(floor, start, [each]) for each in exits]
    open_ = [number for number, way in enumerate(ways) if way.distance is not None]
    shared = [(_together(ways[a].path, ways[b].path), (a, b)) for a, b in combinations(open_, 2)]
    if not shared:
        return SharedStart(None, (), ())
    path, pair = min(shared, key=lambda each: (_length(each[0]), each[1]))
    return SharedStart(_length(path), path, pair)


def _together(one: tuple[Point, ...], other: tuple[Point, ...]) -> tuple[Point, ...]:
    """The part that two paths from one place have in common."""
    path, rest, others = [one[0]], list(one[1:]), list(other[1:])
    while rest and others:
        here = path[-1]
        nearer, farther = sorted((rest[0], others[0]), key=lambda end: _apart(here, end))
        if _off(nearer, here, farther) > ALIKE:
            break
        path.append(nearer)
        for way in (rest, others):
            if _apart(way[0], nearer) <= ALIKE:
                del way[0]
    return tuple(path)


def _off(point: Point, start: Point, end: Point) -> float:
    """How far a point lies from the straight piece between two others."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    squared = dx * dx + dy * dy
    share = ((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / squared if squared else 0.0
    share = min(1.0, max(0.0, share))
    return _apart(point, (start[0] + share * dx, start[1] + share * dy))


def _apart(one: Point, other: Point) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])


def _length(path: tuple[Point, ...]) -> float:
    return sum(_apart(a, b) for a, b in pairwise(path))
