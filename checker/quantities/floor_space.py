"""Free floor before panels, beside machines, and along the line of the rollers, measured on the floor plan."""

from collections.abc import Sequence
from functools import partial
from math import atan2, cos, degrees, hypot, radians, sin
from typing import TYPE_CHECKING, Final

from msgspec.structs import replace

from checker.quantities.missing import Missing, OutsideRange
from checker.quantities.registry import Argument, quantity
from checker.quantities.walks import asked
from checker.quantities.working import Drawn

if TYPE_CHECKING:
    from checker.plan import Door, Face, FreeFloor, Obstacle, Outline, Plan, Strip
    from checker.quantities.storeys import StoreyPlan
    from checker.quantities.things import Thing

    Placed = Sequence["Place | Missing"]
    Rooms = Sequence[Thing | Missing]

Place = tuple[float, float]
Line = tuple[Place, ...]
LEAST_WIDTH: Final = 0.762
"""m. 30 in: the space before a panel is this wide at least, or as wide as the panel."""
FARTHEST: Final = 3.0
"""m. Free floor is followed this far. Our own choice."""
ON_WALL: Final = 0.05
"""m. What hangs on the wall that ends a strip lies in it. Our own choice."""
OFF_WALL: Final = 1.0
"""m. A panel farther from the walls of its room than this hangs on none of them. Our own choice."""
_GEOMETRY: Final = "plane geometry"
_PANEL: Final = {"plan": "room.plan", "here": "at", "width": "width"}
_PANEL_LEAVES_OUT: Final = "what is not on the plan; the panel's depth and its door; what hangs above the floor"
_SIDES_LEAVE_OUT: Final = "mirrors and loads that stick out; what is not on the plan"


@quantity(
    "panel.clear_depth",
    gives="length",
    inputs=_PANEL,
    formula="depth of the clear rectangle before the panel, as wide as it and 30 in at least, where that is deepest",
    source="29 CFR 1910.303(g)(1)(i)(B) for the width (verified in a state's text); plane geometry",
    status="verified",
    leaves_out=_PANEL_LEAVES_OUT,
)
def panel_clear_depth(plan: "StoreyPlan", here: Place, width: float) -> Drawn:
    """How deep in m the floor before a panel is clear, followed for 3 m."""
    from checker.plan import clear_depth

    face = _front(plan, here, width)
    found = asked(lambda: clear_depth(plan.plan, face, LEAST_WIDTH, FARTHEST, kept=plan.kept))
    return Drawn(found.length, "working space", plan.room, found.outline)


@quantity(
    "panel.clear_width",
    gives="length",
    inputs={**_PANEL, "depth": "clear_depth"},
    formula="width of the clear rectangle before the panel that is as deep as its clear depth",
    source=_GEOMETRY,
    status="definition",
    leaves_out=_PANEL_LEAVES_OUT,
)
def panel_clear_width(plan: "StoreyPlan", here: Place, width: float, depth: float) -> Drawn:
    """How wide in m the floor before a panel is clear to a depth in m, followed for 3 m to each side."""
    from checker.plan import clear_width

    face = _front(plan, here, width)
    found = asked(lambda: clear_width(plan.plan, face, depth, FARTHEST, kept=plan.kept))
    return Drawn(found.length, "working space", plan.room, found.outline)


@quantity(
    "dyno.clear_sides",
    gives="length",
    inputs={
        "plan": "room.plan", "at": "at", "faces": "faces", "footprint": "footprint", "vehicle": "widest_vehicle"
    },
    formula=(
        "least free distance to each side of the machine, or of the widest vehicle on it where that is wider, to "
        "walls, to what stands on the floor and to swinging doors"
    ),
    source=_GEOMETRY,
    status="definition",
    leaves_out=_SIDES_LEAVE_OUT,
)  # fmt: skip
def clear_sides(plan: "StoreyPlan", at: Place, faces: Place, footprint: "Outline", vehicle: float) -> Drawn:
    """How much free floor in m there is at the narrower side of a machine, followed for 3 m."""
    from checker.plan import as_it_may_open

    _known(plan)
    surely, perhaps = (
        [door for door in plan.plan.doors if (door.id in plan.leaf_gaps) is doubt] for doubt in (False, True)
    )
    found = _narrower_side(plan, at, faces, footprint, vehicle, surely)
    if perhaps:
        swinging = [*surely, *map(as_it_may_open, perhaps)]
        if _narrower_side(plan, at, faces, footprint, vehicle, swinging).length != found.length:
            raise Missing.together(plan.leaf_gaps[door.id] for door in perhaps)
    return Drawn(found.length, "gap", plan.room, found.outline)


def _narrower_side(
    plan: "StoreyPlan", at: Place, faces: Place, footprint: "Outline", vehicle: float, swinging: Sequence["Door"]
) -> "FreeFloor":
    from checker.plan import Face, clear_depth

    others = [each for each in plan.plan.obstacles if each.outline != footprint]
    around = replace(plan.plan, obstacles=(*others, *_swept(plan.plan, swinging)))
    towards = _direction(at, faces)
    own = [_into(corner, at, towards) for corner in footprint]
    back, front = min(x for x, _ in own), max(x for x, _ in own)
    found = []
    for side in (1, -1):
        edge = max(vehicle / 2, *(side * y for _, y in own))
        middle = _out_of(((back + front) / 2, side * edge), at, towards)
        face = Face(middle, front - back, towards + 90 * side)
        found.append(asked(partial(clear_depth, around, face, front - back, FARTHEST, plan.kept)))
    narrower: FreeFloor = min(found, key=lambda each: each.length)
    return narrower


@quantity(
    "dyno.needed_in_line",
    gives="count",
    inputs={
        "plan": "room.plan",
        "at": "at",
        "faces": "faces",
        "vehicle": "widest_vehicle",
        "stop": "emergency_stop.at",
        "walls_solid": "room.walls_solid",
        "partitions": "room.partitions[*].line",
        "solid": "room.partitions[*].solid",
        "doors": "room.doors[*].at",
        "ways_out": "room.doors[*].way_out",
        "units": "site.extinguishers[*].at?",
        "units_in": "site.extinguishers[*].room?",
        "panels": "site.panels[*].at?",
        "panels_in": "site.panels[*].room?",
    },
    formula=(
        "number of emergency stops, extinguishers, panels and doors that are ways out in the strips as wide as the "
        "widest vehicle, ahead of the rollers and behind them, up to the first solid wall"
    ),
    source=_GEOMETRY,
    status="definition",
    leaves_out="whether the walls of other rooms are solid: they count as such; what flies off to the side",
)
def needed_in_line(
    plan: "StoreyPlan",
    at: Place,
    faces: Place,
    vehicle: float,
    stop: Place,
    walls_solid: bool,
    partitions: Sequence[Line],
    solid: Sequence[bool],
    doors: Sequence[Place],
    ways_out: Sequence[bool],
    units: "Placed",
    units_in: "Rooms",
    panels: "Placed",
    panels_in: "Rooms",
) -> Drawn:
    """How many things that people go to in need lie where a vehicle or a part of it may fly."""
    _known(plan)
    thin = [line for line, each in zip(partitions, solid, strict=True) if not each]
    found = _line_strips(plan, at, faces, vehicle, walls_solid, thin)
    leaving = [place for place, way_out in zip(doors, ways_out, strict=True) if way_out]
    open_ = {name for strip in found for name in strip.doors}
    through = [door for door in plan.plan.doors if door.id in open_ and door.at in leaving]
    places = [stop, *_on_storey(plan, units, units_in), *_on_storey(plan, panels, panels_in)]
    patches = [patch.outline for strip in found for patch in strip.outline]
    corners = tuple(corner for outline in patches for corner in (*outline, outline[0]))
    return Drawn(sum(_lies_in(place, found) for place in places) + len(through), "strip", plan.room, corners)


@quantity(
    "room.air_space",
    gives="volume",
    inputs={"floor_area": "floor_area", "height": "height"},
    arguments=(Argument("counted_to", "length"),),
    formula="floor area × height, where height above the one given is not counted",
    source="Workplace (Health, Safety and Welfare) Regulations 1992, regulation 10 with L24 (verified)",
    status="verified",
    leaves_out="furniture, which the rule takes out of the room",
)
def air_space(floor_area: float, height: float, counted_to: float) -> float:
    """The volume of a room in m3 that counts for the people in it, from m2 and m."""
    return floor_area * min(height, counted_to)


def _known(plan: "StoreyPlan") -> None:
    if plan.reading != "recorded":
        raise OutsideRange("it is told only of a floor plan that is fully known")


def _front(plan: "StoreyPlan", here: Place, width: float) -> "Face":
    """The front of a panel that hangs on a wall of its room. Raises OutsideRange."""
    from checker.plan import Face
    from checker.plan.sides import inwards, nearest_side

    _known(plan)
    nearest = nearest_side(here, plan.outline)
    if nearest.distance > OFF_WALL:
        raise OutsideRange("the panel hangs on no wall of its room, so that the plan does not tell which way it faces")
    across, up = inwards(nearest.side, plan.outline)
    return Face(here, width, degrees(atan2(up, across)))


def _direction(at: Place, faces: Place) -> float:
    if at == faces:
        raise OutsideRange("the point ahead of the vehicle's nose is the middle of the rollers itself")
    return degrees(atan2(faces[1] - at[1], faces[0] - at[0]))


def _into(place: Place, origin: Place, towards: float) -> Place:
    """A place in the frame of a machine: x ahead, y to the left."""
    x, y, turn = place[0] - origin[0], place[1] - origin[1], radians(towards)
    return x * cos(turn) + y * sin(turn), y * cos(turn) - x * sin(turn)


def _out_of(place: Place, origin: Place, towards: float) -> Place:
    x, y, turn = *place, radians(towards)
    return origin[0] + x * cos(turn) - y * sin(turn), origin[1] + y * cos(turn) + x * sin(turn)


def _swept(plan: "Plan", doors: Sequence["Door"]) -> list["Obstacle"]:
    """What the leaves of doors sweep, as things that stand there."""
    from shapely import get_coordinates

    from checker.plan import Obstacle, swept_by
    from checker.plan.clearances import geometry_of

    return [
        Obstacle(f"{door.id} swings", tuple((float(x), float(y)) for x, y in get_coordinates(geometry_of(each))[:-1]))
        for door in doors
        for each in asked(partial(swept_by, door, plan))
    ]


def _line_strips(
    plan: "StoreyPlan", at: Place, faces: Place, width: float, walls_solid: bool, thin: Sequence[Line]
) -> tuple["Strip", "Strip"]:
    """The strips ahead and behind. What is no solid wall is no end: thin partitions, and walls that are not solid."""
    from checker.plan import strips

    walls = tuple(wall for wall in plan.plan.walls if wall.line not in thin)
    doors = plan.plan.doors if walls_solid else (*plan.plan.doors, *_all_open(plan))
    open_plan = replace(plan.plan, walls=walls, doors=doors)
    towards = _direction(at, faces)
    half = width / 2
    rollers = tuple(_out_of(each, at, towards) for each in ((0.0, -half), (0.01, -half), (0.01, half), (0.0, half)))
    found: tuple[Strip, Strip] = asked(lambda: strips(open_plan, rollers, towards, kept=plan.kept))
    return found


def _all_open(plan: "StoreyPlan") -> list["Door"]:
    """Doors as wide as each wall of the room, through which strips run on."""
    from checker.plan import OUTSIDE, Door

    corners = plan.outline
    sides = zip(corners, (*corners[1:], corners[0]), strict=True)
    return [
        Door(f"wall {number}", plan.room, OUTSIDE, ((x1 + x2) / 2, (y1 + y2) / 2), hypot(x2 - x1, y2 - y1), False)
        for number, ((x1, y1), (x2, y2)) in enumerate(sides, 1)
    ]


def _on_storey(plan: "StoreyPlan", places: "Placed", rooms: "Rooms") -> list[Place]:
    """Where things of the storey are. Raises Missing with what is not known of them."""
    here = [
        (place, room)
        for place, room in zip(places, rooms, strict=True)
        if isinstance(room, Missing) or room.id in plan.rooms
    ]
    gaps = [each for pair in here for each in pair if isinstance(each, Missing)]
    if gaps:
        raise Missing.together(gaps)
    return [place for place, _ in here if not isinstance(place, Missing)]


def _lies_in(place: Place, found: Sequence["Strip"]) -> bool:
    from shapely import Point, Polygon

    return any(
        Polygon(patch.outline, patch.holes).distance(Point(place)) <= ON_WALL
        for strip in found
        for patch in strip.outline
    )
