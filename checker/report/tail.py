"""The end of a report: limits of the survey, what was taken for granted, notices, and the sum in words."""

import re
from collections.abc import Iterator, Mapping
from decimal import Decimal

from checker.findings.result import Notice, Result, Summary, Turn, Used, Valid, Value
from checker.report.content import Items, Paragraph, Part, Row, Rows, Section
from checker.report.head import FELL_BACK
from checker.report.path_words import Labels, path_words, place_words
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
_NUMBER = re.compile(r"-?[0-9]+(\.[0-9]+)?")


def tail(result: Result, country: Country, labels: Labels) -> Iterator[Section]:
    """What stands below all findings."""
    if result.upcoming is not None:
        turns = tuple(_turn(turn, country) for turn in result.upcoming)
        part = Items(turns) if turns else Paragraph(say("upcoming_nothing"))
        yield Section("upcoming", say("upcoming", count=len(turns)), (part,))
    if limits := tuple(_limits(result, labels)):
        yield Section("limits", say("limits"), limits)
    if result.assumed:
        taken = tuple(_assumed(used, country, labels) for used in result.assumed)
        yield Section("assumed", say("assumed", count=len(taken)), (Items(taken),))
    notices = tuple(
        _notice(notice, country, labels) for notice in result.notices if f"notice {notice.kind}" != FELL_BACK
    )
    if notices:
        yield Section("notices", say("notices"), (Items(notices),))
    yield Section("summary", say("summary"), tuple(_sum(result)))


def _turn(turn: Turn, country: Country) -> str:
    asked = (
        say("upcoming_asked", authority=one.authority, layer=one.layer, source=one.source.citation)
        for one in turn.provisions
    )
    before, after = (
        say(f"outcome {one}") if has(f"outcome {one}") else say("not_asked") for one in (turn.before, turn.after)
    )
    governs = next((one for one in turn.provisions if one.governs), None)
    limits = governs.limit.items() if governs is not None else ()
    then = say("list").join(say("named", name=name, value=value_words(one, None, country)) for name, one in limits)
    stays = turn.before == turn.after
    return say(
        ("upcoming_stays_limit" if then else "upcoming_stays") if stays else "upcoming_turn",
        then=then,
        day=turn.day.isoformat(),
        title=turn.title,
        place=say("place_separator").join(turn.subject.place),
        before=before,
        after=after.lower() if stays else after,
        asked=say("parted").join(asked),
    )


def _limits(result: Result, labels: Labels) -> Iterator[Part]:
    record = tuple(Row(say(f"survey {name}"), (result.survey[name],)) for name in _RECORD if name in result.survey)
    if record:
        yield Rows(record)
    by_why: dict[str, list[str]] = {}
    for need in result.limits_of_survey:
        by_why.setdefault(need.why, []).append(path_words(need.path, labels))
    single = tuple(say("need_because", need=one[0], because=why) for why, one in by_why.items() if len(one) == 1)
    if single:
        yield Items(single, lead=say("limits_reached"))
    for why, together in by_why.items():
        if len(together) > 1:
            yield Items(tuple(together), lead=say("limits_reason", why=why))


def _assumed(used: Used, country: Country, labels: Labels) -> str:
    told, value = path_words(used.path, labels), value_words(used.value, None, country)
    return say("assumed_line", path=told, value=value, why=used.note or "")


def _notice(notice: Notice, country: Country, labels: Labels) -> str:
    key, about = f"notice {notice.kind}", place_words(notice.about, labels)
    if _NUMBER.fullmatch(notice.values.get("taken", "")):
        taken, *others = _differing(notice.values, country)
        return say("notice differ", about=about, taken=taken, others=say("and").join(others))
    if has(key):
        return say(key, about=about, **notice.values)
    values = say("list").join(say("named", name=name, value=value) for name, value in notice.values.items())
    return say("notice_values" if values else "notice", kind=notice.kind, about=about, values=values)


def _differing(values: Mapping[str, str], country: Country) -> list[str]:
    """What counts and what the site gives besides, in the reader's units, each with what it is known by."""
    told = []
    for name in ("taken", *(f"other_{number}" for number in range(1, len(values)))):
        if name in values:
            written = values.get(f"{name}_written")
            size = Value(value=Decimal(values[name]), unit=values["unit"], kind=values["kind"], as_written=written)
            key = "differ recorded" if written else "differ computed"
            told.append(say(key, value=value_words(size, None, country), by=values[f"{name}_by"]))
    return told


def _sum(result: Result) -> Iterator[Paragraph]:
    summary = result.summary
    yield Paragraph(say(_verdict(summary), wrong=summary.not_met, unknown=summary.undetermined), strong=True)
    yield Paragraph(_met(summary))
    yield Paragraph(say("sum_not_applicable", count=summary.not_applicable))
    for key, count in (("sum_confirm", summary.to_be_confirmed), ("sum_broken", summary.broken)):
        if count:
            yield Paragraph(say(f"{key}_one" if count == 1 else key, count=count))
    yield from _valid(result.valid)
    yield Paragraph(say("program", name=result.program.name, version=result.program.version))


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


def _valid(valid: Valid) -> Iterator[Paragraph]:
    ends = {"first": valid.first, "until": valid.until}
    key = "valid" + ("_from" if valid.first else "") + ("_until" if valid.until else "")
    if has(key):
        yield Paragraph(say(key, **{name: day.isoformat() for name, day in ends.items() if day}))
