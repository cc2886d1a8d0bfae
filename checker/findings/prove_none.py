"""Every rule tried with each thing that may be none recorded as none: one that asks on, without its guard, breaks."""

from collections.abc import Iterator, Mapping

from msgspec import Struct

from checker.findings.cases import CaseFault, Given, case_facts
from checker.findings.judge import Compiled, Facts, judge
from checker.quantities import kinds
from checker.rules.model import Case, Place, Rule
from checker.rules.tree import Tree, branches, text

Steps = tuple[str, ...]
"""Names that lead to a thing: ("dyno", "capture"). A list among them stands for each of its members."""


class Unguarded(Struct, frozen=True):
    """A rule that breaks where something that may be none is none."""

    rule: str
    location: Place
    group: str
    """As the rule writes it: dyno.capture."""
    guard: str
    """What the rule has to ask first: dyno.has_capture."""
    why: str


def unguarded(compiled: Compiled) -> Iterator[Unguarded]:
    """What a rule asks of without its guard: tried with nothing else recorded, and beside each case that is met."""
    rule = compiled.rule
    for steps, (group, guard) in _groups_read(rule).items():
        for case in (Case({}, "undetermined", None, rule.location), *rule.cases):
            if case.given and case.outcome != "met":
                continue
            try:
                facts = case_facts(rule, case)
            except CaseFault:
                continue  # told as a case that cannot be tried
            _take_out(facts, steps)
            judgement = judge(compiled, facts)
            if judgement.because == "rule broke":
                yield Unguarded(rule.id, rule.location, group, guard, judgement.fault)
                break


def _groups_read(rule: Rule) -> Mapping[Steps, tuple[str, str]]:
    """The things that may be none which a rule asks something of; how it writes each, and its guard."""
    found: dict[Steps, tuple[str, str]] = {}
    for tree in (rule.when_tree, rule.require_tree):
        if tree is not None:
            found |= _groups_in(tree, {rule.each: ((rule.each,), rule.each), "site": (("site",), "site")})
    return found


def _groups_in(tree: Tree, names: Mapping[str, tuple[Steps, str]]) -> dict[Steps, tuple[str, str]]:
    """The same of one tree, whose names lead to things by their steps and are of a kind."""
    found: dict[Steps, tuple[str, str]] = {}
    if tree[0] in ("all", "any", "count", "sum") and (listed := _thing(tree[2], names)):
        names = {**names, tree[1]: listed}
    if tree[0] == "get" and (owner := _thing(tree[1], names)):
        steps, kind = owner
        attribute = kinds()[kind].get(tree[2])
        if attribute is not None and attribute.maybe_none:
            found[*steps, tree[2]] = (text(tree), f"{text(tree[1])}.has_{tree[2]}")
    for branch in branches(tree):
        found |= _groups_in(branch, names)
    return found


def _thing(tree: Tree, names: Mapping[str, tuple[Steps, str]]) -> tuple[Steps, str] | None:
    """The steps to a thing or a list and the kind of it, or of its members; None for what is no thing."""
    match tree:
        case ["name", name]:
            return names.get(name)
        case ["get", of, name] if (owner := _thing(of, names)) is not None:
            attribute = kinds()[owner[1]].get(name)
            if attribute is not None and attribute.thing is not None:
                return (*owner[0], name), attribute.thing
    return None


def _take_out(facts: Facts, steps: Steps) -> None:
    """Record in the facts of a case that there is none of what the steps lead to."""
    first, *way, group = steps
    things: list[Given] = [facts[first]]
    for step in way:
        things = [inner for thing in things for inner in _within(thing, step)]
    for thing in things:
        thing.pop(group, None)
        thing[f"has_{group}"] = False


def _within(thing: Given, step: str) -> list[Given]:
    """The part, or the members of the list, of which the case says something; a first one where it says nothing."""
    attribute = kinds()[thing.kind][step]
    assert attribute.thing is not None
    if attribute.type == "list":
        members = thing.get(step) or (Given(attribute.thing, f"{thing.path}.{step}[0]"),)
        thing[step] = members
        return list(members)
    if attribute.maybe_none:
        thing[f"has_{step}"] = True
    part: Given = thing.setdefault(step, Given(attribute.thing, f"{thing.path}.{step}"))
    return [part]
