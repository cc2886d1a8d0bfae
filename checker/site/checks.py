"""What a schema cannot say of a site: ids used once, references that lead somewhere, values that can be so."""

from collections.abc import Callable, Iterable, Iterator
from itertools import chain

from checker.site.checks_values import date_flaws, number_flaws, rating_flaws
from checker.site.entries import Entry, Path, nearest, one_of, shown
from checker.site.flaws import Flaw
from checker.site.model import LISTS, Site
from checker.site.names import OnTheFloor, Reference
from checker.site.parts import Thing, fields_marked
from checker.site.walk import Located, parts_of

Lines = Callable[[Path], int]
"""The line on which the value at a path begins."""


def flaws_of(site: Site, line_of: Lines, refused: Iterable[Path] = ()) -> list[Flaw]:
    """Everything that cannot be so in a built site.

    References to a list of which something was `refused` are left alone: what they mean may be what was refused.
    """
    located = list(parts_of(site))
    return list(
        chain(
            _repeated_ids(located, line_of),
            _dangling(located, tuple(refused)),
            _not_on_the_floor(located, tuple(refused)),
            number_flaws(located),
            date_flaws(located),
            rating_flaws(located),
        )
    )


def _repeated_ids(located: list[Located], line_of: Lines) -> Iterator[Flaw]:
    first: dict[tuple[str, str], Path] = {}
    for found in located:
        if not isinstance(found.part, Thing):
            continue
        path = first.setdefault((found.kind, found.part.id), found.path)
        if path != found.path:
            kind = found.kind.replace("_", " ")
            says = f"Another {kind} has this id, on line {line_of((*path, 'id'))}"
            yield Flaw((*found.path, "id"), says, shown(found.part.id), f"an id that no other {kind} has")
        elif found.part.id == "none":
            yield Flaw((*found.path, "id"), "An id cannot be the word for nothing", shown("none"), "another id")
        elif found.kind == "room" and found.part.id == "outside":
            yield Flaw((*found.path, "id"), "Doors write outside for the open air", shown("outside"), "another id")


def _dangling(located: list[Located], refused: tuple[Path, ...]) -> Iterator[Flaw]:
    lists = {model.kind_of_thing: name for name, model in LISTS.items()}
    half_read = {path[0] for path in refused if path and (len(path) <= 2 or path[2:] == ("id",))}
    ids: dict[str, dict[str, Path]] = {kind: {} for kind in lists}
    for found in located:
        if found.kind in ids and isinstance(found.part, Thing):
            ids[found.kind][found.part.id] = found.path
    for found in located:
        for field in fields_marked(type(found.part), Reference):
            name, marker, entry = field.name, field.marker, getattr(found.part, field.name)
            if not isinstance(marker, Reference) or not isinstance(entry, Entry):
                continue
            known, word = ids[marker.kind], str(entry.value)
            if word not in known and word not in marker.besides and lists[marker.kind] not in half_read:
                yield _leads_nowhere((*found.path, name), word, marker, list(known), lists[marker.kind])
            elif found.kind == "door" and found.path[:2] == known.get(word):
                yield Flaw(
                    (*found.path, name),
                    "A door leads out of its own room",
                    shown(word),
                    "the room behind it, or outside",
                )


def _not_on_the_floor(located: list[Located], refused: tuple[Path, ...]) -> Iterator[Flaw]:
    if {path[0] for path in refused if path} & {"rooms", "dynos"}:
        return
    things = (each.part for each in located if each.kind in OnTheFloor.KINDS)
    known = dict.fromkeys(thing.id for thing in things if isinstance(thing, Thing))
    for found in located:
        for field in fields_marked(type(found.part), OnTheFloor):
            entry = getattr(found.part, field.name)
            if isinstance(entry, Entry) and entry.value not in known and entry.value != OnTheFloor.WALL:
                near = nearest(str(entry.value), known) or one_of([*list(known)[:8], OnTheFloor.WALL])
                path = (*found.path, field.name)
                yield Flaw(path, "Nothing on the floor in this file has this id", shown(entry.value), near)


def _leads_nowhere(path: Path, word: str, marker: Reference, known: list[str], listed: str) -> Flaw:
    kind = marker.kind.replace("_", " ")
    if word == "none":
        says = "This would stand in no room" if kind == "room" else f"The id of a {kind} cannot be none"
        return Flaw(path, says, shown(word), f"the id of the {kind}, or leave the field out where it is not known")
    near = nearest(word, known)
    choice = near or (one_of([*known[:8], *marker.besides]) if known else f"an id that stands under {listed}")
    return Flaw(path, f"No {kind} in this file has this id", shown(word), choice)
