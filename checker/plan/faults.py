"""What in a plan cannot be so, all of it at once: crossed outlines, things in walls, doors on no wall."""

import re
from collections.abc import Iterator
from math import isfinite
from typing import Final

import shapely
from msgspec.structs import replace
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry as Geometry

from checker.plan.doorways import HAIR, opening, passage
from checker.plan.errors import NotOnFloor, OnThinWall, UnusablePlan
from checker.plan.floor import FARTHEST_CORNER, Floor, floor_of
from checker.plan.readings import shortest_reading
from checker.plan.results import Fault
from checker.plan.shapes import OUTSIDE, Door, Outline, Plan, Point

LEAST_AREA: Final = 1e-4
"""m2. An outline that encloses less encloses nothing."""
OVERLAP: Final = 0.01
"""m2. Rooms may overlap by this much where a drawing is a little off."""


def faults_of(plan: Plan) -> tuple[Fault, ...]:
    """Everything that cannot be so, in the order rooms, obstacles, walls, zones, doors, things.

    Where outlines are at fault, doors and things are looked at once those are mended.
    """
    outlines = [*_bad_outlines(plan)]
    if outlines or not plan.rooms:
        return tuple(outlines or [Fault("", None, "The plan has no room")])
    rooms = {room.id: Polygon(room.outline) for room in plan.rooms}
    return (*_overlapping_rooms(rooms), *_off_the_floor(plan, rooms), *_bad_doors(plan, rooms), *_bad_things(plan))


def _bad_outlines(plan: Plan) -> Iterator[Fault]:
    named: list[tuple[str, Outline, int]] = [
        *((f"room {each.id}", each.outline, 3) for each in plan.rooms),
        *((f"obstacle {each.id}", each.outline, 3) for each in plan.obstacles),
        *((f"wall {each.id}", each.line, 2) for each in plan.walls),
        *((f"zone {each.id}", each.outline, 3) for each in plan.zones),
    ]
    seen: set[str] = set()
    for name in [name for name, _, _ in named] + [f"door {each.id}" for each in plan.doors]:
        if name in seen:
            yield Fault(name, None, "Two of the same kind have this id")
        seen.add(name)
    for name, corners, least in named:
        if not all(isfinite(each) and abs(each) <= FARTHEST_CORNER for corner in corners for each in corner):
            yield Fault(name, None, "A corner lies more than 10 km from the frame's origin")
        elif len(set(corners)) < least:
            yield Fault(name, corners[0] if corners else None, f"It has fewer than {least} corners")
        elif least == 3 and (fault := _fault_of(corners)):
            yield Fault(name, *fault)


def _fault_of(corners: Outline) -> tuple[Point, str] | None:
    polygon = Polygon(corners)
    if not shapely.is_valid(polygon):
        return _place_in(shapely.is_valid_reason(polygon)) or corners[0], "The outline crosses or touches itself"
    if polygon.area < LEAST_AREA:
        return corners[0], "The outline has no area"
    return None


def _place_in(reason: str) -> Point | None:
    """The place that the geometry library names in brackets after its reason."""
    found = re.search(r"\[(\S+) (\S+)\]", reason)
    return (float(found[1]), float(found[2])) if found else None


def _overlapping_rooms(rooms: dict[str, Polygon]) -> Iterator[Fault]:
    names, outlines = list(rooms), list(rooms.values())
    pairs = shapely.STRtree(outlines).query(outlines, predicate="intersects").T.tolist()
    for one, other in sorted(pair for pair in pairs if pair[0] < pair[1]):
        both = outlines[one].intersection(outlines[other])
        if both.area > OVERLAP:
            says = f"It overlaps room {names[other]} by {both.area:.3g} m²"
            yield Fault(f"room {names[one]}", _point(both), says)


def _off_the_floor(plan: Plan, rooms: dict[str, Polygon]) -> Iterator[Fault]:
    floor = shapely.union_all([*rooms.values()]).buffer(HAIR)
    for obstacle in plan.obstacles:
        outside = Polygon(obstacle.outline).difference(floor)
        if not floor.intersects(Polygon(obstacle.outline)):
            yield Fault(f"obstacle {obstacle.id}", obstacle.outline[0], "It stands in no room")
        elif outside.area > OVERLAP:
            yield Fault(f"obstacle {obstacle.id}", _point(outside), "It reaches through a wall of its room")
    for wall in plan.walls:
        if not floor.intersects(LineString(wall.line)):
            yield Fault(f"wall {wall.id}", wall.line[0], "It stands in no room")
    for zone in plan.zones:
        if not floor.intersects(Polygon(zone.outline)):
            yield Fault(f"zone {zone.id}", zone.outline[0], "It lies in no room")


def _bad_doors(plan: Plan, rooms: dict[str, Polygon]) -> Iterator[Fault]:
    for door in plan.doors:
        for name in {door.room, door.to} - {OUTSIDE, *rooms}:
            yield Fault(f"door {door.id}", door.at, f"There is no room {name} in the plan")
        if door.width is not None and not 0 < door.width < FARTHEST_CORNER:
            yield Fault(f"door {door.id}", door.at, "Its width is not above 0")
        elif (
            door.at is not None
            and {door.room, door.to} <= {OUTSIDE, *rooms}
            and (says := _misplaced(door, plan, rooms))
        ):
            yield Fault(f"door {door.id}", door.at, says)


def _misplaced(door: Door, plan: Plan, rooms: dict[str, Polygon]) -> str | None:
    if door.to == OUTSIDE:
        line = opening(door.at, 0.1, rooms[door.room]) if door.at else None
        return f"It is in no wall of room {door.room}" if line is None else None
    known = replace(door, width=door.width or 0.1)
    if passage(known, plan, rooms) is None:
        return f"It is in no wall between room {door.room} and room {door.to}"
    return None


def _bad_things(plan: Plan) -> Iterator[Fault]:
    """Things that stand on no floor, and those to which no way leads even if everything unknown is in favour."""
    try:
        floor = floor_of(shortest_reading(plan))
    except UnusablePlan as refused:
        yield Fault("", None, str(refused)[0].upper() + str(refused)[1:])
        return
    for thing in plan.things:
        where = f"thing {thing.id}"
        try:
            floor.spot(thing.at)
        except OnThinWall:
            yield Fault(where, thing.at, "It is on the middle of a thin wall: move it to the side that it is on")
            continue
        except NotOnFloor:
            yield Fault(where, thing.at, _why_off(plan, thing.at))
            continue
        if not _can_be_reached(floor, thing.at, plan):
            yield Fault(where, thing.at, "No way leads to it")


def _why_off(plan: Plan, place: Point) -> str:
    point = shapely.Point(place)
    for obstacle in plan.obstacles:
        if Polygon(obstacle.outline).covers(point):
            return f"It is inside obstacle {obstacle.id}"
    if any(Polygon(room.outline).covers(point) for room in plan.rooms):
        return "It is inside a wall, or where nobody can stand"
    return "It is outside all rooms"


def _can_be_reached(floor: Floor, place: Point, plan: Plan) -> bool:
    """Whether a way leads from the place into the open: to a door to the outside, or else to most of some room."""
    part = floor.spot(place).part
    doors = [door.at for door in plan.doors if door.to == OUTSIDE and door.locked is not True and door.at is not None]
    ways_out = {floor.spot(at).part for at in doors if _is_on(floor, at)}
    if ways_out:
        return part in ways_out
    rooms = [Polygon(room.outline) for room in plan.rooms]
    return any(floor.parts[part].polygon.intersection(room).area > room.area / 2 for room in rooms)


def _is_on(floor: Floor, place: Point) -> bool:
    try:
        floor.spot(place)
    except NotOnFloor:
        return False
    return True


def _point(geometry: Geometry) -> Point:
    point = geometry.representative_point()
    return float(point.x), float(point.y)
