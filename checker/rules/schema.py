"""The JSON Schema of ruleset files, so that an editor completes and explains what they may hold."""

from typing import Any

from pydantic import TypeAdapter

from checker.quantities import kinds as kinds_of_things
from checker.rules.files import LayerFile, SourcesFile, TopicFile
from checker.units import KINDS

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def ruleset_schema() -> dict[str, Any]:
    """The schema of a topic file, a layer.yaml or the bibliography, whichever the keys show it to be."""
    adapter: TypeAdapter[TopicFile | LayerFile | SourcesFile] = TypeAdapter(TopicFile | LayerFile | SourcesFile)
    made = adapter.json_schema(ref_template="#/$defs/{model}")
    parts = made["$defs"]
    parts["RulePart"]["properties"]["each"]["enum"] = [kind for kind in kinds_of_things() if "." not in kind]
    for part, field, words in (
        ("RulePart", "limit", []),
        ("TableShapePart", "keys", ["word"]),
        ("TableShapePart", "columns", []),
        ("TablePart", "keys", ["word"]),
        ("TablePart", "columns", []),
    ):
        for named in parts[part]["properties"][field]["patternProperties"].values():
            named["enum"] = [*words, *KINDS]
    return {"$schema": DIALECT, "title": "A ruleset file", **made}
