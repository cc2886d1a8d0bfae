"""The table of names that rules may use: every kind of thing, and what each has."""

from collections.abc import Iterator, Mapping
from functools import cache
from types import MappingProxyType
from typing import Literal

from msgspec import Struct

from checker.quantities.registry import Argument, quantities_of
from checker.quantities.shapes import SITE, Field, Shape, shapes

AttributeType = Literal["number", "word", "answer", "date", "text", "period", "thing", "list", "function"]


class Attribute(Struct, frozen=True):
    """One name a thing has."""

    name: str
    type: AttributeType
    quantity_kind: str | None = None
    """The kind of a number, or of the number a function gives."""
    choices: frozenset[str] | None = None
    """The words it may hold, where the choice is closed."""
    thing: str | None = None
    """The kind of the thing, or of a list's members."""
    arguments: tuple[Argument, ...] | None = None
    """What a function takes."""
    returns: Literal["number", "answer"] | None = None
    """What a function gives."""
    maybe_none: bool = False
    """Whether a site may record that there is none, so that a rule has to ask has_NAME first."""
    doc: str = ""


@cache
def kinds() -> Mapping[str, Mapping[str, Attribute]]:
    """Every kind of thing with its attributes by name; kinds of groups are written dyno.capture."""
    return MappingProxyType({kind: MappingProxyType(_attributes(shape)) for kind, shape in shapes().items()})


def _attributes(shape: Shape) -> dict[str, Attribute]:
    named = {SITE: Attribute(SITE, "thing", thing=SITE, doc="The site it belongs to.")}
    if shape.parent is not None:
        named[shape.parent] = Attribute(shape.parent, "thing", thing=shape.parent, doc="What it is a part of.")
    for field in shape.fields.values():
        named.update((attribute.name, attribute) for attribute in _of_field(field))
    for reverse in shape.reverse.values():
        doc = f"Each {reverse.thing.replace('_', ' ')} recorded here."
        named[reverse.name] = Attribute(reverse.name, "list", thing=reverse.thing, doc=doc)
    named.update((attribute.name, attribute) for attribute in _of_registry(shape.kind))
    return named


def _of_field(field: Field) -> Iterator[Attribute]:
    match field.type:
        case "group":
            yield Attribute(field.name, "thing", thing=field.thing, maybe_none=True, doc=field.doc)
            yield Attribute(f"has_{field.name}", "answer", doc=f"Whether there is one: {field.doc}")
        case "reference":
            yield Attribute(field.name, "thing", thing=field.thing, doc=field.doc)
        case "place":
            return
        case "number" | "word" | "answer" | "date" | "text" | "list":
            yield Attribute(field.name, field.type, field.quantity_kind, field.choices, field.thing, doc=field.doc)
    if field.dated:
        yield Attribute(f"{field.name}_on", "date", doc=f"The day this was found: {field.doc}")


def _of_registry(kind: str) -> Iterator[Attribute]:
    for known in quantities_of(kind):
        gives: Literal["number", "answer"] = "answer" if known.gives == "answer" else "number"
        quantity_kind = None if gives == "answer" else known.gives
        if known.arguments:
            yield Attribute(
                known.attribute, "function", quantity_kind, arguments=known.arguments, returns=gives, doc=known.doc
            )
        else:
            yield Attribute(known.attribute, gives, quantity_kind, doc=known.doc)
