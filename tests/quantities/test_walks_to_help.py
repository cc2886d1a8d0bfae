"""Walks to eyewash, first-aid kit, emergency stop and disconnect in a U-shaped room, worked by hand.

Its two arms are joined below: the straight line between them passes through what lies outside, the walk does not.
"""

from math import hypot

import pytest

from checker.quantities import Missing, Thing, facts
from checker.quantities.survey import Reading
from checker.reading import read_text
from checker.site import read_site

SHOP = """\
id: shop
rooms:
  - id: hall
    outline: [[0 m, 0 m], [12 m, 0 m], [12 m, 8 m], [8 m, 8 m], [8 m, 2 m], [4 m, 2 m], [4 m, 8 m], [0 m, 8 m]]
    obstacles: none
    partitions: none
    doors: [{id: hatch, to: store, at: [8 m, 7 m], width: 1 m, locked: no}]
  - id: store
    outline: [[4.1 m, 6 m], [7.9 m, 6 m], [7.9 m, 8 m], [4.1 m, 8 m]]
    obstacles: none
    partitions: none
    doors: [{id: flap, to: hall, at: [4 m, 7 m], width: 1 m, locked: yes}]
dynos:
  - id: d1
    room: hall
    footprint: [[10.8 m, 3 m], [11.8 m, 5 m]]
    operator_place: [9 m, 7 m]
    emergency_stop: {at: [3 m, 7 m], other_actuators: [{at: [9 m, 6.6 m]}]}
    isolation: {at: [3 m, 7 m]}
eyewashes:
  - {id: plumbed, room: hall, at: [2 m, 8 m], kind: plumbed}
  - {id: bottle, room: hall, at: [10 m, 7 m], kind: bottle}
first_aid_kits:
  - {id: whole, room: hall, at: [0 m, 8 m], complete: yes}
  - {id: empty, room: hall, at: [12 m, 8 m], complete: no}
charging_places: [{id: bench, room: hall, at: [10 m, 8 m]}]
"""
ROUND_BOTH = hypot(2, 6) + 4 + hypot(2, 6)
"""From the bench round the corners (8 m, 2 m) and (4 m, 2 m) to the eyewash: m."""
TO_SWITCH = hypot(1, 5) + 4 + hypot(1, 5)
"""From where the machine is run, round the same corners: m."""


def things(text: str, reading: Reading = "recorded") -> dict[str, Thing]:
    known = facts(read_site(read_text(text, "shop.yaml")), reading)
    return {kind: known.things(kind)[0] for kind in ("dyno", "charging_place", "room")}


def changed(*pairs: tuple[str, str]) -> str:
    """The shop with each first text replaced by the second."""
    text = SHOP
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    return text


def needs(thing: Thing, name: str) -> list[str]:
    with pytest.raises(Missing) as raised:
        thing[name]
    return [need.path for need in raised.value.needs]


def test_the_walk_to_the_eyewash_goes_round_where_the_straight_line_passes() -> None:
    bench = things(SHOP)["charging_place"]
    assert float(bench["walk_to_eyewash"]) == pytest.approx(ROUND_BOTH, abs=1e-4)
    assert ROUND_BOTH > 16, "the straight line between them is 8 m"


def test_a_bottle_is_no_eyewash_to_walk_to() -> None:
    bench = things(changed(("kind: bottle", "kind: tank")))["charging_place"]
    assert float(bench["walk_to_eyewash"]) == pytest.approx(1, abs=1e-4)


def test_a_locked_door_is_no_way_to_the_eyewash() -> None:
    through = things(changed(("locked: yes", "locked: no")))["charging_place"]
    assert float(through["walk_to_eyewash"]) < 9 < float(things(SHOP)["charging_place"]["walk_to_eyewash"])


@pytest.mark.parametrize(
    ("gone", "path"),
    [
        (", at: [10 m, 8 m]", "charging_places[bench].at"),
        (", at: [2 m, 8 m]", "eyewashes[plumbed].at"),
        (", kind: bottle", "eyewashes[bottle].kind"),
    ],
)
def test_what_is_not_known_of_an_eyewash_makes_the_walk_unknown(gone: str, path: str) -> None:
    assert path in needs(things(changed((gone, "")))["charging_place"], "walk_to_eyewash")


def test_an_eyewash_that_may_be_a_bottle_counts_only_where_walks_are_shortest() -> None:
    text = changed((", kind: bottle", ""))
    assert float(things(text, "shortest")["charging_place"]["walk_to_eyewash"]) == pytest.approx(1, abs=1e-4)
    assert float(things(text, "longest")["charging_place"]["walk_to_eyewash"]) == pytest.approx(ROUND_BOTH, abs=1e-4)


def test_without_an_eyewash_there_is_no_walk_to_one() -> None:
    text = changed(("kind: plumbed", "kind: bottle"))
    with pytest.raises(Missing, match="holds no eyewash"):
        things(text)["charging_place"]["walk_to_eyewash"]


def test_a_measured_walk_counts_before_the_one_on_the_plan() -> None:
    recorded = "at: [10 m, 8 m], walk_to_eyewash: {value: 21 m, evidence: measured}}]"
    bench = things(changed(("at: [10 m, 8 m]}]", recorded)))["charging_place"]
    assert float(bench["walk_to_eyewash"]) == 21


def test_the_farthest_floor_is_measured_from_the_kit_that_is_whole() -> None:
    hall = things(SHOP)["room"]
    assert float(hall["farthest_from_first_aid_kit"]) == pytest.approx(hypot(4, 6) + 4 + hypot(4, 6), abs=1e-3)


def test_two_whole_kits_share_the_room() -> None:
    """The farthest floor is then the middle of the lower side: (6 m, 0 m)."""
    hall = things(changed(("complete: no", "complete: yes")))["room"]
    assert float(hall["farthest_from_first_aid_kit"]) == pytest.approx(hypot(4, 6) + hypot(2, 2), abs=1e-3)


@pytest.mark.parametrize(
    ("gone", "path"),
    [
        (", at: [0 m, 8 m]", "first_aid_kits[whole].at"),
        (", complete: no", "first_aid_kits[empty].complete"),
    ],
)
def test_what_is_not_known_of_a_kit_makes_the_walk_unknown(gone: str, path: str) -> None:
    assert path in needs(things(changed((gone, "")))["room"], "farthest_from_first_aid_kit")


def test_the_nearest_actuator_counts() -> None:
    alone = "other_actuators: none"
    one = things(changed(("other_actuators: [{at: [9 m, 6.6 m]}]", alone)))["dyno"]
    assert float(things(SHOP)["dyno"]["walk_to_emergency_stop"]) == pytest.approx(0.4, abs=1e-4)
    assert float(one["walk_to_emergency_stop"]) == pytest.approx(TO_SWITCH, abs=1e-4)


@pytest.mark.parametrize(
    ("old", "new", "path"),
    [
        (", other_actuators: [{at: [9 m, 6.6 m]}]", "", "dynos[d1].emergency_stop.other_actuators"),
        ("{at: [9 m, 6.6 m]}", "{note: on a cord}", "dynos[d1].emergency_stop.other_actuators[0].at"),
        ("    operator_place: [9 m, 7 m]\n", "", "dynos[d1].operator_place"),
        ("{at: [3 m, 7 m], other", "{other", "dynos[d1].emergency_stop.at"),
    ],
)
def test_what_is_not_known_of_a_stop_makes_the_walk_unknown(old: str, new: str, path: str) -> None:
    assert path in needs(things(changed((old, new)))["dyno"], "walk_to_emergency_stop")


def test_actuators_that_may_be_there_shorten_the_walk_only() -> None:
    text = changed((", other_actuators: [{at: [9 m, 6.6 m]}]", ""))
    assert float(things(text, "longest")["dyno"]["walk_to_emergency_stop"]) == pytest.approx(TO_SWITCH, abs=1e-4)
    assert needs(things(text, "shortest")["dyno"], "walk_to_emergency_stop")


def test_the_walk_to_the_switch_goes_round_and_the_straight_line_does_not() -> None:
    dyno = things(SHOP)["dyno"]
    assert float(dyno["walk_to_disconnect"]) == pytest.approx(TO_SWITCH, abs=1e-4)
    assert float(dyno["distance_to_disconnect"]) == pytest.approx(hypot(10.8 - 3, 7 - 5), abs=1e-4)


def test_the_straight_line_begins_at_the_edge_of_the_machine_that_is_nearest() -> None:
    dyno = things(changed(("isolation: {at: [3 m, 7 m]}", "isolation: {at: [3 m, 5 m]}")))["dyno"]
    assert float(dyno["distance_to_disconnect"]) == pytest.approx(7.8, abs=1e-6)
    drawn = dyno.working["distance_to_disconnect"].step.drawn
    assert drawn is not None
    assert (drawn.what, drawn.points) == ("straight line", ((10.8, 5.0), (3.0, 5.0)))


@pytest.mark.parametrize("name", ["walk_to_disconnect", "distance_to_disconnect"])
def test_a_switch_without_a_place_has_no_distance(name: str) -> None:
    text = changed(("isolation: {at: [3 m, 7 m]}", "isolation: {in_sight: yes}"))
    assert "dynos[d1].isolation.at" in needs(things(text)["dyno"], name)


def test_the_working_shows_the_path_and_what_it_ends_at() -> None:
    bench = things(SHOP)["charging_place"]
    bench["walk_to_eyewash"]
    drawn = bench.working["walk_to_eyewash"].step.drawn
    assert drawn is not None
    wanted = ((10, 8), (8, 2), (4, 2), (2, 8))
    assert [pytest.approx(place, abs=1e-4) for place in wanted] == list(drawn.points)
    assert (drawn.room, drawn.ends_at, drawn.targets) == ("hall", "eyewash", ((2.0, 8.0),))
