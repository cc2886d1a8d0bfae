"""The JSON Schema of ruleset files, so that an editor completes and explains what they may hold."""

from typing import Any

from pydantic import TypeAdapter

from checker.rules.files import LayerFile, SourcesFile, TopicFile

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def ruleset_schema() -> dict[str, Any]:
    """The schema of a topic file, a layer.yaml or the bibliography, whichever the keys show it to be."""
    adapter: TypeAdapter[TopicFile | LayerFile | SourcesFile] = TypeAdapter(TopicFile | LayerFile | SourcesFile)
    return {"$schema": DIALECT, "title": "A ruleset file", **adapter.json_schema()}
