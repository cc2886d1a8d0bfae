"""Walks on a floor: from a place to the nearest target, and from the place that is farthest of all."""

from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry as Geometry

from checker.plan.floor import Floor, Spot, patches
from checker.plan.results import Farthest, Patch, Walk
from checker.plan.search import Search
from checker.plan.shapes import Point
from checker.plan.ways import Field

TOLERANCE: Final = 0.01
"""m. How far apart the two bounds of the longest walk may stay where no limit is asked about."""
FINEST: Final = 0.001
"""m. The same where a limit lies between them."""
SLIVER: Final = 1e-4
"""m2. Floor smaller than this is left by rounding."""


class Targets:
    """Targets on a floor, and how far each piece of floor is from them."""

    def __init__(self, floor: Floor, places: Sequence[Point]) -> None:
        """Places in the plan's frame. Raises NotOnFloor."""
        self.floor, self.places = floor, tuple(places)
        spots = floor.spots(places)
        self._at = {part: [i for i, each in enumerate(spots) if each.part == part] for part in {s.part for s in spots}}
        self._fields: dict[int, Field] = {}
        self.spots = spots

    def field(self, part: int) -> Field | None:
        """The distances in a part of the floor; None if no target is in it."""
        if part not in self._at:
            return None
        if part not in self._fields:
            spots = [self.spots[each] for each in self._at[part]]
            at, off = np.array([each.at for each in spots]), np.array([each.off for each in spots])
            self._fields[part] = Field(self.floor.parts[part], at, off)
        return self._fields[part]

    def walks(self, part: int, places: Sequence[Point]) -> list[Walk]:
        """The walks from many places of one part, all at once."""
        field = self.field(part)
        if field is None or not places:
            return [Walk(None, (), None)] * len(places)
        distances, first = field.at(np.array(places))
        ways = {int(end): field.way(int(end)) for end in set(first.tolist())}
        found = []
        for place, distance, end in zip(places, distances.tolist(), first.tolist(), strict=True):
            bends, last = ways[end]
            target = self._at[part][last]
            path = [place, *bends, self.places[target]]
            found.append(Walk(distance, tuple(_each_once(path)), target))
        return found

    def walk(self, spot: Spot, start: Point | None = None) -> Walk:
        """The walk from a spot to the nearest target."""
        field = self.field(spot.part)
        if field is None:
            return Walk(None, (), None)
        distance, first = field.at(np.array([spot.at]))
        bends, last = field.way(int(first[0]))
        target = self._at[spot.part][last]
        path = [start or spot.at, spot.at, *bends, self.places[target]]
        return Walk(float(distance[0]) + spot.off, tuple(_each_once(path)), target)


def _each_once(path: Sequence[Point]) -> Iterator[Point]:
    """A path without the points that only repeat the one before."""
    return (each for i, each in enumerate(path) if i == 0 or each != path[i - 1])


def walk(floor: Floor, start: Point, places: Sequence[Point]) -> Walk:
    """The shortest walk from a place to the nearest of some others. Raises NotOnFloor."""
    return Targets(floor, places).walk(floor.spot(start), start)


def farthest(
    floor: Floor,
    places: Sequence[Point],
    within: Geometry | None = None,
    limit: float | None = None,
    tolerance: float = TOLERANCE,
) -> Farthest:
    """The place from which the walk to the nearest of some others is longest, and that walk.

    Only floor within a geometry counts, if one is given; people may walk elsewhere. The bounds are no farther apart
    than the tolerance in m; with a limit in m, it is enough that both lie on one side of it, and they come as close as
    1 mm for that. Raises NotOnFloor.
    """
    targets = Targets(floor, places)
    cut_off: list[Patch] = []
    search = Search(limit, FINEST if limit is not None else tolerance)
    for part, asked in asked_floor(floor, within):
        field = targets.field(part)
        if field is None:
            cut_off.extend(patches(asked))
        else:
            search.through(part, field, asked)
    if search.place is None:
        return Farthest(None, None, None, (), tuple(cut_off))
    way = targets.walk(Spot(search.part, search.place, 0.0))
    return Farthest(search.least, None if cut_off else search.most, search.place, way.path, tuple(cut_off))


def asked_floor(floor: Floor, within: Geometry | None) -> list[tuple[int, Geometry]]:
    """The floor of rooms, and of what is asked about, in each part."""
    asked = floor.rooms if within is None else floor.rooms.intersection(within)
    found = [(i, shapely.intersection(part.polygon, asked)) for i, part in enumerate(floor.parts)]
    return [(part, each) for part, each in found if each.area > SLIVER]
