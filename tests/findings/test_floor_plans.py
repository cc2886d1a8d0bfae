"""The floor plans of a site as numbers: what has a place, where doors open, and what a plan cannot show."""

import pytest

from checker.findings.floor_plans import floor_plans
from checker.findings.openings import opening
from checker.findings.storey import Storey
from checker.quantities import facts
from checker.reading import read_text
from checker.site import read_site

SHOP = """\
id: shop
rooms:
  - id: cell
    name: Cell
    storey: ground
    outline: [[0 m, 0 m], [8 m, 6 m]]
    doors:
      - {id: gate, to: outside, at: [4 m, 0 m], width: 2 m, locked: no, swing: out, hinge: left}
      - {id: inner, to: store, at: [8 m, 3 m], width: 1 m}
      - {id: lost, to: outside}
    obstacles: [{id: lift, outline: [[1 m, 1 m], [2 m, 2 m]]}, {id: bench}]
    partitions: [{id: screen, line: [[5 m, 0 m], [5 m, 2 m]], solid: yes, thickness: 100 mm}]
  - {id: store, storey: ground, outline: [[8.2 m, 0 m], [10 m, 6 m]]}
  - {id: attic, storey: upper}
dynos:
  - {id: d1, room: cell, at: [4 m, 3 m], faces: [4 m, 5 m], rollers: {width: 0.5 m}, emergency_stop: {at: [6 m, 3 m]}}
  - {id: d2, room: cell, emergency_stop: {latches: yes}}
extinguishers:
  - {id: fe-1, room: store, at: [9 m, 1 m], rating: 34B, rating_system: EN 3}
  - {id: fe-2, room: cell}
  - {id: fe-3, room: attic, at: [1 m, 1 m]}
"""


def storeys(text: str) -> tuple[Storey, ...]:
    return floor_plans(facts(read_site(read_text(text, "shop.yaml"))))


def test_a_storey_holds_what_has_a_place_in_its_frame() -> None:
    (ground,) = storeys(SHOP)
    assert ground.name == "ground"
    assert [room.id for room in ground.rooms] == ["cell", "store"]
    assert [(thing.kind, thing.id, thing.at, thing.detail) for thing in ground.things] == [
        ("emergency_stop", "d1", (6.0, 3.0), ""),
        ("extinguisher", "fe-1", (9.0, 1.0), "34B"),
    ]
    assert [(each.id, each.thickness, each.solid) for each in ground.partitions] == [("screen", 0.1, True)]
    assert [(each.id, each.at, each.roller_width) for each in ground.machines] == [("d1", (4.0, 3.0), 0.5)]


def test_what_has_no_place_is_named_with_what_is_missing() -> None:
    (ground,) = storeys(SHOP)
    assert {(each.path, each.misses) for each in ground.not_placed} == {
        ("rooms[cell].doors[lost]", "at"),
        ("rooms[cell].obstacles[bench]", "outline"),
        ("dynos[d1]", "footprint"),
        ("dynos[d2]", "at"),
        ("dynos[d2]", "faces"),
        ("dynos[d2]", "footprint"),
        ("dynos[d2].emergency_stop", "at"),
        ("extinguishers[fe-2]", "at"),
    }


def test_where_a_machine_is_run_stopped_and_cut_off_is_on_the_plan() -> None:
    """Each actuator of one stop has a place of its own."""
    stop = "emergency_stop: {at: [6 m, 3 m], other_actuators: [{at: [3 m, 5 m]}, {note: cord}]}"
    places = f"{stop}, operator_place: [5 m, 4 m], isolation: {{at: [8 m, 1 m]}}}}"
    (ground,) = storeys(SHOP.replace("emergency_stop: {at: [6 m, 3 m]}}", places))
    assert [(thing.kind, thing.path, thing.at) for thing in ground.things if thing.id == "d1"] == [
        ("operator", "dynos[d1].operator_place", (5.0, 4.0)),
        ("emergency_stop", "dynos[d1].emergency_stop", (6.0, 3.0)),
        ("emergency_stop", "dynos[d1].emergency_stop.other_actuators[0]", (3.0, 5.0)),
        ("disconnect", "dynos[d1].isolation", (8.0, 1.0)),
    ]
    assert ("dynos[d1].emergency_stop.other_actuators[1]", "at") in {
        (each.path, each.misses) for each in ground.not_placed
    }


def test_what_helps_people_is_on_the_plan() -> None:
    help_ = """\
eyewashes: [{id: e, room: cell, at: [1 m, 5 m]}]
first_aid_kits: [{id: k, room: store, at: [9 m, 5 m]}]
charging_places: [{id: c, room: cell, at: [3 m, 5 m]}]
"""
    (ground,) = storeys(SHOP + help_)
    found = {(thing.kind, thing.at) for thing in ground.things}
    assert {("eyewash", (1.0, 5.0)), ("first_aid_kit", (9.0, 5.0)), ("charging_place", (3.0, 5.0))} <= found


def test_a_door_opens_its_own_wall_and_the_wall_behind() -> None:
    (ground,) = storeys(SHOP)
    gate, inner = ground.doors
    assert (gate.opening, gate.beyond) == (((5.0, 0.0), (3.0, 0.0)), ())
    assert (inner.opening, inner.beyond) == (((8.0, 3.5), (8.0, 2.5)), ((8.2, 2.5), (8.2, 3.5)))
    assert (gate.locked, inner.locked) == (False, None)


SQUARE = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (0.0, 0.0))


@pytest.mark.parametrize("outline", [SQUARE, SQUARE[::-1]], ids=["against the clock", "with the clock"])
@pytest.mark.parametrize(
    ("at", "left", "right"),
    [((2, 0), (3, 0), (1, 0)), ((4, 2), (4, 3), (4, 1)), ((2, 4), (1, 4), (3, 4)), ((0, 2), (0, 1), (0, 3))],
)
def test_the_left_end_is_at_the_left_of_who_looks_out(
    at: tuple[float, float], left: tuple[float, float], right: tuple[float, float], outline: tuple[tuple[float, float]]
) -> None:
    assert opening(at, 2.0, [outline], outline) == (left, right)


@pytest.mark.parametrize(("at", "width"), [((2.0, 2.0), 1.0), ((2.0, 0.0), None)], ids=["far from walls", "no width"])
def test_what_is_not_known_of_a_door_opens_nothing(at: tuple[float, float], width: float | None) -> None:
    assert opening(at, width, [SQUARE], SQUARE) == ()


def test_a_door_at_a_corner_ends_there() -> None:
    assert opening((0.2, 0.0), 1.0, [SQUARE], SQUARE) == ((pytest.approx(0.7), 0.0), (0.0, 0.0))


def test_nothing_is_drawn_of_a_site_without_outlines() -> None:
    assert storeys("id: shop\nrooms: [{id: cell, storey: ground, length: 8 m, width: 6 m}]\n") == ()
    assert storeys("id: shop\n") == ()


def test_a_room_given_by_its_size_is_drawn_alone_once_something_in_it_has_a_place() -> None:
    text = "id: shop\nrooms: [{id: cell, name: Cell, storey: ground, length: 8 m, width: 6 m}]\n"
    (cell,) = storeys(f"{text}extinguishers: [{{id: fe-1, room: cell, at: [1 m, 2 m]}}]\n")
    assert (cell.name, cell.rooms[0].outline) == ("Cell (cell)", ((0, 0), (8, 0), (8, 6), (0, 6)))
    assert [thing.at for thing in cell.things] == [(1, 2)]
