"""The end of a report: limits of the survey, what was taken for granted, notices, and the sum in words."""

from checker.findings.result import Notice, Result, Summary, Valid
from checker.report.head import FELL_BACK
from checker.report.page import Page
from checker.report.sentences import has, say
from checker.report.words import Country, value_words

_RECORD = ("issued_on", "scope", "method", "conditions", "present", "instruments", "omitted")
_EVIDENCE = {
    "measured or tested": ("measured", "tested"),
    "paper": ("paper",),
    "seen": ("seen",),
    "read": ("read",),
    "drawing": ("drawing",),
    "told": ("told",),
    "estimated": ("estimated",),
    "assumed": ("assumed",),
}


def draw(page: Page, result: Result, country: Country) -> None:
    """Adds the end to the page."""
    _limits(page, result)
    _assumed(page, result, country)
    notices = [notice for notice in result.notices if f"notice {notice.kind}" != FELL_BACK]
    if notices:
        page.heading(say("notices"))
    for notice in notices:
        page.text(_notice(notice), indent=3, first="- ")
    _sum(page, result)


def _limits(page: Page, result: Result) -> None:
    record = [name for name in _RECORD if name in result.survey]
    if not record and not result.limits_of_survey:
        return
    page.heading(say("limits"))
    for name in record:
        page.row(say(f"survey {name}"), result.survey[name], across=12)
    for need in result.limits_of_survey:
        page.text(say("limit_line", path=need.path, why=need.why), indent=3, first="- ")


def _assumed(page: Page, result: Result, country: Country) -> None:
    if result.assumed:
        page.heading(say("assumed", count=len(result.assumed)))
    for used in result.assumed:
        told = say("assumed_line", path=used.path, value=value_words(used.value, None, country), why=used.note or "")
        page.text(told, indent=3, first="- ")


def _notice(notice: Notice) -> str:
    key = f"notice {notice.kind}"
    if has(key):
        return say(key, about=notice.about, **notice.values)
    values = say("list").join(say("named", name=name, value=value) for name, value in notice.values.items())
    return say("notice_values" if values else "notice", kind=notice.kind, about=notice.about, values=values)


def _sum(page: Page, result: Result) -> None:
    summary = result.summary
    page.heading(say("summary"))
    page.text(say(_verdict(summary), wrong=summary.not_met, unknown=summary.undetermined), bold=True)
    page.text(_met(summary))
    page.text(say("sum_not_applicable", count=summary.not_applicable))
    for key, count in (("sum_confirm", summary.to_be_confirmed), ("sum_broken", summary.broken)):
        if count:
            page.text(say(f"{key}_one" if count == 1 else key, count=count))
    _valid(page, result.valid)
    page.text(say("program", name=result.program.name, version=result.program.version))


def _verdict(summary: Summary) -> str:
    if summary.not_met:
        return "sum_wrong"
    if summary.undetermined:
        return "sum_open"
    return "sum_clear" if summary.met else "sum_empty"


def _met(summary: Summary) -> str:
    if not summary.met:
        return say("sum_met_none")
    counted = summary.met_by_evidence
    groups = {name: sum(counted.get(word, 0) for word in words) for name, words in _EVIDENCE.items()}
    groups["nothing"] = summary.met - sum(groups.values())
    told = (say(f"by {name}", count=count) for name, count in groups.items() if count)
    return say("sum_met", met=summary.met, by_evidence=say("list").join(told))


def _valid(page: Page, valid: Valid) -> None:
    ends = {"first": valid.first, "until": valid.until}
    key = "valid" + ("_from" if valid.first else "") + ("_until" if valid.until else "")
    if has(key):
        page.text(say(key, **{name: day.isoformat() for name, day in ends.items() if day}))
