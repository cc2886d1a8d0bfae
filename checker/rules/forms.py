"""The form of a part of a ruleset file, as its class declares it: how pydantic's core reads it, what its fields are.

Every mistake is found at once, as pydantic finds it, and pydantic itself is not imported: that takes longer than to
read all that has changed in a ruleset.
"""

from collections.abc import Mapping
from functools import cache
from typing import Any

from msgspec import inspect
from pydantic_core import CoreSchema, SchemaValidator

from checker.rules.files import SHORT, Part


@cache
def reader_of(form: Any) -> SchemaValidator:
    """What reads a value of a form, a class or a kind of text. It raises pydantic_core.ValidationError."""
    return SchemaValidator(_read(inspect.type_info(form)), {"strict": True})


def _read(form: inspect.Type) -> CoreSchema:
    schema: Any
    match form:
        case inspect.Metadata():
            return _read(form.type)
        case inspect.StructType():
            return _read_part(form)
        case inspect.StrType():
            schema = {"type": "str", "pattern": form.pattern, "min_length": form.min_length}
        case inspect.LiteralType():
            schema = {"type": "literal", "expected": list(form.values)}
        case inspect.ListType():
            schema = {"type": "list", "items_schema": _read(form.item_type), "min_length": form.min_length}
        case inspect.DictType():
            schema = {"type": "dict", "keys_schema": _read(form.key_type), "values_schema": _read(form.value_type)}
        case inspect.UnionType(types=(inner, inspect.NoneType())):
            schema = {"type": "nullable", "schema": _read(inner)}
        case inspect.AnyType():
            schema = {"type": "any"}
        case _:
            raise TypeError(f"no such form in a ruleset file: {form}")
    return {name: value for name, value in schema.items() if value is not None}


def _read_part(form: inspect.StructType) -> CoreSchema:
    names = {field.encode_name: field.name for field in form.fields}
    members: Any = {
        field.encode_name: {
            "type": "typed-dict-field",
            "schema": _read_field(form.cls, field),
            "required": field.required,
        }
        for field in form.fields
    }

    def make(found: dict[str, object]) -> object:
        return form.cls(**{names[name]: value for name, value in found.items()})

    whole: CoreSchema = {"type": "typed-dict", "fields": members, "extra_behavior": "forbid"}
    return {"type": "function-after", "function": {"type": "no-info", "function": make}, "schema": whole}


def _read_field(part: type[Any], field: inspect.Field) -> CoreSchema:
    schema, in_full = _read(field.type), SHORT.get((part, field.name))
    if in_full is None:
        return schema
    return {"type": "function-before", "function": {"type": "no-info", "function": in_full}, "schema": schema}


@cache
def fields_of(part: type[Part]) -> Mapping[str, inspect.Type]:
    """The forms of the fields of a part, each by the name it is written with."""
    form = inspect.type_info(part)
    assert isinstance(form, inspect.StructType)
    return {field.encode_name: field.type for field in form.fields}


def description(form: inspect.Type) -> str:
    """What the description of a field says."""
    said = form.extra_json_schema if isinstance(form, inspect.Metadata) else None
    return str((said or {}).get("description", ""))


def part_in(form: inspect.Type) -> type[Part] | None:
    """The part that a field holds, alone, in a list or by name."""
    match form:
        case inspect.StructType(cls=part) if issubclass(part, Part):
            return part
        case inspect.Metadata():
            return part_in(form.type)
        case inspect.ListType():
            return part_in(form.item_type)
        case inspect.DictType():
            return part_in(form.value_type)
    return None
