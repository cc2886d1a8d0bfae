"""Cases of rules: one that comes out otherwise is found, and one that cannot be tried says why."""

from pathlib import Path
from typing import Any

import pytest

from checker import shipped
from checker.findings.prove import Failure, prove
from checker.rules import read_rulesets
from tests.findings.workshop import asks, rule, rulebook

WALK = "hazard.walk_to_extinguisher(hazard.fire_class, limit.rating) <= limit.walk"


def failures(
    folder: Path, given: dict[str, object], outcome: str, each: str = "circuit", **more: Any
) -> tuple[Failure, ...]:
    require = more.pop("require", "circuit.breaker <= limit.most")
    kinds = more.pop("limit", {"most": "current"})
    cases = [{"given": given, "outcome": outcome} | {key: more.pop(key) for key in ("as_of",) if key in more}]
    one = rule("r", each, require, limit=kinds, cases=cases, **more)
    return prove(rulebook(folder, [one], [])).failures


@pytest.mark.parametrize(
    "given, outcome",
    [
        ({"limit.most": "20 A", "circuit.breaker": "20 A"}, "met"),
        ({"limit.most": "20 A", "circuit.breaker": "21 A"}, "not met"),
        ({"limit.most": "20 A"}, "undetermined"),
        ({"circuit.breaker": "20 A"}, "undetermined"),
        ({}, "undetermined"),
    ],
)
def test_what_comes_out_as_it_says_is_proved(given: dict[str, object], outcome: str, tmp_path: Path) -> None:
    assert failures(tmp_path, given, outcome) == ()


@pytest.mark.parametrize(
    "given, outcome, got, why",
    [
        ({"limit.most": "20 A", "circuit.breaker": "21 A"}, "met", "not met", ""),
        ({"limit.most": "20 A", "circuit.breaker": "20 A"}, "not met", "met", ""),
        ({"limit.most": "20 A", "circuit.breaker": "20 A"}, "not applicable", "met", ""),
        ({"limit.most": "20 A"}, "met", "undetermined", "circuit.breaker: not recorded"),
        ({}, "met", "undetermined", "circuit.breaker: not recorded; limit.most: not recorded"),
    ],
)
def test_a_case_that_comes_out_otherwise_is_found(
    given: dict[str, object], outcome: str, got: str, why: str, tmp_path: Path
) -> None:
    (failure,) = failures(tmp_path, given, outcome)
    assert (failure.rule, failure.case_number, failure.expected) == ("shop.r", 1, outcome)
    assert (failure.got, failure.why) == (got, why)
    assert failure.location.file.endswith("shop.yaml")
    assert failure.location.line > 1


@pytest.mark.parametrize(
    "given, why",
    [
        ({"circuit.braker": "20 A"}, "circuit.braker: a circuit has no braker"),
        ({"limit.least": "20 A"}, "limit.least is no limit, table or field that shop.r could read"),
        ({"fan.flow": "1 m3/s"}, "fan.flow is no limit, table or field that shop.r could read"),
        ({"breaker": "20 A"}, "breaker is no limit, table or field that shop.r could read"),
        ({"table.depth.least": "1 m"}, "table.depth.least is no limit, table or field that shop.r could read"),
        ({"circuit.breaker": "20 V"}, "circuit.breaker: "),
        ({"circuit.breaker": 20}, "circuit.breaker: "),
        ({"circuit.breaker": True}, "circuit.breaker: "),
        ({"limit.most": "3 ft"}, "limit.most: "),
        ({"circuit.dedicated": "perhaps"}, "circuit.dedicated: 'perhaps' is no answer"),
        ({"circuit.connection": "clamped"}, "circuit.connection: 'clamped' is not one of hard-wired, socket"),
        ({"circuit.connection": 3}, "circuit.connection: 3 is no word"),
        ({"circuit.rcd": "present"}, "circuit.rcd: only `none` can be given for the whole of rcd"),
        ({"circuit.breaker.size": "1 A"}, "circuit.breaker.size: breaker has no parts"),
        ({"site.fans": "many"}, "site.fans: a list or `none` is wanted"),
        ({"site.fans": ["a"]}, "site.fans: each member gives its fields"),
        ({"site.fans": [{"flaw": "1 m3/s"}]}, "site.fans[0].flaw: a fan has no flaw"),
        ({"site.built_on": "2026-02-30"}, "site.built_on: 2026-02-30 is no day"),
    ],
)
def test_a_case_that_gives_what_its_rule_cannot_read_says_why(
    given: dict[str, object], why: str, tmp_path: Path
) -> None:
    (failure,) = failures(tmp_path, given, "undetermined")
    assert failure.got == "a case that cannot be tried"
    assert failure.why.startswith(why)
    assert len(failure.why) > len("circuit.breaker: ")


@pytest.mark.parametrize("outcome", ["met", "not met", "undetermined"])
def test_a_rule_that_breaks_proves_nothing(outcome: str, tmp_path: Path) -> None:
    given: dict[str, object] = {"circuit.breaker": "16 A", "circuit.continuous_load": "0 A", "limit.share": "2"}
    require = "circuit.breaker / circuit.continuous_load <= limit.share"
    (failure,) = failures(tmp_path, given, outcome, require=require, limit={"share": "ratio"})
    assert (failure.got, "DivisionByZero" in failure.why) == ("undetermined", True)


@pytest.mark.parametrize(
    "given, outcome",
    [
        ({"dyno.capture": "none"}, "not met"),
        ({"dyno.capture.discharges_outdoors": True}, "met"),
        ({"dyno.capture.discharges_outdoors": False}, "not met"),
        ({"dyno.capture.flow": "1 m3/s"}, "undetermined"),
        ({}, "undetermined"),
    ],
)
def test_a_name_below_a_group_makes_it_present(given: dict[str, object], outcome: str, tmp_path: Path) -> None:
    require = "dyno.has_capture and dyno.capture.discharges_outdoors"
    assert failures(tmp_path, given, outcome, "dyno", require=require, limit={}) == ()


@pytest.mark.parametrize(
    "given, outcome",
    [
        ({"hazard.fire_class": "B", "hazard.walk_to_extinguisher": "9 m"}, "met"),
        ({"hazard.fire_class": "B", "hazard.walk_to_extinguisher": "11 m"}, "not met"),
        ({"hazard.fire_class": "B"}, "undetermined"),
    ],
)
def test_a_function_is_given_as_its_value(given: dict[str, object], outcome: str, tmp_path: Path) -> None:
    limits = {"limit.walk": "10 m", "limit.rating": 1}
    kinds = {"walk": "length", "rating": "number"}
    assert failures(tmp_path, limits | given, outcome, "hazard", require=WALK, limit=kinds) == ()


@pytest.mark.parametrize(
    "fans, outcome",
    [
        ("none", "met"),
        ([], "met"),
        ([{"outdoors": True}, {"outdoors": True}], "met"),
        ([{"outdoors": True}, {"outdoors": False}], "not met"),
        ([{"outdoors": True}, {}], "undetermined"),
    ],
)
def test_lists_are_given_member_by_member(fans: object, outcome: str, tmp_path: Path) -> None:
    require = "all([fan.outdoors for fan in room.fans])"
    assert failures(tmp_path, {"room.fans": fans}, outcome, "room", require=require, limit={}) == ()


@pytest.mark.parametrize("as_of, outcome", [("2026-11-25", "met"), ("2026-11-26", "not met"), (None, "met")])
def test_a_case_has_its_day(as_of: str | None, outcome: str, tmp_path: Path) -> None:
    require = "due(extinguisher.serviced_on, 12 months) >= as_of"
    day = {} if as_of is None else {"as_of": as_of}
    given: dict[str, object] = {"extinguisher.serviced_on": "2025-11-25"}
    assert failures(tmp_path, given, outcome, "extinguisher", require=require, limit={}, **day) == ()


def test_every_case_of_every_rule_is_tried(tmp_path: Path) -> None:
    wrong = {"given": {"circuit.dedicated": True}, "outcome": "not met"}
    right = {"given": {"circuit.dedicated": True}, "outcome": "met"}
    rules = [rule(id, "circuit", "circuit.dedicated", cases=[right, wrong, right, wrong]) for id in ("b", "a")]
    proof = prove(rulebook(tmp_path, rules, [asks("a")]))
    assert (proof.cases, proof.rules) == (8, 2)
    assert [(failure.rule, failure.case_number) for failure in proof.failures] == [
        ("shop.a", 2), ("shop.a", 4), ("shop.b", 2), ("shop.b", 4),
    ]  # fmt: skip


def test_the_rulesets_that_come_along_are_proved() -> None:
    """Each rule shows that it can be met, can fail, and is unknown without records; and passes by where it has a
    condition.
    """
    held = read_rulesets(shipped.rulesets())
    assert prove(held).failures == ()
    for one in held.rules.values():
        shown = {case.outcome for case in one.cases}
        wanted = {"met", "not met", "undetermined"} | ({"not applicable"} if one.when else set())
        assert wanted <= shown, one.id
