"""Whether an expression can hold at all, as far as its own words show: a `when` that contradicts itself never applies.

The answer errs to one side: False is certain, True is not. What is compared with what counts by its text.
"""

import operator
from collections.abc import Mapping
from decimal import Decimal
from itertools import pairwise, product
from typing import Final

from checker.rules.tree import MIRRORED, NEGATED, Tree, text

Choices = Mapping[str, frozenset[str]]
"""The words that what is written so may hold; what has no closed choice is not named."""
Way = tuple[tuple[Tree, bool], ...]
"""Comparisons and answers that together fulfil an expression, each with whether it has to hold."""
MOST_WAYS: Final = 256
"""Beyond so many ways to fulfil an expression it is taken as possible."""
_HOLDS: Final = {op: getattr(operator, op) for op in NEGATED}
_ALLOWED: Final = {"eq": "=", "ne": "<>", "lt": "<", "le": "<=", "gt": ">", "ge": ">="}


def can_hold(tree: Tree, choices: Choices | None = None) -> bool:
    """Whether some record may make a tree true."""
    ways = _ways(tree, holds=True)
    return ways is None or any(_agrees(way, choices or {}) for way in ways)


def _ways(tree: Tree, *, holds: bool) -> list[Way] | None:
    """Each way to make a tree true, or false; None where they are too many."""
    match tree:
        case ["not", inner]:
            return _ways(inner, holds=not holds)
        case ["and" | "or" as word, left, right]:
            one, other = _ways(left, holds=holds), _ways(right, holds=holds)
            if one is None or other is None:
                return None
            together = (word == "and") is holds
            if (len(one) * len(other) if together else len(one) + len(other)) > MOST_WAYS:
                return None
            return [a + b for a, b in product(one, other)] if together else one + other
    return [((tree, holds),)]


def _agrees(way: Way, choices: Choices) -> bool:
    """Whether the parts of a way leave room for each other."""
    answers = {(text(tree), holds) for tree, holds in way}
    if any((name, not holds) in answers for name, holds in answers):
        return False
    return _words_left(way, choices) and _orders_left(way) and _numbers_left(way)


def _words_left(way: Way, choices: Choices) -> bool:
    """Whether a word is left for everything that has to be among some words, and not among others."""
    among: dict[str, frozenset[str]] = dict(choices)
    excluded: dict[str, frozenset[str]] = {}
    for tree, holds in way:
        match tree:
            case ["in", member, words]:
                name = text(member)
            case ["cmp", op, ["str", word], other] | ["cmp", op, other, ["str", word]]:
                name, words, holds = text(other), [word], (op == "eq") is holds
            case _:
                continue
        if holds:
            among[name] = among.get(name, frozenset(words)) & frozenset(words)
        else:
            excluded[name] = excluded.get(name, frozenset()) | frozenset(words)
    return all(words - excluded.get(name, frozenset()) for name, words in among.items())


def _orders_left(way: Way) -> bool:
    """Whether two sides that are compared more than once can still be less, equal or greater."""
    left: dict[tuple[str, str], frozenset[str]] = {}
    for tree, holds in way:
        if tree[0] == "cmp":
            op, one, other = _op(tree, holds), text(tree[2]), text(tree[3])
            pair, own = ((one, other), op) if one <= other else ((other, one), MIRRORED[op])
            left[pair] = left.get(pair, frozenset("=" if one == other else "<=>")) & frozenset(_ALLOWED[own])
    return all(left.values())


def _numbers_left(way: Way) -> bool:
    """Whether a number is left between the plain numbers that something has to be above and below."""
    bounds: dict[str, list[tuple[str, Decimal]]] = {}
    for tree, holds in way:
        if tree[0] == "cmp":
            op = _op(tree, holds)
            for own, measured, number in ((op, tree[2], tree[3]), (MIRRORED[op], tree[3], tree[2])):
                if number[0] == "num":
                    bounds.setdefault(text(measured), []).append((own, Decimal(number[1])))
    return all(map(_some_number, bounds.values()))


def _some_number(bounds: list[tuple[str, Decimal]]) -> bool:
    """Whether a number fulfils all bounds: one that is named, or one below, between or above those."""
    named = sorted({number for _, number in bounds})
    between = [(low + high) / 2 for low, high in pairwise(named)]
    tried = [named[0] - 1, *named, *between, named[-1] + 1]
    return any(all(_HOLDS[op](number, bound) for op, bound in bounds) for number in tried)


def _op(tree: Tree, holds: bool) -> str:
    op: str = tree[1]
    return op if holds else NEGATED[op]
