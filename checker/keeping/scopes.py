"""What the names of a rule mean, inside its lists too."""

from collections.abc import Iterator, Mapping, Sequence

from checker.quantities import kinds
from checker.rules.model import Rule
from checker.rules.tree import OVER_A_LIST, Tree, branches
from checker.rules.types import Scope, Type, type_within

Variables = Mapping[str, Type]


def scope_of(rule: Rule) -> Scope:
    """The names that the expressions of a rule may use."""
    return Scope(rule.each, rule.limit, rule.tables, kinds())


def types_of(loops: Sequence[tuple[str, Tree]], scope: Scope, variables: Variables | None = None) -> Variables:
    """The type of the members of lists that stand one within the other, by the names that the members go by."""
    named = dict(variables or {})
    for name, members in loops:
        named[name] = Type("thing", thing=type_within(members, scope, named).thing)
    return named


def walk_typed(tree: Tree, scope: Scope, variables: Variables | None = None) -> Iterator[tuple[Tree, Variables]]:
    """A tree and every tree below it, each with the types of the members that it may name."""
    variables = variables or {}
    yield tree, variables
    inner = types_of([(tree[1], tree[2])], scope, variables) if tree[0] in OVER_A_LIST else variables
    for branch in branches(tree):
        yield from walk_typed(branch, scope, inner)
