"""Exceptions and accepted alternatives: a mark, a lapse, a notice; never a met."""

import datetime as dt
from pathlib import Path

import pytest

from checker.findings.result import Finding, Result
from checker.reading import Unreadable
from checker.report import FORMATS, Drawing
from tests.findings.workshop import DAY, asks, judged, rule, rulebook

FANS = "fans: [{id: a, outdoors: no}, {id: b, outdoors: yes}]\n"
GRANT = {
    "rule": "shop.out",
    "subjects": "['fans[a]']",
    "authority": "workplace law",
    "by": "labour inspector",
    "why": "roof under repair",
    "since": "2026-11-01",
    "until": "2026-12-31",
    "interim": "the fan is off",
}
ALTERNATIVE = {
    "rule": "shop.out",
    "subjects": "['fans[a]']",
    "authority": "workplace law",
    "by": "labour inspector",
    "paper": "letter of 3 May",
    "on": "2026-05-03",
    "conditions": "filter changed monthly",
}
LAW, CODE = asks("out", "workplace law", "act"), asks("out", "fire code", "fire-code")


def granted(parts: dict[str, str] = GRANT, kind: str = "exceptions", **more: str) -> str:
    fields = {**parts, **more}
    return f"{kind}: [{{" + ", ".join(f"{name}: {value}" for name, value in fields.items() if value) + "}]\n"


def found(folder: Path, site: str, *provisions: dict[str, object], as_of: dt.date = DAY) -> Result:
    held = rulebook(folder, [rule("out", "fan", "fan.outdoors")], list(provisions or (LAW,)))
    return judged(held, site + FANS, as_of=as_of)


def of(result: Result, fan: str) -> Finding:
    return next(finding for finding in result.findings if finding.subject.id == fan)


def notices(result: Result) -> list[str]:
    return [notice.kind for notice in result.notices]


@pytest.mark.parametrize(
    "day, runs", [("2026-10-31", False), ("2026-11-01", True), ("2026-12-31", True), ("2027-01-01", False)]
)
def test_an_exception_marks_from_its_first_day_to_its_last(tmp_path: Path, day: str, runs: bool) -> None:
    result = found(tmp_path, granted(), as_of=dt.date.fromisoformat(day))
    assert of(result, "a").outcome == "not met"
    assert (of(result, "a").exception is not None) is runs
    assert result.summary.excepted == int(runs)
    assert result.summary.not_met == 1
    lapsed = {"2026-10-31": ["grant not begun"], "2027-01-01": ["grant lapsed"]}
    assert notices(result) == lapsed.get(day, [])


def test_the_days_on_which_it_turns_bound_the_result(tmp_path: Path) -> None:
    valid = found(tmp_path, granted()).valid
    assert (valid.first, valid.until) == (dt.date(2026, 11, 1), dt.date(2026, 12, 31))


def test_nobody_sets_aside_what_another_asks(tmp_path: Path) -> None:
    result = found(tmp_path, granted(), LAW, CODE)
    assert of(result, "a").exception is None
    assert notices(result) == ["grant by another"]


def test_what_is_met_needs_no_exception(tmp_path: Path) -> None:
    result = found(tmp_path, granted(subjects="['fans[b]']"))
    assert of(result, "b").outcome == "met"
    assert notices(result) == ["grant not needed"]


@pytest.mark.parametrize("more", [{"subjects": "['fans[z]']"}, {"rule": "shop.nothing"}])
def test_an_exception_that_is_for_nothing_is_told(tmp_path: Path, more: dict[str, str]) -> None:
    assert notices(found(tmp_path, granted(**more))) == ["grant for nothing"]


@pytest.mark.parametrize(
    "was, marked, told",
    [("shop.old", True, []), (["shop.old"], True, []), (["shop.old", "shop.older"], False, ["grant for part"])],
)
def test_what_was_granted_under_a_former_id_holds_unless_other_rules_are_part_of_the_new_one(
    tmp_path: Path, was: object, marked: bool, told: list[str]
) -> None:
    held = rulebook(tmp_path, [rule("out", "fan", "fan.outdoors", was=was)], [LAW])
    result = judged(held, granted(rule="shop.old") + FANS)
    assert (of(result, "a").exception is not None) is marked
    assert notices(result) == told


def test_an_accepted_alternative_is_a_mark_of_its_own(tmp_path: Path) -> None:
    finding = of(found(tmp_path, granted(ALTERNATIVE, "accepted_alternatives")), "a")
    assert finding.outcome == "not met"
    assert finding.exception is None
    assert finding.accepted_alternative is not None
    assert finding.accepted_alternative.conditions == "filter changed monthly"


@pytest.mark.parametrize("form", sorted(FORMATS))
def test_every_format_shows_the_mark(tmp_path: Path, form: str) -> None:
    drawn = FORMATS[form]([found(tmp_path, granted())], Drawing())
    assert "labour inspector" in drawn
    assert "the fan is off" in drawn


@pytest.mark.parametrize(
    "more, says",
    [
        ({"until": ""}, "until"),
        ({"interim": ""}, "interim"),
        ({"authority": "standard"}, "standard"),
        ({"authority": "good practice"}, "good practice"),
        ({"until": "soon"}, "soon"),
    ],
)
def test_an_exception_without_an_end_or_by_nobody_who_could_grant_it(
    tmp_path: Path, more: dict[str, str], says: str
) -> None:
    with pytest.raises(Unreadable) as caught:
        found(tmp_path, granted(**more))
    (problem,) = caught.value.problems
    assert says in f"{problem.says} {problem.found} {problem.wanted}"
    assert problem.path.startswith("exceptions[0]")
