"""What a rule is about: each thing of a kind, and what to say where the list is absent, empty or not all there is."""

from typing import Any

from msgspec import Struct

from checker.findings.result import Subject
from checker.quantities import Facts, Missing, Need, OpenList, Thing


class Subjects(Struct, frozen=True):
    """The things, what is missing of the list, and whether it was recorded that there is none."""

    things: tuple[Thing, ...]
    missing: tuple[Need, ...]
    absent: bool
    none: bool


def subjects_of(facts: Facts, kind: str) -> Subjects:
    """All things of a kind in a site."""
    try:
        things = facts.things(kind)
    except Missing as gap:
        return Subjects((), gap.needs, absent=True, none=False)
    missing = (things.open_because,) if isinstance(things, OpenList) else ()
    return Subjects(tuple(things), missing, absent=False, none=not things and not missing)


def subject(thing: Thing, site: Thing) -> Subject:
    """A thing as a finding names it, with the places that lead to it."""
    place = (*_rooms(thing), thing.label)
    return Subject(kind=thing.kind, id=thing.id or site.id or "", label=thing.label, path=thing.path, place=place)


def whole_list(site: Thing, list_path: str) -> Subject:
    """The site, where nothing or none is recorded of a kind."""
    return Subject(kind="site", id=site.id or "", label=site.label, path=list_path, place=(site.label,))


def the_rest(kind: str, site: Thing, list_path: str) -> Subject:
    """What a list that is not all there is may still hold."""
    label = f"{kind.replace('_', ' ')}s not looked at"
    return Subject(kind=kind, id="*", label=label, path=list_path, place=(site.label, label))


def _rooms(thing: Any) -> tuple[str, ...]:
    for through in ("room", "dyno", "air_system"):
        if through == thing.kind:
            continue
        try:
            holder = thing[through]
        except (Missing, KeyError):
            continue
        if isinstance(holder, Thing):
            return (*_rooms(holder), holder.label)
    return ()
