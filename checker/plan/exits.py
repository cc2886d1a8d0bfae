"""How far one walks before the ways to two exits part."""

from collections.abc import Sequence
from itertools import combinations, pairwise
from math import ceil, hypot, sqrt
from typing import Final

import shapely
from shapely.geometry.base import BaseGeometry as Geometry

from checker.plan.floor import Floor
from checker.plan.results import SharedStart, Walk
from checker.plan.shapes import Point
from checker.plan.walking import Targets, asked_floor, walk

ALIKE: Final = 1e-6
"""m. Points nearer to each other than this are one."""
GRID: Final = 0.5
"""m. How close the places lie that are asked between corners. Our own choice."""
MOST_PLACES: Final = 400
"""On larger floors they lie farther apart. Our own choice."""


def shared_start(floor: Floor, start: Point, exits: Sequence[Point]) -> SharedStart:
    """How far the shortest ways from a place to two exits run together, for the two exits where that is least.

    Somebody who gives up the shortest way may have a choice sooner, so the true common path is at most this.
    Raises NotOnFloor.
    """
    return _least_shared([walk(floor, start, [each]) for each in exits])


def longest_shared_start(floor: Floor, exits: Sequence[Point], within: Geometry | None = None) -> SharedStart:
    """The longest start that ways to two exits share, sought at the corners of the floor and on a grid between them.

    From floor that only one exit serves, the start is the whole way there; where none does, there is no distance.
    Raises NotOnFloor.
    """
    targets = [Targets(floor, [each]) for each in exits]
    longest = SharedStart(0.0, (), ())
    for part, asked in asked_floor(floor, within):
        places = _places(asked)
        for ways in zip(*(each.walks(part, places) for each in targets), strict=True):
            open_ = [number for number, way in enumerate(ways) if way.distance is not None]
            if not open_:
                return SharedStart(None, (), ())
            alone = SharedStart(ways[open_[0]].distance, ways[open_[0]].path, (open_[0],))
            found = _least_shared(ways) if len(open_) > 1 else alone
            if found.distance is not None and (longest.distance is None or found.distance > longest.distance):
                longest = found
    return longest


def _places(asked: Geometry) -> list[Point]:
    """Corners of a piece of floor, and a grid on it."""
    x0, y0, x1, y1 = asked.bounds
    step = max(GRID, sqrt((x1 - x0) * (y1 - y0) / MOST_PLACES))
    across = [x0 + step * number for number in range(1, ceil((x1 - x0) / step))]
    up = [y0 + step * number for number in range(1, ceil((y1 - y0) / step))]
    grid = [(x, y) for x in across for y in up if asked.contains(shapely.Point(x, y))]
    return [*((float(x), float(y)) for x, y in shapely.get_coordinates(asked)), *grid]


def _least_shared(ways: Sequence[Walk]) -> SharedStart:
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
