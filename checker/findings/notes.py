"""What the values of a result are, for those who draw them, and for pydantic, which writes their JSON and its schema.

A check that writes no JSON never imports pydantic.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, ClassVar, get_type_hints

from msgspec import NODEFAULT, Struct
from msgspec.structs import fields

if TYPE_CHECKING:
    from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
    from pydantic.json_schema import JsonSchemaValue
    from pydantic_core import CoreSchema


class Says(Struct, frozen=True):
    """What the schema says of a field."""

    description: str

    def __get_pydantic_json_schema__(self, field: "CoreSchema", handler: "GetJsonSchemaHandler") -> "JsonSchemaValue":
        """The field's schema with the description."""
        return {**handler(field), "description": self.description}


class WrittenAsNumber(Struct, frozen=True):
    """A decimal that JSON has as a number."""

    def __get_pydantic_core_schema__(self, source: object, handler: Callable[[Any], "CoreSchema"]) -> "CoreSchema":
        """A decimal and nothing that could be taken for one."""
        from pydantic_core import core_schema

        return core_schema.decimal_schema(
            strict=True, serialization=core_schema.plain_serializer_function_ser_schema(float, when_used="json")
        )

    def __get_pydantic_json_schema__(self, field: "CoreSchema", handler: "GetJsonSchemaHandler") -> "JsonSchemaValue":
        """A number."""
        return {"type": "number"}


class Written(Struct, frozen=True, kw_only=True, array_like=True):
    """A part of a result: made by the hundred in a check, and written by pydantic as it writes dataclasses.

    msgspec, which keeps results between runs, writes it as a list, in the order of its fields.
    """

    written_as: ClassVar[dict[str, str]] = {}
    """What JSON calls a field, where that is another name."""
    __dataclass_fields__: ClassVar[dict[str, Any]] = {}
    """pydantic writes as a dataclass what has this."""

    @classmethod
    def __get_pydantic_core_schema__(cls, source: object, handler: "GetCoreSchemaHandler") -> "CoreSchema":
        """How pydantic reads and writes the part, field by field."""
        from pydantic_core import core_schema

        hints = get_type_hints(cls, include_extras=True)
        held: list[core_schema.DataclassField] = []
        for field in fields(cls):
            schema = handler.generate_schema(hints[field.name])
            if field.default is not NODEFAULT:
                schema = core_schema.with_default_schema(schema, default=field.default)
            alias = cls.written_as.get(field.name)
            held.append(
                core_schema.dataclass_field(
                    field.name, schema, kw_only=True, validation_alias=alias, serialization_alias=alias
                )
            )
        arguments = core_schema.dataclass_args_schema(cls.__name__, held)
        names = [field.name for field in fields(cls)]
        ref = f"{cls.__module__}.{cls.__qualname__}"
        return core_schema.dataclass_schema(cls, arguments, names, ref=ref, slots=True)
