"""Expressions that contradict themselves are known; no expression that some record fulfils is taken for one."""

import decimal

import pytest
from hypothesis import given, settings

from checker.keeping.possible import can_hold
from checker.rules.compile import compile_tree
from checker.rules.parse import parse
from checker.rules.tree import Tree
from checker.units import GRID
from tests.rules.world import COLOURS, random_facts, trees

CHOICES = {"box.colour": frozenset(COLOURS)}


@pytest.mark.parametrize(
    "written",
    [
        "box.p and not box.p",
        "box.p and (box.q or not box.q) and not box.p",
        'box.colour == "red" and box.colour == "blue"',
        'box.colour == "red" and not (box.colour == "red")',
        'box.colour == "red" and "red" != box.colour',
        'box.colour in ["red", "blue"] and box.colour == "green"',
        'box.colour in ["red", "blue"] and not (box.colour in ["blue", "red", "green"])',
        'box.colour != "red" and box.colour != "blue" and box.colour != "green"',
        "box.a < limit.x and box.a > limit.x",
        "box.a < limit.x and limit.x <= box.a",
        "box.a == limit.x and not (limit.x >= box.a)",
        "box.a < box.a",
        "box.heads > 3 and box.heads < 2",
        "box.heads >= 3 and 3 > box.heads",
        "box.heads == 3 and box.heads != 3",
        "box.heads == 3 and box.heads > 4",
        "(box.p or box.q) and not box.p and not box.q",
        "not (box.p or not box.p)",
    ],
)
def test_a_contradiction_cannot_hold(written: str) -> None:
    assert not can_hold(parse(written), CHOICES)


@pytest.mark.parametrize(
    "written",
    [
        "box.p and not box.q",
        'box.colour == "red" or box.colour == "blue"',
        'box.colour != "red" and box.colour != "blue"',
        'box.colour in ["red", "blue"] and not (box.colour == "red")',
        "box.a <= limit.x and box.a >= limit.x",
        "box.a < limit.x and box.b > limit.x",
        "box.heads >= 3 and box.heads <= 3",
        "box.heads > 2 and box.heads < 3",
        'box.name == "x" and box.name != "y"',
        "box.a >= box.a",
        " and ".join(f"(box.p or box.a > {number} * box.b)" for number in range(12)),
    ],
)
def test_what_can_hold_is_no_contradiction(written: str) -> None:
    assert can_hold(parse(written), CHOICES)


@settings(max_examples=300, deadline=None)
@given(trees(), random_facts(gaps=False))
def test_what_holds_of_some_record_can_hold(tree: Tree, facts: dict[str, object]) -> None:
    """Whatever truth a record gives, the expression can have it."""
    with decimal.localcontext(GRID):
        try:
            truth, _ = compile_tree(tree)(facts, [])
        except decimal.DecimalException:
            return
    assert truth is None or can_hold(tree if truth else ["not", tree], CHOICES)
