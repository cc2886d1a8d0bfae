"""What a floor plan cannot be: told with thing and place, while all else of the site is still judged."""

from collections.abc import Iterator
from typing import Any, cast

from checker.plan import faults_of
from checker.quantities.missing import Missing
from checker.quantities.shapes import shapes
from checker.quantities.storeys import gathered, kept_of
from checker.quantities.things import Thing
from checker.site.outlines import contains, fault_of


def floor_faults(site: Thing) -> Iterator[tuple[str, str]]:
    """The path of what cannot be so, and what is wrong with it, each once."""
    try:
        rooms: tuple[Thing, ...] = site["rooms"]
    except Missing:
        return
    told: dict[tuple[str, str], None] = {}
    for room in rooms:
        if "outline" in room.entries:
            told |= dict.fromkeys(_of_the_storey(room))
    yield from told
    yield from _outside_their_rooms(site)


def _of_the_storey(room: Thing) -> Iterator[tuple[str, str]]:
    made = gathered(room)
    for fault in faults_of(made.plan, kept_of(room)):
        place = f" at ({fault.place[0]:.2f} m, {fault.place[1]:.2f} m)" if fault.place else ""
        says = f"{fault.says}{place}; floor plans that hold it are not walked"
        if fault.thing.startswith("thing "):
            says = f"{fault.says}{place}"
        yield made.paths.get(fault.thing, room.at("outline")), says


def _outside_their_rooms(site: Thing) -> Iterator[tuple[str, str]]:
    for kind, shape in shapes().items():
        if "room" not in shape.fields or "at" not in shape.fields or "." in kind:
            continue
        for thing in _members(site, kind):
            room, at = thing.entries.get("room"), thing.entries.get("at")
            if room is None or at is None:
                continue
            outline = thing["room"].entries.get("outline")
            corners, point = (cast("Any", each.value) if each else None for each in (outline, at))  # both hold places
            if corners and point and not fault_of(corners) and not contains(corners, point):
                yield thing.at("at"), f"It lies outside the outline of the room {room.value}: {at.written}"


def _members(site: Thing, kind: str) -> tuple[Thing, ...]:
    found = next((name for name, field in shapes()["site"].fields.items() if field.thing == kind), None)
    try:
        return site[found] if found else ()
    except Missing:
        return ()
