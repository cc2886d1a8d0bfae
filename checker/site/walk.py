"""Going through a site part by part, or down one path of its file."""

from collections.abc import Iterator

from msgspec import Struct

from checker.site.entries import Path
from checker.site.model import Site
from checker.site.parts import FieldOf, Group, Many, Part, fields_of, parts_within


class Located(Struct, frozen=True):
    """A part of a site with its place in the file."""

    path: Path
    kind: str
    """As rules write it: `dyno`, `dyno.capture`; records such as walks are `hazard.walks`."""
    part: Part


def parts_of(site: Site) -> Iterator[Located]:
    """The site and every part in it, in the order of the models."""
    return _parts(site, (), "site")


def _parts(part: Part, path: Path, kind: str) -> Iterator[Located]:
    yield Located(path, kind, part)
    for field in parts_within(type(part)):
        name = field.name
        inner = getattr(part, name)
        if inner is None:
            continue
        inner_kind = getattr(field.part, "kind_of_thing", f"{kind}.{name}")
        if isinstance(inner, tuple):
            for place, member in enumerate(inner):
                yield from _parts(member, (*path, name, place), inner_kind)
        elif isinstance(inner, Part):
            yield from _parts(inner, (*path, name), inner_kind)


class Spot(Struct, frozen=True):
    """Where a path of the file leads, as the models see it."""

    field: FieldOf | None
    """The last field on the way; None for the site itself."""
    path: Path
    """The path as far as that field."""
    rest: Path
    """What is left of the path inside the field: the place of a list's member, or a part of a value."""


def spot_at(path: Path) -> Spot:
    """The field that a path of the file lies in."""
    model: type[Part] = Site
    spot = Spot(None, (), path)
    place = 0
    while place < len(path):
        field = fields_of(model).get(str(path[place]))
        if field is None:
            return spot
        spot = Spot(field, path[: place + 1], path[place + 1 :])
        if field.part is None:
            return spot
        model = field.part
        place += 1
        if isinstance(field.marker, Many):
            spot = Spot(field, path[:place], path[place:])
            place += 1
        assert isinstance(field.marker, Group | Many)
    return spot
