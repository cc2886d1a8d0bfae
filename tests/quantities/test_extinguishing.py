"""Extinguishers of a storey, of letters without numbers, and beside electrics, as a site file records them."""

from collections.abc import Callable
from decimal import Decimal
from math import hypot

import pytest

from checker.quantities import Facts, Missing, Thing

FactsOf = Callable[[str], Facts]

SITE = """
storeys: [{id: ground, name: ground floor}]
rooms:
  - {id: hall, storey: ground floor, floor_area: 300 m2}
  - {id: store, storey: ground floor, floor_area: 50 m2}
  - {id: office, storey: upper floor, floor_area: 80 m2}
extinguishers:
  - {id: a, room: hall, rating: 21A 113B C, rating_system: EN 3, agent: powder}
  - {id: b, room: store, rating: 13A 89B, rating_system: EN 3, agent: foam}
  - {id: c, room: office, rating: 55A 233B, rating_system: EN 3, agent: foam}
  - {id: d, room: hall, rating: '10-A:80-B:C', rating_system: UL 711, agent: powder}
fuels: [{id: cans, room: store, volume: 20 L}, {id: car, room: store, volume: 40 L, container: vehicle tank}]
"""


def storey(facts_of: FactsOf, text: str = SITE) -> Thing:
    return facts_of(text).things("storey")[0]


def test_only_what_lies_on_the_storey_and_is_rated_in_the_system_counts(facts_of: FactsOf) -> None:
    ground = storey(facts_of)
    assert ground["floor_area"] == 350
    assert ground["class_a_total"]("EN 3") == 34
    assert ground["class_a_units"]("EN 3") == 2
    assert ground["class_a_counted"](Decimal(2), Decimal("7.5"), Decimal(0)) == Decimal("7.5")
    assert ground["extinguishing_units"]("A and B", Decimal(6)) == 6
    assert ground["extinguishing_units"]("A and B", Decimal(1)) == 10


def test_a_recorded_area_of_a_storey_stands_where_it_was_measured(facts_of: FactsOf) -> None:
    text = SITE.replace("name: ground floor}", "name: ground floor, floor_area: {value: 360 m2, evidence: measured}}")
    assert storey(facts_of, text)["floor_area"] == 360


@pytest.mark.parametrize(
    ("gone", "fact", "path"),
    [
        (", floor_area: 50 m2", "floor_area", "rooms[store].floor_area"),
        ("rating: 13A 89B, ", "class_a_total", "extinguishers[b].rating"),
        ("room: store, rating", "class_a_total", "extinguishers[b].room"),
    ],
)
def test_what_may_count_and_is_not_known_is_named(facts_of: FactsOf, gone: str, fact: str, path: str) -> None:
    ground = storey(facts_of, SITE.replace(gone, "rating" if gone.endswith("rating") else ""))
    with pytest.raises(Missing) as raised:
        _ = ground["floor_area"] if fact == "floor_area" else ground[fact]("EN 3")
    assert path in [place for need in raised.value.needs for place in (need.path, *need.instead)]


def test_what_lies_on_another_storey_need_not_be_known(facts_of: FactsOf) -> None:
    text = SITE.replace("rating: 55A 233B, rating_system: EN 3, ", "").replace(", floor_area: 80 m2", "")
    assert storey(facts_of, text)["class_a_total"]("EN 3") == 34
    assert storey(facts_of, text)["floor_area"] == 350


def test_fuel_in_vehicles_counts_in_the_liquid_of_a_room(facts_of: FactsOf) -> None:
    store = facts_of(SITE).things("room")[1]
    assert store["liquid"] == Decimal("0.06")


@pytest.mark.parametrize(
    ("rating", "system", "agent", "safe"),
    [
        ("4-A:80-B:C", "UL 711", "powder", True),
        ("2-A", "UL 711", "water", False),
        ("4A:60B:E", "AS/NZS 1850", "powder", True),
        ("4A:60B", "AS/NZS 1850", "powder", False),
        ("89B", "EN 3", "carbon dioxide", True),
        ("21A 113B C", "EN 3", "powder", True),
        ("13A 144B", "EN 3", "foam", False),
    ],
)
def test_safe_on_electrics(facts_of: FactsOf, rating: str, system: str, agent: str, safe: bool) -> None:
    text = f"extinguishers: [{{id: e, rating: '{rating}', rating_system: {system}, agent: {agent}}}]"
    assert facts_of(text).things("extinguisher")[0]["safe_on_electrics"] is safe


PLAN = """
rooms:
  - id: hall
    outline: [[0 m, 0 m], [12 m, 9 m]]
    obstacles: [{id: lift, outline: [[4 m, 0 m], [5 m, 8 m]]}]
    partitions: none
    doors: [{id: gate, to: outside, at: [12 m, 4 m], width: 3 m, locked: no}]
dynos: none
extinguishers:
  - {id: metal, room: hall, at: [0 m, 4 m], rating: D, rating_system: UL 711}
  - {id: near, room: hall, at: [8 m, 2 m], rating: '4-A:80-B:C', rating_system: UL 711}
hazards: [{id: lathe, room: hall, at: [8 m, 1 m], fire_class: D WALKS}]
"""


def test_the_walk_to_a_unit_for_metal_passes_the_nearer_one(facts_of: FactsOf) -> None:
    lathe = facts_of(PLAN.replace("WALKS", "")).things("hazard")[0]
    assert lathe["has_lettered_extinguisher"]("D", "UL 711") is True
    round_the_lift = hypot(3, 7) + 1 + hypot(4, 4)
    assert float(lathe["walk_to_lettered_extinguisher"]("D", "UL 711")) == pytest.approx(round_the_lift, abs=1e-4)
    assert lathe["walk_to_lettered_extinguisher"]("C", "UL 711") == 1


def test_a_recorded_walk_comes_before_the_plan(facts_of: FactsOf) -> None:
    walks = ", walks: [{to: metal, distance: 15 m}, {to: near, distance: 1 m}]"
    lathe = facts_of(PLAN.replace("WALKS", walks)).things("hazard")[0]
    assert lathe["walk_to_lettered_extinguisher"]("D", "UL 711") == 15


def test_no_unit_has_the_letter(facts_of: FactsOf) -> None:
    lathe = facts_of(PLAN.replace("WALKS", ", walks: [{to: near, distance: 1 m}]")).things("hazard")[0]
    assert lathe["has_lettered_extinguisher"]("C", "EN 3") is False
    with pytest.raises(Missing, match="no recorded walk leads to an extinguisher for class C of EN 3"):
        lathe["walk_to_lettered_extinguisher"]("C", "EN 3")
