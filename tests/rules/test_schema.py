"""The schema that an editor reads allows what the reader allows, explains every field, and names every choice."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args

import pytest
from jsonschema import Draft202012Validator

from checker import shipped
from checker.findings.cases import DEFAULT_DAY
from checker.quantities import kinds
from checker.reading import read_file
from checker.rules.schema import CHOICES, ruleset_schema
from checker.units import KINDS

SCHEMA = ruleset_schema()
PARTS = SCHEMA["$defs"]
FILES = sorted(shipped.rulesets().rglob("*.yaml"))


@pytest.mark.parametrize("file", FILES, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_a_file_that_is_read_is_right_in_an_editor(file: Path) -> None:
    assert [error.message for error in Draft202012Validator(SCHEMA).iter_errors(read_file(file).data)] == []


RULE = {
    "id": "fire.walk", "title": "t", "reason": "r", "each": "hazard", "require": "x", "limit": {"walk": "length"},
    "severity": "major", "acts": "shop", "closes_with": "p", "cases": [{"given": {}, "outcome": "met"}],
}  # fmt: skip
PROVISION = {"rule": "fire.walk", "authority": "house", "limit": {"walk": "5 m"}, "source": "common practice"}


@pytest.mark.parametrize(
    "part, change, right",
    [
        (RULE, {}, True),
        (RULE, {"each": "hazzard"}, False),
        (RULE, {"limit": {"walk": "distance"}}, False),
        (RULE, {"severity": "bad"}, False),
        (RULE, {"sevrity": "major"}, False),
        (RULE, {"cases": []}, False),
        (PROVISION, {}, True),
        (PROVISION, {"source": {"ref": "act-1", "clause": "2", "status": "verified"}}, True),
        (PROVISION, {"source": "hearsay"}, False),
        (PROVISION, {"source": {"ref": "act-1", "status": "sure"}}, False),
        (PROVISION, {"from": "2026-1-1"}, False),
    ],
)
def test_an_editor_marks_what_is_refused(part: dict[str, Any], change: dict[str, Any], right: bool) -> None:
    file = {"rules" if part is RULE else "provisions": [{**part, **change}]}
    assert Draft202012Validator(SCHEMA).is_valid(file) is right


def fields(part: object) -> Iterator[tuple[str, Any]]:
    if isinstance(part, dict):
        yield from part.get("properties", {}).items()
        for each in part.values():
            yield from fields(each)


def test_every_field_is_explained() -> None:
    explained = {name: shape.get("description") for name, shape in fields(SCHEMA)}
    assert len(explained) > 40
    assert [name for name, words in explained.items() if not words] == []


def test_the_kinds_of_things_and_of_limits_can_be_chosen() -> None:
    rule = PARTS["RulePart"]["properties"]
    assert rule["each"]["enum"] == [kind for kind in kinds() if "." not in kind]
    assert rule["limit"]["additionalProperties"]["enum"] == [*KINDS]
    for part in ("TablePart", "TableShapePart"):
        assert PARTS[part]["properties"]["keys"]["additionalProperties"]["enum"] == ["word", *KINDS]


def choices(part: object) -> Iterator[list[str]]:
    if isinstance(part, dict):
        if "enum" in part:
            yield part["enum"]
        for each in part.values():
            yield from choices(each)
    if isinstance(part, list):
        for each in part:
            yield from choices(each)


def test_words_are_offered_in_the_order_they_are_meant_in() -> None:
    """What an editor shows begins with the worst that can come of it, and with the weakest evidence."""
    offered = list(choices(SCHEMA))
    for choice in CHOICES:
        assert list(get_args(choice)) in offered
    assert ["critical", "major", "minor", "observation"] in offered


@pytest.mark.parametrize("part, field", [(RULE, "limit"), (PROVISION, "limit")])
def test_an_editor_marks_a_name_that_is_none(part: dict[str, Any], field: str) -> None:
    file = {"rules" if part is RULE else "provisions": [{**part, field: {"Walk": part[field]["walk"]}}]}
    assert not Draft202012Validator(SCHEMA).is_valid(file)


def test_the_day_of_a_case_is_the_one_it_says() -> None:
    assert f"else {DEFAULT_DAY}" in PARTS["CasePart"]["properties"]["as_of"]["description"]
