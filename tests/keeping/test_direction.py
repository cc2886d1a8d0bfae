"""Which way a limit bites: read off the expression, and held against what the evaluator says when it is raised."""

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace

from checker import shipped
from checker.findings.cases import CaseFault, case_facts
from checker.findings.judge import Compiled, compile_rules, judge
from checker.keeping.direction import Sign, directions, rise
from checker.rules import read_rulesets
from checker.rules.model import Rule
from checker.units import Period, read
from tests.findings.workshop import rule, rulebook, the_rule

LESS, MORE, EITHER, NOTHING = 1, -1, None, 0
BAND = {"band": {"keys": {"size": "length"}, "columns": {"most": "length"}}}


@pytest.mark.parametrize(
    "each, require, kind, asks",
    [
        ("circuit", "circuit.breaker <= limit.x", "current", LESS),
        ("circuit", "circuit.breaker < limit.x", "current", LESS),
        ("circuit", "limit.x >= circuit.breaker", "current", LESS),
        ("circuit", "circuit.breaker >= limit.x", "current", MORE),
        ("circuit", "not circuit.breaker > limit.x", "current", LESS),
        ("circuit", "not not circuit.breaker > limit.x", "current", MORE),
        ("circuit", "circuit.breaker == limit.x", "current", EITHER),
        ("circuit", "circuit.dedicated and circuit.breaker <= limit.x", "current", LESS),
        ("circuit", "circuit.dedicated or circuit.breaker >= limit.x", "current", MORE),
        ("circuit", "circuit.breaker >= limit.x and circuit.breaker <= 2 * limit.x", "current", EITHER),
        ("circuit", "circuit.breaker <= 2 * limit.x", "current", LESS),
        ("circuit", "circuit.breaker <= -2 * limit.x", "current", EITHER),
        ("circuit", "circuit.breaker / limit.x <= 2", "current", LESS),
        ("circuit", "circuit.breaker - limit.x <= circuit.breaker", "current", LESS),
        ("circuit", "circuit.breaker <= circuit.breaker - limit.x", "current", MORE),
        ("circuit", "circuit.breaker <= limit.x * circuit.breaker", "number", LESS),
        ("circuit", "circuit.breaker <= limit.x * (circuit.breaker - circuit.breaker)", "number", EITHER),
        ("circuit", "circuit.breaker >= circuit.design_load(limit.x)", "number", EITHER),
        ("panel", "due(panel.inspected_on, limit.x) >= as_of", "period", LESS),
        ("panel", "as_of <= due(panel.inspected_on, limit.x)", "period", LESS),
        ("room", "all([d.width >= limit.x for d in room.doors])", "length", MORE),
        ("room", "any([d.width <= limit.x for d in room.doors])", "length", LESS),
        ("room", "all([d.width > room.height for d in room.doors if d.width >= limit.x])", "length", LESS),
        ("room", "any([d.width > room.height for d in room.doors if d.width >= limit.x])", "length", MORE),
        ("room", "count([d for d in room.doors if d.width >= limit.x]) >= 1", "length", MORE),
        ("room", "sum([d.width * limit.x for d in room.doors]) >= room.height", "number", LESS),
        ("room", "room.floor_area >= 1 * room.floor_area", "length", NOTHING),
    ],
)
def test_a_limit_bites_one_way(each: str, require: str, kind: str, asks: Sign, tmp_path: Path) -> None:
    assert directions(the_rule(rulebook(tmp_path, [rule("r", each, require, limit={"x": kind})], []))) == {"x": asks}


@pytest.mark.parametrize(
    "when, require, asks",
    [
        ("circuit.breaker > limit.x", "circuit.dedicated", LESS),
        ("circuit.breaker < limit.x", "circuit.dedicated", MORE),
        ("circuit.breaker < limit.x", "circuit.breaker < limit.x", EITHER),
        ("circuit.breaker > limit.x", "circuit.breaker < limit.x", LESS),
    ],
)
def test_what_it_applies_to_counts_as_well(when: str, require: str, asks: Sign, tmp_path: Path) -> None:
    one = rule("r", "circuit", require, when=when, limit={"x": "current"})
    assert directions(the_rule(rulebook(tmp_path, [one], []))) == {"x": asks}


@pytest.mark.parametrize(
    "require, asks",
    [
        ("room.height <= table.band.most(room.height)", LESS),
        ("room.height >= table.band.most(room.height)", MORE),
        ("room.height >= table.band.most(table.band.most(room.height))", EITHER),
    ],
)
def test_a_column_of_a_table_bites_as_a_limit_does(require: str, asks: Sign, tmp_path: Path) -> None:
    one = the_rule(rulebook(tmp_path, [rule("r", "room", require, table=BAND)], []))
    assert directions(one) == {"table.band.most": asks}


@pytest.mark.parametrize(
    "old, new, moved",
    [
        ("12 months", "1 year", 0), ("1 year", "13 months", 1), ("6 months", "90 days", -1),
        ("1 month", "30 days", None), ("1 month", "32 days", 1), ("1 month", "27 days", -1),
        ("12 months", "365 days", None), ("1 day", "2 days", 1), ("12 months", "367 days", 1),
        ("14 months", "2 years", 1),
    ],
)  # fmt: skip
def test_periods_are_compared_where_no_calendar_can_turn_them(old: str, new: str, moved: Sign) -> None:
    one, other = read(old, "period").value, read(new, "period").value
    assert isinstance(one, Period)
    assert rise(one, other) == moved
    assert rise(other, one) == (None if moved is None else -moved)


def test_words_have_no_order() -> None:
    assert (rise("light", "light"), rise("light", "extra"), rise(Decimal(1), Decimal(2))) == (0, None, 1)


SHIPPED = read_rulesets(shipped.rulesets()).rules
OUTCOMES = {"met": 0, "not applicable": 0, "undetermined": 1, "not met": 2}


def moves(one: Rule, name: str) -> Iterator[tuple[str, str]]:
    """What each case comes to, and what it comes to with the limit raised in steps from there."""
    compiled = compile_rules([one])[one.id]
    for case in one.cases:
        given = dict(case.given)
        written = given.get(key := name if name.startswith("table.") else f"limit.{name}")
        for factor in (Decimal("1.01"), Decimal("1.5"), Decimal(3), Decimal(100)):
            if (raised := _raised(one, key, written, factor)) is None:
                continue
            facts = [_facts(compiled, replace(case, given={**given, key: value})) for value in (written, raised)]
            if all(facts):
                yield tuple(judge(compiled, each).outcome for each in facts)  # type: ignore[misc, arg-type]


def _raised(one: Rule, key: str, written: Any, factor: Decimal) -> object:
    kind = _kind(one, key)
    if written in (None, "not asked") or kind == "word":
        return None
    if kind == "period":
        return f"{int(str(written).split()[0]) * max(2, int(factor))} {str(written).split()[1]}"
    number, _, unit = str(written).partition(" ")
    return f"{float(Fraction(number)) * float(factor):.9f} {unit}".strip()


def _kind(one: Rule, key: str) -> str:
    _, *names = key.split(".")
    return one.limit[names[0]] if len(names) == 1 else one.tables[names[0]].columns[names[1]]


def _facts(compiled: Compiled, case: Any) -> dict[str, Any] | None:
    try:
        return case_facts(compiled.rule, case)
    except CaseFault:
        return None


TOLD = [(one, name, sign) for one in SHIPPED.values() for name, sign in directions(one).items() if sign]


def test_most_limits_that_are_held_bite_one_way() -> None:
    held = sum(len(directions(one)) for one in SHIPPED.values())
    assert len(TOLD) > held * 0.7


@pytest.mark.parametrize("one, name, sign", TOLD, ids=[f"{one.id}:{name}" for one, name, _ in TOLD])
def test_a_limit_raised_moves_no_case_the_other_way(one: Rule, name: str, sign: int) -> None:
    """The evaluator is the oracle: where a higher limit asks less, nothing met is not met by it, and the reverse."""
    for before, after in moves(one, name):
        change = OUTCOMES[before] - OUTCOMES[after]
        assert change * sign >= 0, (before, after)


def test_some_case_of_most_rules_moves_when_its_limit_is_raised() -> None:
    """The law above is tried by cases that move, not by none."""
    moved = sum(any(before != after for before, after in moves(one, name)) for one, name, _ in TOLD)
    assert moved > len(TOLD) * 0.6
