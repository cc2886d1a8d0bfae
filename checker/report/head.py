"""The head of a report: which site, which day, which rulesets, who looked, the caution, and the counts."""

from checker.findings.exit_code import SEVERITIES
from checker.findings.result import Finding, Result
from checker.report.entry import place
from checker.report.page import Page
from checker.report.sentences import say

_SURVEY = ("number", "body", "by", "on", "until")
_WIDEST_LABEL = 12
FELL_BACK = "notice region not held"
"""The notice that stands in the head, since all that follows depends on it."""
_MOST_NAMED = 3


def draw(page: Page, result: Result) -> None:
    """Adds the head to the page."""
    site = result.site
    key = "site" if site.name else "site_unnamed"
    page.text(say(key, name=site.name, id=site.id), bold=True)
    if site.address:
        page.text(site.address)
    page.text(say("region_day", region=result.region, day=result.as_of.isoformat()))
    for notice in result.notices:
        if f"notice {notice.kind}" == FELL_BACK:
            page.text(say(FELL_BACK, **notice.values), bold=True)
    layers = (say("ruleset", title=one.title, version=one.version, name=one.name) for one in result.layers)
    page.row(say("label_rulesets"), say("parted").join(layers), indent=0)
    _survey(page, result.survey)
    page.gap()
    page.text(say("caution"))
    page.gap()
    _opening(page, result)


def _survey(page: Page, survey: dict[str, str]) -> None:
    if not survey:
        page.text(say("survey_none"))
    for name in _SURVEY:
        if name in survey:
            page.row(say(f"survey {name}"), survey[name], indent=0)
    if "evidence" in survey:
        told = say("survey_evidence", evidence=survey["evidence"])
        page.row(say("survey evidence"), told, indent=0)


def _opening(page: Page, result: Result) -> None:
    summary = result.summary
    page.text(
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
        page.text(say("opening_critical", items=_named(critical)), bold=True)


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
