"""How a registered quantity is computed for one thing: inputs fetched, formula called, result kept with its working."""

from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from checker.quantities.missing import Broken, Missing, Need, OutsideRange
from checker.quantities.paths import Path, PathStep
from checker.quantities.registry import REGISTERED, Bounds, Quantity, Way
from checker.quantities.shapes import shapes
from checker.quantities.things import OpenList, Reader, Thing
from checker.quantities.working import Computed, Drawn, Leaf, Step, Value
from checker.units import KINDS, on_grid

STRONG = frozenset({"measured", "tested", "paper"})
"""Evidence that weighs more than a computation."""


def computed(known: Quantity) -> Reader:
    """The reader of a quantity that cannot be recorded."""

    def read(thing: Thing) -> Value:
        thing.working[known.attribute] = made = compute(thing, known)
        return made.value

    return read


def recorded_or_computed(known: Quantity, recorded: Reader) -> Reader:
    """The reader of a quantity that can be recorded as well: strong evidence, then the computation, then the rest."""
    name = known.attribute

    def read(thing: Thing) -> Any:
        if name in thing.entries and thing.evidence(name) in STRONG:
            return recorded(thing)
        try:
            made = compute(thing, known)
        except Missing as missing:
            if name in thing.entries:
                return recorded(thing)
            also = (thing.at(name),)
            raise Missing.of(*(replace(need, instead=need.instead + also) for need in missing.needs)) from None
        thing.working[name] = made
        return made.value

    return read


def called(known: Quantity) -> Reader:
    """The reader of a quantity with arguments: it gives the function of them."""

    def read(thing: Thing) -> Any:
        def call(*args: Decimal | str) -> Value:
            key = (known.attribute, *args)
            if key in thing.gaps:
                raise Missing.of(*thing.gaps[key])
            if key not in thing.working:
                try:
                    thing.working[key] = compute(thing, known, args)
                except Missing as missing:
                    thing.gaps[key] = missing.needs
                    raise
            return thing.working[key].value

        return call

    return read


def compute(thing: Thing, known: Quantity, args: tuple[Decimal | str, ...] = ()) -> Computed:
    """The quantity by the first way whose inputs are there.

    Raises Missing with what the first way needs, and what the others would need in its place. A way whose inputs are
    all there, though its formula does not hold for them, speaks before one that lacks some.
    """
    failures: list[Missing] = []
    for way in known.ways:
        try:
            return by_way(way, thing, known, args)
        except Missing as missing:
            failures.append(missing.alone)
    apart = (each for each in failures if all(need.because == "outside range" for need in each.needs))
    first = next(apart, failures[0])
    instead = tuple(need.path for other in failures if other is not first for need in other.needs)
    raise Missing.of(*(replace(need, instead=need.instead + instead) for need in first.needs))


class _Input(Struct):
    """What one declared path led to."""

    path: Path
    leaves: list[Leaf]
    beside: list[Leaf]
    """What chose among the members of a list."""
    values: list[Any]
    """Before rounding; with gaps allowed, a Missing may stand in for one."""

    @property
    def argument(self) -> Any:
        """What the formula is given."""
        numbers = [_for_formula(value) for value in self.values]
        return numbers if self.path.many else numbers[0]


def by_way(way: Way, thing: Thing, known: Quantity, args: tuple[Decimal | str, ...] = ()) -> Computed:
    """The quantity by one of its ways. Raises Missing."""
    inputs = _fetched(way, thing)
    given = {argument.name: value for argument, value in zip(known.arguments, args, strict=True)}
    numbers = {label: each.argument for label, each in inputs.items()}
    numbers |= {name: _for_formula(value) for name, value in given.items()}
    outside = [
        need for label, bounds in way.range.items() for need in _outside(label, bounds, numbers, inputs, thing, known)
    ]
    if outside:
        raise Missing.of(*outside)
    try:
        result = _applied(way, known, numbers)
        value = result if known.gives == "answer" else on_grid(result)
    except OutsideRange as refusal:
        raise Missing.of(_refused(thing, inputs, str(refusal))) from None
    except (ArithmeticError, ValueError, TypeError) as fault:
        raise Missing.of(_refused(thing, inputs, f"{known.name} has no value for these numbers")) from fault
    step = _step(way, thing, known, inputs, given, value)
    if isinstance(result, Drawn):
        step = replace(step, drawn=result)
    return Computed(
        value, result, step, tuple(leaf for each in inputs.values() for leaf in (*each.leaves, *each.beside))
    )


def _applied(way: Way, known: Quantity, numbers: dict[str, Any]) -> Any:
    plan = numbers.get("plan")
    if plan is None:
        return way.function(**numbers)
    from checker.quantities.kept import measured

    return measured(known, way, plan, numbers)


def _refused(thing: Thing, inputs: dict[str, _Input], why: str) -> Need:
    first = next(iter(inputs.values())).path.steps[0].name
    return Need(thing.at(first), "outside range", why)


def _outside(
    label: str, bounds: Bounds, numbers: dict[str, Any], inputs: dict[str, _Input], thing: Thing, known: Quantity
) -> Iterator[Need]:
    each = inputs.get(label)
    places = [owner.at(name) for owner, name in each.leaves] if each else [thing.at(known.attribute)]
    values = numbers[label] if each and each.path.many else [numbers[label]]
    for place, number in zip(places, values, strict=True):
        if not bounds.hold(number):
            why = f"{known.name} holds for {label.replace('_', ' ')} {bounds}"
            yield Need(place, "outside range", why)


def _exact(owner: Thing, name: str) -> Any:
    """A fact before rounding, so that a chain of formulas rounds once, at its end."""
    value = owner[name]
    if name in owner.working:
        return owner.working[name].exact
    return owner.entries[name].value if isinstance(value, Decimal) else value


def _for_formula(value: Any) -> Any:
    if isinstance(value, Decimal):
        return float(value)
    if isinstance(value, tuple):
        return tuple(_for_formula(part) for part in value)
    return value


def _fetched(way: Way, thing: Thing) -> dict[str, _Input]:
    """All inputs of a way. Raises one Missing that names every one that is not there."""
    inputs: dict[str, _Input] = {}
    gaps: list[Missing] = []
    for label, path in way.inputs.items():
        inputs[label] = each = _Input(path, [], [], [])
        missed = each.values if path.gaps else gaps
        leaves = ((thing, path.steps[0].name),) if path.near else _leaves(thing, path.steps, missed, each.beside)
        for owner, name in leaves:
            try:
                each.values.append(_exact(owner, name))
                each.leaves.append((owner, name))
            except Missing as missing:
                missed.append(missing.alone)
            except Broken:
                why = f"{owner.path.rpartition('.')[2].replace('_', ' ')} was recorded as none"
                gaps.append(Missing(owner.at(name), "outside range", why))
    if gaps:
        raise Missing.together(gaps)
    return inputs


def _of_none(thing: Thing, name: str) -> Missing:
    return Missing(thing.at(name), "outside range", f"{thing.path} was recorded as none")


def _leaves(thing: Thing, steps: tuple[PathStep, ...], gaps: list[Any], beside: list[Leaf]) -> Iterator[Leaf]:
    """The facts a path leads to. What is not there on the way is put in `gaps`; so is what a list may hold beside."""
    step, rest = steps[0], steps[1:]
    if not rest:
        yield thing, step.name
        return
    try:
        found = thing[step.name]
    except Missing as missing:
        gaps.append(missing.alone)
        return
    except Broken:
        gaps.append(_of_none(thing, step.name))
        return
    if not step.each:
        yield from _leaves(found, rest, gaps, beside)
        return
    for member in found:
        if not step.where or _chosen(member, step.where, gaps, beside):
            yield from _leaves(member, rest, gaps, beside)
    if isinstance(found, OpenList):
        gaps.append(Missing.of(found.open_because))


def _chosen(member: Thing, where: tuple[tuple[str, str | bool], ...], gaps: list[Any], beside: list[Leaf]) -> bool:
    """Whether each field holds what it has to; one that does not leaves the member out, whatever is not known."""
    unknown: list[Missing] = []
    for name, held in where:
        try:
            chosen = member[name] == held
        except Missing as missing:
            unknown.append(missing.alone)
            continue
        beside.append((member, name))
        if not chosen:
            return False
    gaps += unknown
    return not unknown


def _step(
    way: Way,
    thing: Thing,
    known: Quantity,
    inputs: dict[str, _Input],
    given: dict[str, Decimal | str],
    value: Value,
) -> Step:
    lines = [line for label, each in inputs.items() for line in _input_lines(label, each)]
    for argument in known.arguments:
        lines.append((_words(argument.name), given[argument.name], argument.kind, ""))
    return Step(
        known.name,
        way.formula,
        tuple(lines),
        value,
        known.gives,
        _si(known.gives),
        way.source,
        way.status,
        way.leaves_out,
        thing.path,
    )


def _input_lines(label: str, each: _Input) -> Iterator[tuple[str, Value, str, str]]:
    for owner, name in each.leaves:
        entry = None if name in owner.working else owner.entries.get(name)
        of = f" of {owner.label}" if each.path.many else ""
        yield f"{_words(label)}{of}", owner[name], kind_of(owner, name) or "", entry.written if entry else ""


def kind_of(thing: Thing, name: str) -> str | None:
    """The kind of a number that a fact is; None where it is none."""
    known = REGISTERED.get(f"{thing.kind}.{name}")
    if known is not None:
        return known.gives
    field = shapes()[thing.kind].fields.get(name)
    return field.quantity_kind if field else None


def _si(kind: str | None) -> str:
    return KINDS[kind].si if kind is not None and kind in KINDS else ""


def _words(label: str) -> str:
    return label.replace("_", " ")
