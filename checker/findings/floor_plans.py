"""The floor plans of a site as it was recorded, whole or not: what has a place, and what a plan cannot show.

A storey has one frame, in which a thing lies by the storey of its room. A room that is given only by its size has a
frame of its own, and is drawn where something in it has a place.
"""

from collections.abc import Iterator
from typing import Any

from msgspec import Struct, field

from checker.findings.openings import opening
from checker.findings.storey import (
    Corners,
    NotPlaced,
    PlacedArea,
    PlacedDoor,
    PlacedMachine,
    PlacedPartition,
    PlacedRoom,
    PlacedThing,
    Spot,
    Storey,
)
from checker.quantities import Facts, Missing, Thing
from checker.quantities.shapes import SITE, shapes

_DETAIL = {"hazard": "fire_class", "extinguisher": "rating", "detector": "gas"}
"""The field that says which of its kind a thing is."""
_GROUPS = {"emergency_stop": "emergency_stop", "isolation": "disconnect"}
"""Groups of a machine that have a place of their own, and the kind of thing that stands there."""


class _Frame(Struct):
    """A storey as it is gathered."""

    name: str
    rooms: list[PlacedRoom] = field(default_factory=list)
    members: list[Thing] = field(default_factory=list)
    """Its rooms as recorded, those without an outline among them."""
    not_placed: list[NotPlaced] = field(default_factory=list)

    def without(self, thing: Thing, misses: str, kind: str = "") -> None:
        path = thing.path
        told = NotPlaced(kind=kind or thing.kind, id=thing.id, label=thing.label, path=path, misses=misses)
        self.not_placed.append(told)


def floor_plans(known: Facts) -> tuple[Storey, ...]:
    """The storeys of a site in the order of its rooms; empty where nothing has a place."""
    frames = _frames(known.site)
    return tuple(_storey(frame, known.site) for frame in frames if frame.rooms)


def _frames(site: Thing) -> list[_Frame]:
    frames: dict[str, _Frame] = {}
    alone: list[_Frame] = []
    rooms = _members(site, "rooms")
    for room in rooms:
        outline = _corners(room, "outline")
        size = _size(room)
        if not outline and size and _holds_a_place(room, site):
            alone.append(_Frame(room.label, [_room(room, size)], [room]))
            continue
        name = _word(room, "storey") or ""
        frame = frames.setdefault(name, _Frame(name))
        frame.members.append(room)
        if outline:
            frame.rooms.append(_room(room, outline))
    for frame in frames.values():
        placed = {room.id for room in frame.rooms}
        for room in frame.members:
            if room.id not in placed:
                frame.without(room, "outline")
    return [*frames.values(), *alone]


def _storey(frame: _Frame, site: Thing) -> Storey:
    inside = {room.id for room in frame.members}
    machines = tuple(_machines(frame, inside, site))
    return Storey(
        name=frame.name,
        rooms=tuple(frame.rooms),
        doors=tuple(_doors(frame)),
        obstacles=tuple(_areas(frame, "obstacles", "outline")),
        partitions=tuple(_partitions(frame)),
        machines=machines,
        clear_zones=tuple(_areas(frame, "clear_zones", "outline")),
        things=(*_of_machines(frame, inside, site), *_things(frame, inside, site)),
        not_placed=tuple(frame.not_placed),
    )


def _room(room: Thing, outline: Corners) -> PlacedRoom:
    return PlacedRoom(id=room.id, label=room.label, kind=_word(room, "kind") or "", outline=outline)


def _areas(frame: _Frame, name: str, where: str) -> Iterator[PlacedArea]:
    for room in frame.members:
        for each in _members(room, name):
            if outline := _corners(each, where):
                yield PlacedArea(id=each.id, label=each.label, path=each.path, outline=outline)
            else:
                frame.without(each, where)


def _partitions(frame: _Frame) -> Iterator[PlacedPartition]:
    for room in frame.members:
        for each in _members(room, "partitions"):
            line = _corners(each, "line")
            if not line:
                frame.without(each, "line")
                continue
            yield PlacedPartition(
                id=each.id, label=each.label, path=each.path, line=line,
                thickness=_number(each, "thickness"), solid=_answer(each, "solid"),
            )  # fmt: skip


def _doors(frame: _Frame) -> Iterator[PlacedDoor]:
    outlines = {room.id: (*room.outline, room.outline[0]) for room in frame.rooms}
    for room in frame.members:
        lines = [line for each in _members(room, "partitions") if (line := _corners(each, "line"))]
        for door in _members(room, "doors"):
            at, width, to = _spot(door, "at"), _number(door, "width"), _word(door, "to") or ""
            if at is None:
                frame.without(door, "at")
                continue
            if width is None:
                frame.without(door, "width")
            own = outlines.get(room.id)
            walls = lines if to == room.id else [own] if own else []
            behind = outlines.get(to) if to != room.id else None
            yield PlacedDoor(
                id=door.id, label=door.label, path=door.path, room=room.id, to=to, at=at, width=width,
                locked=_answer(door, "locked"), way_out=_answer(door, "way_out"),
                swing=_word(door, "swing"), hinge=_word(door, "hinge"),
                opening=opening(at, width, walls, own), beyond=opening(at, width, [behind] if behind else [], None),
            )  # fmt: skip


def _machines(frame: _Frame, inside: set[str], site: Thing) -> Iterator[PlacedMachine]:
    for dyno in _inside(site, "dynos", inside):
        at, faces, footprint = _spot(dyno, "at"), _spot(dyno, "faces"), _corners(dyno, "footprint")
        for name, found in (("at", at), ("faces", faces), ("footprint", footprint)):
            if not found:
                frame.without(dyno, name)
        if at or footprint:
            rollers = _group(dyno, "rollers")
            yield PlacedMachine(
                id=dyno.id, label=dyno.label, path=dyno.path, at=at, faces=faces if at else None,
                footprint=footprint, roller_width=None if rollers is None else _number(rollers, "width"),
            )  # fmt: skip


def _of_machines(frame: _Frame, inside: set[str], site: Thing) -> Iterator[PlacedThing]:
    """Where each machine is run, stopped and cut off."""
    for dyno in _inside(site, "dynos", inside):
        operator = _spot(dyno, "operator_place")
        if operator is not None:
            yield PlacedThing(
                kind="operator", id=dyno.id, label=dyno.label, path=dyno.at("operator_place"), at=operator
            )
        for name, kind in _GROUPS.items():
            group = _group(dyno, name)
            if group is None:
                continue
            others = _members(group, "other_actuators") if kind == "emergency_stop" else ()
            for each in (group, *others):
                at = _spot(each, "at")
                if at is None:
                    frame.without(each, "at", kind)
                else:
                    yield PlacedThing(kind=kind, id=dyno.id, label=dyno.label, path=each.path, at=at)


def _things(frame: _Frame, inside: set[str], site: Thing) -> Iterator[PlacedThing]:
    """Whatever the site lists that has a room and a place."""
    for declared in shapes()[SITE].fields.values():
        kind = declared.thing if declared.type == "list" else None
        if kind in (None, "dyno", "room") or "room" not in shapes()[kind].fields or "at" not in shapes()[kind].fields:
            continue
        for each in _inside(site, declared.name, inside):
            at = _spot(each, "at")
            if at is None:
                frame.without(each, "at")
                continue
            detail = _word(each, _DETAIL[kind]) if kind in _DETAIL else None
            yield PlacedThing(kind=kind, id=each.id, label=each.label, path=each.path, at=at, detail=detail or "")


def _inside(site: Thing, name: str, rooms: set[str]) -> Iterator[Thing]:
    return (each for each in _members(site, name) if _word(each, "room") in rooms)


def _holds_a_place(room: Thing, site: Thing) -> bool:
    inside = {room.id}
    frame = _Frame("", members=[room])
    return bool(
        any("at" in door.entries for door in _members(room, "doors"))
        or any("outline" in each.entries for each in _members(room, "obstacles"))
        or any("line" in each.entries for each in _members(room, "partitions"))
        or any(True for _ in _machines(frame, inside, site))
        or any(True for _ in _of_machines(frame, inside, site))
        or any(True for _ in _things(frame, inside, site))
    )


def _size(room: Thing) -> Corners:
    length, width = _number(room, "length"), _number(room, "width")
    if not length or not width:
        return ()
    return ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))


def _members(thing: Thing, name: str) -> tuple[Thing, ...]:
    try:
        found: tuple[Thing, ...] = thing[name]
    except Missing:
        return ()
    return found


def _group(thing: Thing, name: str) -> Thing | None:
    """A group of a thing, where one is recorded."""
    found: Thing = thing[name]
    return found if found.entries else None


def _value(thing: Thing, name: str) -> Any:
    entry = thing.entries.get(name)
    return None if entry is None else entry.value


def _word(thing: Thing, name: str) -> str | None:
    entry = thing.entries.get(name)
    return None if entry is None else str(entry.value)


def _answer(thing: Thing, name: str) -> bool | None:
    found = _value(thing, name)
    return found if isinstance(found, bool) else None


def _number(thing: Thing, name: str) -> float | None:
    found = _value(thing, name)
    return None if found is None else float(found)


def _spot(thing: Thing, name: str) -> Spot | None:
    found = _value(thing, name)
    return None if found is None else (float(found[0]), float(found[1]))


def _corners(thing: Thing, name: str) -> Corners:
    return tuple((float(x), float(y)) for x, y in _value(thing, name) or ())
