"""Every case of every rule, tried by the evaluator that checks sites; every rule tried where something is none."""

from msgspec import Struct

from checker.findings.cases import CaseFault, case_facts
from checker.findings.judge import Compiled, compile_rules, judge
from checker.findings.prove_none import Unguarded, unguarded
from checker.rules import Rulebook
from checker.rules.model import Case, Place


class Failure(Struct, frozen=True):
    """A case that did not come out as it says."""

    rule: str
    case_number: int
    location: Place
    expected: str
    got: str
    why: str


class Proof(Struct, frozen=True):
    """What was tried and what failed."""

    cases: int
    rules: int
    failures: tuple[Failure, ...]
    unguarded: tuple[Unguarded, ...]


def prove(rulebook: Rulebook) -> Proof:
    """Try every case of every rule, and every rule with each thing that may be none recorded as none."""
    rules = sorted(rulebook.rules.values(), key=lambda rule: rule.id)
    compiled = compile_rules(rules)
    failures = [
        failure
        for rule in rules
        for number, case in enumerate(rule.cases, 1)
        if (failure := _tried(compiled[rule.id], number, case)) is not None
    ]
    lacking = [each for rule in rules for each in unguarded(compiled[rule.id])]
    return Proof(sum(len(rule.cases) for rule in rules), len(rules), tuple(failures), tuple(lacking))


def _tried(compiled: Compiled, number: int, case: Case) -> Failure | None:
    rule = compiled.rule
    try:
        facts = case_facts(rule, case)
    except CaseFault as fault:
        return Failure(rule.id, number, case.place, case.outcome, "a case that cannot be tried", str(fault))
    judgement = judge(compiled, facts)
    if judgement.outcome == case.outcome and judgement.because != "rule broke":
        return None
    said = judgement.fault or "; ".join(f"{need.path}: {need.why or need.because}" for need in judgement.needs)
    return Failure(rule.id, number, case.place, case.outcome, judgement.outcome, said)
