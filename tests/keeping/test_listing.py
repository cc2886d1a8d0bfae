"""Rules by who asks them: every option narrows, and all of them speak of one provision."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from checker import shipped
from checker.keeping.listing import Wanted, listed
from checker.report.reference import rules_list
from checker.rules import Rulebook, read_rulesets
from tests.findings.workshop import asks, rule, rulebook

A, B, C = "shop.a", "shop.b", "shop.c"


@pytest.fixture
def held(tmp_path: Path) -> Rulebook:
    """Two rules that are asked, by two layers, and one that nobody asks."""
    rules = [rule("b", "room", "room.engines_run", severity="minor")]
    rules += [rule(name, "circuit", "circuit.dedicated") for name in "ac"]
    from_memory: dict[str, Any] = {"ref": "fire-code", "status": "memory"}
    provisions: Mapping[str, list[Any]] = {
        "common": [asks("a"), asks("b", "standard", "norm")],
        "us": [asks("a", "fire code", from_memory), asks("a", "workplace law", "act"), asks("b")],
    }
    return rulebook(tmp_path, rules, provisions)


@pytest.mark.parametrize(
    "wanted, found",
    [
        ({}, {A: 3, B: 2, C: 0}),
        ({"topic": "shop"}, {A: 3, B: 2, C: 0}),
        ({"topic": "fire"}, {}),
        ({"severity": "major"}, {A: 3, C: 0}),
        ({"layer": "us"}, {A: 2, B: 1}),
        ({"layer": "common"}, {A: 1, B: 1}),
        ({"authority": "good practice"}, {A: 1, B: 1}),
        ({"status": "common practice"}, {A: 1, B: 1}),
        ({"status": "memory"}, {A: 1}),
        ({"source": "norm"}, {B: 1}),
        ({"source": "act", "status": "memory"}, {}),
        ({"source": "fire-code", "status": "memory"}, {A: 1}),
        ({"layer": "us", "authority": "good practice"}, {B: 1}),
        ({"layer": "us", "severity": "minor", "topic": "shop"}, {B: 1}),
        ({"layer": "common", "status": "memory"}, {}),
    ],
)
def test_what_is_wanted(wanted: dict[str, str], found: dict[str, int], held: Rulebook) -> None:
    assert {each.rule.id: len(each.asked) for each in listed(held, Wanted(**wanted))} == found


def test_a_list_is_a_line_a_rule_with_its_severity_and_who_asks_it(held: Rulebook) -> None:
    assert (
        rules_list(listed(held, Wanted()))
        == """\
shop
----
shop.a: major; good practice (common); fire code, workplace law (us)
   Something is asked
shop.b: minor; standard (common); good practice (us)
   Something is asked
shop.c: major; nobody asks it
   Something is asked
"""
    )
    assert rules_list(()) == "No rule is like that.\n"


def test_the_rules_that_come_along_stand_by_topic_and_fit_the_page() -> None:
    book = read_rulesets(shipped.rulesets())
    rules = [each.rule for each in listed(book, Wanted())]
    assert rules == sorted(book.rules.values(), key=lambda rule: (rule.topic, rule.id))
    assert max(map(len, rules_list(listed(book, Wanted())).splitlines())) <= 80
