"""Exact walking distances in one piece of floor.

A shortest way among obstacles with corners is a chain of straight lines that bends only at corners which stick into
the floor, and wraps round each of them. So all corners that see each other are joined, distances are spread from the
targets along these lines, and a point of the floor is as far as the best corner or target that it sees.
(M. de Berg et al., Computational Geometry, chapter on visibility graphs; cited from memory.)
"""

from functools import cached_property
from typing import Final

import numpy as np
import shapely
from msgspec import Struct
from numpy.typing import NDArray
from shapely import Polygon
from shapely.geometry.base import BaseGeometry as Geometry

Numbers = NDArray[np.float64]
Counts = NDArray[np.intp]
SLACK: Final = 1e-7
"""m. A line of sight may graze walls by this much; less than the thinnest wall is thick."""
LEVEL: Final = 1e-6
"""Sine of the angle below which two directions count as one where a line more does no harm."""
MOST_PAIRS: Final = 2_000_000
"""Points times ends that are looked at at once, for the sake of memory."""
STRAIGHT: Final = 1e-10
"""Sine of the angle below which a wall does not bend."""


class Part(Struct, frozen=True, dict=True):
    """A connected piece of floor."""

    polygon: Polygon

    @cached_property
    def slack(self) -> Geometry:
        """The piece grown by a hair, ready to be asked what it covers."""
        grown = shapely.buffer(self.polygon, SLACK, join_style="mitre", mitre_limit=10)
        shapely.prepare(grown)
        return grown

    @cached_property
    def _corners(self) -> tuple[Numbers, Numbers, Numbers]:
        """Corners that stick into the floor, and the directions of the two sides that meet there."""
        oriented = shapely.orient_polygons(self.polygon)
        found = [_reflex(ring) for ring in (oriented.exterior, *oriented.interiors)]
        points, before, after = (np.concatenate(each) for each in zip(*found, strict=True))
        return points, before, after

    @property
    def corners(self) -> Numbers:
        """Corners that stick into the floor, n × 2."""
        return self._corners[0]

    @cached_property
    def web(self) -> Numbers:
        """Lengths of the straight lines between corners along which a shortest way may run; infinite for no line."""
        count = len(self.corners)
        lengths = np.full((count, count), np.inf)
        if count:
            wraps = self.wraps(self.corners)
            one, other = np.nonzero(np.triu(wraps & wraps.T, 1))
            seen = self.sees(self.corners[one], self.corners[other])
            one, other = one[seen], other[seen]
            lengths[one, other] = lengths[other, one] = _distance(self.corners[one], self.corners[other])
        return lengths

    @cached_property
    def between(self) -> Numbers:
        """Walking distances between all corners: Floyd's and Warshall's."""
        lengths = self.web.copy()
        np.fill_diagonal(lengths, 0.0)
        for through in range(len(lengths)):
            np.minimum(lengths, lengths[:, through, None] + lengths[None, through, :], out=lengths)
        return lengths

    def lines_to_corners(self, points: Numbers) -> Numbers:
        """For each point and corner the line along which a way may run to the corner; infinite for no line."""
        if not len(self.corners):
            return np.zeros((len(points), 0))
        lengths = np.where(self.wraps(points), _far(points, self.corners), np.inf)
        one, other = np.nonzero(np.isfinite(lengths))
        hidden = ~self.sees(points[one], self.corners[other])
        lengths[one[hidden], other[hidden]] = np.inf
        return lengths

    def lines_between(self, points: Numbers, others: Numbers) -> Numbers:
        """For each point and each other point the line between them; infinite for no line."""
        one, other = (each.ravel() for each in np.indices((len(points), len(others))))
        seen = self.sees(points[one], others[other]).reshape(len(points), len(others))
        return np.where(seen, _far(points, others), np.inf)

    def wraps(self, points: Numbers) -> NDArray[np.bool_]:
        """For each point and corner, whether a way from the point could turn about the corner."""
        corners, before, after = self._corners
        way = points[:, None, :] - corners[None, :, :]
        far = np.maximum(np.hypot(way[..., 0], way[..., 1]), 1e-300)
        sides = [(way[..., 0] * side[:, 1] - way[..., 1] * side[:, 0]) / far for side in (before, after)]
        one, other = (np.where(np.abs(each) < LEVEL, 0.0, each) for each in sides)
        return np.asarray(one * other >= 0)

    def sees(self, one: Numbers, other: Numbers) -> NDArray[np.bool_]:
        """Whether the straight line between each pair of points runs over the floor."""
        if not len(one):
            return np.zeros(0, bool)
        lines = shapely.linestrings(np.stack([one, other], axis=1))
        return np.asarray(shapely.contains_properly(self.slack, lines))


class Field:
    """How far every point of a piece of floor is from the nearest of some targets."""

    def __init__(self, part: Part, targets: Numbers, offsets: Numbers) -> None:
        """Targets on the floor, n × 2, and for each what it adds to a walk that ends there."""
        self.part, self.count = part, len(targets)
        corners = part.corners
        self.ends: Numbers = np.concatenate([targets, corners])
        start, first = self._first(targets, offsets, corners)
        distances, previous = _spread(part.web, start)
        self.distances: Numbers = np.concatenate([offsets, distances])
        self.previous = np.where(previous < 0, first, previous + self.count)

    def _first(self, targets: Numbers, offsets: Numbers, corners: Numbers) -> tuple[Numbers, Counts]:
        """For each corner the way to the nearest target that it sees, and which that is."""
        if not len(corners):
            return np.zeros(0), np.zeros(0, np.intp)
        lengths = self.part.lines_to_corners(targets) + offsets[:, None]
        first = lengths.argmin(axis=0)
        return lengths[first, np.arange(len(corners))], first

    def at(self, points: Numbers) -> tuple[Numbers, Counts]:
        """For each point, n × 2, its distance and the first end on its way: a target, or a corner behind them."""
        at_once = max(1, MOST_PAIRS // len(self.ends))
        found = [self._at(points[start : start + at_once]) for start in range(0, max(1, len(points)), at_once)]
        distances, first = zip(*found, strict=True)
        return np.concatenate(distances), np.concatenate(first)

    def _at(self, points: Numbers) -> tuple[Numbers, Counts]:
        if not len(self.part.corners):
            bounds = _far(points, self.ends) + self.distances
            nearest = bounds.argmin(axis=1)
            return bounds[np.arange(len(points)), nearest], nearest
        bounds = _far(points, self.ends) + self.distances
        likely = bounds.copy()
        likely[:, self.count :][~self.part.wraps(points)] = np.inf
        distances, first = self._seen(points, likely)
        lost = np.nonzero(np.isinf(distances))[0]
        if len(lost):
            distances[lost], first[lost] = self._seen(points[lost], bounds[lost])
        return distances, first

    def _seen(self, points: Numbers, bounds: Numbers) -> tuple[Numbers, Counts]:
        """The least bound whose end each point sees: the likeliest are tried first."""
        order = np.argsort(bounds, axis=1)
        distances, first = np.full(len(points), np.inf), np.full(len(points), -1, np.intp)
        open_: Counts = np.arange(len(points))
        for rank in range(bounds.shape[1]):
            end = order[open_, rank]
            finite = np.isfinite(bounds[open_, end])
            open_, end = open_[finite], end[finite]
            if not len(open_):
                break
            seen = self.part.sees(points[open_], self.ends[end])
            distances[open_[seen]] = bounds[open_[seen], end[seen]]
            first[open_[seen]] = end[seen]
            open_ = open_[~seen]
        return distances, first

    def way(self, end: int) -> tuple[list[tuple[float, float]], int]:
        """The bends of the way on from an end, itself first, and the target where it stops."""
        bends = [(float(self.ends[end, 0]), float(self.ends[end, 1]))]
        while end >= self.count:
            end = int(self.previous[end - self.count])
            bends.append((float(self.ends[end, 0]), float(self.ends[end, 1])))
        return bends, end


def _reflex(ring: Geometry) -> tuple[Numbers, Numbers, Numbers]:
    """Corners of a ring where the floor takes more than half a turn. The floor lies to its left."""
    points = shapely.get_coordinates(ring)[:-1]
    before, after = np.roll(points, 1, axis=0) - points, np.roll(points, -1, axis=0) - points
    before, after = (each / np.maximum(np.hypot(*each.T), 1e-300)[:, None] for each in (before, after))
    turns = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    reflex = turns > STRAIGHT
    return points[reflex], before[reflex], after[reflex]


def _spread(web: Numbers, start: Numbers) -> tuple[Numbers, Counts]:
    """Dijkstra's distances along the web, from corners that already have one; and the corner before each, or -1."""
    distances, previous = start.copy(), np.full(len(start), -1, np.intp)
    waiting = start.copy()
    for _ in range(len(start)):
        nearest = int(waiting.argmin())
        if not np.isfinite(waiting[nearest]):
            break
        waiting[nearest] = np.inf
        through = distances[nearest] + web[nearest]
        better = through < distances
        distances[better] = waiting[better] = through[better]
        previous[better] = nearest
    return distances, previous


def _far(points: Numbers, others: Numbers) -> Numbers:
    apart = points[:, None, :] - others[None, :, :]
    return np.asarray(np.hypot(apart[..., 0], apart[..., 1]))


def _distance(one: Numbers, other: Numbers) -> Numbers:
    return np.asarray(np.hypot(*(one - other).T))
