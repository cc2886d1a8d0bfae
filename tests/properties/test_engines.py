"""The compiled evaluator against three others, on the same expressions and facts.

With gaps: the slow reference of tests/rules/kleene.py and CEL (cel.py). On complete facts: rule-engine itself. What
breaks (a division by zero) is counted apart: it breaks the reference too; and where the evaluator does not ask the part
that breaks, CEL has to give the same answer, which takes it for one more error.
"""

import decimal
from collections import Counter
from random import Random
from typing import Any

import pytest

from checker.quantities import Missing
from checker.rules.compile import Evaluator, compile_tree
from checker.rules.parse import parse
from checker.rules.tree import Tree, text, walk
from checker.rules.types import check
from checker.units import GRID, Period
from tests.properties import cel
from tests.properties.expressions import SCOPE, YEAR, drawn_facts, expression, get
from tests.rules.engine import engine_answer
from tests.rules.kleene import Answer, reference

EXPRESSIONS = 3000
FACTS = (True, True, True, False, False)
"""Whether there may be gaps, for each of the facts that an expression is asked about."""
BROKEN = "broken"
SAID = {True: "true", False: "false", None: "unknown", BROKEN: "broken"}
OPERATORS = {
    "and", "or", "not", "eq", "ne", "lt", "le", "gt", "ge", "in", "add", "sub", "mul", "div", "call", "due", "period",
    "all", "any", "count", "sum",
}  # fmt: skip

Said = bool | str | None


def compiled_answer(evaluator: Evaluator, names: dict[str, Any]) -> tuple[Said, set[Any]]:
    gaps: list[Missing] = []
    try:
        with decimal.localcontext(GRID):
            truth, _ = evaluator(names, gaps)
    except decimal.DecimalException:
        return BROKEN, set()
    return truth, {need for gap in gaps for need in gap.needs}


def reference_answer(tree: Tree, names: dict[str, Any]) -> Answer | None:
    """What the reference says; None where it breaks."""
    try:
        return reference(tree, names)
    except decimal.DecimalException:
        return None


def engine_can(tree: Tree) -> bool:
    """Whether the engine of tests/rules/engine.py knows all names: it has no tables and no function of words."""
    nodes = list(walk(tree))
    return ["name", "table"] not in nodes and get("box", "fits") not in nodes


def for_the_engine(tree: Tree, names: dict[str, Any]) -> tuple[Tree, dict[str, Any]]:
    """A period written in the text is no word of the engine's: it reads the same period as a limit."""
    if YEAR not in list(walk(tree)):
        return tree, names
    year = get("limit", "every")

    def replaced(node: Any) -> Any:
        if node == YEAR:
            return year
        return [replaced(each) for each in node] if isinstance(node, list) else node

    return replaced(tree), {**names, "limit": type(names["limit"])("limit", **{**names["limit"], "every": Period(12)})}


def operators(tree: Tree) -> set[str]:
    return {node[1] if node[0] in ("cmp", "calc") else node[0] for node in walk(tree)} & OPERATORS


@pytest.mark.parametrize("seed", ["first", "second"])
def test_four_evaluators_answer_the_same(seed: str) -> None:
    random = Random(seed)
    said: Counter[str] = Counter()
    used: Counter[str] = Counter()
    compared: Counter[str] = Counter()
    different: list[tuple[str, str, Said, Any, Any]] = []
    for _ in range(EXPRESSIONS // 2):
        tree = expression(random)
        written = text(tree)
        check(tree, written, SCOPE)
        assert parse(written) == tree
        evaluator = compile_tree(tree)
        used.update(operators(tree))
        for gaps in FACTS:
            names = drawn_facts(random, gaps=gaps)
            ours, needs = compiled_answer(evaluator, names)
            slow = reference_answer(tree, names)
            said[SAID[ours]] += 1
            compared["the reference"] += 1
            same = ours == BROKEN if slow is None else (ours is slow.said and needs == set(slow.needs))
            outside: Any = "not asked"
            if not gaps and slow is not None and engine_can(tree):
                compared["rule-engine"] += 1
                outside = engine_answer(*for_the_engine(tree, names))
            elif ours != BROKEN and get("table", "often", "again") not in list(walk(tree)):
                compared["CEL"] += 1
                outside = cel.answer(tree, names)
                same = same or slow is None
            same = same and outside in ("not asked", ours)
            if not same:
                different.append((written, repr(names), ours, slow, outside))
    shares = {name: number / said.total() for name, number in said.items()}
    print({name: f"{share:.1%}" for name, share in sorted(shares.items())}, dict(compared))
    print({name: f"{used[name] / (EXPRESSIONS // 2):.1%}" for name in sorted(OPERATORS)})
    assert different[:3] == []
    assert min(shares["true"], shares["false"]) >= 0.3, shares
    assert shares["unknown"] >= 0.1, shares
    assert 0 < shares["broken"] < 0.1, shares
    assert min(used[name] for name in OPERATORS) >= 0.03 * EXPRESSIONS / 2, used
    assert compared["rule-engine"] >= 0.1 * said.total(), compared
