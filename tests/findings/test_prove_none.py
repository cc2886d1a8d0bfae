"""A rule that asks of something that may be none, without asking first whether there is one, is found when proved."""

from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from checker import shipped
from checker.cli import main
from checker.findings.prove import prove
from checker.findings.prove_none import Unguarded
from checker.rules import read_rulesets
from tests.findings.workshop import asks, rule, rulebook


def found(folder: Path, require: str, each: str = "dyno", **more: Any) -> tuple[Unguarded, ...]:
    return prove(rulebook(folder, [rule("r", each, require, **more)], [])).unguarded


@pytest.mark.parametrize(
    "require",
    [
        "dyno.has_capture",
        "dyno.has_capture and dyno.capture.discharges_outdoors",
        "not dyno.has_capture or dyno.capture.discharges_outdoors",
        "all([d.has_capture and d.capture.discharges_outdoors for d in site.dynos])",
        "all([d.capture.discharges_outdoors for d in site.dynos if d.has_capture])",
        'dyno.name == "x"',
    ],
)
def test_a_rule_with_its_guard_is_proved(require: str, tmp_path: Path) -> None:
    assert found(tmp_path, require) == ()


def test_a_guard_may_stand_in_the_condition(tmp_path: Path) -> None:
    assert found(tmp_path, "dyno.capture.discharges_outdoors", when="dyno.has_capture") == ()


@pytest.mark.parametrize(
    "each, require, group, guard",
    [
        ("dyno", "dyno.capture.discharges_outdoors", "dyno.capture", "dyno.has_capture"),
        ("dyno", "dyno.capture.discharges_outdoors and dyno.has_capture", "dyno.capture", "dyno.has_capture"),
        ("dyno", "dyno.has_capture or dyno.capture.discharges_outdoors", "dyno.capture", "dyno.has_capture"),
        ("dyno", "dyno.has_plate and dyno.capture.discharges_outdoors", "dyno.capture", "dyno.has_capture"),
        ("circuit", "circuit.rcd.trips_at <= circuit.breaker", "circuit.rcd", "circuit.has_rcd"),
        ("circuit", "circuit.breaker + circuit.rcd.trips_at < circuit.breaker", "circuit.rcd", "circuit.has_rcd"),
        ("room", "any([d.capture.discharges_outdoors for d in room.dynos])", "d.capture", "d.has_capture"),
        ("room", "count([d for d in room.dynos if d.capture.discharges_outdoors]) > 0", "d.capture", "d.has_capture"),
        ("accessory", "accessory.dyno.capture.discharges_outdoors", "accessory.dyno.capture",
         "accessory.dyno.has_capture"),
    ],
)  # fmt: skip
def test_a_rule_that_lacks_its_guard_is_found(each: str, require: str, group: str, guard: str, tmp_path: Path) -> None:
    (lacking,) = found(tmp_path, require, each)
    assert (lacking.rule, lacking.group, lacking.guard) == ("shop.r", group, guard)
    assert (Path(lacking.location.file).name, lacking.why.split(":")[0]) == ("shop.yaml", "Broken")


def test_each_thing_that_may_be_none_is_named(tmp_path: Path) -> None:
    require = "dyno.has_plate and dyno.capture.discharges_outdoors and dyno.emergency_stop.latches"
    assert [each.group for each in found(tmp_path, require)] == ["dyno.capture", "dyno.emergency_stop"]


def test_a_condition_without_its_guard_is_found(tmp_path: Path) -> None:
    (lacking,) = found(tmp_path, 'dyno.name == "x"', when="dyno.capture.discharges_outdoors")
    assert lacking.group == "dyno.capture"


def test_a_guard_that_only_a_met_case_reaches_around_is_found(tmp_path: Path) -> None:
    """With nothing recorded the condition is unknown and nothing is asked; with what a met case gives it is."""
    cases = [
        {"given": {}, "outcome": "undetermined"},
        {"given": {"dyno.runs": "cars", "dyno.capture.discharges_outdoors": True}, "outcome": "met"},
    ]
    more: dict[str, Any] = {"when": 'dyno.runs == "cars"', "cases": cases}
    assert [each.group for each in found(tmp_path, "dyno.capture.discharges_outdoors", **more)] == ["dyno.capture"]
    assert found(tmp_path, "dyno.capture.discharges_outdoors", when='dyno.runs == "cars"') == ()


def test_the_command_names_rule_group_and_guard(tmp_path: Path) -> None:
    rulebook(tmp_path, [rule("r", "dyno", "dyno.capture.discharges_outdoors")], [asks("r")])
    done = CliRunner().invoke(main, ["rules", "prove", "--rulesets", str(tmp_path)])
    assert done.exit_code == 1
    assert done.stdout == "1 cases of 1 rules proved, 1 guards missing\n"
    assert done.stderr == (
        f"checker: {tmp_path.name}/common/shop.yaml:3:3: shop.r breaks where dyno.capture is none; "
        "ask dyno.has_capture first (Broken: dyno.capture is none)\n"
    )


def test_the_shipped_rules_ask_first() -> None:
    assert prove(read_rulesets(shipped.rulesets())).unguarded == ()
