"""How a value came about: the steps of its computation and the evidence it rests on."""

import datetime
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from msgspec import Struct

from checker.quantities.registry import Status
from checker.quantities.shapes import shapes
from checker.quantities.things import Thing
from checker.site.entries import Entry

PLAN = "plan"
"""What the floor plan of a room's storey is called among its facts."""
Value = Decimal | str | bool | datetime.date
Leaf = tuple[Thing, str]
"""A thing and the name of one of its facts."""


class Step(Struct, frozen=True):
    """One quantity computed by one formula."""

    quantity: str
    """room.air_changes."""
    formula: str
    inputs: tuple[tuple[str, Value, str, str], ...]
    """Name, value in SI, kind (empty for what is no number), what was written (empty where it was computed)."""
    value: Value
    kind: str
    """The kind of the value, or "answer"."""
    unit: str
    source: str
    status: Status
    leaves_out: str
    path: str = ""
    """Where the thing stands it was computed for: rooms[cell]."""
    drawn: "Drawn | None" = None
    """What was measured on a floor plan."""


Points = tuple[tuple[float, float], ...]


class Drawn(float):
    """A number with what it looks like on a floor plan: points in m in the frame of the storey."""

    def __new__(
        cls,
        number: float,
        what: str,
        room: str,
        points: Points,
        ends_at: str = "",
        targets: Points = (),
        between: str = "",
    ) -> "Drawn":
        """Takes what it is the length of, the id of a room on that storey, the points, and what lies at its ends."""
        made = super().__new__(cls, number)
        made.what, made.room, made.points, made.ends_at, made.targets = what, room, points, ends_at, targets
        made.between = between
        return made

    what: str
    room: str
    points: Points
    ends_at: str
    """What a walk ends at: extinguisher, exit."""
    targets: Points
    """Where there are such things; a walk ends at the nearest."""
    between: str
    """The two things that a gap lies between."""


class Computed(Struct, frozen=True):
    """A computed value with what it was computed from."""

    value: Value
    exact: Any
    """The value as the formula gave it: formulas that go on with it lose nothing to rounding."""
    step: Step
    leaves: tuple[Leaf, ...]


class Used(Struct, frozen=True):
    """One recorded value that another rests on."""

    path: str
    of: str
    """The thing it was recorded of, for people."""
    evidence: str
    value: Any
    written: str
    kind: str | None = None
    """The kind of a number."""
    on: datetime.date | None = None
    by: str | None = None
    instrument: str | None = None
    plus_minus: Decimal | None = None
    issuer: str | None = None
    result: str | None = None
    open_defects: str | None = None
    note: str | None = None
    photo: str | None = None
    on_plan: bool = False
    """Whether it was read off the floor plan as a whole."""


def evidence_of(thing: Thing, name: str, args: tuple[Any, ...] = ()) -> tuple[Used, ...]:
    """What a fact rests on: its own entry, or the entries of all its inputs, each once. Raises Missing as it does."""
    found: dict[str, Used] = {}
    for owner, field, on_plan in _entries_below(thing, name, args):
        found.setdefault(owner.at(field), _used(owner, field, owner.entries[field], on_plan))
    return tuple(found.values())


def working_of(thing: Thing, name: str, args: tuple[Any, ...] = ()) -> tuple[Step, ...]:
    """The steps to a fact, what is needed first standing first; none where it was recorded. Raises Missing likewise."""
    found: dict[tuple[str, str], Step] = {}
    for step in _steps_below(thing, name, args):
        found.setdefault((step.path, step.quantity), step)
    return tuple(found.values())


def _computed(thing: Thing, name: str, args: tuple[Any, ...]) -> Computed | None:
    fact = thing[name]
    if args:
        fact(*args)
    return thing.working.get((name, *args) if args else name)


def _steps_below(thing: Thing, name: str, args: tuple[Any, ...] = ()) -> Iterator[Step]:
    computed = _computed(thing, name, args)
    if computed is not None:
        for owner, field in computed.leaves:
            yield from _steps_below(owner, field)
        yield computed.step


def _entries_below(thing: Thing, name: str, args: tuple[Any, ...] = ()) -> Iterator[tuple[Thing, str, bool]]:
    computed = _computed(thing, name, args)
    if computed is not None and name == PLAN:
        if (name, True) not in thing.behind:
            below = [each for owner, field in computed.leaves for each in _entries_below(owner, field)]
            thing.behind[name, True] = [(owner, entry, True) for owner, entry, _ in below]
        yield from thing.behind[name, True]
    elif computed is not None:
        for owner, field in computed.leaves:
            yield from _entries_below(owner, field)
    elif name in thing.entries:
        yield thing, name, False
    elif name.endswith("_on") and (checked := name.removesuffix("_on")) in thing.entries:
        yield thing, checked, False


def _used(thing: Thing, name: str, entry: Entry, on_plan: bool) -> Used:
    if (name, on_plan) not in thing.behind:
        thing.behind[name, on_plan] = _made(thing, name, entry, on_plan)
    used: Used = thing.behind[name, on_plan]
    return used


def _made(thing: Thing, name: str, entry: Entry, on_plan: bool) -> Used:
    field = shapes()[thing.kind].fields.get(name)
    return Used(
        path=thing.at(name),
        of=thing.label,
        evidence=thing.evidence(name),
        value=entry.value,
        written=entry.written,
        kind=field.quantity_kind if field else None,
        on=thing.found_on(name),
        by=entry.by,
        instrument=entry.instrument,
        plus_minus=entry.plus_minus,
        issuer=entry.issuer,
        result=entry.result,
        open_defects=entry.open_defects,
        note=entry.note,
        photo=entry.photo,
        on_plan=on_plan,
    )
