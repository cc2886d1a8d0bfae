"""The JSON Schema of ruleset files, so that an editor completes and explains what they may hold."""

from typing import Any, Final, get_args

from msgspec.json import schema_components

from checker.quantities import kinds as kinds_of_things
from checker.rules.files import LayerFile, SourcesFile, TopicFile
from checker.units import KINDS
from checker.vocabulary import Authority, Evidence, Judges, Outcome, ReadIn, Severity, SourceKind, Status, Trade

CHOICES: Final = (Authority, Evidence, Judges, Outcome, ReadIn, Severity, SourceKind, Status, Trade)
_AS_OFFERED: Final = {frozenset(words): list(words) for words in map(get_args, CHOICES)}
DIALECT = "https://json-schema.org/draft/2020-12/schema"


def ruleset_schema() -> dict[str, Any]:
    """The schema of a topic file, a layer.yaml or the bibliography, whichever the keys show it to be."""
    files, parts = schema_components((TopicFile, LayerFile, SourcesFile), ref_template="#/$defs/{name}")
    _put_in_order(parts)
    was, source = parts["RulePart"]["properties"]["was"], parts["ProvisionPart"]["properties"]["source"]
    _allow(was, was["items"])
    _allow(source, {"const": "common practice"})
    parts["RulePart"]["properties"]["each"]["enum"] = [kind for kind in kinds_of_things() if "." not in kind]
    for part, field, words in (
        ("RulePart", "limit", []),
        ("TableShapePart", "keys", ["word"]),
        ("TableShapePart", "columns", []),
        ("TablePart", "keys", ["word"]),
        ("TablePart", "columns", []),
    ):
        parts[part]["properties"][field]["additionalProperties"]["enum"] = [*words, *KINDS]
    return {"$schema": DIALECT, "title": "A ruleset file", "anyOf": list(files), "$defs": parts}


def _allow(field: dict[str, Any], short: Any) -> None:
    """Let a field be written in short too."""
    field["anyOf"] = [short, {key: field.pop(key) for key in ("$ref", "type", "items") if key in field}]


def _put_in_order(shape: Any) -> None:
    """Bring the words of each choice, which msgspec sorts, into the order in which people are offered them."""
    for part in shape.values() if isinstance(shape, dict) else shape:
        if isinstance(part, dict) and "enum" in part:
            part["enum"] = _AS_OFFERED[frozenset(part["enum"])]
        if isinstance(part, (dict, list)):
            _put_in_order(part)
