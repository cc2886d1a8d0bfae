"""The JSON Schema of a site file, made from the models: `python -m checker.site.schema` writes it again.

Editors complete and check a site file by it, and it decides whether a file can be read. It is written with if and then
where a field may take several shapes, so that what refuses a file is the branch that was meant.
"""

import json
import re
from pathlib import Path
from typing import Any

from checker.site.fields import EVIDENCE_FIELDS, REASON, Scalar, Schema
from checker.site.gate import FILE
from checker.site.model import Site
from checker.site.parts import NONE, Anything, FieldOf, Group, Many, Part, Plain, Texts, fields_of

_ID = "https://dyno-facility-checker.example/site.schema.json"
_DRAFT = "https://json-schema.org/draft/2020-12/schema"

Definitions = dict[str, Schema]


def site_schema() -> Schema:
    """The schema, made afresh from the models."""
    definitions: Definitions = {"not-reached": _not_reached(), "evidence": _evidence()}
    site = _part(Site, definitions)
    return {"$schema": _DRAFT, "$id": _ID, **site, "$defs": dict(sorted(definitions.items()))}


def as_text(schema: Schema) -> str:
    """The schema as it is kept in the file."""
    return json.dumps(schema, indent=1, ensure_ascii=False) + "\n"


def _part(model: type[Part], definitions: Definitions) -> Schema:
    fields = fields_of(model)
    needed = [field.name for field in fields.values() if field.required]
    return {
        "title": _name_of(model).replace("-", " ").capitalize(),
        "description": " ".join((model.__doc__ or "").split()),
        "type": "object",
        "properties": {field.name: _field(field, definitions) for field in fields.values()},
        "additionalProperties": False,
        **({"required": needed} if needed else {}),
    }


def _name_of(model: type[Part]) -> str:
    return re.sub("(?<!^)(?=[A-Z])", "-", model.__name__).lower()


def _field(field: FieldOf, definitions: Definitions) -> Schema:
    shape = _shape(field, definitions)
    examples = {"examples": list(field.examples)} if field.examples else {}
    needed = {"not": {"type": "null"}} if field.required and isinstance(field.marker, Scalar) else {}
    return {**shape, **needed, "description": field.description, **examples}


def _shape(field: FieldOf, definitions: Definitions) -> Schema:
    marker = field.marker
    match marker:
        case Scalar():
            return _shared(marker.name, _recorded(marker), definitions)
        case Plain():
            return marker.field.schema() if field.required else _or_null(marker.field.schema())
        case Texts():
            return {"type": ["array", "null"], "items": REASON.schema()}
        case Group():
            assert field.part is not None
            return _group(_shared(_name_of(field.part), _part(field.part, definitions), definitions), field.part)
        case Many():
            assert field.part is not None
            return _list(_shared(_name_of(field.part), _part(field.part, definitions), definitions))
        case Anything():
            return {"not": {"type": ["null", "object"]}}


def _shared(name: str | None, schema: Schema, definitions: Definitions) -> Schema:
    if name is None:
        return schema
    assert definitions.setdefault(name, schema) == schema, f"two definitions called {name}"
    return {"$ref": f"#/$defs/{name}"}


def _recorded(field: Scalar) -> Schema:
    """A bare value, an evidence object, why it was not reached, or nothing."""
    bare = field.schema()
    about: Schema = {key: bare[key] for key in ("title", "description", "examples") if key in bare}
    value: Schema = {key: bare[key] for key in bare if key not in about}
    held: Schema = {
        "value": bare,
        "plus_minus": _or_null(field.uncertainty.schema()) if field.uncertainty else {"not": {}},
    }
    return {
        **about,
        "if": {"type": "object"},
        "then": {
            "if": {"required": ["not_reached"]},
            "then": {"$ref": "#/$defs/not-reached"},
            "else": {"$ref": "#/$defs/evidence", "properties": held},
        },
        "else": _or_null(value),
    }


def _group(part: Schema, model: type[Part]) -> Schema:
    """The part, why it was not reached, that there is none, or nothing."""
    reached: Schema = {"if": {"required": ["not_reached"]}, "then": {"$ref": "#/$defs/not-reached"}, "else": part}
    return {
        "if": {"type": "object"},
        "then": part if "not_reached" in model.declared else reached,
        "else": {"enum": [*NONE, [], None]},
    }


def _list(member: Schema) -> Schema:
    """The members, that there are none, why they were not reached, or nothing."""
    unreached = {"type": "object", "required": ["not_reached"]}
    others: Schema = {"if": unreached, "then": {"$ref": "#/$defs/not-reached"}, "else": {"enum": [*NONE, None]}}
    return {"if": {"type": "array"}, "then": {"items": member}, "else": others}


def _or_null(schema: Schema) -> Schema:
    if "enum" in schema:
        return {**schema, "enum": [*schema["enum"], None]}
    return {**schema, "type": [schema["type"], "null"]}


def _not_reached() -> Schema:
    return {
        "title": "Not reached",
        "description": "Looked for, and could not be reached: say why.",
        "type": "object",
        "properties": {"not_reached": {**REASON.schema(), "examples": ["vehicle parked on it"]}},
        "additionalProperties": False,
        "required": ["not_reached"],
    }


def _evidence() -> Schema:
    fields: dict[str, Any] = {name: _or_null(field.schema()) for name, field in EVIDENCE_FIELDS.items()}
    return {
        "title": "Value with its evidence",
        "description": "A value, and what it rests on: the weakest evidence is assumed, the strongest tested.",
        "type": "object",
        "properties": {"value": True, "plus_minus": True, **fields},
        "additionalProperties": False,
        "required": ["value"],
    }


if __name__ == "__main__":
    Path(__file__).with_name(FILE).write_text(as_text(site_schema()), encoding="utf-8", newline="\n")
