"""What a finding rests on: the recorded values and the computed quantities that an expression reads."""

from collections.abc import Callable, Iterable, Iterator, Mapping
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


class Ground:
    """What findings rest on: the record and the working behind what was read, looked up once for a whole site."""

    def __init__(self) -> None:
        """Nothing has been looked up yet."""
        self._behind: dict[Read, tuple[Recorded, ...]] = {}
        self._steps: dict[Read, tuple[Computed, ...]] = {}
        self._used: dict[str, Used] = {}
        self._made: dict[int, Step] = {}

    def behind(self, found: Iterable[Read]) -> Iterator[Recorded]:
        """The recorded values behind what was read, one reading after the other."""
        for read in found:
            if read not in self._behind:
                self._behind[read] = _looked_up(evidence_of, read)
            yield from self._behind[read]

    def used(self, found: Iterable[Read]) -> tuple[Used, ...]:
        """The recorded values behind what was read, each once."""
        kept: dict[str, Used] = {}
        for each in self.behind(found):
            if each.path not in self._used:
                self._used[each.path] = _used(each)
            kept.setdefault(each.path, self._used[each.path])
        return tuple(kept.values())

    def working(self, found: Iterable[Read]) -> tuple[Step, ...]:
        """The steps of every computed quantity behind what was read, each once, inputs before what they give."""
        kept: dict[int, Step] = {}
        for read in found:
            if read not in self._steps:
                self._steps[read] = _looked_up(working_of, read)
            for step in self._steps[read]:
                if id(step) not in self._made:
                    self._made[id(step)] = _step(step)
                kept[id(step)] = self._made[id(step)]
        return tuple(kept.values())


def _looked_up(look_up: Callable[..., tuple[Any, ...]], read: Read) -> tuple[Any, ...]:
    thing, name, arguments = read
    if None in arguments:
        return ()
    try:
        return look_up(thing, name, arguments)
    except (Missing, Broken):
        return ()


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
        status=step.status,
        leaves_out=step.leaves_out,
    )
