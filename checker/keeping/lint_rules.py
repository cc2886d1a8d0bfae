"""What is wrong with a rule by itself: its words, its cases, its expressions."""

from collections.abc import Iterator
from typing import Final

from checker.keeping.comparisons import shown
from checker.keeping.conditions import untried
from checker.keeping.flaws import Flaw, Kind
from checker.keeping.possible import can_hold
from checker.keeping.scopes import Variables, scope_of, walk_typed
from checker.quantities.registry import REGISTERED
from checker.rules.model import Rule
from checker.rules.tree import Tree, text
from checker.rules.types import Scope, Type, type_within

_LACKING: Final[dict[str, Kind]] = {
    "met": "no case met",
    "not met": "no case not met",
    "undetermined": "no case undetermined",
    "not applicable": "no case not applicable",
}


def flaws_of_rule(rule: Rule, failed: int = 0) -> Iterator[Flaw]:
    """All that is wrong with one rule; where so many of its cases fail, nothing of which others it lacks."""
    yield from _words(rule)
    if failed:
        yield _flaw(rule, "cases fail", count=str(failed), cases=str(len(rule.cases)))
    of_cases = () if failed else (_outcomes, _limits)
    for found in (*of_cases, _not_read, _equalities, _impossible):
        yield from found(rule)


def _flaw(rule: Rule, kind: Kind, /, **fields: str) -> Flaw:
    return Flaw(kind, rule.id, rule.location, fields)


def _words(rule: Rule) -> Iterator[Flaw]:
    if not rule.reason.strip():
        yield _flaw(rule, "reason is blank")
    elif rule.reason.strip(" .").casefold() == rule.title.strip(" .").casefold():
        yield _flaw(rule, "reason is the title")
    if rule.severity == "critical" and not rule.meanwhile.strip():
        yield _flaw(rule, "meanwhile is blank")


def _outcomes(rule: Rule) -> Iterator[Flaw]:
    held = {case.outcome for case in rule.cases}
    for outcome, kind in _LACKING.items():
        if outcome not in held and (outcome != "not applicable" or rule.when_tree is not None):
            yield _flaw(rule, kind, when=rule.when or "")
    if "not applicable" in held:
        yield from (_flaw(rule, "no case for a part", part=part) for part in untried(rule))


def _limits(rule: Rule) -> Iterator[Flaw]:
    for each in shown(rule):
        sides = {"measured": each.measured, "limit": each.limit, "near": each.near}
        if not each.at:
            yield _flaw(rule, "no case at", **sides)
        if not each.under:
            yield _flaw(rule, "no case under", **sides)
        if not each.over:
            yield _flaw(rule, "no case over", **sides)


def _trees(rule: Rule) -> Iterator[Tree]:
    yield from (tree for tree in (rule.when_tree, rule.require_tree) if tree is not None)


def _not_read(rule: Rule) -> Iterator[Flaw]:
    read = {text(node) for tree in _trees(rule) for node, _ in walk_typed(tree, scope_of(rule)) if node[0] == "get"}
    for name, kind in rule.limit.items():
        if f"limit.{name}" not in read:
            yield _flaw(rule, "limit not read", limit=name, kind=kind)
    for name, shape in rule.tables.items():
        if f"table.{name}" not in read:
            yield _flaw(rule, "table not read", table=name)
            continue
        for column in shape.columns:
            if f"table.{name}.{column}" not in read:
                yield _flaw(rule, "column not read", table=name, column=column)


def _equalities(rule: Rule) -> Iterator[Flaw]:
    scope = scope_of(rule)
    for tree in _trees(rule):
        for node, variables in walk_typed(tree, scope):
            if node[0] != "cmp" or node[1] not in ("eq", "ne"):
                continue
            sides = node[2], node[3]
            one, other = (type_within(side, scope, variables) for side in sides)
            if one.choices and other.choices and not one.choices & other.choices:
                words = {"one": text(sides[0]), "other": text(sides[1])}
                yield _flaw(rule, "never equal", **words, words=_listed(one), others=_listed(other))
            for side in sides if one.number is not None else ():
                if _computed(side, scope, variables):
                    yield _flaw(rule, "hardly ever equal", computed=text(side), compared=text(node))
                    break


def _listed(given: Type) -> str:
    return ", ".join(sorted(given.choices or ()))


def _computed(side: Tree, scope: Scope, variables: Variables) -> bool:
    """Whether a number comes out of a formula or of arithmetic, and is no count."""
    match side:
        case ["calc" | "sum", *_]:
            return True
        case ["call", function, _]:
            return _computed(function, scope, variables)
        case ["get", of, name]:
            owner = type_within(of, scope, variables)
            quantity = REGISTERED.get(f"{owner.thing}.{name}")
            return quantity is not None and quantity.gives != "count"
    return False


def _impossible(rule: Rule) -> Iterator[Flaw]:
    scope = scope_of(rule)
    choices = {
        text(node): given
        for tree in _trees(rule)
        for node, variables in walk_typed(tree, scope)
        if node[0] == "get" and not variables and (given := type_within(node, scope).choices)
    }
    when, require = rule.when_tree, rule.require_tree
    if when is not None and not can_hold(when, choices):
        yield _flaw(rule, "never applies", when=rule.when or "")
    elif not can_hold(require if when is None else ["and", when, require], choices):
        yield _flaw(rule, "never met", require=rule.require)
    elif not can_hold(["not", require] if when is None else ["and", when, ["not", require]], choices):
        yield _flaw(rule, "never fails", require=rule.require)
