"""Fire examples of published rules, worked through site files and the rulesets: extinguishers, fuel and pits.

Where no publisher is named, the example is our own arithmetic from the rule that is named.
"""

import datetime
from functools import cache
from math import hypot

import pytest

from checker import shipped
from checker.findings.check import check
from checker.findings.result import Finding
from checker.reading import read_text
from checker.rules import Rulebook, read_rulesets
from checker.site import read_site


@cache
def book() -> Rulebook:
    return read_rulesets(shipped.rulesets())


def found(text: str, region: str, rule: str) -> Finding:
    site = read_site(read_text(f"id: example\nsurvey: {{evidence: measured}}\n{text}", "example.yaml"))
    result = check(site, book(), region=region, as_of=datetime.date(2026, 11, 25), program_version="0")
    (finding,) = [each for each in result.findings if each.rule == rule]
    return finding


BAFFLE = """sprinklers: none
rooms:
  - id: hall
    kind: workshop
    storey: ground
    outline: [[0 m, 0 m], [20 m, 12 m]]
    obstacles: none
    partitions: [{id: baffle, line: [[10 m, 0 m], [10 m, 10 m]]}]
    doors: [{id: gate, to: outside, at: [0 m, 6 m], width: 3 m, locked: no}]
dynos: none
extinguishers: [{id: e1, room: hall, at: [0 m, 0 m], rating: 4A, rating_system: AS/NZS 1850}]
"""


@pytest.mark.parametrize(
    ("region", "rule", "outcome"),
    [
        ("gb", "fire.class-a-walk-from-anywhere", "met"),
        ("us", "fire.class-a-walk-from-anywhere", "not met"),
        ("de", "fire.class-a-walk-from-anywhere", "not met"),
        ("au", "fire.class-a-walk-without-sprinklers", "not met"),
    ],
)
def test_a_walk_round_a_baffle_where_the_straight_line_would_do(region: str, rule: str, outcome: str) -> None:
    """20 m as the crow flies, 28.284 m on foot; 30 m (BS 5306-8), 75 ft (29 CFR 1910.157(d)(2)), 20 m (ASR A2.2)."""
    finding = found(BAFFLE, region, rule)
    assert finding.outcome == outcome
    assert finding.measured is not None
    assert float(finding.measured.value) == pytest.approx(2 * hypot(10, 10), abs=0.002)


STOREY = """storeys: [{id: ground, name: ground, floor_area: AREA, hydrant_units: 0, small_units_justified: no}]
rooms: [{id: hall, kind: workshop, storey: ground}]
extinguishers: UNITS
"""


def storey(area: str, units: int, rating: str) -> str:
    hung = (f"{{id: e{number}, room: hall, rating: {rating}, rating_system: EN 3}}" for number in range(units))
    return STOREY.replace("AREA", area).replace("UNITS", f"[{', '.join(hung)}]")


@pytest.mark.parametrize(
    ("area", "units", "outcome"),
    [
        ("1150 m2", 6, "met"),
        ("1150 m2", 5, "not met"),
        ("400 m2", 2, "met"),
        ("401 m2", 2, "not met"),
        ("401 m2", 3, "met"),
        ("150 m2", 2, "met"),
        ("150 m2", 1, "not met"),
    ],
)
def test_british_units_of_13a(area: str, units: int, outcome: str) -> None:
    """BS 5306-8:2012, 8.2 on firelinkltd.co.uk (secondary): 1,150 m2 take six units of 13A, 150 m2 two.

    The step from 400 m2 (26A) to 401 m2 (26.065A) is own arithmetic.
    """
    assert found(storey(area, units, "13A"), "gb", "fire.class-a-total").outcome == outcome


@pytest.mark.parametrize(
    ("area", "units", "rating", "outcome"),
    [
        ("500 m2", 4, "21A 113B", "met"),
        ("500 m2", 3, "21A 113B", "not met"),
        ("500 m2", 2, "43A 233B", "met"),
        ("501 m2", 4, "21A 113B", "met"),
        ("601 m2", 4, "21A 113B", "not met"),
        ("1000 m2", 3, "43A 233B", "met"),
        ("1001 m2", 3, "43A 233B", "not met"),
        ("1250 m2", 7, "21A 113B", "met"),
        ("1251 m2", 7, "21A 113B", "not met"),
        ("100 m2", 3, "13A 89B", "not met"),
        ("100 m2", 9, "89B", "not met"),
    ],
)
def test_german_units_by_storey(area: str, units: int, rating: str, outcome: str) -> None:
    """ASR A2.2, tables 2 and 3: an office of 500 m2 takes 21 units, four of 21A 113B (annex 2, read in a copy).

    43A 233B counts 12 (annex 2). Own arithmetic: 13A 89B counts 4, less than 6, and carbon dioxide has no A.
    """
    assert found(storey(area, units, rating), "de", "fire.extinguishing-units").outcome == outcome


CANS = """rooms: [{id: shop, kind: workshop}, {id: cell, kind: running room}, {id: shed, kind: store}]
fuels:
  - {id: tanks, room: shop, substance: petrol, container: vehicle tank, volume: 60 US gal, mass: 170 kg, in_cabinet: no,
    hazard_category: category 1}
  - {id: cans, room: shop, substance: petrol, container: approved can, volume: SHOP US gal, in_cabinet: no,
    hazard_category: category 1, mass: HEAVY kg}
  - {id: jugs, room: cell, substance: petrol, container: approved can, volume: CELL US gal, in_cabinet: no,
    hazard_category: category 1, mass: LIGHT kg}
  - {id: drum, room: shed, substance: petrol, container: drum, volume: 55 US gal, in_cabinet: yes, mass: 150 kg,
    hazard_category: category 1}
"""


@pytest.mark.parametrize(("shop", "cell", "outcome"), [("6", "4", "met"), ("6", "4.1", "not met")])
def test_ten_gallons_outside_a_cabinet_in_all_rooms_together(shop: str, cell: str, outcome: str) -> None:
    """IFC 2018, 5704.3.4.4: above 10 gal in all. Tanks of vehicles count 0 (Indiana's interpretation CEB-2022-52)."""
    text = CANS.replace("SHOP", shop).replace("CELL", cell).replace("HEAVY", "1").replace("LIGHT", "1")
    assert found(text, "us", "flammables.outside-cabinet").outcome == outcome


@pytest.mark.parametrize(("heavy", "light", "outcome"), [("6", "4", "met"), ("6", "4.1", "not met")])
def test_ten_kilograms_of_petrol_in_all_workrooms_together(heavy: str, light: str, outcome: str) -> None:
    """TRGS 510, table 1, as printed in DGUV Information 209-082, 14.2: 10 kg of H224 in a fire section."""
    text = CANS.replace("HEAVY", heavy).replace("LIGHT", light).replace("SHOP", "1").replace("CELL", "1")
    assert found(text, "de", "flammables.kept-by-mass").outcome == outcome


@pytest.mark.parametrize(("flow", "outcome"), [("75 cfm", "met"), ("74.9 cfm", "not met")])
def test_a_pit_of_fifty_square_feet(flow: str, outcome: str) -> None:
    """IFC 2018, 2311.4.3: 1.5 cfm for each ft2; 50 ft2 take 75 cfm. The SI print of 0.008 is rounded from 0.00762."""
    text = f"dynos: [{{id: d1, rollers: {{in_pit: yes, pit_area: 50 ft2, pit_exhaust: {flow}}}}}]\n"
    assert found(text, "us", "flammables.pit-ventilated").outcome == outcome
