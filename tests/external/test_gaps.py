"""Gaps between things on a floor, against published widths, through site files and the rulesets.

ASR A1.8 (March 2022), table 2: 0.60 m to a place of work (secondary). 8 CCR 3272(b): 24 in (verified). ISO 13854, as
the Austrian statutory accident insurer gives it: 500 mm for the body, 180 mm for a leg (secondary).
"""

import datetime
from pathlib import Path

import pytest

from checker.findings.check import check
from checker.findings.result import Finding
from checker.reading import read_text
from checker.rules import Rulebook, read_rulesets
from checker.site import read_site

SITE = """\
id: yard
survey: {evidence: measured}
rooms:
  - id: shop
    name: Shop
    kind: workshop
    outline: [[0 m, 0 m], [12 m, 9 m]]
    obstacles: [{id: lift, name: Lift, outline: [[4 m, 4 m], [8 m, 6 m]]}]
    partitions: none
    doors: DOORS
    floor_gaps: GAPS
dynos: [{id: d1, name: Rollers, room: shop, footprint: [[1 m, 4 m], [4 m - GAP, 6 m]]}]
closing_gaps: [{id: g, dyno: d1, one: lift, other: d1, closes_by: 0.1 m, enters: ENTERS}]
"""


@pytest.fixture(scope="module")
def book() -> Rulebook:
    return read_rulesets(Path(__file__).parents[2] / "rulesets")


def finding(
    book: Rulebook,
    region: str,
    rule: str,
    gap: str,
    people: str | None = "pass",
    enters: str = "body",
    doors: str = "[]",
) -> Finding:
    said = f"[{{id: a, one: d1, other: lift, people: {people}}}]" if people else "none"
    text = SITE.replace("4 m - GAP", f"{4 - float(gap):.4f} m").replace("GAPS", said).replace("ENTERS", enters)
    site = read_site(read_text(text.replace("DOORS", doors), "yard.yaml"))
    result = check(site, book, region=region, as_of=datetime.date(2026, 11, 25), program_version="0")
    return next(each for each in result.findings if each.rule == rule)


@pytest.mark.parametrize(
    ("region", "gap", "people", "outcome"),
    [
        ("de", "0.60", "pass", "met"),
        ("de", "0.601", "work there", "met"),
        ("de", "0.599", "pass", "not met"),
        ("de", "0.599", "work there", "not met"),
        ("de", "0.599", "cannot get in", "met"),
        ("de", "0.599", None, "undetermined"),
        ("de", "0.60", None, "met"),
        ("us-ca", "0.6096", "pass", "met"),
        ("us-ca", "0.609", "pass", "not met"),
        ("us-ca", "0.609", None, "undetermined"),
        ("us-ca", "0.62", None, "met"),
    ],
)
def test_a_gap_is_judged_by_whether_people_go_there(
    book: Rulebook, region: str, gap: str, people: str | None, outcome: str
) -> None:
    found = finding(book, region, "clearances.aisle", gap, people)
    assert found.outcome == outcome
    if outcome == "not met":
        figure = found.working[-1].figure
        assert figure is not None
        assert figure.between == "Rollers (d1) and Lift (lift)"
        assert len(figure.points) == 2
    if outcome == "undetermined":
        assert [need.path for need in found.needs] == ["rooms[shop].floor_gaps"]


def test_a_gap_that_is_wide_enough_needs_nobodys_word_and_says_by_which_reading_it_is(book: Rulebook) -> None:
    assert finding(book, "de", "clearances.aisle", "0.8", None).taken == "longest"


def test_a_leaf_of_which_nobody_knows_how_it_swings_may_take_the_aisle(book: Rulebook) -> None:
    door = "{id: side, to: outside, at: [4 m, 9 m], width: 2.5 m, locked: no"
    for swing, outcome in (
        (", swing: roller", "met"),
        (", swing: in, hinge: left", "undetermined"),
        ("", "undetermined"),
    ):
        assert finding(book, "de", "clearances.aisle", "0.8", "pass", doors=f"[{door}{swing}}}]").outcome == outcome


@pytest.mark.parametrize(
    ("gap", "enters", "outcome"),
    [
        ("0.6", "body", "met"),
        ("0.599", "body", "not met"),
        ("0.28", "leg", "met"),
        ("0.279", "leg", "not met"),
        ("0.05", "nothing", "not applicable"),
    ],
)
def test_a_gap_that_closes_by_ten_centimetres_is_judged_by_what_gets_in(
    book: Rulebook, gap: str, enters: str, outcome: str
) -> None:
    assert finding(book, "de", "guarding.closing-gap", gap, enters=enters).outcome == outcome
