"""The parts of a judgement as a finding tells them: without those that nobody asks, with the clocks they tell of."""

from collections.abc import Sequence

from msgspec import Struct

from checker.findings.clocks import clocks_of
from checker.findings.evidence import Read
from checker.findings.judge import Compiled, Facts, Judgement
from checker.findings.margin import Either, Reading, either, shown
from checker.findings.result import Clock, Part
from checker.findings.values import margin_kind, value
from checker.rules.model import Provision
from checker.rules.tree import Tree


class Grounds(Struct, frozen=True):
    """What one judgement was made from."""

    facts: Facts
    by_part: Sequence[list[Read]]
    """What each part reads; nothing for what nobody asks."""
    asked: Sequence[bool]
    """Of each part whether somebody asks it."""

    @property
    def read(self) -> list[Read]:
        """All that was read."""
        return [read for of_part in self.by_part for read in of_part]


def asked_parts(compiled: Compiled, judgement: Judgement) -> tuple[bool, ...]:
    """Of each part whether somebody asks it."""
    return shown(compiled.rule.require_tree, judgement.parts)


def told_parts(compiled: Compiled, judgement: Judgement, grounds: Grounds, provision: Provision) -> dict[int, Part]:
    """The parts that are asked, by their number."""
    ways: Sequence[Either] = ["" for _ in judgement.parts]
    if compiled.offers_ways:
        ways = either(compiled.rule.require_tree, judgement.parts)
    clocks = clocks_of(compiled, judgement.parts, grounds.facts, provision)
    told = enumerate(zip(judgement.parts, grounds.by_part, clocks, ways, strict=True))
    return {
        number: _part(each, provision, read, governs=number == judgement.governs, clock=clock, way=way)
        for number, (each, read, clock, way) in told
        if grounds.asked[number]
    }


def _part(
    reading: Reading, provision: Provision, found: list[Read], *, governs: bool, clock: Clock | None, way: Either
) -> Part:
    """One part of a requirement with its sides as values."""
    spec = reading.spec
    return Part(
        text=spec.text,
        holds=reading.holds,
        operator=spec.operator,
        measured=value(reading.measured, spec.kind, _written(spec.measured, found)),
        limit=value(reading.limit, spec.kind, _limit_written(spec.limit, provision)),
        margin=value(reading.told, margin_kind(spec.kind)),
        governs=governs,
        clock=clock,
        either=way,
    )


def _limit_written(tree: Tree | None, provision: Provision) -> str | None:
    match tree:
        case ["get", ["name", "limit"], name] if name in provision.limit:
            return provision.limit[name].written
    return None


def _written(tree: Tree | None, found: list[Read]) -> str | None:
    """The words of the record, where the measured side is a field that was recorded and not computed."""
    if tree is None or tree[0] != "get":
        return None
    thing = next((thing for thing, name, _ in found if name == tree[2]), None)
    entry = None if thing is None else thing.entries.get(tree[2])
    return entry.written if entry is not None and thing is not None and tree[2] not in thing.working else None
