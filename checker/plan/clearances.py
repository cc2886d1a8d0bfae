"""Free distances: between things on the floor, from anchors to edges and joints, and the space before a face.

Round shapes are drawn with so many sides that no distance is off by more than a thousandth of a millimetre.
"""

from collections.abc import Mapping, Sequence
from math import acos, ceil, cos, pi, radians, sin
from types import MappingProxyType
from typing import Final

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry as Geometry

from checker.plan.doorways import jambs, opening
from checker.plan.errors import UnusablePlan
from checker.plan.floor import Shell, polygons
from checker.plan.results import EdgeDistance, Gap, Intrusion, WorkingSpace
from checker.plan.shapes import Area, Disc, Door, Face, Line, Outline, Plan, Point, Sector, Shape
from checker.plan.turned import Turn

SAGITTA: Final = 1e-6
"""m. How far the side of a drawn arc may lie inside it."""
TOUCH: Final = 1.5e-6
"""m. What reaches no farther than this into a space only touches it."""


def gap(one: Shape, other: Shape) -> Gap:
    """The free distance between two shapes, and the points where it is; 0 where they meet."""
    return _gap(geometry_of(one), geometry_of(other))


def gap_to_outline(inner: Shape, outline: Outline) -> Gap:
    """The free distance from something in a room to the room's walls; 0 where it reaches through them."""
    return _gap(geometry_of(inner), Polygon(outline).exterior)


def swept_by(door: Door, plan: Plan) -> tuple[Sector, ...]:
    """What the leaf of a hinged door sweeps; both ways round where the hinge is not known or it swings both ways.

    Nothing for a door that slides or rolls. Raises UnusablePlan where its place, width or way of opening is not known,
    or it stands on no wall.
    """
    if door.swing in ("sliding", "roller"):
        return ()
    room = next((room for room in plan.rooms if room.id == door.room), None)
    if room is None or door.at is None or door.width is None or door.swing is None:
        raise UnusablePlan(f"door {door.id}: its place, width and way of opening are needed to tell what it sweeps")
    if (stretch := opening(door.at, door.width, Polygon(room.outline))) is None:
        raise UnusablePlan(f"door {door.id} stands on no wall of its room")
    left, right = jambs(stretch, Polygon(room.outline))
    ways = {"in": (True,), "out": (False,), "both": (True, False)}[door.swing]
    hinges = {"left": (True,), "right": (False,), None: (True, False)}[door.hinge]
    return tuple(_sweep(left, right, hung_left, inwards) for inwards in ways for hung_left in hinges)


def edge_distances(anchors: Sequence[Point], slab: Outline, joints: Sequence[Line] = ()) -> tuple[EdgeDistance, ...]:
    """For each anchor, how far it is from the slab's edge, from the nearest joint and from the nearest other anchor.

    An anchor off the slab has 0 to its edge.
    """
    points, plate = [shapely.Point(each) for each in anchors], Polygon(slab)
    lines = [geometry_of(each) for each in joints]
    found = []
    for number, point in enumerate(points):
        others = [each for other, each in enumerate(points) if other != number]
        edge = _gap(point, plate.exterior) if plate.covers(point) else Gap(0.0, anchors[number], anchors[number])
        found.append(EdgeDistance(edge, _nearest(point, lines), _nearest(point, others)))
    return tuple(found)


def working_space(
    plan: Plan, face: Face, depth: float, width: float, things: Mapping[str, Shape] = MappingProxyType({})
) -> WorkingSpace:
    """The rectangle of a depth and a width before a face, in metres, where it is clearest.

    It is as wide as the thing at least, stands before all of it, and may lie off to one side. Walls, obstacles and the
    things named besides are looked for in it. Raises UnusablePlan.
    """
    width = max(width, face.width)
    turn = Turn(face.middle, face.towards)
    solid = [*standing(plan), *((name, geometry_of(shape)) for name, shape in things.items())]
    spare = width - face.width
    whole = shapely.box(0.0, -face.width / 2 - spare, depth, face.width / 2 + spare)
    near = [(name, each) for name, geometry in solid for each in _within(turn.into(geometry), whole)]
    side = _clearest_side(face.width, width, [each for _, each in near])
    box = shapely.box(0.0, side, depth, side + width)
    found = [(name, part) for name, each in near for part in _within(each, box)]
    intrusions = [Intrusion(name, each.area, float(each.bounds[0]), turn.outline(each)) for name, each in found]
    intrusions.sort(key=lambda each: (each.distance, each.thing, each.outline))
    free = min((each.distance for each in intrusions), default=depth)
    return WorkingSpace(turn.outline(box), not intrusions, max(0.0, free), tuple(intrusions))


def standing(plan: Plan) -> list[tuple[str, Geometry]]:
    """What stands on a plan and is no floor, by its name: obstacles, partitions, and all that lies outside rooms."""
    shell = Shell(plan)
    around = shapely.box(*shell.bare.bounds).buffer(100.0, join_style="mitre")
    solid = [(f"obstacle {each.id}", Polygon(each.outline)) for each in plan.obstacles if each.stands]
    return [*solid, ("wall", around.difference(shell.open))]


def geometry_of(shape: Shape) -> Geometry:
    """A shape as the geometry library draws it."""
    match shape:
        case Area():
            return Polygon(shape.outline)
        case Line():
            return LineString(shape.points)
        case Disc():
            return shapely.Point(shape.centre).buffer(shape.radius, quad_segs=_steps(shape.radius, pi / 2))
        case Sector():
            return _sector(shape)


def _sector(shape: Sector) -> Polygon:
    start, end = radians(shape.start), radians(shape.end)
    (x, y), r = shape.hinge, shape.radius
    angles = np.linspace(start, end, _steps(r, abs(end - start)) + 1)
    return Polygon([(x, y), *((x + r * cos(each), y + r * sin(each)) for each in angles)])


def _steps(radius: float, turn: float) -> int:
    """How many straight sides an arc needs, so that they lie no farther inside it than a hair."""
    return max(4, ceil(turn / (2 * acos(max(0.0, 1 - SAGITTA / radius)))))


def _gap(one: Geometry, other: Geometry) -> Gap:
    (x1, y1), (x2, y2) = shapely.get_coordinates(shapely.shortest_line(one, other)).tolist()
    return Gap(float(one.distance(other)), (x1, y1), (x2, y2))


def _nearest(point: Geometry, others: Sequence[Geometry]) -> Gap | None:
    return min((_gap(point, each) for each in others), key=lambda each: each.distance, default=None)


def _sweep(left: Point, right: Point, hung_left: bool, inwards: bool) -> Sector:
    """A quarter turn from the closed leaf: with the clock for a leaf hung left that opens inwards."""
    hinge, free = (left, right) if hung_left else (right, left)
    closed = float(np.degrees(np.arctan2(free[1] - hinge[1], free[0] - hinge[0])))
    back = hung_left == inwards
    radius = float(np.hypot(free[0] - hinge[0], free[1] - hinge[1]))
    return Sector(hinge, radius, closed - 90, closed) if back else Sector(hinge, radius, closed, closed + 90)


def _within(geometry: Geometry, box: Polygon) -> list[Polygon]:
    """The pieces of something that reach into a box, not only to it."""
    found = polygons(geometry.intersection(box))
    return [one for one in found if min(one.bounds[2] - one.bounds[0], one.bounds[3] - one.bounds[1]) > TOUCH]


def _clearest_side(thing: float, width: float, blocking: Sequence[Polygon]) -> float:
    """Where a rectangle of a width begins that covers a thing before it and meets least of what is in the way."""
    first, last = thing / 2 - width, -thing / 2
    starts = {first, last, -width / 2}
    for each in blocking:
        starts |= {min(max(each.bounds[3], first), last), min(max(each.bounds[1] - width, first), last)}
    depths = max((each.bounds[2] for each in blocking), default=0.0)

    def blocked(start: float) -> tuple[float, float, float]:
        box = shapely.box(0.0, start, depths, start + width)
        met = sum(part.area for each in blocking for part in _within(each, box))
        return met, abs(start + width / 2), start

    return min(starts, key=blocked)
