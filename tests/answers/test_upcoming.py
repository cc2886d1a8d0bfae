"""Changes of what is asked that are decided already, and the findings they will turn."""

import datetime as dt
from pathlib import Path

import pytest

from checker.answers.upcoming import days_of_change, with_upcoming
from checker.findings.check import check
from checker.findings.result import Result
from checker.reading import read_text
from checker.report import FORMATS, Drawing
from checker.rules import Rulebook
from checker.site import read_site
from tests.findings.workshop import DAY, asks, rule, rulebook

SITE = "id: dockside\nsupplies: [{id: mains}]\ncircuits: [{id: c1, supply: mains, breaker: 16 A}]\n"
LIMIT = {"most": "current"}


def book(folder: Path, *spans: dict[str, object]) -> Rulebook:
    most = rule("most", "circuit", "circuit.breaker <= limit.most", limit=LIMIT)
    return rulebook(folder, [most], [asks("most", "workplace law", "act", **span) for span in spans])


def upcoming(held: Rulebook, days: int = 365, site: str = SITE) -> Result:
    made = read_site(read_text(site, "dockside.yaml"))
    result = check(made, held, region="common", as_of=DAY, program_version="0.0")
    return with_upcoming(made, held, result, days)


def told(result: Result) -> list[tuple[str, str, str]]:
    return [(turn.day.isoformat(), turn.before, turn.after) for turn in result.upcoming or ()]


OLD = {"limit": {"most": "20 A"}, "until": "2026-12-31"}
NEW = {"limit": {"most": "10 A"}, "from": "2027-01-01"}


def test_a_limit_that_tightens_on_a_known_day(tmp_path: Path) -> None:
    assert told(upcoming(book(tmp_path, OLD, NEW))) == [("2027-01-01", "met", "not met")]


def test_a_change_beyond_the_span_is_not_told(tmp_path: Path) -> None:
    held = book(tmp_path, OLD, NEW)
    assert told(upcoming(held, days=37)) == [("2027-01-01", "met", "not met")]
    assert told(upcoming(held, days=36)) == []


def test_a_change_that_turns_nothing_is_not_told(tmp_path: Path) -> None:
    assert told(upcoming(book(tmp_path, OLD, {**NEW, "limit": {"most": "16 A"}}))) == []


def test_what_ends_is_asked_no_longer(tmp_path: Path) -> None:
    assert told(upcoming(book(tmp_path, OLD))) == [("2027-01-01", "met", "not asked")]


def test_what_begins_was_not_asked_before(tmp_path: Path) -> None:
    assert told(upcoming(book(tmp_path, NEW))) == [("2027-01-01", "not asked", "not met")]


def test_what_merely_falls_due_is_no_change(tmp_path: Path) -> None:
    serviced = rule(
        "due", "extinguisher", "due(extinguisher.serviced_on, limit.every) >= as_of", limit={"every": "period"}
    )
    most = rule("most", "circuit", "circuit.breaker <= limit.most", limit=LIMIT)
    asked = [
        asks("due", "workplace law", "act", limit={"every": "1 year"}),
        asks("most", "workplace law", "act", **NEW),
    ]
    held = rulebook(tmp_path, [serviced, most], asked)
    site = SITE + "extinguishers: [{id: fe, serviced_on: 2025-12-31}]\n"
    assert [turn.finding for turn in upcoming(held, site=site).upcoming or ()] == ["dockside/shop.most/circuit:c1"]


@pytest.mark.parametrize(
    "first, then, found",
    [
        ("12 A", "10 A", [("2027-01-01", "not met", "not met")]),
        ("12 A", "15 A", []),
        ("12 A", "12000 mA", []),
        ("12 A", "16 A", [("2027-01-01", "not met", "met")]),
    ],
)
def test_what_stays_not_met_by_a_stricter_limit_is_told_with_that(
    first: str, then: str, found: list[tuple[str, str, str]], tmp_path: Path
) -> None:
    """Who mends it by today's limit would have to mend it again."""
    held = book(tmp_path, {**OLD, "limit": {"most": first}}, {**NEW, "limit": {"most": then}})
    result = upcoming(held)
    assert told(result) == found
    if found and found[0][1] == found[0][2]:
        for form in ("text", "markdown"):
            drawn = " ".join(FORMATS[form]([result], Drawing()).split())
            assert "Stays not met, and more is asked then: most 10 A." in drawn


def test_another_authority_that_asks_more_of_what_fails_is_told(tmp_path: Path) -> None:
    most = rule("most", "circuit", "circuit.breaker <= limit.most", limit=LIMIT)
    law, norm = ("workplace law", "act"), ("standard", "norm")
    for number, (limit, turns) in enumerate([("10 A", 1), ("14 A", 0)]):
        asked = [asks("most", *law, limit={"most": "12 A"}), asks("most", *norm, **{**NEW, "limit": {"most": limit}})]
        assert len(told(upcoming(rulebook(tmp_path / str(number), [most], asked)))) == turns


def test_what_is_overdue_is_told_only_where_it_falls_due_more_often(tmp_path: Path) -> None:
    serviced = rule(
        "due", "extinguisher", "due(extinguisher.serviced_on, limit.every) >= as_of", limit={"every": "period"}
    )
    site = SITE + "extinguishers: [{id: fe, serviced_on: 2024-12-31}]\n"
    for number, (period, turns) in enumerate([("6 months", 1), ("12 months", 0), ("18 months", 0)]):
        first, then = ({**span, "limit": {"every": every}} for span, every in ((OLD, "1 year"), (NEW, period)))
        asked = [asks("due", "workplace law", "act", **span) for span in (first, then)]
        assert len(told(upcoming(rulebook(tmp_path / str(number), [serviced], asked), site=site))) == turns


def test_the_days_of_change_are_those_of_the_region(tmp_path: Path) -> None:
    assert days_of_change(book(tmp_path, OLD, NEW), "common", DAY, 400) == (dt.date(2027, 1, 1),)


@pytest.mark.parametrize("form", sorted(FORMATS))
def test_every_format_tells_it(tmp_path: Path, form: str) -> None:
    drawn = FORMATS[form]([upcoming(book(tmp_path, OLD, NEW))], Drawing())
    assert "2027-01-01" in drawn
