"""The shape that all parts of a site share, and how their fields are declared and listed."""

from collections.abc import Callable, Mapping
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Annotated, Any, ClassVar, Never, Self, TypeVar, get_args

from msgspec import Struct

from checker.site.entries import NOTHING, Nothing, NotReached, Refused, shown
from checker.site.fields import Scalar, Text, read_by, unreached
from checker.site.names import Identifier

if TYPE_CHECKING:
    from pydantic_core import CoreSchema, SchemaValidator


class Declared(Struct, frozen=True):
    """What a model says of a field beside its kind."""

    description: str
    examples: tuple[object, ...]
    required: bool


def unrecorded(description: str, *examples: object) -> Any:
    """A field of which nothing is known until it is written: absence is no value."""
    return Declared(description, examples, required=False)


def required(description: str, *examples: object) -> Any:
    """A field without which its part says nothing."""
    return Declared(description, examples, required=True)


class Model(type):
    """The class of all models: takes down what each declares, so that no field has a value until one is written."""

    declared: Mapping[str, tuple[Any, Declared]]
    """By name the annotation and the words of each field, own ones before those of the bases."""

    def __init__(cls, name: str, bases: tuple[type, ...], body: dict[str, Any]) -> None:
        """Take the declarations out of the class."""
        super().__init__(name, bases, body)
        own = {field: (cls.__annotations__[field], said) for field, said in body.items() if isinstance(said, Declared)}
        for field in own:
            delattr(cls, field)
        inherited = [item for base in bases if isinstance(base, Model) for item in base.declared.items()]
        cls.declared = MappingProxyType(own | {field: kept for field, kept in inherited if field not in own})


class Part(metaclass=Model):
    """A part of a site, frozen. Every field is None where nothing was recorded."""

    @classmethod
    def of(cls, tree: object) -> Self:
        """The part that a plain tree describes. Raises pydantic_core.ValidationError with all that is wrong."""
        made: Self = _validator(cls).validate_python(tree)
        return made

    def __setattr__(self, name: str, value: object) -> Never:
        """What was recorded is not changed."""
        raise AttributeError(f"{type(self).__name__} is frozen: {name} cannot be set")


@cache
def _validator(model: type[Part]) -> "SchemaValidator":
    from pydantic_core import SchemaValidator

    return SchemaValidator(_part(model))


def _part(model: type[Part]) -> "CoreSchema":
    """How pydantic builds a part: a class with a schema of its own costs a program's start ten times as much."""
    fields = fields_of(model)
    blank = dict.fromkeys(fields)

    def make(found: dict[str, object]) -> Part:
        made = model.__new__(model)
        made.__dict__.update({**blank, **found})
        return made

    members = {
        field.name: {"type": "typed-dict-field", "schema": field.schema(), "required": field.required}
        for field in fields.values()
    }
    whole = {"type": "typed-dict", "fields": members, "extra_behavior": "forbid"}
    return {"type": "function-after", "function": {"type": "no-info", "function": make}, "schema": whole}


class Plain(Struct, frozen=True):
    """Marks a field that is written bare and carries no evidence; it reads to the value itself."""

    field: Scalar

    def read(self, raw: object) -> object:
        """The value, or None where nothing is written."""
        return None if raw is None else self.field.read(raw)

    def schema(self, part: "type[Part] | None") -> "CoreSchema":
        """How pydantic reads the field."""
        return read_by(self.read)


class Needed(Struct, frozen=True):
    """Marks a field without which its part says nothing: it is there, and holds something."""

    def read(self, value: object) -> object:
        """The value; raises Refused where there is none."""
        if value is None:
            raise Refused("This cannot be left out", "nothing", "what it is")
        return value


class Anything(Struct, frozen=True):
    """Marks a bare value kept as it is written, for the field that it is meant for to read."""

    def read(self, raw: object) -> object:
        """What was written, if it is no evidence object; raises Refused."""
        if isinstance(raw, dict):
            raise Refused("A bare value is wanted here", shown(raw), "the value alone, without evidence")
        return raw

    def schema(self, part: "type[Part] | None") -> "CoreSchema":
        """How pydantic reads the field."""
        return read_by(self.read)


class Texts(Struct, frozen=True):
    """Marks a list of bare texts."""

    def read(self, raw: object) -> tuple[str, ...] | None:
        """The texts, or None where nothing is written."""
        if raw is None:
            return None
        if not isinstance(raw, list):
            raise Refused("A list is wanted here", shown(raw), "[one, two]")
        return tuple(Text().read(member) for member in raw)

    def schema(self, part: "type[Part] | None") -> "CoreSchema":
        """How pydantic reads the field."""
        return read_by(self.read)


class Group(Struct, frozen=True):
    """Marks a part of its parent of which there is one or none."""

    def schema(self, part: type[Part] | None) -> "CoreSchema":
        """How pydantic builds the part, with the words for none read before."""
        assert part is not None
        return _unless_none(_part(part), NOTHING, "not_reached" in part.declared)


class Many(Struct, frozen=True):
    """Marks a list of things or of records."""

    def schema(self, part: type[Part] | None) -> "CoreSchema":
        """How pydantic builds each member, with the words for none read before."""
        assert part is not None
        members = {"type": "tuple", "items_schema": [_part(part)], "variadic_item_index": 0}
        return _unless_none(members, (), False)


NONE = ("none", False)
"""What is written for a part or a list of which there is none, beside an empty list."""


def _unless_none(inner: "CoreSchema", nothing: object, names_not_reached: bool) -> "CoreSchema":
    def read(raw: object, build: Callable[[object], object]) -> object:
        if raw is None:
            return None
        if raw is False or raw == "none" or raw == []:
            return nothing
        if isinstance(raw, dict) and "not_reached" in raw and not names_not_reached:
            return unreached(raw)
        return build(raw)

    return {"type": "function-wrap", "function": {"type": "no-info", "function": read}, "schema": inner}


def _part_in(annotation: Any) -> type[Part]:
    """The model that an annotation speaks of."""
    if isinstance(annotation, type) and issubclass(annotation, Part):
        return annotation
    for inner in get_args(annotation):
        found = _part_in(inner)
        if found is not None:
            return found
    return None  # type: ignore[return-value]


T = TypeVar("T", bound=Part)
Maybe = Annotated[T | Nothing | NotReached | None, Group()]
"""A group: the part, that there is none, why it could not be reached, or None where nothing was recorded."""
List = Annotated[tuple[T, ...] | NotReached | None, Many()]
"""A list: its members, none of them where it was recorded that there are none, or None where nothing was recorded."""


class Noted(Part):
    """A part that may carry remarks and its former name."""

    was: Annotated[str | None, Plain(Identifier())] = unrecorded(
        "The id it had before, so that its history goes on.", "cell-old"
    )
    note: Annotated[str | None, Plain(Text())] = unrecorded(
        "Anything worth keeping beside the fields.", "behind the parts shelf"
    )


class Thing(Noted):
    """A part with an id: the subject of findings."""

    kind_of_thing: ClassVar[str]
    """The name of its kind, as rules write it."""
    id: Annotated[str, Plain(Identifier()), Needed()] = required("Its name in this file, the same for ever.", "cell-1")


Marker = Scalar | Plain | Anything | Texts | Group | Many


class FieldOf(Struct, frozen=True):
    """One field of a part, as its model declares it."""

    name: str
    marker: Marker
    description: str
    required: bool
    examples: tuple[object, ...]
    part: type[Part] | None
    """The model of a group or of a list's members."""
    needed: "Needed | None"

    def schema(self) -> "CoreSchema":
        """How pydantic reads the field."""
        marker = self.marker
        read = read_by(marker.record) if isinstance(marker, Scalar) else marker.schema(self.part)
        if self.needed is None:
            return read
        return {"type": "function-after", "function": {"type": "no-info", "function": self.needed.read}, "schema": read}


@cache
def fields_of(model: type[Part]) -> Mapping[str, FieldOf]:
    """The fields of a model by name, the id first, then in the order of declaration, those of its bases last."""
    fields = {}
    for name, (kind, said) in model.declared.items():
        marks = kind.__metadata__
        marker = next(mark for mark in marks if isinstance(mark, Marker))
        needed = next((mark for mark in marks if isinstance(mark, Needed)), None)
        part = _part_in(kind) if isinstance(marker, Group | Many) else None
        fields[name] = FieldOf(name, marker, said.description, said.required, said.examples, part, needed)
    return MappingProxyType(dict(sorted(fields.items(), key=lambda item: item[0] != "id")))


@cache
def fields_marked(model: type[Part], kind: type[Marker]) -> tuple[FieldOf, ...]:
    """The fields of a model whose marker is of one class."""
    return tuple(field for field in fields_of(model).values() if isinstance(field.marker, kind))


@cache
def parts_within(model: type[Part]) -> tuple[FieldOf, ...]:
    """The fields of a model that hold parts themselves: groups and lists."""
    return tuple(field for field in fields_of(model).values() if field.part is not None)
