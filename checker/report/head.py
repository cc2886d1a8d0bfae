"""The head of a report: which site, which day, which rulesets, who looked, the caution, and the counts."""

from collections.abc import Iterator

from checker.findings.exit_code import SEVERITIES
from checker.findings.result import Finding, Result
from checker.report.content import Caution, Paragraph, Part, Row, Rows
from checker.report.entry import place
from checker.report.sentences import say

_SURVEY = ("number", "body", "by", "on", "until")
FELL_BACK = "notice region not held"
"""The notice that stands in the head, since all that follows depends on it."""
_MOST_NAMED = 3


def title(result: Result) -> str:
    """Name and id of the site."""
    site = result.site
    return say("site" if site.name else "site_unnamed", name=site.name, id=site.id)


def head(result: Result) -> Iterator[Part]:
    """What stands above all findings, below the title."""
    day = result.as_of.isoformat()
    if result.site.address:
        yield Paragraph(result.site.address)
    yield Paragraph(say("region_day", region=result.region, day=day))
    for notice in result.notices:
        if f"notice {notice.kind}" == FELL_BACK:
            yield Paragraph(say(FELL_BACK, **notice.values), strong=True)
    layers = (say("ruleset", title=one.title, version=one.version, name=one.name) for one in result.layers)
    yield Rows((Row(say("label_rulesets"), (say("parted").join(layers),)), *_survey(result.survey)))
    if not result.survey:
        yield Paragraph(say("survey_none"))
    yield Caution(say("caution"))
    yield from _opening(result)


def _survey(survey: dict[str, str]) -> Iterator[Row]:
    for name in _SURVEY:
        if name in survey:
            yield Row(say(f"survey {name}"), (survey[name],))
    if "evidence" in survey:
        yield Row(say("survey evidence"), (say("survey_evidence", evidence=survey["evidence"]),))


def _opening(result: Result) -> Iterator[Paragraph]:
    summary = result.summary
    yield Paragraph(
        say(
            "opening",
            wrong=_counted(summary.not_met, summary.not_met_by_severity),
            unknown=_counted(summary.undetermined, summary.undetermined_by_severity),
            fine=summary.met,
            not_covered=len(result.not_covered),
        )
    )
    critical = [one for one in result.findings if one.outcome == "undetermined" and one.severity == "critical"]
    if critical:
        yield Paragraph(say("opening_critical", items=_named(critical)), strong=True)


def _counted(count: int, by_severity: dict[str, int]) -> str:
    each = [
        say("opening_severity", count=by_severity[severity], severity=say(f"severity {severity}"))
        for severity in SEVERITIES
        if by_severity.get(severity)
    ]
    return say("opening_count", count=count, by_severity=say("list").join(each)) if each else str(count)


def _named(findings: list[Finding]) -> str:
    named = (say("opening_item", title=one.title, place=place(one)) for one in findings[:_MOST_NAMED])
    items = say("parted").join(named)
    more = len(findings) - _MOST_NAMED
    return say("opening_more", items=items, count=more) if more > 0 else items
