"""A result as plain text for a terminal or a printer: wrong, not known, fine, not covered, and a sum in words."""

from collections.abc import Sequence

from checker.findings.exit_code import SEVERITIES
from checker.findings.result import Finding, Result
from checker.report import Drawing, entry, head, tail, unknown
from checker.report.page import Page
from checker.report.sentences import has, say
from checker.report.words import Country, compared, country_of, margin_words, operator_words

_SEPARATOR = "\n" + "=" * 40 + "\n\n"


def render(result: Result, width: int = 80, colour: bool = False, details: bool = False) -> str:
    """The whole report, each line at most `width` columns. `details` shows the full working of what is fine as well."""
    page, country = Page(width, colour), country_of(result.region)
    head.draw(page, result)
    _wrong(page, result, country, details)
    _unknown(page, result, country, details)
    _fine(page, result, country, details)
    _not_covered(page, result)
    if details:
        _not_applicable(page, result)
    tail.draw(page, result, country)
    return str(page)


def render_all(results: Sequence[Result], drawing: Drawing) -> str:
    """The reports one after another."""
    return _SEPARATOR.join(render(one, drawing.width, drawing.colour, drawing.details) for one in results)


def _of(result: Result, outcome: str) -> list[Finding]:
    found = [finding for finding in result.findings if finding.outcome == outcome]
    return sorted(found, key=lambda finding: SEVERITIES.index(finding.severity))


def _wrong(page: Page, result: Result, country: Country, details: bool) -> None:
    findings = _of(result, "not met")
    _block(page, "wrong", findings)
    for number, finding in enumerate(findings, 1):
        entry.draw(page, number, finding, country, details)


def _unknown(page: Page, result: Result, country: Country, details: bool) -> None:
    findings = _of(result, "undetermined")
    _block(page, "unknown", findings)
    broken = [finding for finding in findings if finding.because == "rule broke"]
    if broken:
        page.text(say("broken", count=len(broken)), bold=True)
    for finding in broken:
        told = say("broken_line", rule=finding.rule, place=entry.place(finding), fault=finding.fault)
        page.text(told, indent=2)
    judged = [finding for finding in findings if finding.because != "rule broke"]
    critical = [finding for finding in judged if finding.severity == "critical"]
    if critical:
        page.gap()
        page.text(say("unknown_critical", count=len(critical)), bold=True)
    for number, finding in enumerate(judged if details else critical, 1):
        entry.draw(page, number, finding, country, details)
    unknown.draw(page, judged, {finding.subject.path: finding.subject.label for finding in result.findings})


def _fine(page: Page, result: Result, country: Country, details: bool) -> None:
    findings = _of(result, "met")
    _block(page, "fine", findings)
    if details:
        for number, finding in enumerate(findings, 1):
            entry.draw(page, number, finding, country, details)
        return
    by_rule: dict[str, list[Finding]] = {}
    for finding in findings:
        by_rule.setdefault(finding.rule, []).append(finding)
    for group in by_rule.values():
        page.text(group[0].title)
        for finding in group:
            page.text(_fine_line(finding, country), indent=3, first="- ")


def _fine_line(finding: Finding, country: Country) -> str:
    measured, limit = compared(finding.measured, finding.limit, country)
    known = entry.evidence(finding)
    if not measured or not limit or not finding.limit or finding.limit.kind == "answer":
        judged = say("fine_asked", evidence=known)
    elif finding.operator == "eq":
        judged = say("fine_equal", measured=measured, evidence=known)
    else:
        asked = operator_words(finding.operator, limit, finding.limit.kind)
        margin = finding.margin and margin_words(
            finding.margin, finding.measured, finding.limit, finding.operator, country
        )
        key = "fine_margin" if margin else "fine_value"
        judged = say(key, measured=measured, limit=asked, margin=margin, evidence=known)
    line = say("fine_line", place=entry.place(finding), judged=judged)
    return say("fine_confirm", line=line) if finding.to_be_confirmed else line


def _not_covered(page: Page, result: Result) -> None:
    page.heading(say("not_covered", count=len(result.not_covered)))
    page.text(say("not_covered_why" if result.not_covered else "not_covered_none"))
    for one in result.not_covered:
        key = "not_covered_line" if one.why else "not_covered_plain"
        told = say(key, topic=one.topic, authority=one.authority, asks=one.asks, why=one.why)
        page.text(told, indent=3, first="- ")


def _not_applicable(page: Page, result: Result) -> None:
    findings = _of(result, "not applicable")
    _block(page, "not_applicable", findings)
    for finding in findings:
        told = say("unplaced_line", place=entry.place(finding), title=finding.title)
        page.text(told, indent=3, first="- ")


def _block(page: Page, name: str, findings: Sequence[Finding]) -> None:
    page.heading(say(name, count=len(findings)))
    if not findings:
        page.text(say("nothing"))
    topics = dict.fromkeys(finding.topic for finding in findings if has(f"topic {finding.topic}"))
    if topics:
        named = say("list").join(say(f"topic {topic}") for topic in topics)
        page.text(say("screening", topics=named))
        page.gap()
