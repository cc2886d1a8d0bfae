"""The whole report of a site in words: what is wrong, not known, fine and not covered, never mixed; then the rest."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import TypeAlias

from msgspec.structs import replace

from checker.findings.exit_code import SEVERITIES
from checker.findings.result import Finding, NotCovered, Result
from checker.report.content import Caution, Content, Items, Paragraph, Part, Row, Section
from checker.report.entry import entry, evidence, place
from checker.report.head import head, title
from checker.report.path_words import Labels, labels_of
from checker.report.plan_content import floor_plans, seen_on
from checker.report.sentences import has, say
from checker.report.tail import tail
from checker.report.unknown import unknown
from checker.report.words import Country, compared, country_of, margin_words, operator_words

Seen: TypeAlias = Mapping[str, tuple[str, ...]]
"""By the id of a finding, where on a floor plan that is drawn which it measured."""


def content(result: Result, details: bool) -> Content:
    """The report. `details` shows the full working of what is fine as well, and what does not apply."""
    country = country_of(result.region)
    plans = floor_plans(result)
    seen = seen_on(plans)
    labels = labels_of(result)
    blocks = [
        _block("wrong", _of(result, "not met"), lambda found: _entries(found, country, details, seen, labels)),
        _block("unknown", _of(result, "undetermined"), lambda found: _unknown(found, country, details, seen, labels)),
        _block("fine", _of(result, "met"), lambda found: _fine(found, country, details, seen, labels)),
        _not_covered(result.not_covered),
    ]
    if details:
        blocks.append(_block("not_applicable", _of(result, "not applicable"), _not_applicable))
    named = title(result)
    return Content(
        site=result.site.id,
        title=named,
        running_head=say("running_head", site=named, day=result.as_of.isoformat()),
        head=tuple(head(result)),
        plans=plans,
        plans_elsewhere=say("plan_elsewhere", names=say("list").join(plan.heading for plan in plans)) if plans else "",
        sections=(*blocks, *tail(result, country, labels)),
    )


def _of(result: Result, outcome: str) -> list[Finding]:
    found = [finding for finding in result.findings if finding.outcome == outcome]
    return sorted(found, key=lambda finding: SEVERITIES.index(finding.severity))


def _block(name: str, findings: Sequence[Finding], parts: Callable[[Sequence[Finding]], Iterable[Part]]) -> Section:
    return Section(name, say(name, count=len(findings)), (*_opening(findings), *parts(findings)))


def _opening(findings: Sequence[Finding]) -> Iterator[Part]:
    if not findings:
        yield Paragraph(say("nothing"))
    topics = dict.fromkeys(finding.topic for finding in findings if has(f"topic {finding.topic}"))
    if topics:
        named = say("list").join(say(f"topic {topic}") for topic in topics)
        yield Caution(say("screening", topics=named))


def _entries(
    findings: Iterable[Finding], country: Country, details: bool, seen: Seen, labels: Labels
) -> Iterator[Part]:
    for number, finding in enumerate(findings, 1):
        told = entry(number, finding, country, details, labels)
        rows = (Row(say("label_plan"), seen[finding.id]),) if finding.id in seen else ()
        yield replace(told, rows=(*told.rows, *rows))


def _unknown(
    findings: Sequence[Finding], country: Country, details: bool, seen: Seen, labels: Labels
) -> Iterator[Part]:
    broken = [finding for finding in findings if finding.because == "rule broke"]
    if broken:
        told = (say("broken_line", rule=one.rule, place=place(one), fault=one.fault) for one in broken)
        yield Section("broken", say("broken", count=len(broken)), (Items(tuple(told)),))
    judged = [finding for finding in findings if finding.because != "rule broke"]
    critical = [finding for finding in judged if finding.severity == "critical"]
    if details:
        yield from _entries(judged, country, details, seen, labels)
    elif critical:
        entries = tuple(_entries(critical, country, details, seen, labels))
        yield Section("unknown_critical", say("unknown_critical", count=len(critical)), entries)
    yield from unknown(judged, labels)


def _fine(findings: Sequence[Finding], country: Country, details: bool, seen: Seen, labels: Labels) -> Iterator[Part]:
    if details:
        yield from _entries(findings, country, details, seen, labels)
        return
    by_rule: dict[str, list[Finding]] = {}
    for finding in findings:
        by_rule.setdefault(finding.rule, []).append(finding)
    for group in by_rule.values():
        yield Items(tuple(_fine_line(finding, country) for finding in group), lead=group[0].title)


def _fine_line(finding: Finding, country: Country) -> str:
    measured, limit = compared(finding.measured, finding.limit, country)
    known = evidence(finding)
    if not measured or not limit or not finding.limit or finding.limit.kind == "answer":
        judged = say("fine_asked", evidence=known)
    elif finding.operator == "eq" or finding.limit.kind == "word":
        judged = say("fine_equal", measured=measured, evidence=known)
    else:
        asked = operator_words(finding.operator, limit, finding.limit.kind)
        margin = finding.margin and margin_words(
            finding.margin, finding.measured, finding.limit, finding.operator, country
        )
        key = "fine_margin" if margin else "fine_value"
        judged = say(key, measured=measured, limit=asked, margin=margin, evidence=known)
    line = say("fine_line", place=place(finding), judged=judged)
    return say("fine_confirm", line=line) if finding.to_be_confirmed else line


def _not_covered(asked: Sequence[NotCovered]) -> Section:
    why: Part = Paragraph(say("not_covered_why" if asked else "not_covered_none"))
    items = (Items(tuple(map(_not_covered_line, asked))),) if asked else ()
    return Section("not_covered", say("not_covered", count=len(asked)), (why, *items))


def _not_covered_line(one: NotCovered) -> str:
    key = "not_covered_line" if one.why else "not_covered_plain"
    return say(key, topic=one.topic, authority=one.authority, asks=one.asks, why=one.why)


def _not_applicable(findings: Sequence[Finding]) -> Iterator[Part]:
    if findings:
        yield Items(tuple(say("unplaced_line", place=place(one), title=one.title) for one in findings))
