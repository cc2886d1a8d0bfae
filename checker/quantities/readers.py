"""How each name of each kind of thing is read. One function a name, shared by all things of the kind."""

from collections.abc import Callable, Mapping
from decimal import Decimal
from functools import cache
from typing import Any

from checker.quantities.compute import called, computed, recorded_or_computed
from checker.quantities.missing import Broken, Missing, Need
from checker.quantities.registry import quantities_of
from checker.quantities.shapes import SITE, Field, Reverse, list_of, shapes
from checker.quantities.things import MarkPath, OpenList, Reader, Thing
from checker.site.entries import NOTHING, NotReached
from checker.site.parts import Part
from checker.units import on_grid


@cache
def readers_of(kind: str) -> Mapping[str, Reader]:
    """The readers of a kind of thing by name."""
    shape = shapes()[kind]
    named: dict[str, Reader] = {SITE: _root}
    if shape.parent is not None:
        named[shape.parent] = lambda thing: thing.parent
    for field in shape.fields.values():
        named[field.name] = _reader(field)
        if field.type == "group":
            named[f"has_{field.name}"] = _presence(field.name)
        if field.dated:
            named[f"{field.name}_on"] = _day_of(field.name)
    if kind == "room":
        named["plan"] = _plan
    for reverse in shape.reverse.values():
        named[reverse.name] = _reverse_list(reverse)
    for known in quantities_of(kind):
        if known.arguments:
            named[known.attribute] = called(known)
        elif known.attribute in named:
            named[known.attribute] = recorded_or_computed(known, named[known.attribute])
        else:
            named[known.attribute] = computed(known)
    return named


def _plan(room: Thing) -> object:
    from checker.quantities.storeys import plan_of

    return plan_of(room)


def _root(thing: Thing) -> Thing:
    while thing.parent is not None:
        thing = thing.parent
    return thing


def recorded(thing: Thing, name: str) -> Any:
    """What the model holds in a field; raises Broken where the thing was recorded as none."""
    if thing.part is NOTHING:
        raise Broken(f"{thing.path} was recorded as none; a rule asks has_{thing.path.rpartition('.')[2]} first")
    return getattr(thing.part, name) if isinstance(thing.part, Part) else None


def absent(thing: Thing, name: str) -> Missing:
    """The Missing for a field where nothing stands."""
    because = thing.part if isinstance(thing.part, NotReached) else recorded(thing, name)
    return Missing.of(thing.survey.gap(thing.at(name), because))


def _reader(field: Field) -> Reader:
    readers: dict[str, Callable[[Field], Reader]] = {
        "number": _number,
        "reference": _reference,
        "group": _group,
        "list": _list,
    }
    return readers.get(field.type, _plain)(field)


def _plain(field: Field) -> Reader:
    name = field.name

    def read(thing: Thing) -> Any:
        entry = thing.entries.get(name)
        if entry is None:
            raise absent(thing, name)
        return entry.value

    return read


def _number(field: Field) -> Reader:
    name = field.name

    def read(thing: Thing) -> Decimal:
        entry = thing.entries.get(name)
        if entry is None:
            raise absent(thing, name)
        assert isinstance(entry.value, Decimal)
        return on_grid(entry.value)

    return read


def _reference(field: Field) -> Reader:
    name = field.name
    assert field.thing is not None
    _, list_name = list_of(field.thing)

    def read(thing: Thing) -> Thing:
        entry = thing.entries.get(name)
        if entry is None:
            raise absent(thing, name)
        members: tuple[Thing, ...] = _root(thing)[list_name]
        return next(member for member in members if member.id == entry.value)

    return read


def _group(field: Field) -> Reader:
    name, kind = field.name, field.thing
    assert kind is not None

    def read(thing: Thing) -> Thing:
        part = thing.part if isinstance(thing.part, NotReached) else recorded(thing, name)
        place = (*thing.mark_path, name)
        return Thing(kind, thing.at(name), place, part, thing, readers_of(kind), thing.survey)

    return read


def _presence(name: str) -> Reader:
    def read(thing: Thing) -> bool:
        part = recorded(thing, name)
        if part is None or isinstance(part, NotReached):
            raise absent(thing, name)
        return part is not NOTHING

    return read


def _day_of(name: str) -> Reader:
    def read(thing: Thing) -> Any:
        if name not in thing.entries:
            raise absent(thing, name)
        day = thing.found_on(name)
        if day is None:
            raise Missing(thing.at(name), "not recorded", "the day it was found is not recorded", ("survey.on",))
        return day

    return read


def _list(field: Field) -> Reader:
    name, kind = field.name, field.thing
    assert kind is not None

    def read(thing: Thing) -> tuple[Thing, ...]:
        parts = recorded(thing, name)
        if parts is None or isinstance(parts, NotReached):
            raise absent(thing, name)
        path, place = thing.at(name), (*thing.mark_path, name)
        members = tuple(_member(kind, path, (*place, at), part, thing) for at, part in enumerate(parts))
        why = thing.survey.why_unreached(path)
        return members if why is None else OpenList(members, Need(path, "not reached", why))

    return read


def _member(kind: str, path: str, place: MarkPath, part: Any, parent: Thing) -> Thing:
    named = getattr(part, "id", None) or getattr(getattr(part, "to", None), "value", None)
    named = place[-1] if named is None else named
    return Thing(kind, f"{path}[{named}]", place, part, parent, readers_of(kind), parent.survey)


def _reverse_list(reverse: Reverse) -> Reader:
    name, reference = reverse.name, reverse.reference

    def read(thing: Thing) -> tuple[Thing, ...]:
        every: tuple[Thing, ...] = _root(thing)[name]
        here, because = [], _why_open(thing, name, every)
        for member in every:
            try:
                if member[reference] is thing:
                    here.append(member)
            except Missing as missing:
                because = because or missing.needs[0]
        return tuple(here) if because is None else OpenList(tuple(here), because)

    return read


def _why_open(thing: Thing, name: str, every: tuple[Thing, ...]) -> Need | None:
    if isinstance(every, OpenList):
        return every.open_because
    why = thing.survey.why_unreached(thing.at(name))
    return None if why is None else Need(thing.at(name), "not reached", why)
