"""A result as JSON, and the schema of that JSON."""

from functools import cache
from typing import Any

from pydantic import TypeAdapter

from checker.findings.result import Result


@cache
def _adapter() -> TypeAdapter[Result]:
    return TypeAdapter(Result)


def result_json(result: Result, indent: int | None = None) -> str:
    """The result as JSON, keys in the order of its parts: the same result gives the same text."""
    return _adapter().dump_json(result, by_alias=True, indent=indent).decode()


def result_schema() -> dict[str, Any]:
    """The JSON Schema of a result as it is written."""
    return _adapter().json_schema(mode="serialization", by_alias=True)
