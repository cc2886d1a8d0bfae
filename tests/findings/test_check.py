"""A site, the rules in force and a day: the result as a whole."""

import datetime as dt
import json
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from checker.findings.exit_code import SEVERITIES
from checker.findings.result import Result
from checker.findings.result_json import result_json
from checker.findings.weigh import WORST_FIRST as OUTCOMES
from checker.rules.rulebook import NoRegion
from tests.findings.workshop import DAY, Part, asks, judged, rule, rulebook

ONE = dt.timedelta(days=1)
ACT = {"ref": "act", "clause": "3", "status": "verified"}


def days(text: str) -> dt.date:
    return dt.date.fromisoformat(text)


def fan_rule(id: str = "out", **more: Any) -> Part:
    return rule(id, "fan", "fan.outdoors", **more)


def test_a_result_says_what_made_it(tmp_path: Path) -> None:
    gap = {"topic": "noise", "authority": "workplace law", "asks": "hearing protection", "why": "not written yet"}
    held = rulebook(tmp_path, [fan_rule()], {"common": [asks("out")], "us": []}, not_held=[gap])
    site = """
    name: Dockside Motors
    address: 3 Quay Street
    survey: {number: S-1, by: a surveyor, on: 2026-11-03}
    fans: [{id: a, outdoors: yes}]
    """
    result = judged(held, site, region="us")
    written = json.loads(result_json(result))
    assert written["schema"].endswith("/result-1.json")
    assert written["program"] == {"name": "dyno-facility-checker", "version": "0.0"}
    assert written["site"] == {
        "id": "dockside",
        "name": "Dockside Motors",
        "address": "3 Quay Street",
        "file": "dockside.yaml",
    }
    assert (written["region"], written["as_of"], written["decision"]) == ("us", "2026-11-25", "simple")
    assert [(layer["name"], layer["version"]) for layer in written["layers"]] == [("us", "1.0"), ("common", "1.0")]
    assert written["not_covered"] == [{"layer": "common", **gap}]
    assert written["survey"] == {"number": "S-1", "by": "a surveyor", "on": "2026-11-03"}
    assert (written["notices"], written["limits_of_survey"], written["assumed"]) == ([], [], [])


def test_advice_names_the_limits_of_the_provision_that_governs_as_written(tmp_path: Path) -> None:
    says = {"advice": "At most {limit.most}.", "meanwhile": "Stay **below** {limit.most}.", "severity": "critical"}
    one = rule("r", "circuit", "circuit.breaker <= limit.most", limit={"most": "current"}, **says)
    provisions = {
        "common": [asks("r", "standard", "norm", limit={"most": "20 A"})],
        "us": [asks("r", "workplace law", "act", limit={"most": "16000 mA"})],
    }
    held = rulebook(tmp_path, [one], provisions)
    for region, governs in (("common", "20 A"), ("us", "16000 mA")):
        written = json.loads(result_json(judged(held, "circuits: [{id: a, breaker: 30 A}, {id: b}]", region)))
        said = [(each["advice"], each["meanwhile"]) for each in written["findings"]]
        assert said == [(f"At most {governs}.", f"Stay **below** {governs}.")] * 2


def test_a_finding_has_all_its_rule_says(tmp_path: Path) -> None:
    words = {"severity": "critical", "meanwhile": "No runs.", "advice": "Move it.", "acts": "extraction firm"}
    held = rulebook(tmp_path, [fan_rule(**words)], [asks("out", "workplace law", ACT)])
    (found,) = judged(held, "fans: [{id: a, outdoors: no}]").findings
    assert (found.id, found.rule, found.topic, found.outcome) == (
        "dockside/shop.out/fan:a", "shop.out", "shop", "not met",
    )  # fmt: skip
    assert {name: getattr(found, name) for name in words} == words
    assert (found.title, found.reason, found.closes_with) == ("Something is asked", "It matters.", "a photo")
    assert found.source is not None
    assert (found.source.citation, found.source.clause) == ("Workshop Act 1999", "3")
    (asked,) = found.provisions
    assert (asked.layer, asked.authority, asked.binding, asked.governs) == ("common", "workplace law", "law", True)
    assert asked.location.file.endswith("shop.yaml")
    assert asked.location.line > 1
    assert found.location is not None
    assert (found.location.file, found.location.line, found.location.column) == ("dockside.yaml", 2, 8)


def test_findings_stand_worst_first(tmp_path: Path) -> None:
    severities = {f"r{number}": severity for number, severity in enumerate(reversed(SEVERITIES))}
    rules = [fan_rule(id, severity=severity, meanwhile="Stop.") for id, severity in severities.items()]
    rules += [rule("when", "fan", "fan.outdoors", when="not fan.outdoors")]
    held = rulebook(tmp_path, rules, [asks(each["id"].removeprefix("shop.")) for each in rules])
    result = judged(held, "fans: [{id: a, outdoors: yes}, {id: c}, {id: b, outdoors: no}]")
    ranks = [(OUTCOMES.index(each.outcome), SEVERITIES.index(each.severity)) for each in result.findings]
    assert ranks == sorted(ranks)
    assert {each.outcome for each in result.findings} == set(OUTCOMES)
    summary = result.summary
    assert (summary.met, summary.not_met, summary.undetermined, summary.not_applicable) == (4, 5, 5, 1)
    assert summary.not_met_by_severity == {"critical": 1, "major": 2, "minor": 1, "observation": 1}
    assert sum(summary.undetermined_by_severity.values()) == 5


# How long a result stays the same.

EVERY = {"every": "12 months"}
SERVICE = rule(
    "serviced", "extinguisher", "due(extinguisher.serviced_on, limit.every) >= as_of", limit={"every": "period"}
)
SPANS = {
    "common": [
        asks("serviced", limit=EVERY),
        asks("out", "workplace law", ACT, until="2026-12-31"),
        asks("marked", "workplace law", ACT, **{"from": "2027-01-01"}),
    ]
}
SITE = """
    fans: [{id: a, outdoors: yes}]
    extinguishers:
      - {id: fe-1, serviced_on: 2026-02-10}
      - {id: fe-2, serviced_on: 2025-10-31}
      - {id: fe-3, serviced_on: never}
"""


def outcomes(result: Result) -> dict[str, str]:
    return {finding.id: finding.outcome for finding in result.findings}


def spans(folder: Path) -> Iterator[Result]:
    """The results of each span from the past to the future."""
    held = rulebook(folder, [SERVICE, fan_rule(), fan_rule("marked")], SPANS)
    day: dt.date | None = dt.date(2020, 1, 1)
    while day is not None:
        result = judged(held, SITE, as_of=day)
        for edge in (result.valid.first, result.valid.until):
            if edge is not None:
                assert outcomes(judged(held, SITE, as_of=edge)) == outcomes(result)
                assert judged(held, SITE, as_of=edge).valid == result.valid
        yield result
        day = None if result.valid.until is None else result.valid.until + ONE


def test_within_its_span_a_result_stays_the_same_and_after_it_another_begins(tmp_path: Path) -> None:
    results = list(spans(tmp_path))
    edges = [(str(each.valid.first), str(each.valid.until)) for each in results]
    assert edges == [
        ("None", "2026-10-31"),
        ("2026-11-01", "2026-12-31"),
        ("2027-01-01", "2027-02-10"),
        ("2027-02-11", "None"),
    ]
    for one, next_one in pairwise(results):
        assert outcomes(one) != outcomes(next_one)


@pytest.mark.parametrize(
    "require, until",
    [
        ("detector.calibration_due >= as_of", "2026-12-02"),
        ("detector.calibration_due > as_of", "2026-12-01"),
        ("as_of <= detector.calibration_due", "2026-12-02"),
        ("not as_of > detector.calibration_due", "2026-12-02"),
        ("due(detector.calibrated_on, 6 months) > as_of", "2026-12-01"),
        ("due(detector.calibrated_on, 6 months) >= as_of", "2026-12-02"),
        ("all([each.calibration_due >= as_of for each in detector.room.detectors])", "2026-12-02"),
        ("detector.calibrated_on < detector.calibration_due", "None"),
        ("detector.calibration_due >= due(as_of, 7 days)", "2026-11-25"),
    ],
)
def test_the_span_ends_where_a_comparison_with_the_day_turns(require: str, until: str, tmp_path: Path) -> None:
    held = rulebook(tmp_path, [rule("r", "detector", require)], [asks("r")])
    site = """
    rooms: [{id: cell}]
    detectors: [{id: co, room: cell, calibrated_on: 2026-06-02, calibration_due: 2026-12-02}]
    """
    result = judged(held, site)
    assert (result.summary.met, str(result.valid.until)) == (1, until)
    if result.valid.until and result.valid.until > DAY:
        assert judged(held, site, as_of=result.valid.until).summary.met == 1
        assert judged(held, site, as_of=result.valid.until + ONE).summary.met == 0


def test_a_provision_may_end_with_the_calendar(tmp_path: Path) -> None:
    held = rulebook(tmp_path, [fan_rule()], [asks("out", until="9999-12-31")])
    assert judged(held, "fans: none").valid.until is None


def test_nothing_that_turns_on_a_day_has_no_end(tmp_path: Path) -> None:
    result = judged(rulebook(tmp_path, [fan_rule()], [asks("out")]), "fans: [{id: a, outdoors: yes}]")
    assert (result.valid.first, result.valid.until) == (None, None)


def test_the_ends_are_written_as_from_and_until(tmp_path: Path) -> None:
    result = judged(rulebook(tmp_path, [SERVICE], [asks("serviced", limit=EVERY)]), SITE, as_of=days("2026-11-25"))
    assert json.loads(result_json(result))["valid"] == {"from": "2026-11-01", "until": "2027-02-10"}


# The site and its region.


def test_the_digest_is_of_what_the_file_says_and_not_of_how_it_is_written(tmp_path: Path) -> None:
    held = rulebook(tmp_path, [fan_rule()], [asks("out")])

    def digest(site: str) -> str:
        return judged(held, site).site_digest

    same = digest("fans: [{id: a, outdoors: yes}]")
    assert digest("# a remark\nfans:\n  - outdoors: yes\n    id: a") == same
    assert digest("fans: [{id: a, outdoors: no}]") != same
    assert digest("fans: [{id: b, outdoors: yes}]") != same
    assert len(same) == 64


@pytest.mark.parametrize(
    "asked, of_site, used, noticed",
    [
        ("us", None, "us", None),
        (None, "us", "us", None),
        ("us", "gb", "us", None),
        (None, "us-ca", "us", "us-ca"),
        ("us-ca", None, "us", "us-ca"),
        ("fr", None, "common", "fr"),
    ],
)
def test_a_region_not_held_falls_back_with_a_notice(
    asked: str | None, of_site: str | None, used: str, noticed: str | None, tmp_path: Path
) -> None:
    held = rulebook(tmp_path, [fan_rule()], {"common": [asks("out")], "us": []})
    site = f"region: {of_site}" if of_site else "fans: none"
    result = judged(held, site, region=asked)
    assert result.region == used
    assert [(notice.kind, notice.values) for notice in result.notices] == (
        [] if noticed is None else [("region not held", {"asked": noticed, "used": used})]
    )


def test_without_a_region_those_held_are_listed(tmp_path: Path) -> None:
    held = rulebook(tmp_path, [fan_rule()], {"common": [asks("out")], "us": []})
    with pytest.raises(NoRegion, match="held are common, us"):
        judged(held, "fans: none", region=None)


@pytest.mark.parametrize(
    "authority, source, adopted, where_adopted",
    [
        ("fire code", "fire-code", "", True),
        ("fire code", "fire-code", "adopted: none", False),
        ("fire code", "fire-code", "adopted: [{code: wiring rules, edition: '2020'}]", True),
        ("fire code", "fire-code", "adopted: [{code: fire code, edition: '2018'}]", False),
        ("wiring rules", "fire-code", "adopted: [{code: wiring rules}, {code: fire code}]", False),
        ("workplace law", "act", "", False),
        ("standard", "norm", "", False),
        ("good practice", "common practice", "", False),
    ],
)
def test_a_code_binds_where_adopted_unless_the_site_records_it(
    authority: str, source: str, adopted: str, where_adopted: bool, tmp_path: Path
) -> None:
    held = rulebook(tmp_path, [fan_rule()], [asks("out", authority, source)])
    (found,) = judged(held, f"{adopted}\nfans: [{{id: a, outdoors: yes}}]").findings
    assert found.provisions[0].where_adopted is where_adopted


def test_what_was_not_reached_is_a_limit_of_the_survey(tmp_path: Path) -> None:
    site = """
    survey: {not_reached: [{about: detectors, why: no ladder}]}
    fans: [{id: a, outdoors: {not_reached: the roof was wet}}]
    panels: {not_reached: locked}
    """
    result = judged(rulebook(tmp_path, [fan_rule()], [asks("out")]), site)
    assert {(need.path, need.because, need.why) for need in result.limits_of_survey} == {
        ("detectors", "not reached", "no ladder"),
        ("fans[a].outdoors", "not reached", "the roof was wet"),
        ("panels", "not reached", "locked"),
    }


def test_recorded_and_computed_that_differ_are_both_told(tmp_path: Path) -> None:
    held = rulebook(tmp_path, [rule("big", "room", "room.volume >= limit.least", limit={"least": "volume"})], [
        asks("big", limit={"least": "50 m3"})
    ])  # fmt: skip
    site = "rooms: [{id: cell, floor_area: 20 m2, height: 3 m, volume: {value: 40 m3, evidence: %s}}]"
    told = judged(held, site % "told")
    measured = judged(held, site % "measured")
    assert [finding.outcome for finding in (*told.findings, *measured.findings)] == ["met", "not met"]
    for result in (told, measured):
        (notice,) = result.notices
        assert (notice.kind, notice.about) == ("recorded and computed differ", "rooms[cell].volume")
        assert "40 m3" in notice.values["says"]
        assert "60 m3" in notice.values["says"]
    assert (len(told.findings[0].working), len(measured.findings[0].working)) == (1, 0)


def test_a_good_day_to_judge_is_given(tmp_path: Path) -> None:
    """The core asks no clock: the day in the result is the day that was given."""
    held = rulebook(tmp_path, [SERVICE], [asks("serviced", limit=EVERY)])
    assert judged(held, SITE).as_of == DAY
    assert judged(held, SITE, as_of=days("1999-01-01")).as_of == days("1999-01-01")


@pytest.mark.parametrize(
    "site, outcome",
    [
        ("dynos: [{id: d, installed_on: 2019-05-01, clear_sides: 0.6 m}]", "met"),
        ("dynos: [{id: d, installed_on: 2021-05-01, clear_sides: 0.6 m}]", "not met"),
        ("built_on: 2010-01-01\naltered_on: never\ndynos: [{id: d, clear_sides: 0.6 m}]", "met"),
        ("built_on: 2010-01-01\naltered_on: 2022-01-01\ndynos: [{id: d, clear_sides: 0.6 m}]", "not met"),
        ("dynos: [{id: d, clear_sides: 0.6 m}]", "not met"),
    ],
)
def test_new_work_is_judged_by_the_edition_of_its_own_day(site: str, outcome: str, tmp_path: Path) -> None:
    clear = rule("clear", "dyno", "dyno.clear_sides >= limit.least", limit={"least": "length"})
    old = asks("clear", "building code", "fire-code", judges="new work", limit={"least": "0.5 m"}, until="2020-12-31")
    new = asks(
        "clear", "building code", "fire-code", judges="new work", limit={"least": "0.8 m"}, **{"from": "2021-01-01"}
    )
    (found,) = judged(rulebook(tmp_path, [clear], [old, new]), site).findings
    assert found.outcome == outcome


def test_operation_is_judged_by_today_whenever_a_thing_was_installed(tmp_path: Path) -> None:
    clear = rule("clear", "dyno", "dyno.clear_sides >= limit.least", limit={"least": "length"})
    old = asks("clear", "building code", "fire-code", limit={"least": "0.5 m"}, until="2020-12-31")
    new = asks("clear", "building code", "fire-code", limit={"least": "0.8 m"}, **{"from": "2021-01-01"})
    site = "dynos: [{id: d, installed_on: 2019-05-01, clear_sides: 0.6 m}]"
    (found,) = judged(rulebook(tmp_path, [clear], [old, new]), site).findings
    assert found.outcome == "not met"
