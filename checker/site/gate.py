"""Whether a tree may be a site file at all, by the schema that comes with the program."""

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from msgspec.json import decode

if TYPE_CHECKING:
    import jsonschema_rs

FILE = "site.schema.json"


@cache
def shipped_schema() -> dict[str, Any]:
    """The schema from the file that comes with the program."""
    schema: dict[str, Any] = decode(Path(__file__).with_name(FILE).read_bytes())
    return schema


def lets_pass(data: object) -> bool:
    """Whether the schema allows the tree. Says nothing of why: that is for checker.site.wording."""
    return _validator().is_valid(data)


@cache
def _validator() -> "jsonschema_rs.Draft202012Validator":
    import jsonschema_rs

    return jsonschema_rs.Draft202012Validator(shipped_schema(), validate_formats=True)
