"""What stands beside the fields of a result for its JSON and its schema.

pydantic asks these for it when it writes; a check that writes no JSON never imports pydantic.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pydantic import ConfigDict, GetJsonSchemaHandler
    from pydantic.json_schema import JsonSchemaValue
    from pydantic_core import CoreSchema


@dataclass(frozen=True, slots=True)
class Says:
    """What the schema says of a field."""

    description: str

    def __get_pydantic_json_schema__(self, field: "CoreSchema", handler: "GetJsonSchemaHandler") -> "JsonSchemaValue":
        """The field's schema with the description."""
        return {**handler(field), "description": self.description}


@dataclass(frozen=True, slots=True)
class WrittenAsNumber:
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


def written_as(**names: str) -> "ConfigDict":
    """The settings of a class some of whose fields JSON calls by another name."""
    return {"alias_generator": lambda name: names.get(name, name)}
