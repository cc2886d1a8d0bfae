"""One hall, six regions: the same walk is judged by what each text measures and allows."""

import datetime
from pathlib import Path

import pytest

from checker.findings.check import check
from checker.findings.result import Finding
from checker.reading import read_text
from checker.rules import Rulebook, read_rulesets
from checker.site import read_site

HALL = """\
id: hall
survey: {evidence: measured}
building: {use_group: GROUP}
sprinklers: none
rooms:
  - id: shop
    kind: workshop
    outline: [[0 m, 0 m], [LONG, 6 m]]
    fire_risk: RISK
    most_people: 6
    counted_as: industrial area
    doors: [{id: gate, to: outside, at: [LONG, 3 m], width: 3 m, locked: no, way_out: yes, opens_at_once: yes}]
    partitions: none
    obstacles: none
dynos: none
"""


@pytest.fixture(scope="module")
def book() -> Rulebook:
    return read_rulesets(Path(__file__).parents[2] / "rulesets")


def findings(book: Rulebook, region: str, long: str, group: str = "S-1", risk: str = "normal") -> dict[str, Finding]:
    text = HALL.replace("LONG", long).replace("GROUP", group).replace("RISK", risk)
    site = read_site(read_text(text, "hall.yaml"))
    result = check(site, book, region=region, as_of=datetime.date(2026, 11, 25), program_version="0")
    return {each.rule: each for each in result.findings}


@pytest.mark.parametrize(
    ("region", "rule", "group", "outcomes"),
    [
        # The longest walk runs from a corner to the middle of the far wall: 3 m aside and the whole length along.
        pytest.param("us", "escape.walk-to-exit", "S-1", "met met met not met", id="IBC 200 ft"),
        pytest.param("us-ny-nyc", "escape.walk-to-exit", "S-1", "met met not met not met", id="New York 150 ft"),
        pytest.param("us-ca", "escape.walk-to-exit", "S-1", "met met met not met", id="California by the model code"),
        pytest.param("ca-on", "escape.walk-to-exit", "F division 2", "met not met not met not met", id="Ontario 30 m"),
        pytest.param("de", "escape.walk-unfurnished", "S-1", "met not met not met not met", id="ASR A2.3 35 m"),
        pytest.param("gb", "escape.walk-by-fire-risk", "S-1", "met not met not met not met", id="25 m one way"),
        pytest.param("au", "escape.walk-to-choice", "S-1", "not met not met not met not met", id="20 m one way"),
    ],
)
def test_the_same_hall_at_four_lengths(book: Rulebook, region: str, rule: str, group: str, outcomes: str) -> None:
    found = [findings(book, region, long, group)[rule].outcome for long in ("24 m", "44 m", "50 m", "61 m")]
    assert " ".join(found) == outcomes


@pytest.mark.parametrize(("risk", "wanted"), [("normal", "met"), ("high", "not met")])
def test_raised_danger_of_fire_shortens_the_way(book: Rulebook, risk: str, wanted: str) -> None:
    assert findings(book, "de", "30 m", risk=risk)["escape.walk-unfurnished"].outcome == wanted


def test_each_country_has_its_own_question_of_one_way_out(book: Rulebook) -> None:
    """264 m2, six people, one gate, 44 m long."""
    asked = {
        "us": ("escape.one-way-out", "not met"),
        "de": ("escape.one-way-out-by-area", "not met"),
        "gb": ("escape.one-way-out-by-people", "met"),
        "ca": ("escape.one-way-out-by-people", "met"),
        "ca-on": ("escape.one-way-out-near", "not met"),
    }
    for region, (rule, wanted) in asked.items():
        assert findings(book, region, "44 m")[rule].outcome == wanted, region


def test_a_walk_of_200_feet_is_just_allowed(book: Rulebook) -> None:
    """60.96 m, not the 60 m that one copy of the table prints: a hall of 60.886 m gives 60.9598 m, of 60.887 m more."""
    assert findings(book, "us", "60.886 m")["escape.walk-to-exit"].outcome == "met"
    assert findings(book, "us", "60.887 m")["escape.walk-to-exit"].outcome == "not met"


def test_nobody_is_told_of_a_walk_that_no_text_of_the_region_asks(book: Rulebook) -> None:
    assert "escape.walk-to-exit" not in findings(book, "de", "24 m")
    assert "escape.walk-unfurnished" not in findings(book, "us", "24 m")


def test_only_germany_asks_that_a_workshop_counts_as_raised_danger(book: Rulebook) -> None:
    """ASR A2.2, 3 and 6.1, in the wording before 2018 (secondary): flammable liquid or hot work raises the danger."""
    for risk, wanted in (("normal", "not met"), ("high", "met")):
        text = (
            HALL.replace("LONG", "24 m").replace("GROUP", "S-1").replace("RISK", f"{risk}\n    repairs_vehicles: yes")
        )
        site = read_site(read_text(text, "hall.yaml"))
        result = check(site, book, region="de", as_of=datetime.date(2026, 11, 25), program_version="0")
        (finding,) = [each for each in result.findings if each.rule == "fire.raised-hazard-recognised"]
        assert finding.outcome == wanted
    assert "fire.raised-hazard-recognised" not in findings(book, "gb", "24 m")
