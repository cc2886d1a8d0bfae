"""What a finding rests on: the recorded values and the computed quantities that an expression reads."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from decimal import Decimal
from itertools import pairwise
from typing import Any

from checker.findings.result import Figure, Step, StepInput, Used
from checker.findings.values import margin_kind, value
from checker.quantities import Broken, Drawn, Missing, Thing, evidence_of, working_of
from checker.quantities import Step as Computed
from checker.quantities import Used as Recorded
from checker.rules.tree import OVER_A_LIST, Tree, branches
from checker.site import EVIDENCE

WEAKEST_FIRST = EVIDENCE

Read = tuple[Thing, str, tuple[Any, ...]]


def weaker(word: str, wanted: str) -> bool:
    """Whether an evidence word weighs less than another."""
    return WEAKEST_FIRST.index(word) < WEAKEST_FIRST.index(wanted)


Reads = Callable[[Mapping[str, Any]], list[Read]]
"""From the facts of an evaluation to every attribute of a thing that an expression reads of them."""
Resolve = Callable[[Mapping[str, Any]], Any]


def reads(tree: Tree) -> Reads:
    """What an expression reads: each thing, the name, and the arguments of a call. Made once, used for many things."""
    if tree[0] in ("name", "num", "str", "period"):
        return lambda _: []
    if tree[0] == "get" and (chain := _chain(tree)):
        return _along(*chain)
    if tree[0] == "call":
        return _called_with(tree[1][1], tree[1][2], tree[2])
    if tree[0] in OVER_A_LIST:
        return _over_a_list(tree)
    below = [reads(branch) for branch in branches(tree)]
    return below[0] if len(below) == 1 else lambda facts: [read for found in below for read in found(facts)]


def _chain(tree: Tree) -> list[str]:
    """The names of a chain such as room.air_system.flow; none where it begins with something else than a name."""
    names: list[str] = []
    while tree[0] == "get":
        names.append(tree[2])
        tree = tree[1]
    return [tree[1], *reversed(names)] if tree[0] == "name" else []


def _along(first: str, *names: str) -> Reads:
    """What a chain of names reads, the last thing first; nothing where the last that has a name is no thing."""

    def read(facts: Mapping[str, Any]) -> list[Read]:
        holder: Any = facts
        found: list[Read] = []
        for above, name in pairwise((first, *names)):
            holder = _looked_into(holder, above)
            if not isinstance(holder, Thing):
                return []
            found.append((holder, name, ()))
        return found[::-1]

    return read


def _called_with(of: Tree, name: str, arguments: list[Tree]) -> Reads:
    holder, values = resolved(of), [resolved(argument) for argument in arguments]
    of_arguments = [reads(argument) for argument in arguments]

    def read(facts: Mapping[str, Any]) -> list[Read]:
        thing, found = holder(facts), [each for argument in of_arguments for each in argument(facts)]
        if not isinstance(thing, Thing):
            return found
        return [(thing, name, tuple([value(facts) for value in values])), *found]

    return read


def _over_a_list(tree: Tree) -> Reads:
    _, variable, members, condition, body = tree
    each, of_members = resolved(members), reads(members)
    inside = [reads(part) for part in (body, condition) if part is not None]

    def read(facts: Mapping[str, Any]) -> list[Read]:
        found = of_members(facts)
        for member in each(facts) or ():
            inner = {**facts, variable: member}
            found += [one for part in inside for one in part(inner)]
        return found

    return read


def resolved(tree: Tree) -> Resolve:
    """The value of a name, a chain, a literal or a call; None where it is not there or has to be calculated."""
    kind = tree[0]
    if kind == "name":
        return lambda facts: facts.get(tree[1])
    if kind in ("str", "num"):
        value = Decimal(tree[1]) if kind == "num" else tree[1]
        return lambda _: value
    if kind == "get":
        holder, name = resolved(tree[1]), tree[2]
        return lambda facts: _looked_into(holder(facts), name)
    if kind == "call":
        function, values = resolved(tree[1]), [resolved(argument) for argument in tree[2]]
        return lambda facts: _called(function(facts), [value(facts) for value in values])
    return lambda _: None


def _looked_into(holder: Any, name: str) -> Any:
    try:
        return None if holder is None else holder[name]
    except (Missing, Broken, KeyError, TypeError):
        return None


def _called(function: Any, arguments: list[Any]) -> Any:
    try:
        return None if function is None else function(*arguments)
    except (Missing, Broken, TypeError):
        return None


class Ground:
    """What findings rest on: the record and the working behind what was read, looked up once for a whole site."""

    def __init__(self) -> None:
        """Nothing has been looked up yet."""
        self._behind: dict[Read, tuple[Recorded, ...]] = {}
        self._steps: dict[Read, tuple[Computed, ...]] = {}
        self._used: dict[tuple[str, bool], Used] = {}
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
            seen = each.path, each.on_plan
            if seen not in self._used:
                self._used[seen] = _used(each)
            kept.setdefault(each.path, self._used[seen])
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
    if None in arguments or ((name, *arguments) if arguments else name) in thing.gaps:
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
        on_plan=each.on_plan,
    )


def _figure(drawn: Drawn) -> Figure:
    return Figure(
        what=drawn.what,
        room=drawn.room,
        points=drawn.points,
        ends_at=drawn.ends_at,
        targets=drawn.targets,
        between=drawn.between,
    )


def _step(step: Computed) -> Step:
    inputs = []
    for name, found, kind, written in step.inputs:
        made = value(found, kind, written or None)
        if made is not None:
            inputs.append(StepInput(name=name, value=made))
    result, drawn = value(step.value, step.kind), step.drawn
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
        figure=None if drawn is None else _figure(drawn),
    )
