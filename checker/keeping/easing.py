"""Whether what is asked becomes more or less: from one value, row, provision, or all of them at once, to another."""

from collections.abc import Mapping, Sequence

from checker.findings.strictness import compared
from checker.keeping.changes import How
from checker.keeping.direction import Sign, directions, rise
from checker.rules.compile import limit_stands_left
from checker.rules.model import Provision, Rule
from checker.rules.tables import Row

Bites = Mapping[str, Sign]
Operators = Mapping[str, str]


def bites(old: Rule | None, new: Rule | None) -> Bites:
    """Which way each limit bites; None where the two editions of the rule do not agree."""
    found = [directions(rule) for rule in (old, new) if rule is not None]
    return {name: sign if all(each.get(name, sign) == sign for each in found) else None
            for each in found for name, sign in each.items()}  # fmt: skip


def operators(rule: Rule) -> Operators:
    """How each limit of a rule is compared (`le`: what is measured is at most that), where it always is alike.

    A limit that is not by itself one side of a comparison has none.
    """
    found: dict[str, set[str]] = {}
    for tree, operator in compared(rule.require_tree):
        match tree[2] if limit_stands_left(tree) else tree[3]:
            case ["get", ["name", "limit"], name]:
                found.setdefault(name, set()).add(operator)
    return {name: each.pop() for name, each in found.items() if len(each) == 1}


def eased(old: object, new: object, bite: Sign) -> Sign:
    """1 where the change asks less, -1 where more, 0 where nothing changed, None where that is not to be told."""
    moved = rise(old, new)
    return 0 if moved == 0 else moved * bite if moved and bite else None


def row_eased(name: str, old: Row, new: Row, bite: Bites) -> Sign:
    """The same of two rows of a table that a rule calls by that name."""
    return together([eased(old.cells.get(column), cell, bite.get(f"table.{name}.{column}"))
                     for column, cell in new.cells.items()])  # fmt: skip


def provision_eased(old: Provision, new: Provision, bite: Bites) -> Sign:
    """The same of all that two provisions give."""
    signs = [eased(limit.value, new.limit[name].value, bite.get(name)) if name in new.limit else None
             for name, limit in old.limit.items()]  # fmt: skip
    for name, table in old.tables.items():
        other = {row.keys: row for row in new.tables[name].rows} if name in new.tables else {}
        signs += [row_eased(name, row, other[row.keys], bite) if row.keys in other else None for row in table.rows]
        signs += [None] if len(other) != len(table.rows) else []
    return together(signs)


def all_eased(old: Sequence[Provision], new: Sequence[Provision], *, bite: Bites) -> Sign:
    """The same of all that is in force on a thing, where the strictest governs: who asks does not count."""
    more, less = _no_laxer(new, old, bite), _no_laxer(old, new, bite)
    return 0 if more and less else -1 if more else 1 if less else None


def _no_laxer(these: Sequence[Provision], others: Sequence[Provision], bite: Bites) -> bool:
    """Whether each of the others has one of these that asks as much or more."""
    return all(any(provision_eased(other, this, bite) in (0, -1) for this in these) for other in others)


def together(signs: Sequence[Sign]) -> Sign:
    """What several changes make of the whole; None where they go both ways or one cannot be told."""
    moved = {sign for sign in signs if sign != 0}
    return 0 if not moved else moved.pop() if len(moved) == 1 else None


def how(sign: Sign) -> How:
    """What a change that goes this way is called."""
    return "changed" if not sign else "relaxed" if sign > 0 else "tightened"
