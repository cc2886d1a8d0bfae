"""Walks on a floor: from a place to the nearest target, and from the place that is farthest of all."""

from collections.abc import Sequence
from typing import Final

import numpy as np
import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry as Geometry

from checker.plan.floor import Floor, Spot, patches, polygons
from checker.plan.results import Farthest, Patch, Walk
from checker.plan.shapes import Point
from checker.plan.ways import Counts, Field, Numbers

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

    def walk(self, spot: Spot, start: Point | None = None) -> Walk:
        """The walk from a spot to the nearest target."""
        field = self.field(spot.part)
        if field is None:
            return Walk(None, (), None)
        distance, first = field.at(np.array([spot.at]))
        bends, last = field.way(int(first[0]))
        target = self._at[spot.part][last]
        path = [start or spot.at, spot.at, *bends, self.places[target]]
        kept = tuple(each for i, each in enumerate(path) if i == 0 or each != path[i - 1])
        return Walk(float(distance[0]) + spot.off, kept, target)


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
    search = _Search(limit, FINEST if limit is not None else tolerance)
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


def triangles_of(geometry: Geometry) -> Numbers:
    """Triangles that make up a geometry's polygons, n × 3 × 2."""
    cut = shapely.constrained_delaunay_triangles(np.array(polygons(geometry)))
    triangles = [each for one in cut for each in one.geoms if isinstance(each, Polygon)]
    return np.asarray(shapely.get_coordinates(triangles).reshape(-1, 4, 2)[:, :3])


def quartered(triangles: Numbers) -> Numbers:
    """Each triangle cut in four at the middles of its sides, corners first: n × 3 × 2 gives 4n × 3 × 2."""
    a, b, c = triangles[:, 0], triangles[:, 1], triangles[:, 2]
    ab, bc, ca = (a + b) / 2, (b + c) / 2, (c + a) / 2
    return np.concatenate([np.stack(each, axis=1) for each in ((a, ab, ca), (ab, b, bc), (ca, bc, c), (ab, bc, ca))])


def distances_at(field: Field, triangles: Numbers) -> Numbers:
    """The distance at each corner of each triangle, n × 3; corners that triangles share are asked once."""
    points = triangles.reshape(-1, 2)
    joined = np.ascontiguousarray(points).view(np.complex128).ravel()
    _, once, back = np.unique(joined, return_index=True, return_inverse=True)
    return np.asarray(field.at(points[once])[0][back].reshape(-1, 3))


def most_within(triangles: Numbers, at: Numbers) -> Numbers:
    """What no distance inside each triangle is above.

    A triangle is open floor, so the distance at a point is at most the distance at a corner and the line there. The
    farthest that a point can be from a given corner is the longer side there; from its nearest corner, the radius of
    the circle through all three.
    """
    a, b, c = (np.hypot(*(triangles[:, i] - triangles[:, j]).T) for i, j in ((1, 2), (2, 0), (0, 1)))
    by_corner = (at + np.maximum(np.stack([b, c, a], axis=1), np.stack([c, a, b], axis=1))).min(axis=1)
    side, other = triangles[:, 1] - triangles[:, 0], triangles[:, 2] - triangles[:, 0]
    twice_area = np.abs(side[:, 0] * other[:, 1] - side[:, 1] * other[:, 0])
    with np.errstate(divide="ignore", invalid="ignore"):
        radius = np.where(twice_area > 0, a * b * c / (2 * twice_area), np.inf)
    return np.asarray(np.minimum(by_corner, at.max(axis=1) + radius))


class _Search:
    """Branch and bound over triangles: those that cannot hold the longest walk are dropped, the others cut smaller."""

    def __init__(self, limit: float | None, tolerance: float) -> None:
        self.limit, self.tolerance = limit, tolerance
        self.least, self.most = -np.inf, -np.inf
        self.place: Point | None = None
        self.part = -1

    def through(self, part: int, field: Field, asked: Geometry) -> None:
        """Go through one more piece of floor, as far as is needed to settle what was asked."""
        triangles = triangles_of(asked)
        while len(triangles):
            at = distances_at(field, triangles)
            self._note(part, triangles, at)
            bounds = most_within(triangles, at)
            if self.limit is not None and self.least > self.limit:
                self.most = max(self.most, float(bounds.max()))
                return
            open_ = bounds > self._enough()
            self.most = max(self.most, self.least, float(bounds[~open_].max(initial=-np.inf)))
            triangles = quartered(triangles[open_])

    def _enough(self) -> float:
        """Triangles whose bound is no higher need no closer look."""
        close = self.least + self.tolerance
        return close if self.limit is None else max(close, self.limit)

    def _note(self, part: int, triangles: Numbers, at: Numbers) -> None:
        where: Counts = np.array(np.unravel_index(int(at.argmax()), at.shape))
        if (distance := float(at[where[0], where[1]])) > self.least:
            x, y = triangles[where[0], where[1]]
            self.least, self.place, self.part = distance, (float(x), float(y)), part
