"""A template says what belongs in each place, and proves once its marked places are filled."""

import re
from pathlib import Path

import pytest
import yaml

from checker.findings.prove import prove
from checker.keeping.lint import lint
from checker.keeping.names import condition_for, names_of
from checker.keeping.template import WIDTH, is_layer_name, is_rule_id, region_template, rule_template
from checker.keeping.unused import table_places
from checker.quantities import kinds
from checker.quantities.registry import REGISTERED
from checker.quantities.shapes import shapes
from checker.reading import Unreadable
from checker.rules import Rulebook, read_rulesets
from checker.rules.files import MARK, RulePart
from checker.rules.model import Layer
from checker.rules.parse import parse
from checker.rules.types import Scope, check
from tests.rules.shelf import RIGHT, write

FILLED = {
    "TITLE": "A person can stand upright beside the machine",
    "REASON": "Whoever stoops beside a vehicle on rollers cannot step aside.",
    "NAME": "height",
    "KIND": "length",
    "SEVERITY": "minor",
    "TRADE": "landlord",
    "PROOF": "photo with a tape from the floor to the lowest thing",
    "ADVICE": "Move what hangs low.",
    "AUTHORITY": "workplace law",
    "REF": "act-1",
    "CLAUSE": "1031.10",
    "STATUS": "verified",
    "AT": "2 m",
    "MORE": "2.01 m",
    "LESS": "1.99 m",
}


def filled(template: str, **other: str) -> str:
    return re.sub(f"{MARK}([A-Z]+)", lambda mark: {**FILLED, **other}[mark[1]], template)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write(tmp_path / "rulesets", RIGHT)


@pytest.fixture
def us(folder: Path) -> Layer:
    return read_rulesets(folder).layers["us"]


def with_rule(folder: Path, text: str) -> Rulebook:
    write(folder, {"us/clearances.yaml": text})
    return read_rulesets(folder)


def test_a_filled_rule_proves_and_is_in_force(folder: Path, us: Layer) -> None:
    book = with_rule(folder, filled(rule_template("clearances.headroom", us, "room")))
    rule = book.rules["clearances.headroom"]
    proof = prove(Rulebook(book.layers, {rule.id: rule}, ()))
    assert (proof.cases, proof.failures, proof.unguarded) == (4, (), ())
    (provision,) = (one for one in book.all_provisions if one.rule == rule.id)
    assert (provision.limit["least"].written, provision.source.clause) == ("2 m", "1031.10")
    assert [flaw for flaw in lint(book, table_places(folder)) if flaw.about == rule.id] == []


@pytest.mark.parametrize("wrong", ["MORE", "LESS"])
def test_the_cases_of_a_template_catch_a_value_on_the_wrong_side(folder: Path, us: Layer, wrong: str) -> None:
    other = {"MORE": "1.99 m", "LESS": "2.01 m"}[wrong]
    book = with_rule(folder, filled(rule_template("clearances.headroom", us, "room"), **{wrong: other}))
    failed = [failure for failure in prove(book).failures if failure.rule == "clearances.headroom"]
    assert len(failed) == 1


def test_a_template_as_it_comes_is_refused_at_each_marked_place_and_nowhere_else(folder: Path, us: Layer) -> None:
    template = rule_template("clearances.headroom", us, None)
    with pytest.raises(Unreadable) as refused:
        with_rule(folder, template)
    assert {each.says for each in refused.value.problems} == {"this is still to be filled in"}
    written = template.splitlines()
    marked = [number for number, line in enumerate(written, 1) if MARK in line and line.strip()[0] != "#"]
    lines = [number - written[number - 2].endswith("|") for number in marked]  # a block of text stands at its |
    assert sorted({each.line for each in refused.value.problems}) == lines
    assert all(each.wanted not in ("", "it") for each in refused.value.problems)


def test_a_layer_with_one_authority_has_nothing_to_choose(folder: Path) -> None:
    house = write(folder, {"house/layer.yaml": 'name: house\ntitle: H\nversion: "1.0"\nauthorities: [house]\n'})
    template = rule_template("fire.sand", read_rulesets(house).layers["house"], "hazard")
    assert yaml.safe_load(template)["provisions"][0]["authority"] == "house"


def test_every_field_of_a_rule_is_named_in_the_template_but_the_two_that_are_rare(us: Layer) -> None:
    template = rule_template("fire.sand", us, "hazard")
    named = {
        name for name in RulePart.__struct_fields__ if re.search(rf"^(    |  - )(# )?{name}:", template, re.MULTILINE)
    }
    assert set(RulePart.__struct_fields__) - named == {"was", "table"}


@pytest.mark.parametrize("each", [None, *(kind for kind in kinds() if "." not in kind)])
def test_a_template_fits_a_screen(us: Layer, each: str | None) -> None:
    assert max(map(len, rule_template("fire.a-name-that-is-not-short", us, each).splitlines())) <= WIDTH


def test_what_a_rule_can_read_of_a_thing_is_listed_with_its_kind() -> None:
    listed = dict(names_of("dyno"))
    assert "highest_power (power)" in listed["numbers, with their kind"]
    assert "plate.voltage (voltage)" in listed["numbers, with their kind"]
    assert "has_plate" in listed["yes or no"]
    assert "runs (cars, cars and motorcycles, motorcycles)" in listed["words"]
    assert "accessories (accessory)" in next(names for what, names in listed.items() if what.startswith("lists"))
    assert all(names for _, names in names_of("site"))


def test_what_is_computed_stands_apart_from_what_a_site_records() -> None:
    listed = dict(names_of("room"))
    assert "air_changes (air_changes)" in listed["computed numbers, with their kind"]
    assert "height (length)" in listed["numbers, with their kind"]
    given = {name.partition(" (")[0] for what, names in listed.items() if "omputed" not in what for name in names}
    assert {name for name in given if f"room.{name}" in REGISTERED and name not in shapes()["room"].fields} == set()


def test_the_names_of_what_a_thing_belongs_to_are_listed_too(us: Layer) -> None:
    template = rule_template("egress.open", us, "door")
    own, _, of_room = template.partition("# and of its room, each name after door.room and a dot:")
    assert "# - yes or no: locked" in own.rpartition("# What a rule can read of a door")[2]
    assert "# - yes or no: engines_run," in of_room


@pytest.mark.parametrize("each", [kind for kind in kinds() if "." not in kind])
def test_the_condition_that_a_template_shows_is_one_that_can_be_read(each: str) -> None:
    condition = condition_for(each)
    if condition is not None:
        check(parse(condition.written), condition.written, Scope(each, {}, {}, kinds()))
        assert condition.written.startswith(condition.name)
        assert condition.holds != condition.fails
    held = {attribute.type for name, attribute in kinds()[each].items() if not name.startswith("has_")}
    assert (condition is None) <= ("answer" not in held and "room" not in kinds()[each])


@pytest.mark.parametrize(
    "each, name, kind, at, more, less",
    [
        ("door", "height", "length", "2 m", "2.01 m", "1.99 m"),
        ("circuit", "breaker", "current", "20 A", "21 A", "19 A"),
        ("accessory", "pressure", "pressure_gauge", "7 bar", "7.1 bar", "6.9 bar"),
    ],
)
def test_with_the_condition_that_a_template_shows_a_rule_proves(
    each: str, name: str, kind: str, at: str, more: str, less: str, folder: Path, us: Layer
) -> None:
    """As it says: the # before it struck, what it asks for put into each case, and a case in which it does not hold."""
    condition = condition_for(each)
    assert condition is not None
    template = rule_template("clearances.shown", us, each)
    remarks = " ".join(template.replace("#", " ").split())
    assert f"in each case above: {condition.name}: {condition.holds}" in remarks
    text = filled(template, NAME=name, KIND=kind, AT=at, MORE=more, LESS=less)
    text = text.replace(f"# when: {condition.written}", f"when: {condition.written}")
    text = text.replace("given: {limit", f"given: {{{condition.name}: {condition.holds}, limit")
    text = text.replace(f"# - given: {{{condition.name}", f"- given: {{{condition.name}")
    text = text.replace("#   outcome: not applicable", "  outcome: not applicable")
    book = with_rule(folder, text)
    proof = prove(Rulebook(book.layers, {"clearances.shown": book.rules["clearances.shown"]}, ()))
    assert (proof.cases, proof.failures) == (5, ())
    assert [flaw for flaw in lint(book, table_places(folder)) if flaw.about == "clearances.shown"] == []


def test_a_region_is_held_once_it_is_filled_and_hears_what_it_stands_on(folder: Path, us: Layer) -> None:
    text = region_template("us-tx", us)
    write(folder, {"us-tx/layer.yaml": text})
    with pytest.raises(Unreadable, match="still to be filled in"):
        read_rulesets(folder)
    said = {"TITLE": "A state", "TOPIC": "noise", "ASKS": "quiet", "WHY": "not yet"}
    write(folder, {"us-tx/layer.yaml": filled(text, **said)})
    layer = read_rulesets(folder).layers["us-tx"]
    assert (layer.extends, layer.version, layer.authorities) == ("us", "1.0", ("workplace law",))
    assert (layer.not_held[0].topic, layer.not_held[0].asks, layer.not_held[0].why) == ("noise", "quiet", "not yet")
    assert max(map(len, text.splitlines())) <= WIDTH


@pytest.mark.parametrize(
    "name, right",
    [("fire.walk", True), ("compressed-air.relief-2", True), ("walk", False), ("Fire.walk", False), ("fire.", False)],
)
def test_ids_of_rules(name: str, right: bool) -> None:
    assert is_rule_id(name) is right


@pytest.mark.parametrize(
    "name, right", [("us-tx", True), ("us_tx", False), ("US", False), ("../us", False), ("", False)]
)
def test_names_of_layers(name: str, right: bool) -> None:
    assert is_layer_name(name) is right
