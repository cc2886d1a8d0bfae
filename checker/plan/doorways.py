"""The openings that doors make in walls: short passages that join the floor on both sides."""

from collections.abc import Mapping
from typing import Final

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry as Geometry

from checker.plan.shapes import OUTSIDE, Door, Plan, Point, Wall
from checker.plan.sides import SNAP as SNAP
from checker.plan.sides import THICKEST_WALL

HAIR: Final = 1e-6
"""m. Half the thickness of a wall that is drawn as a line; obstacles grow by it to join what they touch."""


def passage(door: Door, plan: Plan, rooms: Mapping[str, Polygon]) -> Geometry | None:
    """The floor of an opening between two rooms or through a partition; None if the door stands in no such wall.

    A door between rooms without a place or a width opens the whole wall that they share.
    """
    if door.to == OUTSIDE or door.room not in rooms or door.to not in rooms:
        return None
    if door.to == door.room:
        return _through_partition(door, plan.walls)
    here, there = rooms[door.room], rooms[door.to]
    if door.at is None or door.width is None:
        return _whole_wall(here, there)
    faces = [_face(door.at, door.width, here), _face(door.at, door.width, there)]
    if any(face is None for face in faces) or not _between(door.at, here, there):
        return None
    return shapely.buffer(
        shapely.convex_hull(shapely.union_all(faces)), 4 * HAIR, cap_style="square", join_style="mitre"
    )


def wall_body(wall: Wall) -> Geometry:
    """The floor that a wall stands on, grown so that its ends join what they touch."""
    half = max(wall.thickness, HAIR) / 2
    body = LineString(wall.line).buffer(half, cap_style="flat", join_style="mitre", mitre_limit=100)
    return body.buffer(HAIR / 2, join_style="mitre", mitre_limit=100)


def opening(at: Point, width: float, outline: Polygon) -> LineString | None:
    """The stretch of a room's outline that a door takes up; None if it is in none of its walls."""
    near = THICKEST_WALL / 2 + SNAP
    return _face(at, width, outline) if outline.exterior.distance(shapely.Point(at)) <= near else None


def jambs(stretch: LineString, room: Polygon) -> tuple[Point, Point]:
    """The ends of an opening, the left one first as seen from inside the room."""
    (x1, y1), (x2, y2) = stretch.coords
    towards = shapely.Point((x1 + x2) / 2 - 1e-3 * (y2 - y1), (y1 + y2) / 2 + 1e-3 * (x2 - x1))
    ends = (x2, y2), (x1, y1)
    return ends if room.covers(towards) else (ends[1], ends[0])


def nearest_side(at: Point, line: LineString) -> tuple[np.ndarray, np.ndarray]:
    """The side of a line that lies nearest to a point, by its two ends."""
    corners = shapely.get_coordinates(line)
    sides = shapely.linestrings(np.stack([corners[:-1], corners[1:]], axis=1))
    nearest = int(np.argmin(shapely.distance(sides, shapely.Point(at))))
    return corners[nearest], corners[nearest + 1]


def _face(at: Point, width: float, outline: Polygon) -> LineString | None:
    start, end = nearest_side(at, outline.exterior)
    length = float(np.hypot(*(end - start)))
    along = (end - start) / length
    middle = float(np.dot(np.asarray(at) - start, along))
    first, last = max(0.0, middle - width / 2), min(length, middle + width / 2)
    return LineString([start + first * along, start + last * along]) if last > first else None


def _between(at: Point, here: Polygon, there: Polygon) -> bool:
    """Whether the point lies in the wall between two rooms, give or take what a drawing is off."""
    point = shapely.Point(at)
    ends = [shapely.shortest_line(point, each.exterior) for each in (here, there)]
    (_, one), (_, other) = (each.coords for each in ends)
    thickness = float(np.hypot(one[0] - other[0], one[1] - other[1]))
    return thickness <= THICKEST_WALL and sum(each.length for each in ends) <= thickness + 2 * SNAP


def _whole_wall(here: Polygon, there: Polygon) -> Geometry | None:
    if here.distance(there) > THICKEST_WALL:
        return None
    return here.buffer(THICKEST_WALL, quad_segs=2).intersection(there.buffer(THICKEST_WALL, quad_segs=2))


def _through_partition(door: Door, walls: tuple[Wall, ...]) -> Geometry | None:
    if door.at is None or door.width is None:
        return None
    point = shapely.Point(door.at)
    for wall in walls:
        line = LineString(wall.line)
        if line.distance(point) <= wall.thickness / 2 + SNAP:
            start, end = nearest_side(door.at, line)
            along = (end - start) / np.hypot(*(end - start))
            middle = start + np.dot(np.asarray(door.at) - start, along) * along
            half = along * door.width / 2
            return LineString([middle - half, middle + half]).buffer(
                max(wall.thickness / 2, HAIR) + 4 * HAIR, cap_style="flat"
            )
    return None
