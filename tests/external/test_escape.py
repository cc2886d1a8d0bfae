"""The way out and room to move, against published examples and hand reckoning, through site files and the rulesets.

Examples without a publisher are our own arithmetic from a printed rule; each says which rule.
"""

import datetime
from decimal import Decimal
from math import asin, atan2, hypot
from pathlib import Path

import pytest

from checker.findings.check import check
from checker.findings.result import Finding
from checker.quantities import facts
from checker.quantities.escape import occupants_by_area
from checker.quantities.floor_space import air_space
from checker.quantities.liquids import petrol_mass
from checker.reading import read_text
from checker.rules import Rulebook, read_rulesets
from checker.site import read_site

ROOT = Path(__file__).parents[2]
FOOT = 0.3048
SQUARE_FOOT = FOOT**2
HALL = """\
id: hall
survey: {evidence: measured}
building: {use_group: S-1}
sprinklers: SPRINKLERS
rooms:
  - id: shop
    kind: workshop
    outline: [[0 m, 0 m], [20 m, 12 m]]
    height: 3.5 m
    ROOM
    doors: [DOORS]
    partitions: none
    obstacles: OBSTACLES
dynos: none
"""


@pytest.fixture(scope="module")
def book() -> Rulebook:
    return read_rulesets(ROOT / "rulesets")


def hall(room: str = "", doors: str = "", sprinklers: str = "none", obstacles: str = "none") -> str:
    text = HALL.replace("ROOM", room or "repairs_vehicles: yes").replace("DOORS", doors)
    return text.replace("SPRINKLERS", sprinklers).replace("OBSTACLES", obstacles)


def finding(book: Rulebook, text: str, region: str, rule: str) -> Finding:
    site = read_site(read_text(text, "hall.yaml"))
    result = check(site, book, region=region, as_of=datetime.date(2026, 11, 25), program_version="0")
    return next(each for each in result.findings if each.rule == rule)


def outcome(book: Rulebook, text: str, region: str, rule: str) -> str:
    return finding(book, text, region, rule).outcome


@pytest.mark.parametrize(
    "square_feet, each, people",
    [
        pytest.param(2569, 200, 13, id="maintenance bays: building-code forum, December 2013 (secondary)"),
        pytest.param(852, 300, 3, id="accessory storage: the same"),
        pytest.param(1827, 100, 19, id="staff rooms: the same"),
        pytest.param(5000, 100, 50, id="office: a law-information page (secondary)"),
        pytest.param(600, 100, 6, id="no seventh person by rounding in metres: own arithmetic"),
    ],
)
def test_people_counted_by_floor_area(square_feet: float, each: float, people: int) -> None:
    assert occupants_by_area(square_feet * SQUARE_FOOT, each * SQUARE_FOOT) == people


@pytest.mark.parametrize("people, wanted", [(160, "met"), (161, "not met")])
def test_a_door_of_32_inches_serves_160_people(book: Rulebook, people: int, wanted: str) -> None:
    """32 in at 0.2 in a person (IBC 1005.3.2): 160, as a page on doors prints (secondary; it misprints the factor)."""
    room = f"most_people: {people}\n    floor_area: 600 ft2\n    counted_as: industrial area"
    doors = "{id: a, to: outside, at: [0 m, 6 m], width: 32 in, locked: no, way_out: yes}"
    text = hall(room, doors).replace("    outline: [[0 m, 0 m], [20 m, 12 m]]\n", "")
    assert outcome(book, text, "us", "escape.exit-width") == wanted


@pytest.mark.parametrize(
    "region, sprinklers, wanted, apart",
    [
        ("us", "none", "not met", "10.9"),
        ("us", "{covers: whole building}", "met", "10.9"),
        ("us-ny-nyc", "none", "not met", "10"),
        ("us-ny-nyc", "{covers: whole building}", "met", "10"),
    ],
)
def test_two_exits_ten_metres_apart_in_a_hall_of_20_by_12(
    book: Rulebook, region: str, sprinklers: str, wanted: str, apart: str
) -> None:
    """Diagonal 23.324 m: half is 11.662 m, a third 7.775 m (IBC 1007.1.1; own arithmetic).

    The model code takes any point of each doorway, so that doors of 0.9 m count 10.9 m apart; New York the middles.
    """
    doors = (
        "{id: a, to: outside, at: [5 m, 0 m], width: 0.9 m, locked: no, way_out: yes}, "
        "{id: b, to: outside, at: [15 m, 0 m], width: 0.9 m, locked: no, way_out: yes}"
    )
    text = hall("one_exit_enough: no", doors=doors, sprinklers=sprinklers)
    found = finding(book, text, region, "escape.exits-apart")
    assert found.outcome == wanted
    assert found.measured is not None
    assert float(found.measured.value) == pytest.approx(float(apart), abs=1e-9)
    room = facts(read_site(read_text(hall(doors=doors), "hall.yaml"))).things("room")[0]
    assert float(room["diagonal"]) == pytest.approx(23.324, abs=5e-4)


def test_a_walk_that_keeps_a_foot_off_two_corners() -> None:
    """Straight pieces touch circles of a foot about the corners (NFPA 101, 7.6; own derivation)."""
    doors = "{id: a, to: outside, at: [20 m, 6 m], width: 1 m, locked: no, way_out: yes}"
    text = hall(doors=doors, obstacles="[{id: rack, outline: [[6 m, 3 m], [14 m, 9 m]]}]")
    room = facts(read_site(read_text(text, "hall.yaml"))).things("room")[0]
    assert float(room["farthest_from_exit"]) == pytest.approx(8 + 2 * hypot(6, 3), abs=1e-3)
    across = 6 - FOOT
    far = hypot(across, 3)
    bend = FOOT * (atan2(3, across) + asin(FOOT / far))
    wanted = 8 + 2 * (far**2 - FOOT**2) ** 0.5 + 2 * bend + FOOT
    assert float(room["farthest_from_exit_off_corners"](Decimal("0.3048"))) == pytest.approx(wanted, abs=2e-3)


@pytest.mark.parametrize("people, wanted", [(17, "met"), (18, "not met")])
def test_eleven_cubic_metres_for_each_person(book: Rulebook, people: int, wanted: str) -> None:
    """9 m × 7 m, 3.5 m high, of which 3.0 m count: 11.118 m3 for 17, 10.5 m3 for 18 (L24; own arithmetic)."""
    text = hall(f"working_people: {people}").replace("[20 m, 12 m]", "[9 m, 7 m]")
    assert outcome(book, text, "gb", "clearances.air-space") == wanted


@pytest.mark.parametrize(
    "area, height, enough", [(4.6, 2.4, True), (3.7, 3.0, True), (4.5, 2.4, False), (3.6, 9, False)]
)
def test_floor_areas_that_the_regulator_prints_for_one_person(area: float, height: float, enough: bool) -> None:
    """4.6 m2 under 2.4 m, 3.7 m2 under 3.0 m and more (HSE, page on room space, verified)."""
    assert (air_space(area, height, 3.0) >= 11) is enough


@pytest.mark.parametrize("area, wanted", [("32 m2", "met"), ("31.9 m2", "not met")])
def test_five_places_of_work_take_32_square_metres(book: Rulebook, area: str, wanted: str) -> None:
    """8 + 4 × 6 m2 (ASR A1.2, 5(3); own arithmetic)."""
    text = hall(f"working_people: 5\n    floor_area: {area}").replace("    outline: [[0 m, 0 m], [20 m, 12 m]]\n", "")
    assert outcome(book, text, "de", "clearances.floor-area") == wanted


@pytest.mark.parametrize(
    "rule, width, wanted",
    [
        ("escape.door-width-by-people", "0.90 m", "met"),
        ("escape.door-width-by-people", "0.89 m", "not met"),
        ("escape.route-width-by-people", "1.00 m", "met"),
        ("escape.route-width-by-people", "0.99 m", "not met"),
    ],
)
def test_widths_for_twelve_people(book: Rulebook, rule: str, width: str, wanted: str) -> None:
    """Door 0.90 m, way 1.00 m (ASR A1.8, table 2; own reading of the table)."""
    doors = f"{{id: a, to: outside, at: [0 m, 6 m], width: {width}, locked: no, way_out: yes, served: 12}}"
    assert outcome(book, hall(f"most_people: 12\n    way_out_width: {width}", doors), "de", rule) == wanted


def test_fifty_people_and_a_door_that_opens_inwards(book: Rulebook) -> None:
    """The building code asks from 50, workplace law for more than 50 (IBC 1010.1.2.1; 29 CFR 1910.36(e)(2))."""
    doors = "{id: a, to: outside, at: [0 m, 6 m], width: 36 in, locked: no, way_out: yes, served: 50, swing: in}"
    text = hall("most_people: 50\n    counted_as: industrial area", doors=doors)
    assert outcome(book, text, "us", "escape.door-swing-by-load") == "not met"
    assert outcome(book, text, "us", "escape.door-swing-by-people") == "met"


@pytest.mark.parametrize("long, use, wanted", [(455, "industrial area", "met"), (456, "industrial area", "not met"),
                                               (456, "parking garage", "met")])  # fmt: skip
def test_a_large_hall_counts_for_fifty_people_however_few_are_there(
    book: Rulebook, long: int, use: str, wanted: str
) -> None:
    """IBC 2018, table 1004.5 and 1010.1.2.1: 455 m2 are 4,898 ft2 and 49 people at 100 ft2 each, 456 m2 are 50."""
    doors = "{id: a, to: outside, at: [0 m, 0.5 m], width: 36 in, locked: no, way_out: yes, served: 6, swing: in}"
    text = hall(f"most_people: 6\n    counted_as: {use}", doors).replace("[20 m, 12 m]", f"[{long} m, 1 m]")
    assert outcome(book, text, "us", "escape.door-swing-by-load") == wanted


@pytest.mark.parametrize("litres, wanted", [("90 L", "met"), ("90.1 L", "not met")])
def test_a_workshop_of_180_square_metres_keeps_90_litres(book: Rulebook, litres: str, wanted: str) -> None:
    """1 L for each 2 m2, to 250 L (AS 1940:2004, table 2.1, secondary; own arithmetic)."""
    text = hall("floor_area: 180 m2").replace("    outline: [[0 m, 0 m], [20 m, 12 m]]\n", "")
    text += f"fuels: [{{id: cans, room: shop, container: approved can, volume: {litres}}}]\n"
    assert outcome(book, text, "au", "flammables.kept-by-area") == wanted


@pytest.mark.parametrize("cans, wanted", [(2, "met"), (3, "not met"), (5, "not met")])
def test_two_cans_of_ten_kilograms_may_stay_outside_a_store(book: Rulebook, cans: int, wanted: str) -> None:
    """Five cans of 10 kg, highly flammable: two stay, three go (DGUV Information 209-082, 14.2, verified in a copy)."""
    line = (
        "{{id: can-{0}, room: shop, container: approved can, in_cabinet: no, hazard_category: category 2, mass: 10 kg}}"
    )
    text = hall() + f"fuels: [{', '.join(line.format(number) for number in range(cans))}]\n"
    assert outcome(book, text, "de", "flammables.kept-by-mass") == wanted


@pytest.mark.parametrize("litres, kilograms", [(13.4, 10), (26.8, 20)])
def test_petrol_by_mass(litres: float, kilograms: float) -> None:
    """13.4 L weigh 10 kg, 26.8 L 20 kg, at 0.745 kg/L (own arithmetic; the density is common practice)."""
    assert petrol_mass("petrol", litres / 1000) == pytest.approx(kilograms, abs=0.04)


ONE_GATE = (
    "{id: gate, to: outside, at: [0 m, MIDDLE], width: 3 m, locked: no, way_out: yes, opens_at_once: yes, swing: out}"
)


@pytest.mark.parametrize(
    "group, long, wide, people, wanted",
    [
        ("S-1", 20, 12, 29, "met"),
        ("S-1", 20, 12, 30, "not met"),
        ("F-1", 20, 12, 49, "met"),
        ("F-1", 20, 12, 50, "not met"),
        ("S-1", 28, 6, 29, "met"),
        ("S-1", 31, 6, 29, "not met"),
        ("F-1", 28, 6, 30, "not met"),
        ("F-1", 22, 6, 30, "met"),
    ],
)
def test_one_way_out_of_the_same_shop_in_two_groups(
    book: Rulebook, group: str, long: int, wide: int, people: int, wanted: str
) -> None:
    """IBC 2018, table 1006.2.1: S-1 29 people and 100 ft, F-1 49 people and 75 ft, more than 30 people 75 ft.

    Own arithmetic: halls of 20 m, 22 m, 28 m and 31 m give ways of 68.5 ft, 72.9 ft, 92.4 ft and 102.2 ft.
    """
    text = hall(f"most_people: {people}\n    counted_as: industrial area", ONE_GATE.replace("MIDDLE", f"{wide / 2} m"))
    text = text.replace("[20 m, 12 m]", f"[{long} m, {wide} m]").replace("S-1", group)
    assert outcome(book, text, "us", "escape.one-way-out") == wanted


@pytest.mark.parametrize(
    "rule, recorded, wanted",
    [
        ("escape.door-width", "width: 812.8 mm", "met"),
        ("escape.door-width", "width: 812.2 mm", "not met"),
        ("escape.door-width", "width: 810 mm", "not met"),
        ("escape.door-height", "height: 2.032 m", "met"),
        ("escape.door-height", "height: 2.03 m", "not met"),
        ("escape.route-width", "way_out_width: 711.2 mm", "met"),
        ("escape.route-width", "way_out_width: 711 mm", "not met"),
        ("escape.headroom", "way_out_headroom: 2.032 m", "met"),
        ("escape.headroom", "way_out_headroom: 2.0 m", "not met"),
    ],
)
def test_prints_in_metres_do_not_shift_a_limit_in_inches(book: Rulebook, rule: str, recorded: str, wanted: str) -> None:
    """32 in (IBC 1010.1.1) are 812.8 mm, 28 in (29 CFR 1910.36(g)(2)) 711.2 mm, 6 ft 8 in (g)(1) 2.032 m exactly."""
    ours = f"{recorded}, " if rule.startswith("escape.door") else ""
    door = f"{{id: a, to: outside, at: [0 m, 6 m], {ours}locked: no, way_out: yes}}"
    room = "" if ours else f"way_out_free: yes\n    {recorded}"
    assert outcome(book, hall(room, door), "us", rule) == wanted


@pytest.mark.parametrize("served, by_code", [(10, "met"), (11, "not met")])
def test_a_shutter_that_the_building_code_takes_is_not_enough_for_workplace_law(
    book: Rulebook, served: int, by_code: str
) -> None:
    """IBC 2018, 1010.1.2, exception 1: up to 10 people; 29 CFR 1910.36(e)(1): a side-hinged door, without exception."""
    shutter = f"{{id: a, to: outside, at: [0 m, 6 m], locked: no, way_out: yes, swing: roller, served: {served}}}"
    hinged = ", {id: b, to: outside, at: [0 m, 9 m], locked: no, way_out: yes, swing: out}"
    assert outcome(book, hall(doors=shutter), "us", "escape.door-hinged") == by_code
    assert outcome(book, hall(doors=shutter), "us", "escape.hinged-door") == "not met"
    assert outcome(book, hall(doors=shutter + hinged), "us", "escape.hinged-door") == "met"


@pytest.mark.parametrize("enough, wanted", [("yes", "met"), ("no", "not met")])
@pytest.mark.parametrize("region, rule", [("us", "escape.exits-apart"), ("au", "escape.exits-far-enough")])
def test_a_door_beside_the_gate_where_one_way_out_would_do(
    book: Rulebook, region: str, rule: str, enough: str, wanted: str
) -> None:
    """IBC 2018, 1007.1.1, and NCC 2022, D2D6 (memory), speak of exits that are required as alternatives."""
    doors = (
        "{id: a, to: outside, at: [5 m, 0 m], width: 3 m, locked: no, way_out: yes}, "
        "{id: b, to: outside, at: [8 m, 0 m], width: 0.9 m, locked: no, way_out: yes}"
    )
    assert outcome(book, hall(f"one_exit_enough: {enough}", doors), region, rule) == wanted


BENCHES = "[{id: o1, outline: [[3 m, 0 m], [3.2 m, HIGH]]}, {id: o2, outline: [[6 m, 1 m], [6.2 m, WIDE]]}]"


@pytest.mark.parametrize("high, wide, wanted", [(11, 12, "met"), (26, 27, "not met")])
def test_the_way_walked_is_held_against_the_length_allowed(book: Rulebook, high: int, wide: int, wanted: str) -> None:
    """ASR A2.3 (March 2022), 5(4): at most 1.5 times 35 m, whatever the line on the bare floor.

    In both halls the way walked is more than 1.5 times that line.
    """
    benches = BENCHES.replace("HIGH", f"{high} m").replace("WIDE", f"{wide} m")
    doors = "{id: a, to: outside, at: [9 m, 0.5 m], width: 1 m, locked: no, way_out: yes, opens_at_once: yes}"
    text = hall("fire_risk: normal", doors, obstacles=benches).replace("[20 m, 12 m]", f"[9 m, {wide} m]")
    found = finding(book, text, "de", "escape.walk-unfurnished")
    room = facts(read_site(read_text(text, "hall.yaml"))).things("room")[0]
    bare, walked = float(room["farthest_from_exit_unfurnished"]), float(room["farthest_from_exit"])
    assert walked > 1.5 * bare
    assert bare < 35
    assert (walked <= 52.5) is (wanted == "met")
    assert found.outcome == wanted
