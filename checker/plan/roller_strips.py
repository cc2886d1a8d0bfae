"""The strips of floor in front of and behind rollers, where what comes loose may go, as far as the first solid wall."""

from collections.abc import Mapping

import numpy as np
import shapely
from msgspec.structs import replace
from shapely import LineString, Polygon
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry as Geometry

from checker.plan.clearances import TOUCH, geometry_of
from checker.plan.doorways import SNAP, jambs, opening
from checker.plan.floor import Shell, patches, polygons
from checker.plan.results import Intrusion, Strip
from checker.plan.search import triangles_of
from checker.plan.shapes import OUTSIDE, Outline, Plan, Shape
from checker.plan.turned import Turn


def strips(
    plan: Plan,
    rollers: Outline,
    direction: float,
    things: Mapping[str, Shape],
    farthest: float,
) -> tuple[Strip, Strip]:
    """The strips as wide as the rollers in the direction a vehicle faces on them, and the other way.

    The direction in degrees against the clock from x. A wall ends a strip where it stands; a door, even a locked one,
    is no solid wall, and the strip runs on behind it, outside as well. Obstacles do not end it. Doors without a place
    or a width count as wall. A strip is followed no farther than the last distance, in m. Raises UnusablePlan.
    """
    placed = [door for door in plan.doors if door.at is not None and door.width is not None]
    doors = tuple(replace(door, locked=False) for door in placed)
    open_plan = replace(plan, doors=doors)
    shell = Shell(open_plan)
    ahead = _strip(open_plan, shell, rollers, direction, things, farthest)
    return ahead, _strip(open_plan, shell, rollers, direction + 180, things, farthest)


def _strip(
    plan: Plan, shell: Shell, rollers: Outline, direction: float, things: Mapping[str, Shape], farthest: float
) -> Strip:
    turn = Turn(rollers[0], direction)
    _, low, start, high = turn.into(Polygon(rollers)).bounds
    box = shapely.box(start, low, start + farthest, high)
    outside = [_outwards(turn.into(line), farthest) for _, line in _openings(plan, OUTSIDE)]
    solid = box.difference(shapely.union_all([turn.into(shell.open), *outside]))
    walls = [each for each in polygons(solid) if each.bounds[3] - each.bounds[1] > TOUCH]
    zone = box.difference(shapely.union_all([_shadow(each, farthest) for each in walls]))
    zone = shapely.union_all([each for each in polygons(zone) if each.bounds[0] <= start + TOUCH])
    through = [name for name, line in _openings(plan) if turn.into(line).intersection(zone).length > TOUCH]
    holds = [
        Intrusion(name, part.area, max(0.0, float(part.bounds[0]) - start), _outline(turn, part))
        for name, geometry in _named(plan, things)
        if not (part := _part_in(turn.into(geometry), zone)).is_empty
    ]
    return Strip(
        patches(turn.back(zone)),
        min((float(each.bounds[0]) - start for each in walls), default=None),
        float(zone.bounds[2]) - start if not zone.is_empty else 0.0,
        tuple(sorted(holds, key=lambda each: (each.distance, each.thing))),
        tuple(through),
    )


def _shadow(wall: Polygon, length: float) -> Geometry:
    """A wall and all that lies behind it."""
    triangles = triangles_of(wall)
    moved = np.concatenate([triangles, triangles + np.array([length, 0.0])], axis=1)
    return shapely.union_all(shapely.convex_hull(shapely.multipoints(list(moved))))


def _outwards(line: LineString, length: float) -> Geometry:
    """The ground outside along x behind an opening, whose left end comes first; none where the opening faces back."""
    (_, left), (_, right) = line.coords
    return shapely.convex_hull(shapely.union_all([line, translate(line, xoff=length if left > right else 0.0)]))


def _openings(plan: Plan, to: str | None = None) -> list[tuple[str, LineString]]:
    """The stretches of wall that doors take up, by door, from left to right as seen from inside."""
    rooms = {room.id: Polygon(room.outline) for room in plan.rooms}
    found = [
        (door, opening(door.at, door.width, rooms[door.room]))
        for door in plan.doors
        if door.at is not None and door.width is not None and door.room in rooms and to in (None, door.to)
    ]
    return [(door.id, LineString(jambs(line, rooms[door.room]))) for door, line in found if line is not None]


def _named(plan: Plan, things: Mapping[str, Shape]) -> list[tuple[str, Geometry]]:
    return [
        *((f"obstacle {each.id}", Polygon(each.outline)) for each in plan.obstacles if each.stands),
        *((f"thing {each.id}", shapely.Point(each.at)) for each in plan.things),
        *((name, geometry_of(shape)) for name, shape in things.items()),
    ]


def _part_in(geometry: Geometry, zone: Geometry) -> Geometry:
    """What of a thing lies in a strip. A point, such as an extinguisher on a wall, may be a little off."""
    return geometry.intersection(zone.buffer(SNAP) if isinstance(geometry, shapely.Point) else zone)


def _outline(turn: Turn, geometry: Geometry) -> Outline:
    hull = shapely.convex_hull(turn.back(geometry))
    corners = shapely.get_coordinates(hull)
    corners = corners[:-1] if isinstance(hull, Polygon) else corners
    return tuple((float(x), float(y)) for x, y in corners)
