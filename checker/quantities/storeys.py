"""The floor plan of a room's storey, put together from what was recorded of its rooms, doors and what stands there.

What was not recorded makes a plan unknown. Beside that there are two readings of it, for asking whether an outcome
hangs on the gap at all: the longest, in which no walk is shorter than it truly is, and the shortest.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Final, TypeVar

from msgspec import Struct, field
from msgspec.structs import replace

from checker.plan import (
    OUTSIDE,
    Answers,
    Door,
    Obstacle,
    Outline,
    Plan,
    Room,
    Wall,
    Zone,
    faults_of,
    longest_reading,
    shortest_reading,
)
from checker.plan import Thing as Placed
from checker.quantities.missing import Missing, Need
from checker.quantities.survey import Reading
from checker.quantities.things import OpenList, Thing
from checker.quantities.working import Computed, Leaf, Step

UNITS: Final = ("extinguishers", "eyewashes", "first_aid_kits")
"""What somebody has to be able to walk to."""
ON_THE_FLOOR: Final = (("obstacles", "outline"), ("partitions", "line"), ("dynos", "footprint"))
"""What people walk round, and the field that says where it is."""
NO_LEAF: Final = ("sliding", "roller")
"""Ways of opening in which nothing swings over the floor."""
FORMULA: Final = "rooms of the storey joined through doors that are not locked, less obstacles, partitions and machines"


class StoreyPlan(Struct, frozen=True, eq=False):
    """A storey as it is read: every part of its plan is known, or taken at its longest or its shortest."""

    name: str
    room: str
    """The id of the room that is asked about."""
    plan: Plan
    reading: Reading
    floor_gaps: tuple[Missing, ...]
    """What may stand on the floor of the room beside: only where walks are read at their shortest."""
    no_exits: frozenset[str]
    """Doors to the outside that people are not meant to leave by."""
    doubtful_exits: Mapping[str, Missing]
    """Doors to the outside of which that is not known."""
    way_gaps: tuple[Missing, ...]
    """Rooms, doors and things on the floors of any room that there may be beside."""
    exit_gaps: tuple[Missing, ...]
    """Where there may be ways out beside: only where walks are read at their shortest."""
    leaf_gaps: Mapping[str, Missing]
    """Doors of which it is not known what their leaves sweep."""
    kept: Answers | None
    """Answers of the geometry that are kept between runs."""

    @property
    def outline(self) -> Outline:
        """The room that is asked about."""
        return next(room.outline for room in self.plan.rooms if room.id == self.room)

    @property
    def rooms(self) -> frozenset[str]:
        """The ids of its rooms."""
        return frozenset(room.id for room in self.plan.rooms)

    def __str__(self) -> str:
        """For people who follow the working."""
        plan = self.plan
        parts = {"room": plan.rooms, "door": plan.doors, "obstacle": plan.obstacles, "partition": plan.walls}
        words = ", ".join(f"{len(each)} {name}{'' if len(each) == 1 else 's'}" for name, each in parts.items())
        return f"{self.name or 'the storey'}: {words}"


Part = TypeVar("Part", Room, Obstacle, Wall, Door, Zone, Placed)


def by_id(parts: Iterable[Part]) -> tuple[Part, ...]:
    """The parts in the order of their ids."""
    return tuple(sorted(parts, key=lambda each: each.id))


class _Gathered(Struct):
    """A plan as it is gathered, and what is not known of it."""

    rooms: list[Room] = field(default_factory=list)
    obstacles: list[Obstacle] = field(default_factory=list)
    walls: list[Wall] = field(default_factory=list)
    doors: list[Door] = field(default_factory=list)
    zones: list[Zone] = field(default_factory=list)
    things: list[Placed] = field(default_factory=list)
    leaves: list[Leaf] = field(default_factory=list)
    no_exits: set[str] = field(default_factory=set)
    doubtful_exits: dict[str, Missing] = field(default_factory=dict)
    leaf_gaps: dict[str, Missing] = field(default_factory=dict)
    paths: dict[str, str] = field(default_factory=dict)
    """Where each part of the plan stands in the site, by what the plan calls it: obstacle lift."""
    doors_doubtful: list[Missing] = field(default_factory=list)
    """Of doors: the readings settle them."""
    ways_doubtful: list[Missing] = field(default_factory=list)
    """Ways there may be beside: no shortest reading."""
    hidden_doors: dict[str, list[Missing]] = field(default_factory=dict)
    """By room that is drawn: doors it may have beside, each in a wall of its own."""
    hidden_floor: dict[str, list[Missing]] = field(default_factory=dict)
    """By room: what may stand on its floor beside."""

    @property
    def plan(self) -> Plan:
        """All that is known of it, in an order that does not hang on the room that was asked about."""
        return Plan(
            by_id(self.rooms), by_id(self.obstacles), by_id(self.walls), by_id(self.doors), by_id(self.zones),
            by_id(self.things),
        )  # fmt: skip

    def value(self, thing: Thing, name: str, gaps: list[Missing]) -> Any:
        """A recorded value as floats; None, and noted, where it is not there."""
        try:
            found = thing[name]
        except Missing as missing:
            gaps.append(missing.alone)
            return None
        self.leaves.append((thing, name))
        return _floats(found)

    def members(self, thing: Thing, name: str, gaps: list[Missing]) -> tuple[Thing, ...]:
        """The members of a list; noted where it is not all there is."""
        try:
            found: tuple[Thing, ...] = thing[name]
        except Missing as missing:
            gaps.append(missing.alone)
            return ()
        if isinstance(found, OpenList):
            gaps.append(Missing.of(found.open_because))
        return found


def plan_of(room: Thing) -> StoreyPlan:
    """The plan of a room's storey in the reading that its facts are read in. Raises Missing with all gaps."""
    reading = room.survey.reading
    made = gathered(room)
    faults = [each for each in faults_of(made.plan, kept_of(room)) if not each.thing.startswith("thing ")]
    if faults:
        path, says = made.paths.get(faults[0].thing, room.at("outline")), faults[0].says
        raise Missing(path, "outside range", f"{says[0].lower()}{says[1:]}, so that no walk can be told")
    own_floor = made.hidden_floor.get(room.id, [])
    hidden_doors, hidden_floor = (_all(each) for each in (made.hidden_doors, made.hidden_floor))
    doubtful = {
        "recorded": [*made.doors_doubtful, *made.ways_doubtful, *hidden_doors, *hidden_floor],
        "longest": own_floor,
        "shortest": made.ways_doubtful,
    }[reading]
    if doubtful:
        raise Missing.together(doubtful)
    storey = StoreyPlan(
        _word(room, "storey"),
        room.id,
        _read(made, reading),
        reading,
        tuple(own_floor),
        frozenset(made.no_exits),
        made.doubtful_exits,
        (*made.ways_doubtful, *hidden_doors, *hidden_floor),
        tuple(hidden_doors) if reading == "shortest" else (),
        made.leaf_gaps,
        kept_of(room),
    )
    step = Step("room.plan", FORMULA, (), str(storey), "text", "", "plane geometry", "definition", "", room.path)
    room.working["plan"] = Computed(str(storey), storey, step, tuple(made.leaves))
    return storey


def _read(made: _Gathered, reading: Reading) -> Plan:
    """The plan in a reading.

    A room of whose floor something is not known: nobody walks through it where walks are longest. One that may have
    more doors: where walks are shortest it is open to all rooms beside it.
    """
    plan = replace(made.plan, things=())
    if reading == "longest":
        rooms = tuple(room for room in plan.rooms if room.id not in made.hidden_floor)
        known = {OUTSIDE, *(room.id for room in rooms)}
        doors = tuple(door for door in plan.doors if {door.room, door.to} <= known)
        return longest_reading(replace(plan, rooms=rooms, doors=doors))
    if reading == "shortest":
        others = {room.id for room in plan.rooms}
        opened = [
            Door(f"open {name} {to}", name, to, None, None, False)
            for name in made.hidden_doors
            for to in others - {name}
        ]
        return shortest_reading(replace(plan, doors=by_id([*plan.doors, *opened])))
    return plan


def _all(gaps: Mapping[str, list[Missing]]) -> list[Missing]:
    return [each for of_room in gaps.values() for each in of_room]


def kept_of(room: Thing) -> Answers | None:
    """Where answers about floor plans are kept between runs."""
    return Answers(room.survey.kept) if room.survey.kept else None


def gathered(room: Thing) -> _Gathered:
    """What is recorded of a room's storey, whole or not. Raises Missing where the room itself cannot be drawn."""
    made, undrawn = _Gathered(), []
    for each in _of_the_storey(room, made):
        outline = _outline(each, made, alone=each is room)
        if outline is None:
            undrawn.append(each)
            continue
        made.rooms.append(Room(each.id, outline))
        made.paths[f"room {each.id}"] = each.at("outline")
        made.doors += _doors(each, made)
        hidden: list[Missing] = []
        for name, where in ON_THE_FLOOR:
            for member in made.members(each, name, hidden):
                _stand(member, where, made, hidden)
        if hidden:
            made.hidden_floor[each.id] = hidden
        made.zones += [
            Zone(_named(zone, made, "zone", "outline"), place)
            for zone in made.members(each, "clear_zones", [])
            if (place := made.value(zone, "outline", [])) is not None
        ]
    made.things = [
        Placed(_named(thing, made, "thing", "at"), _floats(thing.entries["at"].value))
        for name in UNITS
        for thing in _listed(room["site"], name)
        if "at" in thing.entries and thing.entries.get("room") and thing["room"].id in {one.id for one in made.rooms}
    ]
    known = {each.id for each in made.rooms}
    for each in undrawn:
        if any(_word(door, "to") in known for door in made.members(each, "doors", [])):
            made.ways_doubtful.append(_gap(each, "outline"))
    made.doors = [door for door in made.doors if door.to in known or door.to == OUTSIDE]
    return made


def _of_the_storey(room: Thing, made: _Gathered) -> Iterator[Thing]:
    """The room itself, and those that share its frame; a room given only by its size has a frame of its own."""
    yield room
    if "outline" not in room.entries:
        return
    for other in made.members(room["site"], "rooms", made.ways_doubtful):
        if other is not room and _word(other, "storey") == _word(room, "storey"):
            yield other


def _outline(room: Thing, made: _Gathered, *, alone: bool) -> Outline | None:
    """Its corners, else the rectangle of its size where it is looked at alone. Raises Missing for the room itself."""
    if "outline" not in room.entries and not alone:
        return None
    if "outline" in room.entries:
        outline: Outline = made.value(room, "outline", [])
        return outline
    gaps: list[Missing] = []
    length, width = (made.value(room, name, gaps) for name in ("length", "width"))
    if gaps:
        sides = tuple(need.path for gap in gaps for need in gap.needs)
        raise Missing.of(replace(Missing.together(gaps).needs[0], path=room.at("outline"), instead=sides))
    return ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))


def _doors(room: Thing, made: _Gathered) -> Iterator[Door]:
    hidden: list[Missing] = []
    for door in made.members(room, "doors", hidden):
        to = door.entries.get("to")
        if to is None:
            hidden.append(_gap(door, "to"))
            continue
        made.leaves.append((door, "to"))
        if to.value != OUTSIDE and (behind := _without_frame(door, str(to.value))) is not None:
            made.ways_doubtful.append(_gap(behind, "outline"))
            continue
        gaps, name = made.doors_doubtful, _named(door, made, "door", "at")
        at, width, locked = (made.value(door, each, gaps) for each in ("at", "width", "locked"))
        swing, hinge = (made.value(door, each, []) for each in ("swing", "hinge"))
        _note_leaf(door, name, made)
        if to.value == OUTSIDE:
            _note_exit(door, name, made)
        yield Door(name, room.id, str(to.value), at, width, locked, swing, hinge)
    if hidden:
        made.hidden_doors[room.id] = hidden


def _note_leaf(door: Thing, name: str, made: _Gathered) -> None:
    """What is not known of a door without which nobody can tell what its leaf sweeps."""
    if _word(door, "swing") in NO_LEAF:
        return
    unsaid = [each for each in ("at", "width", "swing", "hinge") if each not in door.entries]
    if unsaid:
        made.leaf_gaps[name] = Missing.together(_gap(door, each) for each in unsaid)


def _note_exit(door: Thing, name: str, made: _Gathered) -> None:
    """Whether people are meant to leave by a door to the outside: a gate that is none is no exit, locked or not."""
    gaps: list[Missing] = []
    way_out = made.value(door, "way_out", gaps)
    if way_out is False:
        made.no_exits.add(name)
    elif gaps:
        made.doubtful_exits[name] = gaps[0]


def _without_frame(door: Thing, to: str) -> Thing | None:
    """The room behind a door, where it cannot be drawn in the same frame."""
    return next((each for each in door["site"]["rooms"] if each.id == to and "outline" not in each.entries), None)


def _stand(member: Thing, where: str, made: _Gathered, hidden: list[Missing]) -> None:
    place = made.value(member, where, hidden)
    if place is None:
        return
    if where == "line":
        made.walls.append(Wall(_named(member, made, "wall", where), place, made.value(member, "thickness", []) or 0.0))
    else:
        made.obstacles.append(Obstacle(_named(member, made, "obstacle", where), place, member.label))


def _named(thing: Thing, made: _Gathered, kind: str, where: str) -> str:
    """What the plan calls a part; where that stands in the site is noted."""
    name = thing.id if f"{kind} {thing.id}" not in made.paths else f"{thing.id} in {thing.path}"
    made.paths[f"{kind} {name}"] = thing.at(where)
    return name


def _gap(thing: Thing, name: str) -> Missing:
    try:
        thing[name]
    except Missing as missing:
        return missing
    return Missing.of(Need(thing.at(name), "not recorded"))


def _listed(site: Thing, name: str) -> tuple[Thing, ...]:
    try:
        found: tuple[Thing, ...] = site[name]
    except Missing:
        return ()
    return found


def _word(thing: Thing, name: str) -> str:
    entry = thing.entries.get(name)
    return str(entry.value) if entry is not None else ""


def _floats(value: Any) -> Any:
    if isinstance(value, tuple):
        return tuple(_floats(each) for each in value)
    return value if isinstance(value, bool | str) else float(value)
