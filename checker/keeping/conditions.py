"""The parts that a `when` joins by `and`, and which of them no case tries alone."""

import decimal
from collections.abc import Iterator

from checker.findings.cases import CaseFault, case_facts
from checker.findings.judge import Facts
from checker.quantities import Broken
from checker.rules.compile import Evaluator, compile_trees
from checker.rules.model import Rule
from checker.rules.tree import Tree, text
from checker.units import GRID


def joined_by_and(tree: Tree) -> list[Tree]:
    """The parts of a tree that all have to hold."""
    return joined_by_and(tree[1]) + joined_by_and(tree[2]) if tree[0] == "and" else [tree]


def untried(rule: Rule) -> Iterator[str]:
    """Each part of a condition of several that is in no case the only one which does not hold."""
    parts = [] if rule.when_tree is None else joined_by_and(rule.when_tree)
    if len(parts) < len(("one", "other")):
        return
    evaluators = compile_trees({str(number): part for number, part in enumerate(parts)})
    alone: set[int] = set()
    for case in rule.cases:
        try:
            facts = case_facts(rule, case)
        except CaseFault:
            continue  # told by `rules prove`
        fails = [number for number in range(len(parts)) if _fails(evaluators[str(number)], facts)]
        if len(fails) == 1:
            alone |= set(fails)
    yield from (text(part) for number, part in enumerate(parts) if number not in alone)


def _fails(part: Evaluator, facts: Facts) -> bool:
    """Whether a part does not hold. One that breaks is kept from being asked by another that fails."""
    try:
        with decimal.localcontext(GRID):
            return part(facts, [])[0] is False
    except (Broken, ArithmeticError):
        return False
