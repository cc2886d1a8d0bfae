"""The floor on which people walk: rooms joined by the openings of unlocked doors, without what stands in the way."""

import math
from collections.abc import Iterable, Sequence
from functools import cached_property, lru_cache
from typing import Final

import numpy as np
import shapely
from msgspec import Struct
from numpy.typing import NDArray
from shapely import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry as Geometry
from shapely.geometry.base import BaseMultipartGeometry

from checker.plan.doorways import HAIR, SNAP, opening, passage, wall_body
from checker.plan.errors import NotOnFloor, OnThinWall, UnusablePlan
from checker.plan.results import Patch
from checker.plan.shapes import Outline, Plan
from checker.plan.shapes import Point as Place
from checker.plan.ways import Part

NARROWEST: Final = 0.01
"""m. Gaps narrower than this are closed: they are slips of the drawing, and nobody fits through."""
STANDING: Final = 0.3
"""m. In a part of the floor cut off from all else where no circle this wide fits, nobody stands. Our own choice."""
ARC_STEPS: Final = (16, 4)
"""Straight steps to a quarter turn about a corner that one keeps clear of, at most and at least. With 16 a turn at half
a metre is 0.2 mm too short, with 4, where there are many corners, 5 mm."""
MOST_CORNERS: Final = 400
"""Corners that stick into the floor; what is drawn finer than that is not walked."""
WIDEST_PLAN: Final = 1000.0
"""m. One storey is no larger than this."""
GRID_DIGITS: Final = 9
"""Of a coordinate in m, behind the point."""
FLOORS_KEPT: Final = 16
FARTHEST_CORNER: Final = 10_000.0
"""m. Coordinates beyond this leave too few digits for hairs."""


class Spot(Struct, frozen=True):
    """A place on the floor: the part it is in, where, and how far that is from the place as given."""

    part: int
    at: Place
    off: float


class Floor(Struct, frozen=True, dict=True):
    """The walkable floor of a plan in which nothing is unknown."""

    free: Geometry
    """Where a person's middle may be."""
    rooms: Geometry
    """The floor of rooms; the rest of `free` are openings."""
    clearance: float

    @cached_property
    def parts(self) -> tuple[Part, ...]:
        """Its pieces, between which nobody can walk. Those too narrow to stand in are left out."""
        wide = STANDING / 2
        return tuple(Part(each) for each in polygons(self.free) if self.clearance or not each.buffer(-wide).is_empty)

    @property
    def corners(self) -> int:
        """How many corners stick into it."""
        return sum(len(part.corners) for part in self.parts)

    def spot(self, place: Place) -> Spot:
        """Where on the floor a place is. Raises NotOnFloor or OnThinWall."""
        point = Point(_on_grid([place]))
        apart = [part.polygon.distance(point) for part in self.parts]
        least = min(apart, default=math.inf)
        if least > SNAP + 2 * self.clearance:
            raise NotOnFloor(place)
        if 0 < least < 3 * HAIR and self._is_on_both_sides(point):
            raise OnThinWall(place)
        nearest = apart.index(least)
        on = shapely.get_coordinates(shapely.shortest_line(point, self.parts[nearest].polygon))[1]
        return Spot(nearest, (float(on[0]), float(on[1])), least) if least else Spot(nearest, place, 0.0)

    def _is_on_both_sides(self, point: Point) -> bool:
        """Whether floor begins on two sides of a point, a hair away, and the two do not meet within a millimetre."""
        around = shapely.get_parts(shapely.intersection(self.free, point.buffer(1000 * HAIR)))
        return int(np.count_nonzero(shapely.distance(around, point) < 3 * HAIR)) > 1

    def spots(self, places: Iterable[Place]) -> tuple[Spot, ...]:
        """Where on the floor places are. Raises NotOnFloor for the first that is not."""
        return tuple(self.spot(place) for place in places)


@lru_cache(maxsize=FLOORS_KEPT)
def floor_of(plan: Plan, clearance: float = 0.0) -> Floor:
    """The floor of a plan. With a clearance in m, people's middles keep that far from walls, obstacles and corners.

    Raises UnusablePlan where an outline is none or something is not known.
    """
    shell = Shell(plan)
    free = _without_necks(shell.open.difference(shell.blocked))
    if clearance:
        free = _kept_clear(free, clearance, Floor(free, shell.bare, 0.0).corners)
    floor = Floor(free, shell.bare, clearance)
    if floor.corners > MOST_CORNERS:
        raise UnusablePlan(f"{floor.corners} corners stick into the floor, more than {MOST_CORNERS}")
    return floor


def _kept_clear(free: Geometry, clearance: float, corners: int) -> Geometry:
    """The floor without what is nearer to walls and corners: round corners by arcs, where those are many by mitres."""
    most, least = ARC_STEPS
    steps = MOST_CORNERS // max(1, corners) - 1
    if steps < least:
        return free.buffer(-clearance, join_style="mitre")
    return free.buffer(-clearance, quad_segs=min(most, steps))


def hanging_places(plan: Plan) -> Geometry:
    """The stretches of wall at which something can be hung: no openings, and nothing in front."""
    shell = Shell(plan)
    rooms = {room.id: Polygon(room.outline) for room in plan.rooms}
    doors = [door for door in plan.doors if door.at is not None and door.width is not None and door.room in rooms]
    openings = [opening(door.at, door.width, rooms[door.room]) for door in doors if door.at and door.width]
    kept_free = [*[each for each in openings if each is not None], shell.passages, shell.blocked]
    kept_free += [Polygon(each.outline) for each in plan.zones]
    return shell.open.boundary.difference(shapely.union_all(kept_free).buffer(SNAP))


class Shell:
    """What a floor is cut from. Raises UnusablePlan."""

    def __init__(self, plan: Plan) -> None:
        """Takes a plan in which nothing is unknown."""
        if any(each.locked is None for each in plan.doors) or any(each.stands is None for each in plan.obstacles):
            raise UnusablePlan("parts of the plan are not known: take its longest and its shortest reading")
        rooms = {room.id: Polygon(_on_grid(room.outline)) for room in plan.rooms}
        standing = [Polygon(_on_grid(each.outline)) for each in plan.obstacles if each.stands]
        if not all(shapely.is_valid([*rooms.values(), *standing])):
            raise UnusablePlan("an outline crosses or touches itself")
        self.bare: Geometry = shapely.union_all([*rooms.values()])
        """The floor inside the outlines of rooms."""
        if self.bare.is_empty or max(map(abs, self.bare.bounds)) > FARTHEST_CORNER:
            raise UnusablePlan("the plan has no room, or its frame begins more than 10 km away")
        x1, y1, x2, y2 = self.bare.bounds
        if max(x2 - x1, y2 - y1) > WIDEST_PLAN:
            raise UnusablePlan("the plan is more than 1 km across")
        grown = shapely.buffer(standing, HAIR, join_style="mitre", mitre_limit=100)
        self.blocked: Geometry = shapely.union_all(grown)
        """What obstacles take away."""
        thin = [*_shared_walls([*rooms.values()]), *map(wall_body, plan.walls)]
        found = [passage(door, plan, rooms) for door in plan.doors if not door.locked]
        self.passages: Geometry = shapely.union_all([each for each in found if each is not None])
        """Openings of unlocked doors inside the plan."""
        self.open: Geometry = self.bare.difference(shapely.union_all(thin)).union(self.passages)
        """The floor before obstacles are taken away."""


def polygons(geometry: Geometry) -> list[Polygon]:
    """The polygons that a geometry is made of."""
    if isinstance(geometry, Polygon):
        return [] if geometry.is_empty else [geometry]
    if isinstance(geometry, BaseMultipartGeometry):
        return [one for each in geometry.geoms for one in polygons(each)]
    return []


def patches(geometry: Geometry) -> tuple[Patch, ...]:
    """The pieces of floor that a geometry is made of, by their first corners."""
    found = [
        Patch(_outline(each.exterior), tuple(map(_outline, each.interiors)), each.area)
        for each in polygons(shapely.normalize(geometry))
    ]
    return tuple(sorted(found, key=lambda patch: patch.outline))


def _outline(ring: LineString) -> Outline:
    return tuple((float(x), float(y)) for x, y in ring.coords[:-1])


def _on_grid(corners: Iterable[Place]) -> list[Place]:
    """Corners without digits that no drawing means and no geometry can use."""
    return [(round(x, GRID_DIGITS), round(y, GRID_DIGITS)) for x, y in corners]


def _shared_walls(rooms: Sequence[Polygon]) -> list[Geometry]:
    """Thin bands where rooms touch, so that two rooms without a door between them stay two."""
    one, other = shapely.STRtree(rooms).query(rooms, predicate="dwithin", distance=HAIR)
    pairs = [(a, b) for a, b in zip(one.tolist(), other.tolist(), strict=True) if a < b]
    grown = {each: rooms[each].buffer(HAIR, join_style="mitre") for pair in pairs for each in pair}
    return [grown[a].intersection(grown[b]) for a, b in pairs]


def _without_necks(free: Geometry) -> Geometry:
    """The floor with a thin wall across every gap that is narrower than can be meant.

    Where a gap is narrowest it has a corner on one side, so the wall runs from that corner to the nearest of the other.
    """
    if free.is_empty:
        return free
    rings = [ring for each in polygons(free) for ring in (each.exterior, *each.interiors)]
    sides = np.concatenate([shapely.linestrings(np.stack([c[:-1], c[1:]], axis=1)) for c in map(_corners, rings)])
    corners = np.asarray(shapely.points(np.concatenate([_corners(ring)[:-1] for ring in rings])))
    tree = shapely.STRtree(sides)
    corner, side = tree.query(corners, predicate="dwithin", distance=NARROWEST)
    across = np.asarray(shapely.shortest_line(corners[corner], sides[side]))
    across = across[shapely.length(across) > HAIR]
    middles = shapely.line_interpolate_point(across, 0.5, normalized=True)
    open_ = shapely.covers(free, middles) & (shapely.distance(free.boundary, middles) > HAIR / 10)
    if not open_.any():
        return free
    return free.difference(shapely.union_all(shapely.buffer(across[open_], HAIR, cap_style="square")))


def _corners(ring: LineString) -> NDArray[np.float64]:
    return shapely.get_coordinates(ring)
