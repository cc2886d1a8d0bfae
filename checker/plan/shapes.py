"""The plan of one storey: what stands on the floor and how one gets from room to room. Metres, one frame, y up."""

import math
from typing import Final, Literal

from msgspec import Struct, field

Point = tuple[float, float]
Outline = tuple[Point, ...]
"""Corners in order, either way round; the last is not the first again."""
Swing = Literal["in", "out", "both", "sliding", "roller"]
"""Which way a door opens, seen from its room."""
Hinge = Literal["left", "right"]
"""On which side a door hangs, seen from inside its room."""
OUTSIDE: Final = "outside"


class Room(Struct, frozen=True):
    """A room, inside its walls, or a bay without walls of its own."""

    id: str
    outline: Outline


class Obstacle(Struct, frozen=True):
    """Something that people walk round."""

    id: str
    outline: Outline
    name: str = ""
    stands: bool | None = True
    """None where it is not known whether it stands in the way."""


class Wall(Struct, frozen=True):
    """A wall or partition inside a room, along its middle line; thickness 0 for one as thin as a drawing's line."""

    id: str
    line: tuple[Point, ...]
    thickness: float = 0.0


class Door(Struct, frozen=True):
    """A door, gate or opening in a wall of its room; an open side of a bay is a door as wide as the side."""

    id: str
    room: str
    to: str
    """The room it leads to, its own room if it stands in a partition there, or outside."""
    at: Point | None = None
    """The middle of the opening, on the wall. None where it is not known."""
    width: float | None = None
    locked: bool | None = None
    """None where it is not known."""
    swing: Swing | None = None
    hinge: Hinge | None = None


class Zone(Struct, frozen=True):
    """A part of the floor that is kept clear. People walk through it."""

    id: str
    outline: Outline


class Thing(Struct, frozen=True):
    """Something at a point, on the floor or on a wall: an extinguisher, a switch, a hazard."""

    id: str
    at: Point


class Plan(Struct, frozen=True):
    """One storey."""

    rooms: tuple[Room, ...]
    obstacles: tuple[Obstacle, ...] = ()
    walls: tuple[Wall, ...] = ()
    doors: tuple[Door, ...] = ()
    zones: tuple[Zone, ...] = ()
    things: tuple[Thing, ...] = field(default=())
    """Looked at by the checks of a plan alone; a walk names its own ends."""


def rectangle(corner: Point, length: float, width: float, turned: float = 0.0) -> Outline:
    """The outline of a rectangle: its first corner, its sides along x and y, then turned about that corner.

    Lengths in m, the turn in degrees against the clock.
    """
    cos, sin = math.cos(math.radians(turned)), math.sin(math.radians(turned))
    x, y = corner
    sides = ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
    return tuple((x + dx * cos - dy * sin, y + dx * sin + dy * cos) for dx, dy in sides)


class Disc(Struct, frozen=True):
    """A round footprint, such as a column."""

    centre: Point
    radius: float


class Sector(Struct, frozen=True):
    """What a door leaf sweeps: from one direction to another, in degrees against the clock from x, about its hinge."""

    hinge: Point
    radius: float
    start: float
    end: float


class Line(Struct, frozen=True):
    """A line on the floor, such as a wall's face, a joint, or a painted edge."""

    points: tuple[Point, ...]


class Area(Struct, frozen=True):
    """The floor inside an outline."""

    outline: Outline


Shape = Disc | Sector | Line | Area


class Face(Struct, frozen=True):
    """The front of something that people work at, such as an electrical panel."""

    middle: Point
    """On the floor, below the middle of the front."""
    width: float
    """Of the thing itself."""
    towards: float
    """The direction in which a person stands before it, in degrees against the clock from x."""
