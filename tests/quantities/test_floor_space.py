"""Free floor before panels, beside machines and along the rollers, and ways out of rooms, on floor plans."""

from decimal import Decimal
from math import hypot

import pytest

from checker.quantities import Facts, Missing, facts
from checker.quantities.survey import Reading
from checker.reading import read_text
from checker.site import read_site

SHOP = """\
id: shop
rooms:
  - id: cell
    outline: [[0 m, 0 m], [12 m, 9 m]]
    walls_solid: yes
    obstacles: [{id: lift, outline: [[4 m, 0 m], [5 m, 8 m]]}, {id: bench, outline: [[0 m, 4.5 m], [1 m, 6 m]]}]
    partitions: [{id: screen, line: [[6 m, 1 m], [6 m, 7 m]], solid: yes}]
    doors:
      - {id: gate, to: outside, at: [12 m, 8 m], width: 1.8 m, locked: no, way_out: yes, swing: roller}
      - {id: side, to: outside, at: [2 m, 9 m], width: 0.9 m, locked: no, way_out: yes, swing: in, hinge: left}
dynos:
  - id: d1
    room: cell
    at: [8 m, 4 m]
    faces: [9 m, 4 m]
    footprint: [[7 m, 3 m], [9 m, 5 m]]
    widest_vehicle: 2.2 m
    emergency_stop: {at: [7 m, 0 m]}
panels: [{id: board, room: cell, at: [0 m, 3 m], width: 0.6 m}]
extinguishers: [{id: fe-1, room: cell, at: [12 m, 3 m]}]
"""


def known(text: str = SHOP, reading: Reading = "recorded") -> Facts:
    return facts(read_site(read_text(text, "shop.yaml")), reading)


def changed(before: str, after: str) -> Facts:
    assert before in SHOP
    return known(SHOP.replace(before, after))


def test_floor_before_a_panel_is_followed_to_what_stands_there() -> None:
    panel = known().things("panel")[0]
    assert panel["clear_depth"] == 3, "no farther than 3 m is looked; the lift begins at 4 m"
    assert panel["clear_width"] == Decimal("4.5"), "from the wall to the bench"
    near = changed("[[4 m, 0 m], [5 m, 8 m]]", "[[36 in, 0 m], [5 m, 8 m]]").things("panel")[0]
    assert near["clear_depth"] == Decimal("0.9144"), "36 in to the hundredth of a millimetre"


@pytest.mark.parametrize(("place", "depth"), [("3.9 m", 3), ("4.2 m", 3), ("4.3 m", 0)])
def test_the_rectangle_may_lie_off_to_one_side_but_stands_before_all_of_the_panel(place: str, depth: int) -> None:
    panel = changed("at: [0 m, 3 m]", f"at: [0 m, {place}]").things("panel")[0]
    assert panel["clear_depth"] == depth


def test_a_panel_in_the_middle_of_the_room_faces_nobody_knows_where() -> None:
    with pytest.raises(Missing, match="hangs on no wall"):
        changed("at: [0 m, 3 m]", "at: [3 m, 4 m]").things("panel")[0]["clear_depth"]


def test_recorded_depth_counts_where_the_plan_says_nothing() -> None:
    panel = changed("width: 0.6 m}", "clear_depth: 1 m}").things("panel")[0]
    assert panel["clear_depth"] == 1


@pytest.mark.parametrize(
    ("before", "after", "sides"),
    [
        pytest.param("id: shop", "id: shop", "2.9", id="from the vehicle, which is wider than the machine"),
        pytest.param("widest_vehicle: 2.2 m", "widest_vehicle: 1 m", "3", id="from the machine, which is wider"),
        pytest.param("[[0 m, 4.5 m], [1 m, 6 m]]", "[[8 m, 7 m], [9 m, 8 m]]", "1.9", id="a bench beside it"),
        pytest.param("[[0 m, 4.5 m], [1 m, 6 m]]", "[[9.5 m, 5 m], [10 m, 6 m]]", "2.9", id="a bench ahead of it"),
        pytest.param("at: [2 m, 9 m], width: 0.9 m", "at: [8 m, 9 m], width: 2 m", "1.9", id="a door swings there"),
    ],
)
def test_room_beside_a_machine(before: str, after: str, sides: str) -> None:
    dyno = changed(before, after).things("dyno")[0]
    assert float(dyno["clear_sides"]) == pytest.approx(float(sides), abs=2e-5)


SWINGS = "at: [8 m, 9 m], width: 2 m, locked: no, way_out: yes, swing: in, hinge: left"


@pytest.mark.parametrize("gone", [", swing: in, hinge: left", ", hinge: left"])
def test_a_leaf_of_which_nobody_knows_how_it_swings_leaves_room_unknown_only_where_it_may_take_some(gone: str) -> None:
    """A leaf 2 m wide in the wall 4 m beside the machine; hung on the right it would swing past the machine's nose."""
    here = "at: [2 m, 9 m], width: 0.9 m, locked: no, way_out: yes, swing: in, hinge: left"
    assert known(SHOP.replace(gone, "")).things("dyno")[0]["clear_sides"] == Decimal("2.9"), (
        "far off it changes nothing"
    )
    near = SHOP.replace(here, SWINGS.replace("8 m", "9.2 m"))
    assert known(near.replace("hinge: left", "hinge: right")).things("dyno")[0]["clear_sides"] > 2
    with pytest.raises(Missing) as told:
        known(near.replace(gone, "")).things("dyno")[0]["clear_sides"]
    assert told.value.path.endswith(("swing", "hinge"))


@pytest.mark.parametrize(
    ("before", "after", "hit"),
    [
        pytest.param("id: shop", "id: shop", 1, id="the unit on the end wall; the screen ends the strip behind"),
        pytest.param("at: [12 m, 3 m]", "at: [12 m, 2 m]", 0, id="the unit moved aside"),
        pytest.param("solid: yes}]", "solid: no}]", 2, id="the panel behind a screen that stops nothing"),
        pytest.param("emergency_stop: {at: [7 m, 0 m]}", "emergency_stop: {at: [10 m, 4 m]}", 2, id="the stop ahead"),
        pytest.param("at: [12 m, 8 m], width: 1.8 m", "at: [12 m, 6 m], width: 1.8 m", 1, id="the gate beside it"),
        pytest.param("at: [12 m, 8 m], width: 1.8 m", "at: [12 m, 5 m], width: 1.8 m", 2, id="the gate in its way"),
    ],
)
def test_what_lies_in_line_with_the_rollers(before: str, after: str, hit: int) -> None:
    assert changed(before, after).things("dyno")[0]["needed_in_line"] == hit


def test_walls_that_stop_nothing_end_no_strip() -> None:
    text = SHOP.replace("walls_solid: yes", "walls_solid: no").replace("solid: yes}]", "solid: no}]")
    dyno = known(text).things("dyno")[0]
    assert dyno["needed_in_line"] == 2, "unit and panel; doors that are not in the strips stay out of it"


@pytest.mark.parametrize("gone", [", solid: yes", "    walls_solid: yes\n", "    emergency_stop: {at: [7 m, 0 m]}\n"])
def test_what_is_not_recorded_leaves_the_line_unknown(gone: str) -> None:
    with pytest.raises(Missing):
        changed(gone, "").things("dyno")[0]["needed_in_line"]


@pytest.mark.parametrize("reading", ["longest", "shortest"])
def test_what_may_grow_or_shrink_is_told_of_a_known_plan_alone(reading: Reading) -> None:
    other = known(reading=reading)
    for kind, name in (("panel", "clear_depth"), ("dyno", "needed_in_line"), ("room", "common_path")):
        with pytest.raises(Missing, match="fully known"):
            other.things(kind)[0][name]


def test_the_common_path_is_the_whole_way_where_there_is_one_exit() -> None:
    room = changed("locked: no, way_out: yes, swing: in", "locked: yes, way_out: yes, swing: in").things("room")[0]
    assert room["common_path"] == room["farthest_from_exit"]


def test_the_common_path_ends_where_ways_to_two_exits_part() -> None:
    """A dead-end strip 3 m wide: both ways run along it to the corner of the rack, 9 m from its far corner and more."""
    text = """\
id: shop
rooms:
  - id: cell
    outline: [[0 m, 0 m], [12 m, 9 m]]
    obstacles: none
    partitions: [{id: wall, line: [[0 m, 3 m], [9 m, 3 m]]}, {id: stop, line: [[9 m, 3 m], [9 m, 2 m]]}]
    doors:
      - {id: a, to: outside, at: [12 m, 8 m], width: 1 m, locked: no, way_out: yes}
      - {id: b, to: outside, at: [2 m, 9 m], width: 1 m, locked: no, way_out: yes}
dynos: none
"""
    found = known(text).things("room")[0]["common_path"]
    assert float(found) == pytest.approx(hypot(9, 2) + 1e-6, abs=2e-3)


def test_a_bare_floor_shortens_the_way_through_what_stands_on_it_but_not_through_walls() -> None:
    bench = "[[0 m, 4.5 m], [1 m, 6 m]]"
    room = changed(bench, "[[0 m, 1 m], [3.9 m, 8.3 m]]").things("room")[0]
    assert room["farthest_from_exit_unfurnished"] < room["farthest_from_exit"]
    walled = changed("solid: yes}]", "solid: yes}, {id: w, line: [[0 m, 5 m], [3.9 m, 5 m]]}]").things("room")[0]
    assert walled["farthest_from_exit_unfurnished"] > room["farthest_from_exit_unfurnished"]


def test_exits_apart_by_what_counts_of_a_doorway() -> None:
    room = known().things("room")[0]
    assert float(room["exits_apart"](Decimal(0))) == pytest.approx(hypot(10, 1))
    assert float(room["exits_apart"](Decimal(1))) == pytest.approx(hypot(10.45, 1.9))
    assert float(room["exits_apart"](Decimal(-1))) == pytest.approx(hypot(9.55, 0.1))
    assert float(room["exit_width_left"]) == pytest.approx(0.9)


def test_one_way_out_is_apart_from_nothing() -> None:
    room = changed("locked: no, way_out: yes, swing: in", "locked: no, way_out: no, swing: in").things("room")[0]
    with pytest.raises(Missing, match="fewer than two doors"):
        room["exits_apart"](Decimal(1))
    assert room["exit_width_left"] == 0
