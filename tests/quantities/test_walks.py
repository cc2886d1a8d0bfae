"""Walks on the floor plan of a recorded site: what is known, what is not, and what the readings settle."""

from decimal import Decimal
from math import hypot

import pytest

from checker.quantities import Missing, Thing, facts
from checker.quantities.survey import Reading
from checker.reading import read_text
from checker.site import read_site

SHOP = """\
id: shop
rooms:
  - id: cell
    outline: [[0 m, 0 m], [12 m, 9 m]]
    obstacles: [{id: lift, outline: [[4 m, 0 m], [5 m, 8 m]]}]
    partitions: none
    doors: [{id: gate, to: outside, at: [12 m, 4 m], width: 3 m, locked: no, way_out: yes}]
dynos: none
extinguishers:
  - {id: fe-1, room: cell, at: [0 m, 4 m], rating: 34B, rating_system: EN 3}
hazards:
  - {id: bench, room: cell, at: [8 m, 1 m], fire_class: B}
"""
ROUND_THE_LIFT = hypot(3, 7) + 1 + hypot(4, 4)
"""From the bench over both corners of the lift at y = 8 m to the unit: m."""


def things(text: str, reading: Reading = "recorded") -> tuple[Thing, Thing]:
    known = facts(read_site(read_text(text, "shop.yaml")), reading)
    return known.things("hazard")[0], known.things("room")[0]


def without(*lines: str) -> str:
    text = SHOP
    for line in lines:
        assert line in text
        text = text.replace(line, "")
    return text


def test_the_walk_goes_round_what_stands_in_the_way() -> None:
    bench, _ = things(SHOP)
    assert float(bench["walk_to_extinguisher"]("B", Decimal(21))) == pytest.approx(ROUND_THE_LIFT, abs=1e-4)
    assert hypot(8, 3) < 9 < ROUND_THE_LIFT, "the straight line would pass where the walk does not"


def test_moving_the_unit_changes_the_walk() -> None:
    bench, _ = things(SHOP.replace("at: [0 m, 4 m]", "at: [8 m, 0 m]"))
    assert float(bench["walk_to_extinguisher"]("B", Decimal(21))) == pytest.approx(1, abs=1e-4)


def test_a_unit_that_is_too_weak_does_not_count() -> None:
    bench, _ = things(SHOP)
    with pytest.raises(Missing, match="holds no extinguisher"):
        bench["walk_to_extinguisher"]("B", Decimal(55))


def test_the_farthest_floor_is_in_a_corner_behind_the_lift() -> None:
    _, cell = things(SHOP)
    assert float(cell["farthest_from_exit"]) == pytest.approx(hypot(4, 8) + 1 + hypot(7, 4), abs=1e-3)


@pytest.mark.parametrize(
    ("missing", "path"),
    [
        (", locked: no", "rooms[cell].doors[gate].locked"),
        (", at: [12 m, 4 m]", "rooms[cell].doors[gate].at"),
        ("    partitions: none\n", "rooms[cell].partitions"),
        (", outline: [[4 m, 0 m], [5 m, 8 m]]", "rooms[cell].obstacles[lift].outline"),
        ("dynos: none\n", "dynos"),
    ],
)
def test_what_is_not_known_of_the_plan_makes_the_walk_unknown(missing: str, path: str) -> None:
    _, cell = things(without(missing))
    with pytest.raises(Missing) as raised:
        cell["farthest_from_exit"]
    assert path in [need.path for need in raised.value.needs]


def test_a_door_that_may_be_locked_is_locked_where_walks_are_longest() -> None:
    text = without(", locked: no")
    assert things(text, "shortest")[1]["farthest_from_exit"] == things(SHOP)[1]["farthest_from_exit"]
    with pytest.raises(Missing, match="holds no way out"):
        things(text, "longest")[1]["farthest_from_exit"]


@pytest.mark.parametrize(
    "line", [", locked: no", "    partitions: none\n", ", outline: [[4 m, 0 m], [5 m, 8 m]]", ", width: 3 m"]
)
def test_the_truth_lies_between_the_two_readings(line: str) -> None:
    true = things(SHOP)[0]["walk_to_extinguisher"]("B", Decimal(21))
    found = []
    for reading, none in (("shortest", 0.0), ("longest", float("inf"))):
        try:
            found.append(float(things(without(line), reading)[0]["walk_to_extinguisher"]("B", Decimal(21))))  # type: ignore[arg-type]
        except Missing:
            found.append(none)
    assert found[0] <= float(true) <= found[1]


def test_a_room_given_by_its_size_has_a_frame_of_its_own() -> None:
    text = SHOP.replace("outline: [[0 m, 0 m], [12 m, 9 m]]", "length: 12 m\n    width: 9 m")
    assert things(text)[1]["farthest_from_exit"] == things(SHOP)[1]["farthest_from_exit"]


def test_the_working_shows_the_path() -> None:
    bench, _ = things(SHOP)
    bench["walk_to_extinguisher"]("B", Decimal(21))
    drawn = bench.working["walk_to_extinguisher", "B", Decimal(21)].step.drawn
    assert drawn is not None
    wanted = ((8, 1), (5, 8), (4, 8), (0, 4))
    assert [pytest.approx(place, abs=1e-4) for place in wanted] == list(drawn.points)
    assert drawn.room == "cell"


def test_a_gate_that_is_no_way_out_is_no_exit() -> None:
    with pytest.raises(Missing, match="holds no way out"):
        things(SHOP.replace("way_out: yes", "way_out: no"))[1]["farthest_from_exit"]


def test_whether_a_door_is_a_way_out_has_to_be_recorded() -> None:
    text = without(", way_out: yes")
    with pytest.raises(Missing) as raised:
        things(text)[1]["farthest_from_exit"]
    assert [need.path for need in raised.value.needs] == ["rooms[cell].doors[gate].way_out"]
    assert things(text, "shortest")[1]["farthest_from_exit"] == things(SHOP)[1]["farthest_from_exit"]
