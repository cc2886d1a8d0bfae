"""The way out of a room: how far it is by each convention, how many people it is for, how doors lie to each other."""

from collections.abc import Sequence
from itertools import combinations
from math import ceil, hypot
from typing import TYPE_CHECKING, Final

from msgspec.structs import replace

from checker.quantities.missing import Missing, OutsideRange
from checker.quantities.registry import Argument, above, between, other_way, quantity
from checker.quantities.walks import EXIT, asked, exits_of, farthest_from
from checker.quantities.working import Drawn

if TYPE_CHECKING:
    from checker.plan.sides import Side
    from checker.quantities.storeys import StoreyPlan

Place = tuple[float, float]
_GEOMETRY: Final = "plane geometry: shortest path round obstacles"
_LEAVES_OUT: Final = "steps and slopes; walks by way of another storey"
_DOORS: Final = {"ways_out": "doors[*].way_out?", "places": "doors[*].at?", "widths": "doors[*].width?"}
_APART: Final = (
    "longest straight line between two doors that are ways out; the argument says how much of each doorway counts: "
    "1 any point of it, 0 its middle, -1 the points nearest to each other"
)


@quantity(
    "room.farthest_from_exit_off_corners",
    gives="length",
    inputs={"plan": "plan"},
    arguments=(Argument("clearance", "length"),),
    formula="as farthest from exit, along a path that keeps the clearance from walls, obstacles and corners",
    source="NFPA 101, 7.6: 1 ft off corners (secondary)",
    status="secondary",
    leaves_out=_LEAVES_OUT,
    range={"clearance": between(0, 1, "m")},
)
def farthest_off_corners(plan: "StoreyPlan", clearance: float) -> Drawn:
    """The longest walk in m from any point of the room to a way out, round corners with the clearance in m."""
    return farthest_from(plan, exits_of(plan), EXIT, clearance)


@quantity(
    "room.farthest_from_exit_unfurnished",
    gives="length",
    inputs={"plan": "plan"},
    formula="as farthest from exit, through what stands on the floor but never through walls and partitions",
    source="ASR A2.3 (March 2022), 5(4): shortest way with furnishings left out (verified in a copy)",
    status="verified",
    leaves_out=f"{_LEAVES_OUT}; light screens among the partitions count as walls",
)
def farthest_unfurnished(plan: "StoreyPlan") -> Drawn:
    """The longest way in m from any point of the room to a way out, if nothing stood on the floor."""
    bare = replace(plan, plan=replace(plan.plan, obstacles=()), floor_gaps=())
    return farthest_from(bare, exits_of(plan), EXIT)


@quantity(
    "room.common_path",
    gives="length",
    inputs={"plan": "plan"},
    formula="longest stretch, from any point of the room, that the shortest ways to two exits have in common",
    source=f"{_GEOMETRY}; IBC 2018, definition of common path of egress travel (verified in a copy)",
    status="verified",
    leaves_out=(
        "whether two doors close together are a real choice; with two exits and more it is sought at corners and on a "
        "grid of half a metre"
    ),
)
def common_path(plan: "StoreyPlan") -> Drawn:
    """How far in m one walks at most before there is a choice of two ways out; all the way where there is one exit.

    Raises Missing unless the plan is known: more in the way may make it longer or shorter.
    """
    from checker.plan import longest_shared_start

    if plan.reading != "recorded":
        raise OutsideRange("it is told only of a floor plan that is fully known")
    exits = exits_of(plan)
    if len(exits) < 2:
        return farthest_from(plan, exits, EXIT)
    found = asked(lambda: longest_shared_start(plan.plan, exits, plan.outline, kept=plan.kept))
    if found.distance is None:
        raise OutsideRange(f"from some floor of the room no way leads to a {EXIT}")
    return Drawn(found.distance, "common path", plan.room, found.path, "exit", tuple(exits))


@quantity(
    "room.farthest_from_door",
    gives="length",
    inputs={"plan": "plan"},
    formula="longest of the shortest walks from any point of the room to a door of this room that is not locked",
    source=_GEOMETRY,
    status="definition",
    leaves_out=_LEAVES_OUT,
)
def farthest_from_door(plan: "StoreyPlan") -> Drawn:
    """The walk in m from the point of the room that is farthest from a door out of it, wherever that leads."""
    own = [door for door in plan.plan.doors if plan.room in (door.room, door.to) and not door.locked]
    if any(door.at is None for door in own):
        raise OutsideRange("doors of the room may be where nobody recorded them")
    places = [door.at for door in own if door.at is not None]
    return farthest_from(plan, places, "door of this room that is not locked")


@quantity(
    "room.occupants_by_area",
    gives="count",
    inputs={"floor_area": "floor_area"},
    arguments=(Argument("area_each", "area"),),
    formula="floor area ÷ area for each person, up to the next whole person",
    source="IBC 2018, 1004.5 (verified in a copy); rounding up is common practice",
    status="verified",
    leaves_out="people who are really there: where they are more, they count",
    range={"area_each": above(0, "m2")},
)
def occupants_by_area(floor_area: float, area_each: float) -> float:
    """How many people a code counts on a floor area in m2. Nine digits are kept before a part makes one person more."""
    return ceil(float(f"{floor_area / area_each:.9g}"))


@quantity(
    "room.diagonal",
    gives="length",
    inputs={"outline": "outline"},
    formula="longest straight line between two corners of the outline",
    source="plane geometry",
    status="definition",
    leaves_out="other rooms that the same exits serve",
)
def longest_diagonal(outline: Sequence[Place]) -> float:
    """The longest diagonal of an outline in m."""
    return max(hypot(x2 - x1, y2 - y1) for (x1, y1), (x2, y2) in combinations(outline, 2))


@other_way(
    "room.diagonal",
    inputs={"length": "length", "width": "width"},
    formula="√(length² + width²)",
    source="plane geometry",
    status="definition",
    leaves_out="corners that are not square; other rooms that the same exits serve",
)
def rectangle_diagonal(length: float, width: float) -> float:
    """The diagonal of a rectangle in m."""
    return hypot(length, width)


@quantity(
    "room.exits_apart",
    gives="length",
    inputs={"outline": "outline", **_DOORS},
    arguments=(Argument("of_doorway", "ratio"),),
    formula=_APART,
    source="IBC 2018, 1007.1.1 (verified in a copy)",
    status="verified",
    leaves_out="doors of other rooms; distance along a corridor",
    range={"of_doorway": between(-1, 1)},
)
def exits_apart(
    outline: Sequence[Place],
    ways_out: Sequence[bool | Missing],
    places: Sequence[Place | Missing],
    widths: Sequence[float | Missing],
    of_doorway: float,
) -> float:
    """How far apart in m those two ways out of a room are that lie farthest from each other."""
    doors = _ways_out(ways_out, places, widths)
    if len(doors) < 2:
        raise OutsideRange("fewer than two doors of the room are ways out")
    stretches = [_stretch(outline, at, width, abs(of_doorway)) for at, width in doors]
    apart = _nearest if of_doorway < 0 else _farthest
    return max(apart(one, other) for one, other in combinations(stretches, 2))


@other_way(
    "room.exits_apart",
    inputs={"length": "length", "width": "width", **_DOORS},
    formula=f"{_APART}; in a room given by its size",
    source="IBC 2018, 1007.1.1 (verified in a copy)",
    status="verified",
    leaves_out="doors of other rooms; distance along a corridor",
    range={"of_doorway": between(-1, 1)},
)
def exits_apart_in_rectangle(
    length: float,
    width: float,
    ways_out: Sequence[bool | Missing],
    places: Sequence[Place | Missing],
    widths: Sequence[float | Missing],
    of_doorway: float,
) -> float:
    """As exits_apart, in a rectangle of a length and a width in m."""
    outline = ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
    apart: float = exits_apart(outline, ways_out, places, widths, of_doorway)
    return apart


@quantity(
    "room.exit_width_left",
    gives="length",
    inputs={"ways_out": "doors[*].way_out?", "widths": "doors[*].width?"},
    formula="sum of the clear widths of the doors that are ways out − the widest of them",
    source="IBC 2018, 1005.5 (verified in a copy): the loss of any one",
    status="verified",
    leaves_out="doors that are narrower where the leaf hangs in the opening",
)
def exit_width_left(ways_out: Sequence[bool | Missing], widths: Sequence[float | Missing]) -> float:
    """The clear width in m that is left of a room's ways out when the widest of them is lost."""
    left = [width for _, width in _ways_out(ways_out, [(0.0, 0.0)] * len(widths), widths)]
    return sum(left) - max(left, default=0.0)


def _ways_out(
    ways_out: Sequence[bool | Missing], places: Sequence[Place | Missing], widths: Sequence[float | Missing]
) -> list[tuple[Place, float]]:
    """Place and width of each door that is a way out. Raises Missing with all that is not known of them."""
    found: list[tuple[Place, float]] = []
    gaps: list[Missing] = []
    for way_out, place, width in zip(ways_out, places, widths, strict=True):
        if way_out is False:
            continue
        gaps += [each for each in (way_out, place, width) if isinstance(each, Missing)]
        if not isinstance(place, Missing) and not isinstance(width, Missing):
            found.append((place, width))
    if gaps:
        raise Missing.together(gaps)
    return found


def _stretch(outline: Sequence[Place], at: Place, width: float, share: float) -> "Side":
    """The part of a doorway that counts, about its middle. Raises OutsideRange for a door in no wall."""
    from checker.plan.sides import opening

    whole = opening(at, width, tuple(outline))
    if whole is None:
        raise OutsideRange(f"the door at ({at[0]:.2f} m, {at[1]:.2f} m) stands in no wall of its room")
    (x1, y1), (x2, y2) = whole
    middle_x, middle_y, half = (x1 + x2) / 2, (y1 + y2) / 2, share / 2
    along, up = half * (x2 - x1), half * (y2 - y1)
    return (middle_x - along, middle_y - up), (middle_x + along, middle_y + up)


def _farthest(one: "Side", other: "Side") -> float:
    return max(hypot(x2 - x1, y2 - y1) for x1, y1 in one for x2, y2 in other)


def _nearest(one: "Side", other: "Side") -> float:
    from checker.plan.sides import apart

    return apart(one, other)
