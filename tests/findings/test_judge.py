"""One rule on one thing: outcome, why it is unknown, what would settle it, and what happens when a rule breaks."""

from pathlib import Path
from typing import Any

import pytest

from checker.findings.exit_code import exit_code
from checker.rules import Rulebook
from tests.findings.workshop import asks, judged, judgement, only, rule, rulebook


def held(
    folder: Path, require: str, each: str = "circuit", limit: dict[str, str] | None = None, **more: Any
) -> Rulebook:
    """One rule, asked for by good practice."""
    kinds = {name: kind for name, kind in {"most": "current", "share": "ratio"}.items() if name in (limit or {})}
    return rulebook(folder, [rule("r", each, require, limit=kinds, **more)], [asks("r", limit=limit or {})])


CONDITION = "circuit.dedicated"


@pytest.mark.parametrize(
    "recorded, outcome, needs",
    [
        ({"circuit.dedicated": False}, "not applicable", []),
        ({"circuit.dedicated": False, "circuit.breaker": "99 A"}, "not applicable", []),
        ({}, "undetermined", ["circuit.dedicated"]),
        ({"circuit.breaker": "10 A"}, "undetermined", ["circuit.dedicated"]),
        ({"circuit.breaker": "99 A"}, "undetermined", ["circuit.dedicated"]),
        ({"circuit.dedicated": True}, "undetermined", ["circuit.breaker"]),
        ({"circuit.dedicated": True, "circuit.breaker": "10 A"}, "met", []),
        ({"circuit.dedicated": True, "circuit.breaker": "99 A"}, "not met", []),
    ],
)
def test_a_condition_comes_first(recorded: dict[str, object], outcome: str, needs: list[str], tmp_path: Path) -> None:
    rules = held(tmp_path, "circuit.breaker <= limit.most", limit={"most": "20 A"}, when=CONDITION)
    found = judgement(rules, {"limit.most": "20 A"} | recorded)
    assert (found.outcome, [need.path for need in found.needs]) == (outcome, needs)
    assert found.because == ("not recorded" if needs else None)
    assert found.parts == () or outcome in ("met", "not met") or "circuit.dedicated" in recorded


def test_a_limit_that_no_case_gives_is_a_gap_and_no_fault(tmp_path: Path) -> None:
    rules = held(tmp_path, "circuit.breaker <= limit.most", limit={"most": "20 A"})
    found = judgement(rules, {"circuit.breaker": "16 A"})
    assert (found.outcome, [need.path for need in found.needs]) == ("undetermined", ["limit.most"])


def test_every_gap_is_named_once(tmp_path: Path) -> None:
    rules = held(tmp_path, "circuit.breaker >= circuit.other_load and circuit.breaker >= circuit.continuous_load")
    found = judgement(rules, {})
    assert [need.path for need in found.needs] == ["circuit.breaker", "circuit.other_load", "circuit.continuous_load"]


SITE = """
    supplies: [{id: mains}]
    circuits: [{id: c1, supply: mains, continuous_load: 0 A, breaker: 16 A, dedicated: yes}]
    dynos: [{id: d1, capture: none}]
"""
DIVISION = "circuit.breaker / circuit.continuous_load <= limit.share"
UNGUARDED = "dyno.capture.discharges_outdoors"


@pytest.mark.parametrize(
    "each, require, limit, says",
    [
        ("circuit", DIVISION, {"share": "200 %"}, "DivisionByZero"),
        ("circuit", f"circuit.dedicated and {DIVISION}", {"share": "200 %"}, "DivisionByZero"),
        ("circuit", f"not {DIVISION}", {"share": "200 %"}, "DivisionByZero"),
        ("dyno", UNGUARDED, None, "Broken: dynos[d1].capture was recorded as none"),
        ("dyno", f"not {UNGUARDED}", None, "Broken: dynos[d1].capture was recorded as none"),
    ],
)
def test_a_rule_that_breaks_is_undetermined_and_counted_apart(
    each: str, require: str, limit: dict[str, str] | None, says: str, tmp_path: Path
) -> None:
    result = judged(held(tmp_path, require, each, limit), SITE)
    finding = only(result)
    assert (finding.outcome, finding.because, finding.needs) == ("undetermined", "rule broke", ())
    assert says in finding.fault
    assert (result.summary.undetermined, result.summary.broken, result.summary.met) == (1, 1, 0)
    assert exit_code([result], "critical") == 2


def test_a_rule_that_breaks_in_its_condition_is_not_passed_over(tmp_path: Path) -> None:
    result = judged(held(tmp_path, 'dyno.computer.network == "wired"', "dyno", when=UNGUARDED), SITE)
    assert only(result).because == "rule broke"


def test_a_rule_that_breaks_silences_no_other(tmp_path: Path) -> None:
    both = [rule("breaks", "dyno", UNGUARDED), rule("holds", "circuit", "circuit.dedicated")]
    result = judged(rulebook(tmp_path, both, [asks("breaks"), asks("holds")]), SITE)
    assert {finding.rule: finding.outcome for finding in result.findings} == {
        "shop.breaks": "undetermined",
        "shop.holds": "met",
    }


@pytest.mark.parametrize(
    "require, outcome",
    [
        (f"dyno.has_capture and {UNGUARDED}", "not met"),
        (f"not dyno.has_capture or {UNGUARDED}", "met"),
    ],
)
def test_a_guard_keeps_a_rule_whole(require: str, outcome: str, tmp_path: Path) -> None:
    finding = only(judged(held(tmp_path, require, "dyno"), SITE))
    assert (finding.outcome, finding.fault) == (outcome, "")


def test_without_an_answer_to_the_guard_the_group_is_needed(tmp_path: Path) -> None:
    finding = only(judged(held(tmp_path, f"dyno.has_capture and {UNGUARDED}", "dyno"), "dynos: [{id: d1}]"))
    assert (finding.outcome, finding.because) == ("undetermined", "not recorded")
    assert "dynos[d1].capture" in [need.path for need in finding.needs]


def test_what_was_not_reached_is_said_with_its_reason(tmp_path: Path) -> None:
    site = "dynos: [{id: d1, capture: {discharges_outdoors: {not_reached: the roof was wet}}}]"
    finding = only(judged(held(tmp_path, f"dyno.has_capture and {UNGUARDED}", "dyno"), site))
    assert (finding.outcome, finding.because) == ("undetermined", "not reached")
    assert [(need.path, need.why) for need in finding.needs] == [
        ("dynos[d1].capture.discharges_outdoors", "the roof was wet")
    ]


def test_a_table_without_a_row_is_outside_its_range(tmp_path: Path) -> None:
    shape = {"depth": {"keys": {"voltage": "voltage"}, "columns": {"least": "length"}}}
    rows = [{"voltage": {"from": "0 V", "to": "150 V"}, "least": "0.9 m"}]
    table = {"id": "depths", "keys": {"voltage": "voltage"}, "columns": {"least": "length"}, "rows": rows}
    require = "panel.clear_depth >= table.depth.least(panel.voltage_to_ground)"
    rules = rulebook(
        tmp_path, [rule("r", "panel", require, table=shape)], [asks("r", table={"depth": "depths"})], [table]
    )
    site = """
        panels:
          - {id: p1, clear_depth: 1 m, voltage_to_ground: 277 V}
          - {id: p2, clear_depth: 1 m, voltage_to_ground: 150 V}
    """
    unknown, met = sorted(judged(rules, site).findings, key=lambda finding: finding.subject.id)
    assert (unknown.outcome, unknown.because) == ("undetermined", "outside range")
    assert (met.outcome, str(met.limit.value if met.limit else None)) == ("met", "0.9")
