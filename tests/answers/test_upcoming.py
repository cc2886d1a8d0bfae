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


def test_the_days_of_change_are_those_of_the_region(tmp_path: Path) -> None:
    assert days_of_change(book(tmp_path, OLD, NEW), "common", DAY, 400) == (dt.date(2027, 1, 1),)


@pytest.mark.parametrize("form", sorted(FORMATS))
def test_every_format_tells_it(tmp_path: Path, form: str) -> None:
    drawn = FORMATS[form]([upcoming(book(tmp_path, OLD, NEW))], Drawing())
    assert "2027-01-01" in drawn
