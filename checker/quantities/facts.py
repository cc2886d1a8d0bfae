"""The facts of a site: every kind of thing in it, ready for rules."""

from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

from msgspec import Struct

from checker.quantities.compute import by_way
from checker.quantities.missing import Missing, Need
from checker.quantities.readers import readers_of
from checker.quantities.registry import Quantity, quantities_of
from checker.quantities.shapes import SITE, list_of, shapes
from checker.quantities.survey import Reading, survey_of
from checker.quantities.things import OpenList, Thing
from checker.site.model import Site
from checker.units import on_grid, write

NOTABLE = Decimal("0.01")
"""Share by which a recorded value may differ from the computed one without a notice."""


class Spoken(Struct, frozen=True):
    """One of several values that a site gives for the same thing."""

    value: Decimal
    by: str
    """The formula that gives it, or the evidence word it is recorded with."""
    written: str = ""
    """As it was recorded; empty where it was computed."""


class Notice(Struct, frozen=True):
    """Something a reader should know that is no finding."""

    path: str
    says: str
    kind: str = ""
    """The kind of the values, where it is about values that differ."""
    spoken: tuple[Spoken, ...] = ()
    """The one that counts first."""


class Facts:
    """What a site gives rules to judge."""

    def __init__(self, site: Thing) -> None:
        """Keep the site; nothing is read yet."""
        self.site = site

    def things(self, kind: str) -> tuple[Thing, ...]:
        """All things of a kind, in the order of the file; an OpenList where there may be more.

        Raises Missing where their list was not recorded, KeyError for a kind that no list holds.
        """
        if kind == SITE:
            return (self.site,)
        parent, name = list_of(kind)
        if parent == SITE:
            members: tuple[Thing, ...] = self.site[name]
            return members
        return _joined(self.things(parent), name)

    @property
    def notices(self) -> tuple[Notice, ...]:
        """Where a recorded value and the computed one differ, by path: both are given, and which one counts."""
        found = [notice for kind in shapes() for known in quantities_of(kind) for notice in self._of(known)]
        return tuple(sorted(found, key=lambda notice: notice.path))

    @property
    def floor_faults(self) -> tuple[Notice, ...]:
        """What of the floor plans cannot be so, by path."""
        from checker.quantities.floor_faults import floor_faults

        return tuple(sorted((Notice(*each) for each in floor_faults(self.site)), key=lambda notice: notice.path))

    def _of(self, known: Quantity) -> Iterator[Notice]:
        recordable = known.attribute in shapes()[known.owner].fields
        if "." in known.owner or known.arguments or not (recordable or len(known.ways) > 1):
            return
        try:
            members = self.things(known.owner)
        except Missing:
            return
        for thing in members:
            yield from _differences(thing, known)


def facts(site: Site, reading: Reading = "recorded", kept: Path | None = None) -> Facts:
    """The facts of a site that was read. Floor plans in which something is not known are taken by the reading.

    Answers about floor plans are kept in the folder `kept` for the next time, if one is given.
    """
    return Facts(Thing(SITE, "", (), site, None, readers_of(SITE), survey_of(site, reading, kept)))


def _joined(parents: tuple[Thing, ...], name: str) -> tuple[Thing, ...]:
    """The members of a list that each of several things has."""
    because: Need | None = parents.open_because if isinstance(parents, OpenList) else None
    members: list[Thing] = []
    gaps: list[Missing] = []
    for parent in parents:
        try:
            own: tuple[Thing, ...] = parent[name]
        except Missing as missing:
            gaps.append(missing.alone)
            continue
        members += own
        if isinstance(own, OpenList):
            because = because or own.open_because
    if gaps and len(gaps) == len(parents):
        raise Missing.together(gaps)
    if gaps:
        because = because or gaps[0].needs[0]
    return tuple(members) if because is None else OpenList(tuple(members), because)


def _differences(thing: Thing, known: Quantity) -> Iterator[Notice]:
    name = known.attribute
    spoken: list[Spoken] = []
    entry = thing.entries.get(name)
    if entry is None and len(known.ways) == 1:
        return
    if entry is not None and isinstance(entry.value, Decimal):
        spoken.append(Spoken(on_grid(entry.value), str(thing.evidence(name)), entry.written))
    for way in known.ways:
        try:
            value = by_way(way, thing, known).value
        except Missing:
            continue
        assert isinstance(value, Decimal)
        spoken.append(Spoken(value, way.formula))
    if len(spoken) < 2:
        return
    counts: Decimal = thing[name]
    if all(abs(each.value - counts) <= NOTABLE * abs(counts) for each in spoken):
        return
    taken = next(each for each in spoken if each.value == counts)
    others = [each for each in spoken if each != taken]
    also = " and ".join(_said(each, known.gives) for each in others)
    says = f"{name.replace('_', ' ')} is taken as {_said(taken, known.gives)}; the site also gives {also}"
    yield Notice(thing.at(name), says, known.gives, (taken, *others))


def _said(spoken: Spoken, kind: str) -> str:
    if spoken.written:
        return f"{spoken.written} (recorded, {spoken.by})"
    return f"{write(spoken.value, kind)} (from {spoken.by})"
