"""The search for the place of a floor that is farthest from some targets, proven from both sides.

The floor is cut in triangles, on each of which no distance is above a bound. Triangles whose bound is no higher than
what was found are dropped, the others are cut smaller.
"""

from typing import Final

import numpy as np
import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry as Geometry

from checker.plan.floor import polygons
from checker.plan.shapes import Point
from checker.plan.ways import Counts, Field, Numbers

MOST_TRIANGLES: Final = 200_000
"""After so many the search stops, and the bounds stay as far apart as they then are."""
NEEDLE: Final = 4.0
"""A triangle so many times as long as it is high is cut across its longest side alone."""


def triangles_of(geometry: Geometry) -> Numbers:
    """Triangles that make up a geometry's polygons, n × 3 × 2."""
    cut = shapely.constrained_delaunay_triangles(np.array(polygons(geometry)))
    triangles = [each for one in cut for each in one.geoms if isinstance(each, Polygon)]
    return np.asarray(shapely.get_coordinates(triangles).reshape(-1, 4, 2)[:, :3])


def smaller(triangles: Numbers) -> Numbers:
    """The triangles cut at the middles of their sides, in four; needles in two, across the longest side."""
    sides = np.stack([triangles[:, (i + 2) % 3] - triangles[:, (i + 1) % 3] for i in range(3)], axis=1)
    lengths = np.hypot(sides[..., 0], sides[..., 1])
    longest = lengths.argmax(axis=1)
    rows = np.arange(len(triangles))
    needle = lengths[rows, longest] ** 2 > NEEDLE * _twice_areas(triangles)
    a, b, c = (triangles[rows, (longest + i) % 3] for i in range(3))
    ab, bc, ca = (a + b) / 2, (b + c) / 2, (c + a) / 2
    four = [np.stack(each, axis=1)[~needle] for each in ((a, ab, ca), (ab, b, bc), (ca, bc, c), (ab, bc, ca))]
    two = [np.stack(each, axis=1)[needle] for each in ((a, b, bc), (a, bc, c))]
    return np.concatenate([*four, *two])


def distances_at(field: Field, triangles: Numbers) -> tuple[Numbers, Counts]:
    """The distance at each corner of each triangle, n × 3, and the first end on the way; shared corners asked once."""
    points = triangles.reshape(-1, 2)
    joined = np.ascontiguousarray(points).view(np.complex128).ravel()
    _, once, back = np.unique(joined, return_index=True, return_inverse=True)
    distances, first = field.at(points[once])
    return distances[back].reshape(-1, 3), first[back].reshape(-1, 3)


def most_within(triangles: Numbers, at: Numbers) -> Numbers:
    """What no distance inside each triangle is above.

    A triangle is open floor, so the distance at a point is at most the distance at a corner and the line there. The
    farthest that a point can be from a given corner is the longer side there; from its nearest corner, the radius of
    the circle through all three.
    """
    a, b, c = (np.hypot(*(triangles[:, i] - triangles[:, j]).T) for i, j in ((1, 2), (2, 0), (0, 1)))
    by_corner = (at + np.maximum(np.stack([b, c, a], axis=1), np.stack([c, a, b], axis=1))).min(axis=1)
    twice_area = _twice_areas(triangles)
    with np.errstate(divide="ignore", invalid="ignore"):
        radius = np.where(twice_area > 0, a * b * c / (2 * twice_area), np.inf)
    return np.asarray(np.minimum(by_corner, at.max(axis=1) + radius))


def most_from_one_end(field: Field, triangles: Numbers, first: Counts, bounds: Numbers) -> Numbers:
    """The bounds, lowered where an end sees all of a triangle: from one end, no point is farther than some corner."""
    lowered = bounds.copy()
    for corner in range(3):
        end = field.ends[first[:, corner]]
        apart = triangles - end[:, None, :]
        most = field.distances[first[:, corner]] + np.hypot(apart[..., 0], apart[..., 1]).max(axis=1)
        asked = np.nonzero((most < lowered) & (first[:, corner] >= 0))[0]
        if len(asked):
            around = np.concatenate([triangles[asked], end[asked, None, :]], axis=1)
            hulls = shapely.convex_hull(shapely.multipoints(list(around)))
            seen = asked[np.asarray(shapely.contains_properly(field.part.slack, hulls))]
            lowered[seen] = most[seen]
    return lowered


def _twice_areas(triangles: Numbers) -> Numbers:
    side, other = triangles[:, 1] - triangles[:, 0], triangles[:, 2] - triangles[:, 0]
    return np.asarray(np.abs(side[:, 0] * other[:, 1] - side[:, 1] * other[:, 0]))


class Search:
    """Branch and bound over triangles: those that cannot hold the longest walk are dropped, the others cut smaller."""

    def __init__(self, limit: float | None, tolerance: float) -> None:
        """A limit in m that is asked about, if any, and how far apart the bounds may stay."""
        self.limit, self.tolerance = limit, tolerance
        self.least, self.most = -np.inf, -np.inf
        self.place: Point | None = None
        self.part = -1
        self.spent = 0

    def through(self, part: int, field: Field, asked: Geometry) -> None:
        """Go through one more piece of floor, as far as is needed to settle what was asked."""
        triangles = triangles_of(asked)
        while len(triangles):
            at, first = distances_at(field, triangles)
            self._note(part, triangles, at)
            bounds = most_within(triangles, at)
            open_ = bounds > self._enough()
            bounds[open_] = most_from_one_end(field, triangles[open_], first[open_], bounds[open_])
            self.spent += len(triangles)
            if self.spent > MOST_TRIANGLES or (self.limit is not None and self.least > self.limit):
                self.most = max(self.most, float(bounds.max()))
                return
            open_ = bounds > self._enough()
            self.most = max(self.most, self.least, float(bounds[~open_].max(initial=-np.inf)))
            triangles = smaller(triangles[open_])

    def _enough(self) -> float:
        """Triangles whose bound is no higher need no closer look."""
        close = self.least + self.tolerance
        return close if self.limit is None else max(close, self.limit)

    def _note(self, part: int, triangles: Numbers, at: Numbers) -> None:
        where: Counts = np.array(np.unravel_index(int(at.argmax()), at.shape))
        if (distance := float(at[where[0], where[1]])) > self.least:
            x, y = triangles[where[0], where[1]]
            self.least, self.place, self.part = distance, (float(x), float(y)), part
