"""Floor plans that cannot be so: outlines of nothing, and things that stand outside their room."""

from collections.abc import Iterator
from typing import cast

from checker.site.entries import Entry, Pair, shown
from checker.site.flaws import Flaw
from checker.site.measures import Outline
from checker.site.model_room import Room
from checker.site.outlines import contains, fault_of
from checker.site.parts import fields_marked
from checker.site.walk import Located


def place_flaws(located: list[Located]) -> Iterator[Flaw]:
    """What is wrong with outlines and places."""
    rooms: dict[str, tuple[Pair, ...]] = {}
    for found in located:
        for field in fields_marked(type(found.part), Outline):
            entry = getattr(found.part, field.name)
            if not isinstance(entry, Entry):
                continue
            corners = cast("tuple[Pair, ...]", entry.value)
            fault = fault_of(corners)
            if fault:
                yield Flaw(
                    (*found.path, field.name),
                    fault,
                    shown(entry.written),
                    "each corner once, in order, all the way round",
                )
            elif isinstance(found.part, Room):
                rooms[found.part.id] = corners
    for found in located:
        yield from _outside(found, rooms)


def _outside(found: Located, rooms: dict[str, tuple[Pair, ...]]) -> Iterator[Flaw]:
    room, at = getattr(found.part, "room", None), getattr(found.part, "at", None)
    if not isinstance(room, Entry) or not isinstance(at, Entry):
        return
    corners = rooms.get(str(room.value))
    if corners and not contains(corners, cast("Pair", at.value)):
        says = f"This place lies outside the outline of the room {room.value}"
        yield Flaw(
            (*found.path, "at"), says, shown(at.written), "a point within the outline, in the frame of its storey"
        )
