"""One finding from what each authority's provision gave for one subject."""

import datetime as dt
from collections.abc import Callable, Mapping

from msgspec import Struct
from msgspec.structs import replace

from checker.findings.evidence import Ground, Read, weaker
from checker.findings.judge import Compiled, Facts, Judgement, facts_for, judge
from checker.findings.margin import Reading as PartRead
from checker.findings.margin import decided
from checker.findings.result import Finding, Location, Need, Subject
from checker.findings.subjects import subject
from checker.findings.told import Grounds, asked_parts, told_parts
from checker.findings.weigh import Demand, provision_result, strictest, weakest
from checker.quantities import READINGS, Reading, Thing
from checker.quantities import Need as Gap
from checker.rules.tree import Tree, walk
from checker.units import Period

Due = Callable[[dt.date, Period], dt.date]


class Setting(Struct, frozen=True):
    """What all findings of one site share."""

    site: Thing
    as_of: dt.date
    due: Due
    ground: Ground
    locate: Callable[[tuple[str | int, ...]], Location | None]
    bad_papers: bool
    """Whether any paper of the site found something unsatisfactory."""
    read: Callable[[Reading, Thing], Thing]
    """A thing as another reading of the floor plans has it."""
    subjects: dict[Thing, Subject]
    """Things as findings name them, made once each."""


def finding_for(setting: Setting, compiled: Compiled, demands: tuple[Demand, ...], thing: Thing) -> Finding:
    """A rule applied to a thing, for every authority that asks."""
    rule = compiled.rule
    if thing not in setting.subjects:
        setting.subjects[thing] = subject(thing, setting.site)
    about, weigh = setting.subjects[thing], setting.bad_papers or rule.evidence is not None
    judgements: dict[int, Judgement] = {}
    rests_on: dict[int, Grounds] = {}
    for number, asked in enumerate(demands):
        facts: Facts = facts_for(rule, thing, setting.site, asked.limits, asked.tables, setting.as_of, setting.due)
        judgement = judge(compiled, facts)
        if judgement.because not in (None, "rule broke") and compiled.on_the_plan:
            judgement, facts = _by_readings(setting, compiled, asked, thing, judgement, facts)
        if judgement.parts:
            asks = asked_parts(compiled, judgement)
            by_part = [read(facts) if asked_for else [] for read, asked_for in zip(compiled.reads, asks, strict=True)]
            rests_on[number] = Grounds(facts, by_part, asks)
            judgement = _weighed(setting.ground, judgement, compiled, by_part) if weigh else judgement
        judgements[number] = judgement
    governs = strictest(demands, judgements, compiled)
    return _made(setting, compiled, demands, about, judgements, governs, rests_on, thing.mark_path)


def _by_readings(
    setting: Setting, compiled: Compiled, asked: Demand, thing: Thing, judgement: Judgement, facts: Facts
) -> tuple[Judgement, Facts]:
    """What comes out where the longest and the shortest reading of the floor plan agree, part by part.

    The reading that is worse for the outcome is shown; what is not known is still needed.
    """
    read = {}
    for reading in READINGS:
        other = setting.read(reading, thing)
        read[reading] = facts_for(
            compiled.rule, other, other["site"], asked.limits, asked.tables, setting.as_of, setting.due
        )
    found = {reading: judge(compiled, read[reading]) for reading in READINGS}
    longest, shortest = (found[reading] for reading in READINGS)
    held = [[part.holds for part in each.parts] for each in (longest, shortest)]
    if longest.outcome not in ("met", "not met") or longest.outcome != shortest.outcome or held[0] != held[1]:
        return judgement, facts
    if longest.outcome == "met":
        return replace(longest, needs=judgement.needs, taken="longest"), read["longest"]
    return replace(shortest, needs=judgement.needs, taken="shortest"), read["shortest"]


def _weighed(ground: Ground, judgement: Judgement, compiled: Compiled, by_part: list[list[Read]]) -> Judgement:
    """The judgement once each part's evidence is weighed.

    A part that rests on evidence weaker than the rule wants is unknown; one that rests on an unsatisfactory paper does
    not hold, however young the paper is.
    """
    least = compiled.rule.evidence
    parts: list[PartRead] = []
    weak: dict[Gap, None] = {}
    for reading, found in zip(judgement.parts, by_part, strict=True):
        how = list(ground.behind(found))
        too_weak = [each for each in how if least is not None and weaker(each.evidence, least)]
        weak |= {Gap(one.path, "evidence too weak", f"{one.evidence}; {least} is wanted"): None for one in too_weak}
        bad_paper = reading.holds and any(each.result == "unsatisfactory" for each in how)
        if too_weak:
            parts.append(replace(reading, holds=None))
        elif bad_paper and not _of_several(reading.spec.tree):
            parts.append(replace(reading, holds=False))
        else:
            parts.append(reading)
    if tuple(parts) == judgement.parts:
        return judgement
    truth, governs = decided(compiled.rule.require_tree, parts)
    if truth is not None:
        return Judgement("met" if truth else "not met", None, tuple(parts), governs, ())
    needs = (*judgement.needs, *weak)
    return Judgement("undetermined", needs[0].because, tuple(parts), governs, needs)


def _of_several(tree: Tree) -> bool:
    """Whether a part counts or seeks among several things, so that one bad paper does not settle it."""
    return any(node[0] in ("any", "count", "sum") for node in walk(tree))


def _made(
    setting: Setting,
    compiled: Compiled,
    demands: tuple[Demand, ...],
    about: Subject,
    judgements: Mapping[int, Judgement],
    governs: int,
    rests_on: Mapping[int, Grounds],
    mark_path: tuple[str | int, ...],
) -> Finding:
    """The finding, with the governing provision's parts at the top. `rests_on`: of each judgement that has parts."""
    rule, judgement, demanded = compiled.rule, judgements[governs], demands[governs]
    found = rests_on[governs].read if governs in rests_on else []
    how = setting.ground.used(found) if found else ()
    told = {
        number: told_parts(compiled, judgements[number], grounds, demands[number].provision)
        for number, grounds in rests_on.items()
        if number == governs or compiled.tells_of_clocks
    }
    parts = told.get(governs, {})
    working = setting.ground.working(found) if found else ()
    status = weakest(demanded.source.status, (step.status for step in working)) if working else demanded.source.status
    decides = None if judgement.governs is None else parts.get(judgement.governs)
    asked = [
        provision_result(each, judgements[number], governs=number == governs, parts=told.get(number, {}))
        for number, each in enumerate(demands)
    ]
    return Finding(
        id=f"{setting.site.id}/{rule.id}/{about.kind}:{about.id}",
        rule=rule.id,
        topic=rule.topic,
        title=rule.title,
        reason=rule.reason,
        subject=about,
        outcome=judgement.outcome,
        because=judgement.because,
        severity=rule.severity,
        measured=decides.measured if decides else None,
        limit=decides.limit if decides else None,
        operator=decides.operator if decides else None,
        margin=decides.margin if decides else None,
        how=how,
        parts=tuple(parts.values()),
        working=working,
        needs=tuple(
            Need(path=need.path, because=need.because, why=need.why, instead=need.instead) for need in judgement.needs
        ),
        provisions=(asked[governs], *asked[:governs], *asked[governs + 1 :]),
        source=demanded.source,
        status=status,
        to_be_confirmed=status == "memory",
        location=setting.locate(mark_path),
        advice=demanded.advice,
        meanwhile=demanded.meanwhile,
        acts=rule.acts,
        closes_with=rule.closes_with,
        photos=tuple(each.photo for each in how if each.photo),
        fault=judgement.fault,
        taken=judgement.taken,
    )


def for_the_list(
    setting: Setting,
    compiled: Compiled,
    demands: tuple[Demand, ...],
    about: Subject,
    needs: tuple[Gap, ...],
) -> Finding:
    """One finding for a list that is absent or open (what is needed), or recorded as none (nothing is needed)."""
    if needs:
        judgement = Judgement("undetermined", needs[0].because, (), None, needs)
    else:
        judgement = Judgement("not applicable", None, (), None, ())
    judgements: dict[int, Judgement] = dict.fromkeys(range(len(demands)), judgement)
    governs = strictest(demands, judgements, compiled)
    return _made(setting, compiled, demands, about, judgements, governs, {}, ())
