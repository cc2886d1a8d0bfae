"""The floor plans of a result as numbers: all that a drawing needs, and nothing it would have to work out."""

from typing import Annotated

from checker.findings.notes import Says, Written

Spot = Annotated[tuple[float, float], Says("a place in metres in the frame of the storey: x right, y up")]
Corners = tuple[Spot, ...]


class PlacedThing(Written, frozen=True, kw_only=True):
    """Something at a point of a storey: an extinguisher, a hazard, a panel, an emergency stop."""

    kind: Annotated[str, Says("kind of thing; emergency_stop where it is a machine's")]
    id: str
    label: str
    path: str
    at: Spot
    detail: Annotated[str, Says("a word to draw with it: the class of a fire, the rating of a unit")] = ""


class PlacedRoom(Written, frozen=True, kw_only=True):
    """A room of a storey, inside its walls."""

    id: str
    label: str
    kind: Annotated[str, Says("what it is used for; empty where that is not recorded")]
    outline: Corners


class PlacedArea(Written, frozen=True, kw_only=True):
    """Something that takes up floor, or floor that is kept clear."""

    id: str
    label: str
    path: str
    outline: Corners


class PlacedPartition(Written, frozen=True, kw_only=True):
    """A wall or screen inside a room, along its middle line."""

    id: str
    label: str
    path: str
    line: Corners
    thickness: Annotated[float | None, Says("metres; null where it is not recorded")]
    solid: Annotated[bool | None, Says("whether it stops what rollers throw; null where it is not recorded")]


class PlacedDoor(Written, frozen=True, kw_only=True):
    """A door, gate or opening."""

    id: str
    label: str
    path: str
    room: str
    to: Annotated[str, Says("id of the room it leads to, or outside; empty where that is not recorded")]
    at: Spot
    width: float | None
    locked: bool | None
    way_out: Annotated[bool | None, Says("whether people are meant to leave by it")]
    swing: str | None
    hinge: str | None
    opening: Annotated[Corners, Says("its two ends on the wall, the left one first as seen from inside its room")]
    beyond: Annotated[Corners, Says("the same on the wall of the room behind; empty where there is none")]


class PlacedMachine(Written, frozen=True, kw_only=True):
    """A dynamometer: its footprint, the middle of its rollers, and which way the vehicle on it faces."""

    id: str
    label: str
    path: str
    at: Spot | None
    faces: Annotated[Spot | None, Says("a point straight ahead of the vehicle's nose")]
    footprint: Corners
    roller_width: float | None


class NotPlaced(Written, frozen=True, kw_only=True):
    """Something on a storey that the plan cannot show, or shows only in part, and what was not recorded of it."""

    kind: str
    id: str
    label: str
    path: str
    misses: Annotated[str, Says("the field that is not recorded")]


class Storey(Written, frozen=True, kw_only=True):
    """One floor plan: what was recorded of it, whole or not. All of it lies in one frame."""

    name: Annotated[str, Says("as recorded; of a room that has a frame of its own its label; empty where none is")]
    rooms: tuple[PlacedRoom, ...]
    doors: tuple[PlacedDoor, ...] = ()
    obstacles: tuple[PlacedArea, ...] = ()
    partitions: tuple[PlacedPartition, ...] = ()
    machines: tuple[PlacedMachine, ...] = ()
    clear_zones: tuple[PlacedArea, ...] = ()
    things: tuple[PlacedThing, ...] = ()
    not_placed: tuple[NotPlaced, ...] = ()
