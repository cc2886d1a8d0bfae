"""What a finding rests on: the recorded values and the computed quantities that an expression reads."""

from collections.abc import Iterator, Mapping
from typing import Any

from checker.findings.result import Step, StepInput, Used
from checker.findings.values import margin_kind, value
from checker.quantities import Broken, Missing, Thing, evidence_of, working_of
from checker.quantities import Step as Computed
from checker.quantities import Used as Recorded
from checker.rules.tree import OVER_A_LIST, Tree, branches

WEAKEST_FIRST = ("assumed", "estimated", "told", "drawing", "read", "seen", "paper", "measured", "tested")

Read = tuple[Thing, str, tuple[Any, ...]]


def weaker(word: str, wanted: str) -> bool:
    """Whether an evidence word weighs less than another."""
    return WEAKEST_FIRST.index(word) < WEAKEST_FIRST.index(wanted)


def reads(tree: Tree, facts: Mapping[str, Any]) -> Iterator[Read]:
    """Every attribute of a thing that an expression reads: the thing, the name, and the arguments of a call."""
    match tree:
        case ["get", of, name]:
            thing = _resolved(of, facts)
            if isinstance(thing, Thing):
                yield thing, name, ()
                yield from reads(of, facts)
        case ["call", ["get", of, name], arguments]:
            thing = _resolved(of, facts)
            if isinstance(thing, Thing):
                yield thing, name, tuple(_resolved(argument, facts) for argument in arguments)
            for argument in arguments:
                yield from reads(argument, facts)
        case [word, variable, members, condition, body] if word in OVER_A_LIST:
            yield from reads(members, facts)
            for member in _resolved(members, facts) or ():
                inner = {**facts, variable: member}
                yield from reads(body, inner)
                if condition is not None:
                    yield from reads(condition, inner)
        case _:
            for branch in branches(tree):
                yield from reads(branch, facts)


def _resolved(tree: Tree, facts: Mapping[str, Any]) -> Any:
    """The value of a name, a chain, a literal or a table's cell; None where it is not there."""
    try:
        match tree:
            case ["name", name]:
                return facts.get(name)
            case ["get", of, name]:
                holder = _resolved(of, facts)
                return None if holder is None else holder[name]
            case ["str", word]:
                return word
            case ["call", function, arguments]:
                called = _resolved(function, facts)
                return None if called is None else called(*(_resolved(argument, facts) for argument in arguments))
    except (Missing, Broken, KeyError, TypeError):
        return None
    return None


def used(found: list[Read]) -> tuple[Used, ...]:
    """The recorded values behind what was read, each once."""
    kept: dict[str, Used] = {}
    for thing, name, arguments in found:
        if None in arguments:
            continue
        try:
            recorded = evidence_of(thing, name, arguments)
        except (Missing, Broken):
            continue
        for each in recorded:
            kept.setdefault(each.path, _used(each))
    return tuple(kept.values())


def _used(each: Recorded) -> Used:
    made = value(each.value, each.kind or "", each.written)
    assert made is not None
    return Used(
        path=each.path,
        of=each.of,
        name=each.path.rpartition(".")[2],
        value=made,
        evidence=each.evidence,
        on=each.on,
        by=each.by,
        instrument=each.instrument,
        plus_minus=value(each.plus_minus, margin_kind(each.kind or "")),
        note=each.note,
        photo=each.photo,
        result=each.result,
    )


def working(found: list[Read]) -> tuple[Step, ...]:
    """The steps of every computed quantity behind what was read, each once, inputs before what they give."""
    kept: dict[tuple[str, str, str], Step] = {}
    for thing, name, arguments in found:
        if None in arguments:
            continue
        try:
            steps = working_of(thing, name, arguments)
        except (Missing, Broken):
            continue
        for step in steps:
            kept.setdefault((step.quantity, step.path, str(step.inputs)), _step(step))
    return tuple(kept.values())


def _step(step: Computed) -> Step:
    inputs = []
    for name, found, kind, written in step.inputs:
        made = value(found, kind, written or None)
        if made is not None:
            inputs.append(StepInput(name=name, value=made))
    result = value(step.value, step.kind)
    assert result is not None
    return Step(
        quantity=step.quantity,
        subject=step.path,
        formula=step.formula,
        inputs=tuple(inputs),
        result=result,
        source=step.source,
        leaves_out=step.leaves_out,
    )
