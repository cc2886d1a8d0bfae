"""Walks from the edge of an area: from its nearest and from its farthest point."""

from collections.abc import Sequence
from typing import Final

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry as Geometry
from shapely.geometry.base import BaseMultipartGeometry

from checker.plan.doorways import HAIR
from checker.plan.floor import Floor, Spot
from checker.plan.results import Walk
from checker.plan.shapes import Outline, Point
from checker.plan.walking import Targets
from checker.plan.ways import Field, Numbers

CLOSE: Final = 0.001
"""m. How near the walks found are to the shortest and the longest from an edge."""
MOST_PIECES: Final = 100_000
"""Pieces of edge that are looked at at once; no edge of a workshop comes near it."""
NOWHERE: Final = Walk(None, (), None)


def walks_from_edge(floor: Floor, outline: Outline, places: Sequence[Point]) -> tuple[Walk, Walk]:
    """The shortest and the longest of the walks from the edge of an area to the nearest of some places.

    What stands in the area may fill it. Edge that is no floor is left out; if some of the rest has no way, the longest
    walk has no distance. Raises NotOnFloor for a place.
    """
    targets = Targets(floor, places)
    ring = Polygon(outline).exterior
    near = ring.buffer(3 * HAIR + 1.01 * floor.clearance)
    walks: dict[int, list[Walk]] = {-1: [], 1: []}
    for number, part in enumerate(floor.parts):
        pieces = straight_pieces(ring.intersection(part.polygon), part.polygon.boundary.intersection(near))
        field = targets.field(number)
        for sign in walks if len(pieces) else ():
            place = None if field is None else _extreme(field, pieces, sign)
            walks[sign].append(NOWHERE if place is None else targets.walk(Spot(number, place, 0.0)))
    shortest = min(walks[-1], key=lambda each: np.inf if each.distance is None else each.distance, default=NOWHERE)
    longest = max(walks[1], key=lambda each: np.inf if each.distance is None else each.distance, default=NOWHERE)
    return shortest, longest


def _extreme(field: Field, pieces: Numbers, sign: int) -> Point:
    """The place on straight pieces, n × 2 × 2, that is farthest (sign 1) or nearest (sign -1), give or take CLOSE.

    The distance changes no faster than one walks, so between two ends it is no farther off than where the two slopes
    of 1 from both ends meet.
    """
    best, place = -np.inf, pieces[0, 0]
    while 0 < len(pieces) <= MOST_PIECES:
        points = pieces.reshape(-1, 2)
        at = sign * field.at(points)[0]
        if at.max() > best:
            best, place = float(at.max()), points[at.argmax()]
        ends, lengths = at.reshape(-1, 2), np.hypot(*(pieces[:, 1] - pieces[:, 0]).T)
        pieces = pieces[(ends.sum(axis=1) + lengths) / 2 > best + CLOSE]
        middles = pieces.mean(axis=1)
        pieces = np.concatenate([np.stack([pieces[:, 0], middles], 1), np.stack([middles, pieces[:, 1]], 1)])
    return float(place[0]), float(place[1])


def straight_pieces(*lines: Geometry) -> Numbers:
    """The straight pieces that lines are made of, n × 2 × 2."""
    found = [np.zeros((0, 2, 2))]
    for line in lines:
        for each in line.geoms if isinstance(line, BaseMultipartGeometry) else [line]:
            if isinstance(each, LineString) and each.length > HAIR:
                corners = shapely.get_coordinates(each)
                found.append(np.stack([corners[:-1], corners[1:]], axis=1))
    return np.concatenate(found)
