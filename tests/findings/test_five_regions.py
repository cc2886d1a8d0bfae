"""One workshop checked side by side in five regions: the same floor, the same two places for extinguishers.

The lengths are own arithmetic, done apart from the program: a floor of 22 m × 13 m, a wall at x = 14 m with a gap below
y = 3 m, a car on the rollers at x = 5 m to 9.5 m. Limits are those that each region's rulesets hold.
"""

import datetime as dt
from functools import cache
from math import hypot

import pytest

from checker import shipped
from checker.findings.check import check
from checker.findings.result import Finding, ProvisionResult
from checker.reading import read_text
from checker.report.words import compared, country_of
from checker.rules import Rulebook, read_rulesets
from checker.site import read_site

DAY = dt.date(2026, 11, 25)
REGIONS = {
    "us": ("UL 711", "4-A:60-B:C"),
    "gb": ("EN 3", "21A 113B C"),
    "de": ("EN 3", "21A 113B C"),
    "au": ("AS/NZS 1850", "4A:60B:E"),
    "ca": ("UL 711", "4-A:60-B:C"),
}
"""The rating that a powder unit of 6 kg or 10 lb might bear in each."""
FIRST_ALONE = hypot(14, 3) + hypot(7.8, 10) + 0.2
"""m, from the unit at (0, 6) round both ends of the wall to the corner (22, 13)."""
WITH_THE_SECOND = hypot(14, 7)
"""m, from the first unit to (14, 13), the corner behind the wall's other side."""
FAR_EDGE = hypot(5, 1) + 4.5 + 1
"""m, from the unit round the near corner (5, 7) and the far one (9.5, 7) to the middle of the car's far side."""


@cache
def rulebook() -> Rulebook:
    return read_rulesets(shipped.rulesets())


def workshop(region: str, units: int) -> str:
    """The site with one unit or two, rated as the region rates them."""
    system, rating = REGIONS[region]
    places = ["[0 m, 6 m]", "[22 m, 1 m]"][:units]
    hung = "".join(
        f"\n  - {{id: e{number}, room: hall, at: {place}, rating: '{rating}', rating_system: {system}, agent: powder}}"
        for number, place in enumerate(places, 1)
    )
    return f"""\
id: hall-street
region: {region}
survey: {{on: 2026-11-20, by: a surveyor, evidence: measured}}
sprinklers: none
storeys: [{{id: ground, name: ground floor, hazard_level: extra, hazard_level_by: fire official,
  hydrant_units: 0, small_units_justified: no}}]
rooms:
  - id: hall
    kind: workshop
    storey: ground floor
    outline: [[0 m, 0 m], [22 m, 13 m]]
    engines_run: yes
    repairs_vehicles: yes
    obstacles: [{{id: wall, outline: [[14 m, 3 m], [14.2 m, 13 m]]}}]
    partitions: none
    doors: [{{id: gate, to: outside, at: [0 m, 3 m], width: 3 m, locked: no}}]
dynos: [{{id: d1, room: hall, footprint: [[5 m, 5 m], [9.5 m, 7 m]]}}]
hazards:
  - {{id: near-side, room: hall, at: [5 m, 6 m], fire_class: B, level: extra, open_liquid: no}}
  - {{id: far-side, room: hall, at: [9.5 m, 6 m], fire_class: B, level: extra, open_liquid: no}}
extinguishers:{hung}
"""


@cache
def findings(region: str, units: int) -> dict[str, Finding]:
    return judged(workshop(region, units), region)


def judged(text: str, region: str) -> dict[str, Finding]:
    """The findings by rule and thing."""
    site = read_site(read_text(text, "site.yaml"))
    result = check(site, rulebook(), region=region, as_of=DAY, program_version="0.0")
    return {f"{finding.rule}/{finding.subject.path}": finding for finding in result.findings}


def asked_by(finding: Finding, authority: str) -> ProvisionResult:
    (asked,) = [each for each in finding.provisions if each.authority == authority]
    return asked


WALK = "fire.class-a-walk-from-anywhere/rooms[hall]"
ASKED_AS = {"au": "without-sprinklers", "ca": "by-level"}
"""Australia asks it of floors without sprinklers only, Canada of units strong enough for the level of the hazard."""


@pytest.mark.parametrize(
    ("region", "limit", "with_one", "with_two"),
    [
        ("us", 22.86, "not met", "met"),
        ("gb", 30, "met", "met"),
        ("de", 20, "not met", "met"),
        ("au", 15, "not met", "not met"),
        ("ca", 22.86, "not met", "met"),
    ],
)
def test_the_walk_from_the_farthest_point(region: str, limit: float, with_one: str, with_two: str) -> None:
    """29 CFR 1910.157(d)(2), IFC 2018 table 906.3(1); BS 5306-8; ASR A2.2, 5.3; AS 2444, 4.2.1; NFPA 10, 6.2.1.1."""
    walk = WALK.replace("from-anywhere", ASKED_AS.get(region, "from-anywhere"))
    one, two = (findings(region, units)[walk] for units in (1, 2))
    assert (one.outcome, two.outcome) == (with_one, with_two)
    for finding, farthest in ((one, FIRST_ALONE), (two, WITH_THE_SECOND)):
        assert finding.measured is not None
        assert finding.limit is not None
        assert finding.margin is not None
        assert float(finding.measured.value) == pytest.approx(farthest, abs=0.002)
        assert float(finding.limit.value) == pytest.approx(limit)
        assert float(finding.margin.value) == pytest.approx(limit - farthest, abs=0.002)


def test_the_straight_line_would_pass_where_the_walk_does_not() -> None:
    """Own arithmetic: as the crow flies the far corner is 23.09 m off, the walk round the wall 27.20 m."""
    assert hypot(22, 7) == pytest.approx(23.09, abs=0.005)
    assert pytest.approx(27.200, abs=0.001) == FIRST_ALONE
    (figure,) = [step.figure for step in findings("us", 1)[WALK].working if step.figure is not None]
    corners = sorted((round(float(x), 2), round(float(y), 2)) for x, y in figure.points)
    assert corners == [(0, 6), (14, 3), (14.2, 3), (22, 13)]


@pytest.mark.parametrize("region", ["us", "ca"])
def test_one_strong_unit_covers_the_floor(region: str) -> None:
    """IFC 2018 table 906.3(1), NFPA 10 table 6.2.1.1: 286 m2 are 3,078 ft2; 4-A covers 4,000 ft2 in an extra hazard."""
    finding = findings(region, 1)["fire.class-a-area/storeys[ground]"]
    assert finding.outcome == "met"
    assert finding.measured is not None
    assert finding.limit is not None
    assert float(finding.measured.value) == pytest.approx(3078 * 0.3048**2, rel=0.001)
    assert float(finding.limit.value) == pytest.approx(4000 * 0.3048**2)


def test_a_weak_unit_within_the_longer_walk_fails_the_fire_code_and_passes_workplace_law() -> None:
    """IFC 2018 table 906.3(2): 40-B counts up to 30 ft, beyond it takes 80-B; 29 CFR 1910.157(d)(4): any B in 50 ft."""
    assert pytest.approx(34.77, abs=0.005) == FAR_EDGE / 0.3048
    far, near = (findings("us", 2)[f"fire.class-b-rating-by-level/hazards[{side}-side]"] for side in ("far", "near"))
    assert (far.outcome, near.outcome) == ("not met", "met")
    by_law = findings("us", 2)["fire.class-b-walk/hazards[far-side]"]
    assert asked_by(by_law, "workplace law").outcome == "met"
    assert by_law.measured is not None
    assert float(by_law.measured.value) == pytest.approx(FAR_EDGE, abs=0.001)


@pytest.mark.parametrize(
    ("region", "side", "outcome"),
    [("gb", "near", "met"), ("gb", "far", "not met"), ("de", "near", "met"), ("de", "far", "met")],
)
def test_the_walk_from_either_side_of_the_car(region: str, side: str, outcome: str) -> None:
    """BS 5306-8: 10 m for liquids, 5.00 m from the near side and 10.60 m from the far one; ASR A2.2, 5.3: 20 m."""
    assert findings(region, 2)[f"fire.class-b-walk/hazards[{side}-side]"].outcome == outcome


@pytest.mark.parametrize(("units", "outcome"), [(1, "not met"), (2, "met")])
def test_british_ratings_added_up(units: int, outcome: str) -> None:
    """BS 5306-8, 8.2: 26A in two units up to 400 m2; 21A alone is too little, 42A in two are enough."""
    assert findings("gb", units)["fire.class-a-total/storeys[ground]"].outcome == outcome


@pytest.mark.parametrize("units", [1, 2])
def test_german_extinguishing_units(units: int) -> None:
    """ASR A2.2 tables 2 and 3: 286 m2 ask for 15 units; 21A 113B gives 6 each."""
    finding = findings("de", units)["fire.extinguishing-units/storeys[ground]"]
    assert finding.outcome == "not met"
    assert finding.measured is not None
    assert finding.limit is not None
    assert (finding.measured.value, finding.limit.value) == (6 * units, 15)


SMALL = """id: small
region: gb
storeys: [{id: top, name: top floor}]
rooms: [{id: loft, storey: top floor, floor_area: AREA}]
extinguishers: [{id: e1, room: loft, rating: 27A, rating_system: EN 3}]
"""


@pytest.mark.parametrize(
    ("day", "area", "outcome"),
    [
        ("2023-12-31", "49.9 m2", "not met"),
        ("2024-01-01", "49.9 m2", "met"),
        ("2024-01-01", "50 m2", "not met"),
    ],
)
def test_one_unit_on_a_small_storey_since_the_edition_of_2023(day: str, area: str, outcome: str) -> None:
    """BS 5306-8:2023 as the trade association announced it (secondary); the day its edition begins is taken."""
    site = read_site(read_text(SMALL.replace("AREA", area), "small.yaml"))
    result = check(site, rulebook(), region="gb", as_of=dt.date.fromisoformat(day), program_version="0.0")
    (finding,) = [each for each in result.findings if each.rule == "fire.class-a-total"]
    assert finding.outcome == outcome


NEAR_A_LIMIT = """id: near
region: us
survey: {on: 2026-11-20, by: a surveyor, evidence: measured}
rooms: [{id: hall, kind: workshop}]
hazards:
  - {id: rags, room: hall, fire_class: A, walks: [{to: e1, distance: A_WALK}]}
  - {id: fuel, room: hall, fire_class: B, open_liquid: no, walks: [{to: e1, distance: B_WALK}]}
extinguishers:
  - {id: e1, room: hall, rating: '4-A:80-B:C', rating_system: UL 711, gross_mass: 20 lb, top_height: TOP,
    base_height: 1 ft}
"""


@pytest.mark.parametrize(
    ("a_walk", "b_walk", "top", "outcomes"),
    [
        ("22.88 m", "15.22 m", "5 ft 0 1/2 in", ("not met", "met", "not met")),
        ("22.86 m", "15.24 m", "5 ft", ("met", "met", "met")),
        ("75 ft", "15.25 m", "1.524 m", ("met", "not met", "met")),
        ("22.9 m", "15.2 m", "1.53 m", ("not met", "met", "not met")),
    ],
)
def test_just_beside_a_limit_written_in_other_units(
    a_walk: str, b_walk: str, top: str, outcomes: tuple[str, str, str]
) -> None:
    """75 ft are 22.86 m, 50 ft 15.24 m and 5 ft 1.524 m exactly; prints of 22.9 m, 15.2 m and 1.53 m are rounded."""
    found = judged(NEAR_A_LIMIT.replace("A_WALK", a_walk).replace("B_WALK", b_walk).replace("TOP", top), "us")
    three = (
        found["fire.class-a-walk/hazards[rags]"],
        found["fire.class-b-walk/hazards[fuel]"],
        found["fire.extinguisher-height/extinguishers[e1]"],
    )
    assert tuple(each.outcome for each in three) == outcomes
    for each in three:
        assert each.measured is not None
        assert each.limit is not None
        assert each.margin is not None
        words = compared(each.measured, each.limit, country_of("us"))
        if each.margin.value != 0:
            assert words.measured is not None
            assert words.limit is not None
            assert words.measured.split(" (")[0] != words.limit.split(" (")[0]


LONG_HALL = """id: long
region: REGION
survey: {on: 2026-11-20, by: a surveyor, evidence: measured}
sprinklers: SPRINKLERS
storeys: [{id: ground, name: ground floor, LEVEL}]
rooms:
  - {id: hall, kind: workshop, storey: ground floor, outline: [[0 ft, 0 ft], [120 ft, 20 ft]], obstacles: none,
    partitions: none, doors: [{id: gate, to: outside, at: [0 ft, 10 ft], width: 12 ft, locked: no}]}
dynos: none
extinguishers:
  - {id: e1, room: hall, at: [0 ft, 10 ft], rating: '10-A:80-B:C', rating_system: UL 711, agent: powder}
  - {id: e2, room: hall, at: [120 ft, 10 ft], rating: 'SECOND', rating_system: SYSTEM, agent: powder}
"""
"""120 ft by 20 ft, a 10-A at one end: from the far corners it is 120.4 ft to that unit, from the middle 60.8 ft."""


def long_hall(
    level: str, second: str, system: str = "UL 711", region: str = "us", sprinklers: str = "none"
) -> dict[str, Finding]:
    text = LONG_HALL.replace("LEVEL", f"hazard_level: {level}" if level else "floor_area: 2400 ft2")
    text = text.replace("SECOND", second).replace("SYSTEM", system)
    return judged(text.replace("REGION", region).replace("SPRINKLERS", sprinklers), region)


@pytest.mark.parametrize(
    ("level", "second", "system", "by_code"),
    [
        ("extra", "4-A:60-B:C", "UL 711", "met"),
        ("extra", "3-A:40-B:C", "UL 711", "not met"),
        ("ordinary", "2-A:10-B:C", "UL 711", "met"),
        ("light", "2-A:10-B:C", "UL 711", "met"),
        ("light", "1-A:10-B:C", "UL 711", "not met"),
        ("ordinary", "21A 113B C", "EN 3", "not met"),
        ("", "4-A:60-B:C", "UL 711", "met"),
        ("", "2-A:10-B:C", "UL 711", "undetermined"),
    ],
)
@pytest.mark.parametrize("region", ["us", "ca"])
def test_a_unit_too_weak_for_the_level_ends_no_walk_of_the_fire_code(
    region: str, level: str, second: str, system: str, by_code: str
) -> None:
    """IFC 2018 table 906.3(1), NFPA 10 table 6.2.1.1: smallest unit and 75 ft go together; 4-A in an extra hazard.

    Ratings of EN 3 are of another test. 29 CFR 1910.157(d)(2) asks for any unit.
    """
    found = long_hall(level, second, system, region)
    assert found["fire.class-a-walk-by-level/rooms[hall]"].outcome == by_code
    if region == "us":
        assert found[WALK].outcome == "met"


@pytest.mark.parametrize(("level", "outcome"), [("extra", "met"), ("ordinary", "met"), ("light", "met"), ("", "met")])
def test_what_is_enough_for_an_extra_hazard_is_enough_at_every_level(level: str, outcome: str) -> None:
    """IFC 2018 table 906.3(1): 2,400 ft2 take 2.4 A of units of 4-A or more in an extra hazard, less otherwise."""
    found = long_hall(level, "4-A:80-B:C")
    assert found["fire.class-a-area/storeys[ground]"].outcome == outcome


@pytest.mark.parametrize(("first", "outcome"), [("80", "met"), ("20", "undetermined")])
def test_the_level_of_a_liquid_hazard_matters_only_where_units_are_weak(first: str, outcome: str) -> None:
    """IFC 2018 table 906.3(2): 80-B in 50 ft serves all levels, 20-B in 50 ft ordinary and light ones only."""
    text = NEAR_A_LIMIT.replace("80-B", f"{first}-B").replace("A_WALK", "1 ft").replace("B_WALK", "49 ft")
    found = judged(text.replace("TOP", "5 ft"), "us")
    assert found["fire.class-b-rating-by-level/hazards[fuel]"].outcome == outcome


@pytest.mark.parametrize(
    ("sprinklers", "outcome"),
    [
        ("none", "not met"),
        ("{covers: part of it}", "not met"),
        ("{covers: whole building}", "not applicable"),
        ("{valve_open: yes}", "undetermined"),
    ],
)
def test_australia_asks_for_fifteen_metres_where_no_sprinklers_protect(sprinklers: str, outcome: str) -> None:
    """AS 2444, 4.2.1 (secondary): class A, no sprinklers, 15 m from any point; the middle of the hall is 18.5 m off."""
    found = long_hall("extra", "4A:60B:E", "AS/NZS 1850", "au", sprinklers)
    assert found["fire.class-a-walk-without-sprinklers/rooms[hall]"].outcome == outcome


def test_law_asks_for_extinguishers_and_good_practice_for_one_in_each_room() -> None:
    """IFC 2018, 906.1: in the building and by the walk; that a cell of its own has one is common practice."""
    text = """id: two
region: us
rooms: [{id: shop, kind: workshop}, {id: cell, kind: running room}]
panels: [{id: p1, room: cell}]
extinguishers: [{id: e1, room: shop, rating: '4-A:80-B:C', rating_system: UL 711, agent: powder}]
"""
    found = judged(text, "us")
    kept, cell = found["fire.extinguishers-kept/"], found["fire.extinguisher-at-hand/rooms[cell]"]
    panel, live = found["fire.electrical-extinguisher/panels[p1]"], found["fire.electrical-extinguisher-kept/"]
    assert (kept.outcome, live.outcome) == ("met", "met")
    assert (cell.outcome, panel.outcome) == ("not met", "not met")
    assert {each.authority for each in (*cell.provisions, *panel.provisions)} == {"good practice"}
