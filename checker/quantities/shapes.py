"""The shape of every kind of thing: its fields, groups, lists and references, as the site model declares them."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import Literal

from msgspec import Struct

from checker.site.fields import Answer, Check, Count, Day, Text, Word
from checker.site.measures import Line, Measured, Outline, Point
from checker.site.model import LISTS, Site
from checker.site.names import Patterned, Reference
from checker.site.parts import FieldOf, Group, Many, Part, Plain, fields_of
from checker.site.parts import Thing as ThingModel

FieldType = Literal["number", "word", "answer", "date", "text", "place", "reference", "group", "list"]
SITE = "site"
_NOT_FACTS = frozenset(
    {"id", "was", "note", "not_reached", "assumed", "instruments", "exceptions", "accepted_alternatives"}
)


class Field(Struct, frozen=True):
    """One field of a kind of thing."""

    name: str
    type: FieldType
    doc: str
    quantity_kind: str | None = None
    choices: frozenset[str] | None = None
    thing: str | None = None
    """The kind that a group, a reference or a list's member is."""
    dated: bool = False
    """Whether the day it was found on counts: it has NAME_on."""


class Reverse(Struct, frozen=True):
    """A list that is not recorded where it stands: the members whose reference names this thing."""

    name: str
    """On the thing: room.fans."""
    thing: str
    """The kind of the members."""
    reference: str
    """The members' field that names the thing."""


class Shape(Struct, frozen=True):
    """One kind of thing."""

    kind: str
    doc: str
    fields: Mapping[str, Field]
    reverse: Mapping[str, Reverse]
    parent: str | None
    """The kind of the thing whose list it stands in, where that is not the site."""


@cache
def shapes() -> Mapping[str, Shape]:
    """Every kind of thing, groups such as dyno.capture among them, by name."""
    found: dict[str, Shape] = {}
    _gather(SITE, Site, None, found)
    return MappingProxyType(found)


@cache
def list_of(kind: str) -> tuple[str, str]:
    """The kind of thing that has the list in which things of a kind stand, and the list's name. Raises KeyError."""
    for holder in shapes().values():
        for field in holder.fields.values():
            if field.type == "list" and field.thing == kind:
                return holder.kind, field.name
    raise KeyError(kind)


def _gather(kind: str, model: type[Part], parent: str | None, found: dict[str, Shape]) -> None:
    fields = {}
    for name, declared in fields_of(model).items():
        if name in _NOT_FACTS or (field := _field(kind, declared)) is None:
            continue
        fields[name] = field
        if declared.part is not None and field.thing is not None and field.thing not in found:
            inside = kind if field.type == "list" and kind != SITE else None
            _gather(field.thing, declared.part, inside, found)
    doc = (model.__doc__ or "").partition("\n")[0]
    found[kind] = Shape(kind, doc, MappingProxyType(fields), MappingProxyType(_reverse_of(kind)), parent)


def _field(kind: str, declared: FieldOf) -> Field | None:
    marker, name, doc = declared.marker, declared.name, declared.description
    if isinstance(marker, Plain):
        marker = marker.field
    match marker:
        case Group():
            return Field(name, "group", doc, thing=f"{kind}.{name}")
        case Many():
            return Field(name, "list", doc, thing=_member_kind(kind, declared.part))
        case Measured():
            return Field(name, "number", doc, quantity_kind=marker.kind)
        case Count():
            return Field(name, "number", doc, quantity_kind="count")
        case Word():
            return Field(name, "word", doc, choices=frozenset(marker.choices))
        case Answer():
            return Field(name, "answer", doc, dated=isinstance(marker, Check))
        case Day():
            return Field(name, "date", doc)
        case Reference(kind=of) if not marker.besides:
            return Field(name, "reference", doc, thing=of)
        case Point() | Outline() | Line():
            return Field(name, "place", doc)
        case Text() | Patterned():
            return Field(name, "text", doc)
    return None


def _member_kind(kind: str, part: type[Part] | None) -> str:
    assert part is not None
    return part.kind_of_thing if issubclass(part, ThingModel) else f"{kind}.{part.__name__.lower()}"


def _reverse_of(kind: str) -> dict[str, Reverse]:
    return {
        name: Reverse(name, model.kind_of_thing, kind)
        for name, model in LISTS.items()
        if kind in fields_of(model) and isinstance(fields_of(model)[kind].marker, Reference)
    }
