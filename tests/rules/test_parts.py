"""What an expression says part by part: measured and limit in either order, the operator as it stands, the kind."""

from collections import Counter
from typing import Any

import pytest
from hypothesis import given, settings

from checker.findings.margin import readings
from checker.rules.compile import compile_tree
from checker.rules.compile import parts as compiled_parts
from checker.rules.parse import parse
from checker.rules.parts import PartSpec, part_kinds, part_specs
from checker.rules.tree import Tree, text
from tests.rules.kleene import reference
from tests.rules.world import SCOPE, random_facts, trees

COMPARES = {"eq": "==", "ne": "!=", "lt": "<", "le": "<=", "gt": ">", "ge": ">="}
Read = tuple[str, str | None, str | None, str]
"""Measured, operator, limit, kind."""


def specs_of(tree: Tree) -> tuple[PartSpec, ...]:
    return part_specs(tree, part_kinds(tree, SCOPE))


def read(spec: PartSpec) -> Read:
    operator = COMPARES[spec.operator] if spec.operator else None
    measured = text(spec.measured) if spec.measured is not None else ""
    return measured, operator, text(spec.limit) if spec.limit is not None else None, spec.kind


PARTS: list[tuple[str, list[Read]]] = [
    ("box.a <= limit.x", [("box.a", "<=", "limit.x", "length")]),
    ("limit.x >= box.a", [("box.a", "<=", "limit.x", "length")]),
    ("limit.x > box.a", [("box.a", "<", "limit.x", "length")]),
    ("limit.x <= box.a", [("box.a", ">=", "limit.x", "length")]),
    ("limit.x < box.a", [("box.a", ">", "limit.x", "length")]),
    ("limit.x == box.a", [("box.a", "==", "limit.x", "length")]),
    ("limit.x != box.a", [("box.a", "!=", "limit.x", "length")]),
    ("not (box.a > limit.x)", [("box.a", "<=", "limit.x", "length")]),
    ("not (box.a >= limit.x)", [("box.a", "<", "limit.x", "length")]),
    ("not (box.a == limit.x)", [("box.a", "!=", "limit.x", "length")]),
    ("not (limit.x < box.a)", [("box.a", "<=", "limit.x", "length")]),
    ("not not (box.a > limit.x)", [("box.a", ">", "limit.x", "length")]),
    ("box.a < box.b", [("box.a", "<", "box.b", "length")]),
    ("limit.x < limit.y", [("limit.x", "<", "limit.y", "length")]),
    ("box.heads >= 3", [("box.heads", ">=", "3", "count")]),
    ("3 <= box.heads", [("box.heads", ">=", "3", "count")]),
    ('box.colour == "red"', [("box.colour", "==", '"red"', "word")]),
    ('"red" == box.colour', [("box.colour", "==", '"red"', "word")]),
    ("due(box.tested_on, limit.every) >= as_of",
     [("due(box.tested_on, limit.every)", ">=", "as_of", "date")]),
    ("as_of <= due(box.tested_on, 12 months)", [("due(box.tested_on, 12 months)", ">=", "as_of", "date")]),
    ("table.grip.near(box.colour, box.a) >= box.b",
     [("box.b", "<=", "table.grip.near(box.colour, box.a)", "length")]),
    ("box.flow_per_area * box.area <= box.flow", [("box.flow_per_area * box.area", "<=", "box.flow", "flow")]),
    ("box.volts * box.amps <= box.volts * box.amps",
     [("box.volts * box.amps", "<=", "box.volts * box.amps", "power")]),
    ("count([i for i in box.items if i.ok]) >= 2", [("count([i for i in box.items if i.ok])", ">=", "2", "number")]),
    ('box.colour in ["red", "blue"]', [("box.colour", None, None, "word")]),
    ("box.p", [("box.p", None, None, "answer")]),
    ("box.fits(box.colour)", [("box.fits(box.colour)", None, None, "answer")]),
    ("all([i.n <= limit.x for i in box.items])", [("all([i.n <= limit.x for i in box.items])", None, None, "answer")]),
    ("box.p and box.a <= limit.x and limit.y < box.b",
     [("box.p", None, None, "answer"), ("box.a", "<=", "limit.x", "length"), ("box.b", ">", "limit.y", "length")]),
    ("box.p or not (box.a > limit.x or limit.y >= box.b)",
     [("box.p", None, None, "answer"), ("box.a", "<=", "limit.x", "length"), ("box.b", ">", "limit.y", "length")]),
]  # fmt: skip


@pytest.mark.parametrize("written, parts", PARTS, ids=[written for written, _ in PARTS])
def test_a_part_is_read_off_the_expression(written: str, parts: list[Read]) -> None:
    assert [read(spec) for spec in specs_of(parse(written))] == parts


def test_each_part_keeps_its_own_text_and_whether_a_not_stands_before_it() -> None:
    specs = specs_of(parse("not (box.p and limit.x < box.a) or box.q"))
    assert [(spec.text, spec.negated, spec.limit_left) for spec in specs] == [
        ("box.p", True, False),
        ("limit.x < box.a", True, True),
        ("box.q", False, False),
    ]


@given(trees())
def test_the_parts_are_those_whose_sides_an_evaluator_gives(tree: Tree) -> None:
    assert [spec.tree for spec in specs_of(tree)] == compiled_parts(tree)


def test_what_a_part_shows_is_what_it_says() -> None:
    """Measured, operator and limit of each part hold exactly where the part holds."""
    seen: Counter[bool] = Counter()

    @settings(max_examples=800)
    @given(trees(), random_facts(gaps=True))
    def law(tree: Tree, names: dict[str, Any]) -> None:
        specs = specs_of(tree)
        for spec, part in zip(specs, readings(specs, compile_tree(tree)(names, [])[1]), strict=True):
            if spec.operator is None or part.measured is None or part.limit is None:
                continue
            holds = {"eq": part.measured == part.limit, "ne": part.measured != part.limit}
            if spec.operator not in holds:
                holds = {
                    "lt": part.measured < part.limit, "le": part.measured <= part.limit,
                    "gt": part.measured > part.limit, "ge": part.measured >= part.limit,
                }  # fmt: skip
            alone = reference(spec.tree, names).said
            if part.holds is None:
                continue  # not asked: the part beside it broke off or had decided
            assert part.holds is holds[spec.operator] is (alone is not spec.negated)
            if part.margin is not None:
                assert (part.margin >= 0) is part.holds or part.margin == 0
            seen[holds[spec.operator]] += 1

    law()
    assert min(seen[True], seen[False]) > 30, seen
