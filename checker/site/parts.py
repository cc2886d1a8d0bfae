"""The shape that all parts of a site share, and how their fields are declared and listed."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Annotated, Any, ClassVar, TypeVar, get_args

from pydantic import BaseModel, ConfigDict, Field, GetCoreSchemaHandler
from pydantic_core import CoreSchema, core_schema

from checker.site.entries import NOTHING, Nothing, NotReached, Refused, shown
from checker.site.fields import Scalar, Text, unreached
from checker.site.names import Identifier


def unrecorded(description: str, *examples: object) -> Any:
    """A field of which nothing is known until it is written: absence is no value."""
    return Field(default=None, description=description, examples=list(examples) or None)


def required(description: str, *examples: object) -> Any:
    """A field without which its part says nothing."""
    return Field(description=description, examples=list(examples) or None)


class Part(BaseModel):
    """A part of a site. Every field is None where nothing was recorded."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)


@dataclass(frozen=True, slots=True)
class Plain:
    """Marks a field that is written bare and carries no evidence; it reads to the value itself."""

    field: Scalar

    def read(self, raw: object) -> object:
        """The value, or None where nothing is written."""
        return None if raw is None else self.field.read(raw)

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Let pydantic read the field with `read`."""
        return core_schema.no_info_plain_validator_function(self.read)


@dataclass(frozen=True, slots=True)
class Needed:
    """Marks a field without which its part says nothing: it is there, and holds something."""

    def read(self, value: object) -> object:
        """The value; raises Refused where there is none."""
        if value is None:
            raise Refused("This cannot be left out", "nothing", "what it is")
        return value

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Let pydantic read the field as it otherwise would, and then with `read`."""
        return core_schema.no_info_after_validator_function(self.read, handler(source))


@dataclass(frozen=True, slots=True)
class Anything:
    """Marks a bare value kept as it is written, for the field that it is meant for to read."""

    def read(self, raw: object) -> object:
        """What was written, if it is no evidence object; raises Refused."""
        if isinstance(raw, dict):
            raise Refused("A bare value is wanted here", shown(raw), "the value alone, without evidence")
        return raw

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Let pydantic read the field with `read`."""
        return core_schema.no_info_plain_validator_function(self.read)


@dataclass(frozen=True, slots=True)
class Texts:
    """Marks a list of bare texts."""

    def read(self, raw: object) -> tuple[str, ...] | None:
        """The texts, or None where nothing is written."""
        if raw is None:
            return None
        if not isinstance(raw, list):
            raise Refused("A list is wanted here", shown(raw), "[one, two]")
        return tuple(Text().read(member) for member in raw)

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Let pydantic read the field with `read`."""
        return core_schema.no_info_plain_validator_function(self.read)


@dataclass(frozen=True, slots=True)
class Group:
    """Marks a part of its parent of which there is one or none."""

    def __get_pydantic_core_schema__(self, source: type[Any], handler: GetCoreSchemaHandler) -> CoreSchema:
        """Let pydantic build the part, and read the words for none before."""
        return _unless_none(
            handler.generate_schema(_part_in(source)), NOTHING, "not_reached" in _part_in(source).model_fields
        )


@dataclass(frozen=True, slots=True)
class Many:
    """Marks a list of things or of records."""

    def __get_pydantic_core_schema__(self, source: type[Any], handler: GetCoreSchemaHandler) -> CoreSchema:
        """Let pydantic build each member, and read the words for none before."""
        members = core_schema.tuple_variable_schema(handler.generate_schema(_part_in(source)))
        return _unless_none(members, (), False)


NONE = ("none", False)
"""What is written for a part or a list of which there is none, beside an empty list."""


def _unless_none(inner: CoreSchema, nothing: object, names_not_reached: bool) -> CoreSchema:
    def read(raw: object, build: core_schema.ValidatorFunctionWrapHandler) -> object:
        if raw is None:
            return None
        if raw is False or raw == "none" or raw == []:
            return nothing
        if isinstance(raw, dict) and "not_reached" in raw and not names_not_reached:
            return unreached(raw)
        return build(raw)

    return core_schema.no_info_wrap_validator_function(read, inner)


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


@dataclass(frozen=True, slots=True)
class FieldOf:
    """One field of a part, as its model declares it."""

    name: str
    marker: Marker
    description: str
    required: bool
    examples: tuple[object, ...]
    part: type[Part] | None
    """The model of a group or of a list's members."""


@cache
def fields_of(model: type[Part]) -> Mapping[str, FieldOf]:
    """The fields of a model by name, in the order of declaration, those of its bases last."""
    own = [*model.__annotations__, *(name for name in model.model_fields if name not in model.__annotations__)]
    fields = {}
    for name in (name for name in own if name in model.model_fields):
        info = model.model_fields[name]
        marker = next(item for item in info.metadata if isinstance(item, Marker))
        part = _part_in(info.annotation) if isinstance(marker, Group | Many) else None
        described = info.description or ""
        fields[name] = FieldOf(name, marker, described, info.is_required(), tuple(info.examples or ()), part)
    return MappingProxyType(dict(sorted(fields.items(), key=lambda item: item[0] != "id")))


@cache
def fields_marked(model: type[Part], kind: type[Marker]) -> tuple[FieldOf, ...]:
    """The fields of a model whose marker is of one class."""
    return tuple(field for field in fields_of(model).values() if isinstance(field.marker, kind))


@cache
def parts_within(model: type[Part]) -> tuple[FieldOf, ...]:
    """The fields of a model that hold parts themselves: groups and lists."""
    return tuple(field for field in fields_of(model).values() if field.part is not None)
