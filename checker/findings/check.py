"""A site, the rules in force, and a day: all findings, and what to know beside them."""

import datetime as dt
import hashlib
import json
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache, partial
from pathlib import Path

from checker.findings.asking import Asking, asked_in_force
from checker.findings.assemble import Setting, finding_for, for_the_list
from checker.findings.due import LAST, ONE, due, judged_on
from checker.findings.evidence import WEAKEST_FIRST, Ground
from checker.findings.exit_code import SEVERITIES
from checker.findings.floor_plans import floor_plans
from checker.findings.granted import grants, marked, stale
from checker.findings.judged import Judged, OfRule
from checker.findings.record import assumed, bad_papers, limits_of_survey, survey_record
from checker.findings.result import (
    Finding,
    Layer,
    Location,
    NotCovered,
    Notice,
    Program,
    Result,
    SiteLabel,
    Summary,
    Valid,
)
from checker.findings.subjects import Subjects, subjects_of, the_rest, whole_list
from checker.findings.weigh import WORST_FIRST, Bound
from checker.quantities import Facts, Missing, Reading, Thing, facts
from checker.quantities import Notice as Differing
from checker.rules import Rulebook
from checker.site.model import Site
from checker.units import KINDS

SCHEMA = "https://dyno-facility-checker.example/schema/result-1.json"
PROGRAM = "dyno-facility-checker"


def check(
    site: Site,
    rulebook: Rulebook,
    *,
    region: str | None,
    as_of: dt.date,
    program_version: str,
    kept: Path | None = None,
) -> Result:
    """All findings of a site. Raises NoRegion where neither the caller nor the site names a region.

    Answers about floor plans are kept in the folder `kept` for the next time, if one is given.
    """
    return judged(
        site, rulebook, region=region, as_of=as_of, program_version=program_version, kept=kept, before=None
    ).result


def judged(
    site: Site,
    rulebook: Rulebook,
    *,
    region: str | None,
    as_of: dt.date,
    program_version: str,
    kept: Path | None,
    before: Judged | None,
) -> Judged:
    """As `check`. Findings of rules of which nothing has changed are taken from what was found `before`.

    That was found in the very same site, on the same day, with the same layers laid on the same region.
    """
    known = facts(site, kept=kept)
    asked = region or _region_of(known)
    held = rulebook.held_region(asked)
    found = _by_rule(site, known, rulebook, region=held, as_of=as_of, kept=kept, before=before)
    findings = _in_order(site, rulebook, as_of, found)
    held_grants = grants(site, rulebook.rules)
    turns = {day for _, of_rule in found.values() for day in of_rule.turns}
    turns.update(day for grant in held_grants for day in grant.turns())
    chain = rulebook.chain(held)
    result = Result(
        schema_=SCHEMA,
        program=Program(name=PROGRAM, version=program_version),
        site=SiteLabel(id=site.id, name=_text(site, "name"), address=_text(site, "address"), file=site.document.file),
        site_digest=hashlib.sha256(json.dumps(site.document.data, sort_keys=True).encode()).hexdigest(),
        region=held,
        as_of=as_of,
        valid=_valid(rulebook, as_of, turns),
        decision="simple",
        layers=tuple(
            Layer(name=layer.name, title=layer.title, version=layer.version, digest=layer.digest) for layer in chain
        ),
        summary=summary(findings),
        survey=survey_record(site),
        limits_of_survey=limits_of_survey(site),
        assumed=assumed(site),
        notices=(*_notices(known, str(asked), held), *stale(held_grants, findings, as_of, rulebook.rules)),
        not_covered=tuple(
            NotCovered(layer=layer.name, topic=gap.topic, authority=gap.authority, asks=gap.asks, why=gap.why)
            for layer in chain
            for gap in layer.not_held
        ),
        findings=findings,
        storeys=floor_plans(known),
    )
    return Judged(result, {rule: of_rule for rule, (_, of_rule) in found.items()})


def findings_of(
    site: Site, known: Facts, rulebook: Rulebook, *, region: str, as_of: dt.date, kept: Path | None = None
) -> tuple[Finding, ...]:
    """The findings alone, worst first: all of a check that another edition of the rules can change.

    `known` are the facts of the site, which serve any number of rulebooks; `region` is one that the rulebook holds.
    """
    found = _by_rule(site, known, rulebook, region=region, as_of=as_of, kept=kept, before=None)
    return _in_order(site, rulebook, as_of, found)


def _in_order(
    site: Site, rulebook: Rulebook, as_of: dt.date, found: Mapping[str, tuple[Sequence[Finding], OfRule]]
) -> tuple[Finding, ...]:
    held = grants(site, rulebook.rules)
    return tuple(sorted((marked(one, held, as_of) for findings, _ in found.values() for one in findings), key=_order))


def _by_rule(
    site: Site,
    known: Facts,
    rulebook: Rulebook,
    *,
    region: str,
    as_of: dt.date,
    kept: Path | None,
    before: Judged | None,
) -> Mapping[str, tuple[Sequence[Finding], OfRule]]:
    """The findings of each rule in force, taken from `before` where they rest on the same."""
    turns: set[dt.date] = set()
    setting = Setting(
        known.site,
        judged_on(as_of, turns),
        due,
        Ground(),
        _locator(site),
        bad_papers(site),
        _reader(site, kept),
        {},
    )
    of_kind = cache(partial(subjects_of, known))
    found: dict[str, tuple[Sequence[Finding], OfRule]] = {}
    for asking in asked_in_force(rulebook, region, as_of, _bound(site)):
        rule, rests_on = asking.compiled.rule, asking.rests_on
        taken = before.findings(rule.id, rests_on) if before else None
        if before is not None and taken is not None:
            found[rule.id] = taken, before.rules[rule.id]
            continue
        turns.clear()
        made = list(_findings(of_kind(rule.each), setting, asking))
        found[rule.id] = made, OfRule(rests_on, tuple(sorted(turns)))
    return found


def _reader(site: Site, kept: Path | None) -> Callable[[Reading, Thing], Thing]:
    """Finds a thing again among the facts of another reading of the floor plans, which are made when first asked."""

    @cache
    def things(reading: Reading, kind: str) -> dict[str, Thing]:
        return {thing.path: thing for thing in other(reading).things(kind)}

    @cache
    def other(reading: Reading) -> Facts:
        return facts(site, reading, kept)

    return lambda reading, thing: things(reading, thing.kind)[thing.path]


def _findings(found: Subjects, setting: Setting, asking: Asking) -> Iterator[Finding]:
    compiled, site = asking.compiled, setting.site
    kind = compiled.rule.each
    path = found.missing[0].path if found.missing else kind
    if found.absent:
        yield for_the_list(setting, compiled, asking.usual, whole_list(site, path), found.missing)
        return
    if found.none:
        yield for_the_list(setting, compiled, asking.usual, whole_list(site, f"{kind}s"), ())
    for thing in found.things:
        yield finding_for(setting, compiled, asking.of(thing), thing)
    if found.missing:
        yield for_the_list(setting, compiled, asking.usual, the_rest(kind, site, path), found.missing)


def summary(findings: tuple[Finding, ...]) -> Summary:
    """The counts of a result."""
    outcomes = Counter(finding.outcome for finding in findings)
    met = [finding for finding in findings if finding.outcome == "met"]
    by_evidence = Counter(_weakest(finding) for finding in met)

    def severities(outcome: str) -> dict[str, int]:
        counted = Counter(finding.severity for finding in findings if finding.outcome == outcome)
        return {severity: counted[severity] for severity in SEVERITIES}

    return Summary(
        met=outcomes["met"],
        not_met=outcomes["not met"],
        undetermined=outcomes["undetermined"],
        not_applicable=outcomes["not applicable"],
        broken=sum(finding.because == "rule broke" for finding in findings),
        not_met_by_severity=severities("not met"),
        undetermined_by_severity=severities("undetermined"),
        met_by_evidence={word: by_evidence[word] for word in reversed(WEAKEST_FIRST) if by_evidence[word]},
        excepted=sum(bool(finding.exception or finding.accepted_alternative) for finding in findings),
        to_be_confirmed=sum(finding.to_be_confirmed for finding in met),
    )


def _weakest(finding: Finding) -> str:
    """The weakest evidence a finding rests on; what rests on the record itself (there is none) counts as told."""
    return min((used.evidence for used in finding.how), key=WEAKEST_FIRST.index, default="told")


def _order(finding: Finding) -> tuple[int, int, str, str]:
    return WORST_FIRST.index(finding.outcome), SEVERITIES.index(finding.severity), finding.rule, finding.subject.path


def _region_of(known: Facts) -> str | None:
    try:
        return str(known.site["region"])
    except Missing:
        return None


def _text(site: Site, name: str) -> str | None:
    return getattr(getattr(site, name), "written", None)


def _bound(site: Site) -> Bound:
    """What the site records of what binds it."""
    employer = getattr(site.employer, "value", None)
    adopted = None
    if isinstance(site.adopted, tuple):
        adopted = tuple(
            (str(getattr(each.code, "value", "")), getattr(each.edition, "written", None)) for each in site.adopted
        )
    return Bound(adopted, employer if isinstance(employer, bool) else None)


def _locator(site: Site) -> Callable[[tuple[str | int, ...]], Location | None]:
    document = site.document

    @cache
    def locate(path: tuple[str | int, ...]) -> Location | None:
        mark = document.mark(path)
        return Location(file=document.file, line=mark.line, column=mark.column)

    return locate


def _notices(known: Facts, asked: str, held: str) -> Iterator[Notice]:
    if asked != held:
        yield Notice(kind="region not held", about="region", values={"asked": asked, "used": held})
    for fault in known.floor_faults:
        yield Notice(kind="floor plan", about=fault.path, values={"says": fault.says})
    for notice in known.notices:
        yield Notice(kind="recorded and computed differ", about=notice.path, values=_spoken(notice))


def _spoken(notice: Differing) -> dict[str, str]:
    """What differs, in words and, for who writes it in other units, as values in SI with what each is known by."""
    told = {"says": notice.says, "kind": notice.kind, "unit": KINDS[notice.kind].si}
    for number, each in enumerate(notice.spoken):
        name = f"other_{number}" if number else "taken"
        told |= {name: f"{each.value:f}", f"{name}_by": each.by}
        if each.written:
            told[f"{name}_written"] = each.written
    return told


def _valid(rulebook: Rulebook, as_of: dt.date, turns: set[dt.date]) -> Valid:
    """The days over which no comparison with the day turns and no provision begins or ends."""
    for provision in rulebook.all_provisions:
        turns |= {provision.from_} if provision.from_ else set()
        turns |= {provision.until + ONE} if provision.until and provision.until < LAST else set()
    first = max((day for day in turns if day <= as_of), default=None)
    following = min((day for day in turns if day > as_of), default=None)
    return Valid(first=first, until=None if following is None else following - ONE)
