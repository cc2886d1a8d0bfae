"""Margins and the part that governs."""

import datetime as dt
from decimal import Decimal
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from checker.findings.margin import Reading, decided, governing
from checker.rules.parts import PartSpec
from checker.rules.tree import Tree
from checker.site import NEVER
from tests.findings.workshop import asks, judgement, rule, rulebook

A_DAY = Decimal(86400)
BREAKER = ("circuit", {"most": "current"}, {"most": "20 A"})
SERVICE = ("extinguisher", {"every": "period"}, {"every": "12 months"})


def reading(tmp_path: Path, of: tuple[str, Any, Any], require: str, recorded: dict[str, object]) -> Reading:
    """The only part of a requirement."""
    each, kinds, limits = of
    held = rulebook(tmp_path, [rule("r", each, require, limit=kinds)], [asks("r", limit=limits)])
    (part,) = judgement(held, {f"limit.{name}": value for name, value in limits.items()} | recorded).parts
    return part


@pytest.mark.parametrize(
    "require, breaker, holds, operator, margin",
    [
        ("circuit.breaker <= limit.most", "16 A", True, "le", 4),
        ("circuit.breaker <= limit.most", "20 A", True, "le", 0),
        ("circuit.breaker <= limit.most", "25 A", False, "le", -5),
        ("circuit.breaker < limit.most", "16 A", True, "lt", 4),
        ("circuit.breaker < limit.most", "20 A", False, "lt", 0),
        ("circuit.breaker >= limit.most", "25 A", True, "ge", 5),
        ("circuit.breaker >= limit.most", "16 A", False, "ge", -4),
        ("circuit.breaker > limit.most", "20 A", False, "gt", 0),
        ("circuit.breaker > limit.most", "20.1 A", True, "gt", "0.1"),
        ("limit.most >= circuit.breaker", "16 A", True, "le", 4),
        ("limit.most < circuit.breaker", "16 A", False, "gt", -4),
        ("not circuit.breaker > limit.most", "16 A", True, "le", 4),
        ("not circuit.breaker > limit.most", "25 A", False, "le", -5),
        ("not limit.most <= circuit.breaker", "16 A", True, "lt", 4),
        ("not not circuit.breaker <= limit.most", "16 A", True, "le", 4),
        ("circuit.breaker == limit.most", "20 A", True, "eq", None),
        ("circuit.breaker != limit.most", "20 A", False, "ne", None),
        ("not circuit.breaker == limit.most", "16 A", True, "ne", None),
        ("2 * circuit.breaker <= limit.most", "8 A", True, "le", 4),
        ("circuit.breaker <= 0.8 * limit.most", "10 A", True, "le", 6),
    ],
)
def test_a_margin_is_positive_where_there_is_room(
    require: str, breaker: str, holds: bool, operator: str, margin: int | str | None, tmp_path: Path
) -> None:
    part = reading(tmp_path, BREAKER, require, {"circuit.breaker": breaker})
    assert (part.holds, part.spec.operator) == (holds, operator)
    assert part.margin == (None if margin is None else Decimal(margin))


@pytest.mark.parametrize(
    "done, holds, days",
    [
        ("2025-11-25", True, 0),
        ("2025-11-26", True, 1),
        ("2025-11-24", False, -1),
        ("2026-11-25", True, 365),
    ],
)
def test_between_days_the_margin_is_in_seconds(done: str, holds: bool, days: int, tmp_path: Path) -> None:
    require = "due(extinguisher.serviced_on, limit.every) >= as_of"
    part = reading(tmp_path, SERVICE, require, {"extinguisher.serviced_on": done})
    assert (part.holds, part.margin, part.slack) == (holds, days * A_DAY, Decimal(days))


def test_what_was_never_done_is_far_behind(tmp_path: Path) -> None:
    require = "due(extinguisher.serviced_on, limit.every) >= as_of"
    part = reading(tmp_path, SERVICE, require, {"extinguisher.serviced_on": "never"})
    assert part.holds is False
    assert part.margin is not None
    assert part.margin < -2000 * 365 * A_DAY


@pytest.mark.parametrize(
    "of, require, recorded",
    [
        (BREAKER, "circuit.breaker <= limit.most", {}),
        (SERVICE, "due(extinguisher.serviced_on, limit.every) >= as_of", {}),
    ],
)
def test_a_limit_is_shown_though_nothing_was_measured(
    of: tuple[str, Any, Any], require: str, recorded: dict[str, object], tmp_path: Path
) -> None:
    part = reading(tmp_path, of, require, recorded)
    assert (part.holds, part.measured, part.margin, part.slack) == (None, None, None, None)
    assert part.limit is not None


@pytest.mark.parametrize(
    "require, dedicated, holds, measured",
    [
        ("circuit.dedicated", True, True, True),
        ("circuit.dedicated", False, False, False),
        ("not circuit.dedicated", True, False, True),
        ("not circuit.dedicated", False, True, False),
    ],
)
def test_an_answer_has_no_margin_and_is_shown_as_it_was_given(
    require: str, dedicated: bool, holds: bool, measured: bool, tmp_path: Path
) -> None:
    part = reading(tmp_path, ("circuit", {}, {}), require, {"circuit.dedicated": dedicated})
    assert (part.holds, part.measured, part.limit, part.margin) == (holds, measured, None, None)


@pytest.mark.parametrize("kind, holds", [("socket", True), ("hard-wired", False)])
def test_a_word_is_measured_against_a_choice(kind: str, holds: bool, tmp_path: Path) -> None:
    require = 'circuit.connection in ["socket"]'
    part = reading(tmp_path, ("circuit", {}, {}), require, {"circuit.connection": kind})
    assert (part.holds, part.measured, part.margin) == (holds, kind, None)


def test_room_is_counted_against_the_size_of_the_limit_and_against_one_where_that_is_nought(tmp_path: Path) -> None:
    require = "circuit.breaker <= limit.most"
    part = reading(tmp_path / "a", BREAKER, require, {"circuit.breaker": "16 A"})
    none = reading(
        tmp_path / "b", ("circuit", {"most": "current"}, {"most": "0 A"}), require, {"circuit.breaker": "3 A"}
    )
    assert (part.slack, none.slack) == (Decimal("0.2"), Decimal(-3))


# The part that governs.

SPEC = PartSpec(["name", "x"], "x", False, "le", False, "current", None, None)
T, F, U = True, False, None


def part(holds: bool | None, slack: object = None) -> Reading:
    """A reading with a limit of 100, so that the margin is 100 times the slack."""
    margin = None if slack is None else Decimal(str(slack)) * 100
    return Reading(SPEC, holds, None, Decimal(100), margin)


LEAF: Tree = ["name", "x"]
BOTH: Tree = ["and", LEAF, LEAF]
EITHER: Tree = ["or", LEAF, LEAF]


@pytest.mark.parametrize(
    "first, second, of_and, of_or",
    [
        (part(T, 0.5), part(T, 0.2), (T, 1), (T, 0)),
        (part(T, 0.2), part(T, 0.5), (T, 0), (T, 1)),
        (part(T), part(T, 0.2), (T, 1), (T, 0)),
        (part(T, 0.2), part(T), (T, 0), (T, 1)),
        (part(T), part(T), (T, 0), (T, 0)),
        (part(T, 0.5), part(F, -0.2), (F, 1), (T, 0)),
        (part(F, -0.2), part(T, 0.5), (F, 0), (T, 1)),
        (part(F, -0.5), part(F, -0.2), (F, 0), (F, 1)),
        (part(F, -0.2), part(F, -0.5), (F, 1), (F, 0)),
        (part(F), part(F, -0.9), (F, 0), (F, 1)),
        (part(F, -0.9), part(F), (F, 1), (F, 0)),
        (part(F), part(F), (F, 0), (F, 1)),
        (part(T, 0.5), part(U), (U, 1), (T, 0)),
        (part(U), part(T, 0.5), (U, 0), (T, 1)),
        (part(F, -0.5), part(U), (F, 0), (U, 1)),
        (part(U), part(F, -0.5), (F, 1), (U, 0)),
        (part(U), part(U), (U, 0), (U, 0)),
    ],
)
def test_of_two_parts_the_one_that_decides_governs(
    first: Reading, second: Reading, of_and: tuple[bool | None, int], of_or: tuple[bool | None, int]
) -> None:
    """Both asked: what fails, an answer before a number, else the least room.

    One asked: what holds with most room; of answers that all fail the last, since others say when it is not asked.
    """
    assert decided(BOTH, [first, second]) == of_and
    assert decided(EITHER, [first, second]) == of_or
    assert decided(["not", EITHER], [first, second]) == of_and, "not (a or b) is not a and not b"
    assert decided(["not", BOTH], [first, second]) == of_or


def test_the_numbers_of_parts_run_through_the_text() -> None:
    tree: Tree = ["and", ["or", LEAF, LEAF], ["not", ["or", LEAF, ["not", LEAF]]]]
    assert governing(tree, [part(F), part(T), part(T), part(F, -1)]) == 3


trees = st.recursive(
    st.just(LEAF),
    lambda inner: st.one_of(
        st.tuples(st.sampled_from(["and", "or"]), inner, inner).map(list), inner.map(lambda tree: ["not", tree])
    ),
    max_leaves=8,
)


def kleene(tree: Tree, parts: list[Reading], negated: bool = False) -> bool | None:
    """Kleene's strong tables as least and greatest of false, unknown, true; readings are negated already."""
    match tree:
        case ["not", inner]:
            return kleene(inner, parts, not negated)
        case ["and" | "or" as word, left, right]:
            least = (word == "and") is not negated
            sides = kleene(left, parts, negated), kleene(right, parts, negated)
            return (min if least else max)(sides, key=(F, U, T).index)
    return parts.pop(0).holds


@given(trees, st.lists(st.tuples(st.sampled_from([T, F, U]), st.integers(1, 9)), min_size=8, max_size=8))
def test_the_part_that_governs_stands_as_the_whole_does(tree: Tree, drawn: list[tuple[bool | None, int]]) -> None:
    readings = [part(holds, None if holds is None else room if holds else -room) for holds, room in drawn]
    truth, number = decided(tree, readings)
    assert truth is kleene(tree, list(readings))
    assert readings[number].holds is truth


def test_every_mix_of_two_is_in_the_table() -> None:
    marks = test_of_two_parts_the_one_that_decides_governs.pytestmark  # type: ignore[attr-defined]
    mixes = {(first.holds, second.holds) for first, second, *_ in marks[0].args[1]}
    assert mixes == set(product((T, F, U), repeat=2))


def test_how_long_what_was_never_done_is_overdue_is_not_told() -> None:
    spec = replace(SPEC, kind="date")
    never = Reading(spec, False, dt.date(2026, 11, 25), NEVER, Decimal(-739_944 * 86400))
    assert never.told is None
    assert never.margin is not None
