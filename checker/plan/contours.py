"""Which floor lies within a distance on foot of the nearest target, and which beyond.

A target reaches what it sees, as far as the distance; so does a corner, as far as is left of it there.
"""

from collections.abc import Sequence
from math import cos, pi
from typing import Final

import numpy as np
import shapely
from shapely import LineString
from shapely.geometry.base import BaseGeometry as Geometry
from shapely.geometry.base import BaseMultipartGeometry

from checker.plan.floor import Floor, patches
from checker.plan.results import Reach
from checker.plan.shapes import Point
from checker.plan.sight import Sight
from checker.plan.walking import SLIVER, Targets, asked_floor
from checker.plan.ways import Field, Part

ARC_STEPS: Final = (64, 16)
"""Straight steps to a quarter turn of a circle, and those where there are more circles than the next."""
MANY_ARCS: Final = 100
SEAM: Final = 1e-6
"""m. Strips narrower than twice this between what is seen from two points are no floor beyond."""


def reach(floor: Floor, places: Sequence[Point], distance: float, within: Geometry | None = None) -> Reach:
    """The floor within a distance in m of the nearest place, and beyond. Raises NotOnFloor."""
    targets = Targets(floor, places)
    beyond: list[Geometry] = []
    inside, contour = 0.0, []
    steps = ARC_STEPS[floor.corners > MANY_ARCS]
    for number, asked in asked_floor(floor, within):
        field = targets.field(number)
        reached = shapely.Polygon() if field is None else _reached(floor.parts[number], field, distance, steps)
        rest = _without_seams(asked.difference(reached))
        inside += asked.area - rest.area
        beyond.append(rest)
        contour.append(rest.boundary.difference(asked.boundary.buffer(10 * SEAM, quad_segs=1)))
    lines = shapely.union_all(contour)
    sagitta = distance * (1 - cos(pi / (4 * steps)))
    joined = shapely.union_all(beyond)
    tolerance = sagitta * lines.length + SLIVER
    return Reach(distance, inside, joined.area, tolerance, patches(_without_slivers(joined)), _lines(lines))


def _reached(part: Part, field: Field, distance: float, steps: int) -> Geometry:
    """The floor within a distance of a field's targets."""
    sight = Sight(part)
    found = []
    for end, used in zip(field.ends, field.distances, strict=True):
        if used < distance:
            circle = shapely.Point(end).buffer(distance - used, quad_segs=steps)
            found.append(shapely.make_valid(sight.seen_from(end, distance - used)).intersection(circle))
    return shapely.union_all(found)


def _without_seams(geometry: Geometry) -> Geometry:
    """The same without strips so thin that they lie between what two points see."""
    return geometry.buffer(-SEAM, join_style="mitre").buffer(SEAM, join_style="mitre")


def _without_slivers(geometry: Geometry) -> Geometry:
    pieces = geometry.geoms if isinstance(geometry, BaseMultipartGeometry) else [geometry]
    return shapely.union_all([each for each in pieces if each.area > SLIVER])


def _lines(geometry: Geometry) -> tuple[tuple[Point, ...], ...]:
    merged = shapely.line_merge(geometry)
    lines = merged.geoms if isinstance(merged, BaseMultipartGeometry) else [merged]
    found = [tuple((float(x), float(y)) for x, y in each.coords) for each in lines if isinstance(each, LineString)]
    return tuple(sorted(each for each in found if np.hypot(*np.ptp(np.array(each).reshape(-1, 2), axis=0)) > 1e-3))
