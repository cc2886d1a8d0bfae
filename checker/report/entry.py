"""One finding in full, in the order a person acts on it: place, what was seen, what is asked, why, what to do."""

from collections import Counter
from collections.abc import Iterator, Sequence

from checker.findings.result import Citation, Finding, ProvisionResult, Remedy, Step, Used, Value
from checker.report.clocks import clock_lines
from checker.report.content import Entry, Row, WorkingStep
from checker.report.looks import look_lines
from checker.report.page import GLUE
from checker.report.parts import not_there, part_lines
from checker.report.path_words import Labels, place_words, spaced
from checker.report.sentences import capital, has, say
from checker.report.words import (
    Country,
    compared,
    margin_words,
    operator_words,
    status_words,
    uncertainty_words,
    value_words,
)
from checker.units import on_grid

_LONGEST_LABEL = 120
_GRANTED = ("why", "interim", "conditions", "paper")


def entry(number: int, finding: Finding, country: Country, details: bool, labels: Labels) -> Entry:
    """The finding in words. The working is there where it is open or wrong, and everywhere with `details`."""
    severity, at = capital(say(f"severity {finding.severity}")), place(finding)
    asked = say(f"asked {finding.outcome}", title=finding.title)
    blank = finding.outcome == "undetermined" and not finding.how and not details
    rows = [*_of_a_blank(finding, labels)] if blank else [*_in_full(finding, country, details, labels)]
    shown = details or finding.outcome in ("not met", "undetermined")
    return Entry(
        id=finding.id,
        number=number,
        severity=finding.severity,
        heading=say("entry", severity=severity, place=at),
        title=asked,
        short=say("entry_short", severity=severity, title=finding.title, place=_own(finding)),
        rows=tuple(row for row in rows if row.lines or row.markdown),
        working=_working(finding.working, country, labels) if shown else (),
        reference=_reference(finding)[: 1 if blank else None],
    )


def _in_full(finding: Finding, country: Country, details: bool, labels: Labels) -> Iterator[Row]:
    yield from _seen(finding, country, labels)
    yield Row(say("label_asked"), tuple(_provision(one, finding, country) for one in _governing_first(finding)))
    yield Row(say("label_why"), (finding.reason,))
    yield from _to_do(finding, country, details)
    yield Row(say("label_proof"), (finding.closes_with,))
    yield from _granted(finding)


def _of_a_blank(finding: Finding, labels: Labels) -> Iterator[Row]:
    """Where nothing at all was recorded: what to look at, who asks, why, and what to do until then."""
    yield Row(say("label_not_seen"), tuple(look_lines(finding, labels)))
    yield Row(say("label_asked"), tuple(_asked_by(one) for one in _governing_first(finding)))
    yield Row(say("label_why"), (finding.reason,))
    yield from _meanwhile(finding)


def _reference(finding: Finding) -> tuple[Row, ...]:
    rule, at = Row(say("label_rule"), (finding.rule,)), finding.location
    return (rule, Row(say("label_location"), (say("location", file=at.file, line=at.line),))) if at else (rule,)


def place(finding: Finding) -> str:
    """The way to the thing, outermost place first."""
    outer = finding.subject.place[:-1]
    return say("place_separator").join((*(label[:_LONGEST_LABEL] for label in outer), _own(finding)))


def _own(finding: Finding) -> str:
    about = finding.subject
    own = about.place[-1] if about.place else about.label
    if own == about.id:
        own = say("thing_unnamed", kind=spaced(about.kind), id=about.id)
    return own[:_LONGEST_LABEL]


def evidence(finding: Finding) -> str:
    """The evidence words a finding rests on, each once."""
    words = dict.fromkeys(used.evidence for used in finding.how)
    return say("list").join(words) if words else say("no_evidence")


def _seen(finding: Finding, country: Country, labels: Labels) -> Iterator[Row]:
    parts = clock_lines(finding, country) or part_lines(finding, country)
    absent = () if parts else (say("recorded_none", name=name) for name in not_there(finding))
    yield Row(say("label_seen"), (*_evidence_lines(finding, country, labels), *absent))
    if finding.outcome == "undetermined":
        yield Row(say("label_not_seen"), tuple(look_lines(finding, labels)))
    if finding.taken:
        yield Row(say("label_taken"), (say(f"taken {finding.taken}"),))
    yield Row(say("label_photos"), finding.photos)
    if _has_numbers(finding.measured, finding.limit):
        measured, limit = compared(finding.measured, finding.limit, country)
        if measured:
            yield Row(say("label_due" if _falls_due(finding) else "label_value"), (measured,))
        if limit and finding.limit and not (measured and _says_what_not(finding)):
            yield Row(say("label_limit"), (operator_words(finding.operator, limit, finding.limit.kind),))
        if finding.margin:
            yield Row(say("label_margin"), (_margin(finding, country),))
    yield Row(say("label_parts"), parts)


def _has_numbers(measured: Value | None, limit: Value | None) -> bool:
    return any(value is not None and value.kind != "answer" for value in (measured, limit))


def _says_what_not(finding: Finding) -> bool:
    """Whether the limit is only the word that was not to be."""
    return finding.operator == "ne" and finding.limit is not None and finding.limit.kind == "word"


def _falls_due(finding: Finding) -> bool:
    """Whether what is compared is a day that must not have passed."""
    return finding.limit is not None and finding.limit.kind == "date" and finding.operator in ("ge", "gt")


def _margin(finding: Finding, country: Country) -> str:
    assert finding.margin
    return margin_words(finding.margin, finding.measured, finding.limit, finding.operator, country)


def _evidence_lines(finding: Finding, country: Country, labels: Labels) -> Iterator[str]:
    groups: dict[str, dict[str, list[str]]] = {}
    for used in finding.how:
        if used.on_plan:
            continue
        of, name = _owner_and_name(used, finding, labels)
        key = "used_uncertain" if used.plus_minus else "named"
        around = uncertainty_words(used.plus_minus, used.value, country) if used.plus_minus else None
        told = say(key, name=name, value=value_words(used.value, None, country), plus_minus=around)
        groups.setdefault(_evidence(used), {}).setdefault(of, []).append(told)
    for known, owners in groups.items():
        values = (_values_of(of, say("list").join(values)) for of, values in owners.items())
        yield say("evidence_used", evidence=capital(known), values=say("parted").join(values))
    on_plan = Counter(used.evidence for used in finding.how if used.on_plan)
    if on_plan:
        counted = (
            say(
                "on_plan_counted" if n != 1 else "on_plan_counted_one", evidence=say("evidence", evidence=word), count=n
            )
            for word, n in on_plan.items()
        )
        yield say("on_plan", values=say("list").join(counted))
    notes: dict[str, dict[str, list[str]]] = {}
    for used in finding.how:
        if used.note and not used.on_plan:
            of, name = _owner_and_name(used, finding, labels)
            notes.setdefault(used.note, {}).setdefault(of, []).append(name)
    for note, owners in notes.items():
        names = (_values_of(of, say("list").join(names)) for of, names in owners.items())
        yield say("used_note", names=say("parted").join(names), note=note)


def _owner_and_name(used: Used, finding: Finding, labels: Labels) -> tuple[str, str]:
    """What a value belongs to, empty for the subject itself, and the value's name, in words."""
    own = f"{finding.subject.path}." if finding.subject.path else ""
    rest = used.path.removeprefix(own)
    if not used.path.startswith(own) or (not own and "[" in rest):
        return used.of, spaced(used.name)
    part, _, name = rest.rpartition(".")
    return place_words(own + part, labels, finding.subject.path) if part else "", spaced(name)


def _values_of(of: str, values: str) -> str:
    return say("used_of", of=of, values=values) if of else values


def _evidence(used: Used) -> str:
    told = say("evidence", evidence=used.evidence)
    if used.result:
        told = say("evidence_found", evidence=told, result=used.result)
    if used.instrument:
        told = say("evidence_with", evidence=told, instrument=used.instrument)
    if used.on:
        told = say("evidence_on", evidence=told, on=used.on.isoformat())
    return say("evidence_by", evidence=told, by=used.by) if used.by else told


def _governing_first(finding: Finding) -> list[ProvisionResult]:
    return sorted(finding.provisions, key=lambda provision: not provision.governs)


def _asked_by(provision: ProvisionResult) -> str:
    key = "provision_where_adopted" if provision.where_adopted else "provision"
    return say(
        key, authority=capital(provision.authority), layer=provision.layer, source=source_words(provision.source)
    )


def _provision(provision: ProvisionResult, finding: Finding, country: Country) -> str:
    told = _asked_by(provision)
    if provision.limit:
        limits = (_limit(name, limit, country) for name, limit in provision.limit.items())
        told = say("provision_asks", provision=told, limits=capital(say("list").join(limits)))
    outcome = say(f"outcome {provision.outcome}")
    if provision.margin:
        decides = next((part for part in provision.parts if part.governs), finding)
        margin = margin_words(provision.margin, decides.measured, decides.limit, decides.operator, country)
        told = say("provision_margin", provision=told, outcome=outcome, margin=margin)
    else:
        told = say("provision_outcome", provision=told, outcome=outcome)
    if provision.does_not_bind:
        told = say(f"provision_does_not_bind {provision.does_not_bind}", provision=told)
    if provision.adopted_edition:
        told = say("provision_edition", provision=told, adopted=provision.adopted_edition)
    if provision.governs and len(finding.provisions) > 1:
        told = say("provision_governs", provision=told)
    return say("provision_note", provision=told, note=provision.source.note) if provision.source.note else told


def _limit(name: str, limit: Value, country: Country) -> str:
    """A limit by its name; what is due every 1 year is due every year."""
    told = value_words(limit, None, country)
    if name == "every":
        told = told.removeprefix(f"1{GLUE}").removeprefix("1 ")
    return say("named", name=spaced(name), value=told)


def source_words(source: Citation) -> str:
    """The source with its clause and how it was read. From memory no clause is shown: it could be quoted."""
    if source.status == "common practice":
        return say("common practice")
    bare = source.status == "memory" or not source.clause
    told = source.citation if bare else say("source_clause", citation=source.citation, clause=source.clause)
    return say("source_status", source=told, status=status_words(source.status, source.read_in))


def _granted(finding: Finding) -> Iterator[Row]:
    """What was granted: a mark; the finding stays not met."""
    for label, held in (("exception", finding.exception), ("accepted_alternative", finding.accepted_alternative)):
        if held is not None:
            until = say("granted_until", until=held.until.isoformat()) if held.until else say("granted_without_end")
            told = [say("granted", by=held.by, authority=held.authority, since=held.since.isoformat(), until=until)]
            told += [say(f"granted_{name}", text=text) for name in _GRANTED if (text := getattr(held, name))]
            yield Row(say(f"label_{label}"), tuple(told))


def _to_do(finding: Finding, country: Country, details: bool) -> Iterator[Row]:
    wrong = finding.outcome == "not met"
    if wrong or details:
        key = f"acts_{finding.acts}"
        acts = say(key if has(key) else "acts", acts=finding.acts)
        yield Row(say("label_do"), (acts,), markdown=finding.advice)
    if finding.remedy:
        yield Row(say("label_remedy"), tuple(_remedy(finding.remedy, finding, country)))
    yield from _meanwhile(finding)


def _meanwhile(finding: Finding) -> Iterator[Row]:
    if finding.meanwhile and finding.outcome in ("not met", "undetermined"):
        wrong = finding.outcome == "not met"
        told = finding.meanwhile if wrong else say("until_known", meanwhile=finding.meanwhile)
        yield Row(say("label_meanwhile"), (), markdown=told)


def _remedy(remedy: Remedy, finding: Finding, country: Country) -> Iterator[str]:
    def words(value: Value) -> str:
        return value_words(value, finding.limit if value.kind == "length" else None, country)

    if remedy.beyond_area and remedy.beyond_share:
        yield say("remedy_beyond", area=words(remedy.beyond_area), share=words(remedy.beyond_share))
    if remedy.place is None or remedy.walk_then is None:
        yield say("remedy_no_place")
        return
    x, y = (words(Value(value=on_grid(each), unit="m", kind="length")) for each in remedy.place)
    yield say("remedy_place", room=remedy.room, x=x, y=y, then=words(remedy.walk_then))


def _working(steps: Sequence[Step], country: Country, labels: Labels) -> tuple[WorkingStep, ...]:
    return tuple(
        WorkingStep(
            say("step", quantity=spaced(step.quantity.partition(".")[2]), subject=place_words(step.subject, labels)),
            tuple(_step_lines(step, country)),
        )
        for step in steps
    )


def _step_lines(step: Step, country: Country) -> Iterator[str]:
    yield say("step_formula", formula=step.formula)
    if step.inputs:
        inputs = (
            say("named", name=spaced(one.name), value=value_words(one.value, None, country)) for one in step.inputs
        )
        yield say("step_inputs", inputs=say("list").join(inputs))
    yield say("step_result", result=value_words(step.result, None, country))
    if step.figure and step.figure.between:
        yield say("step_between", names=step.figure.between)
    yield say("step_source", source=step.source)
    if step.leaves_out:
        yield say("step_leaves_out", leaves_out=step.leaves_out)
