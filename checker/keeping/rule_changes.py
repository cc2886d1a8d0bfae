"""What changed in a rule itself: its words, what it asks of what, and its cases."""

import re
from collections.abc import Iterator, Sequence
from typing import Any, Final, get_args

from msgspec.structs import replace

from checker.findings.cases import CaseFault, case_facts
from checker.findings.judge import compile_rules, judge
from checker.keeping.changes import Change, How, Part, Trial, Tried
from checker.rules.model import Case, Rule
from checker.rules.tree import MIRRORED, NEGATED, Tree
from checker.vocabulary import Evidence, Outcome, Severity

WORDS: Final = ("title", "reason", "acts", "closes_with", "advice", "meanwhile")
EXPRESSIONS: Final = ("each", "when", "require")
SEVEREST_FIRST: Final[tuple[str, ...]] = get_args(Severity)
WEAKEST_FIRST: Final[tuple[str, ...]] = get_args(Evidence)
_STRICTNESS: Final[dict[Outcome, int]] = {"not applicable": 0, "met": 0, "undetermined": 1, "not met": 2}
_SENTENCE: Final = re.compile(r"(?<=[.!?:])\s+|\n+")


def rule_changes(old: Rule, new: Rule, *, asked: bool) -> Iterator[Change]:
    """Each change of a rule. Where nobody asks the rule, in neither edition, no site gets another outcome by it."""
    first: Part = 1 if asked else 2
    base = Change("words", "field", new.layer, new.id, 2, was_at=old.location, at=new.location)
    if old.id != new.id:
        yield replace(base, what="name", before=old.id, after=new.id)
    if old.layer != new.layer:
        yield replace(base, what="layer of rule", before=old.layer, after=new.layer)
        yield replace(base, what="layer of rule", before=old.layer, after=new.layer, layer=old.layer)
    yield from _asks(old, new, replace(base, how="changed", part=first))
    if old.severity != new.severity:
        milder = SEVEREST_FIRST.index(new.severity) > SEVEREST_FIRST.index(old.severity)
        how: How = "relaxed" if milder else "tightened"
        yield replace(base, how=how, what="severity", part=first, before=old.severity, after=new.severity)
    if old.evidence != new.evidence:
        how = "tightened" if _wants(new) > _wants(old) else "relaxed"
        before, after = old.evidence or "", new.evidence or ""
        yield replace(base, how=how, what="evidence", part=first, before=before, after=after)
    for name in WORDS:
        before, after = getattr(old, name), getattr(new, name)
        if before != after:
            yield replace(base, name=name, before=_only(before, after), after=_only(after, before))
    yield from _case_changes(old, new, replace(base, how="cases", what="case"))


def _wants(rule: Rule) -> int:
    return -1 if rule.evidence is None else WEAKEST_FIRST.index(rule.evidence)


def _only(text: str, other: str) -> str:
    """The sentences of a text that the other does not have; the whole where that leaves nothing to tell them apart."""
    others = set(_SENTENCE.split(other))
    own = [sentence for sentence in _SENTENCE.split(text) if sentence not in others]
    if own or others - set(_SENTENCE.split(text)):
        return " … ".join(own)
    return text


def _asks(old: Rule, new: Rule, base: Change) -> Iterator[Change]:
    """Changes of what is asked of what: `base` says that some site may get another outcome."""
    same = old.each == new.each and all(
        _plain(one) == _plain(other)
        for one, other in ((old.when_tree, new.when_tree), (old.require_tree, new.require_tree))
    )
    tried = None if same else trial(old, new)
    other = [name for name in EXPRESSIONS if getattr(old, name) != getattr(new, name)]
    for name in other:
        here = replace(base, name=name, before=getattr(old, name) or "", after=getattr(new, name) or "")
        if tried is None:
            yield replace(here, how="words", what="form", part=2)
        else:
            yield replace(here, how=_way(tried), what="expression", trial=tried if name == other[-1] else None)
    for what, kinds_old, kinds_new in (
        ("limit kind", old.limit, new.limit),
        ("column kind", _columns(old), _columns(new)),
    ):
        for name in sorted({*kinds_old, *kinds_new}):
            before, after = kinds_old.get(name, ""), kinds_new.get(name, "")
            if before != after:
                yield replace(base, what=what, name=name, before=before, after=after)


def _columns(rule: Rule) -> dict[str, str]:
    return {
        f"{table}.{name}": kind
        for table, shape in rule.tables.items()
        for name, kind in (*shape.keys.items(), *shape.columns.items())
    }


def _plain(tree: Tree | None) -> Any:
    """A tree with each comparison turned one way, so that `a <= b`, `b >= a` and `not a > b` are one."""
    match tree:
        case ["not", ["not", inner]]:
            return _plain(inner)
        case ["not", ["cmp", op, left, right]]:
            return _plain(["cmp", NEGATED[op], left, right])
        case ["cmp", "gt" | "ge" as op, left, right]:
            return _plain(["cmp", MIRRORED[op], right, left])
    return [_plain(part) if isinstance(part, list) else part for part in tree] if tree is not None else None


def trial(old: Rule, new: Rule) -> Trial:
    """The cases of both editions of a rule, each tried by both."""
    one, other = (compile_rules([rule])[rule.id] for rule in (old, new))
    otherwise, alike, not_tried = [], 0, 0
    own = [case for case in new.cases if not any(_given(case) == _given(known) for known in old.cases)]
    for of_old, rule, cases in ((True, old, old.cases), (False, new, own)):
        for case in cases:
            try:
                before, after = (judge(each, case_facts(each.rule, case)).outcome for each in (one, other))
            except CaseFault:
                not_tried += 1
                continue
            if before == after:
                alike += 1
            else:
                otherwise.append(Tried(rule.cases.index(case) + 1, of_old, case.place, before, after))
    return Trial(tuple(otherwise), alike, not_tried)


def _way(tried: Trial) -> How:
    """Which way a change of an expression goes, as far as cases show it."""
    moves = {_STRICTNESS[each.after] - _STRICTNESS[each.before] for each in tried.otherwise}
    if not moves or tried.not_tried:
        return "changed"
    if min(moves) > 0:
        return "tightened"
    return "relaxed" if max(moves) < 0 else "changed"


def _given(case: Case) -> object:
    return dict(case.given), case.as_of


def _case_changes(old: Rule, new: Rule, base: Change) -> Iterator[Change]:
    """Cases by what they give: those that came, those that went, those that now say another outcome."""
    for number, case in enumerate(old.cases, 1):
        found = _like(case, new.cases)
        if found is None:
            yield replace(base, name=str(number), before=case.outcome, was_at=case.place, at=None)
        elif found.outcome != case.outcome:
            yield replace(
                base, name=str(number), before=case.outcome, after=found.outcome, was_at=case.place, at=found.place
            )
    for number, case in enumerate(new.cases, 1):
        if _like(case, old.cases) is None:
            yield replace(base, name=str(number), after=case.outcome, was_at=None, at=case.place)


def _like(case: Case, cases: Sequence[Case]) -> Case | None:
    return next((each for each in cases if _given(each) == _given(case)), None)
