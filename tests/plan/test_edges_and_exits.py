"""Walks from the edge of a hazard, and how far the ways to two exits are one."""

from math import hypot

import pytest

from checker.plan import Door, Outline, Plan, Point, Room, rectangle, shared_start, walk, walks_from_edge
from tests.plan.plans import hall, one_room, two_rooms

CAR = rectangle((5, 5), 4.5, 2)
SHOP = hall(22, 13, rectangle((14, 3), 0.2, 10), CAR)
CORRIDOR: Outline = ((0, 0), (20, 0), (20, 2), (11, 2), (11, 8), (9, 8), (9, 2), (0, 2))
"""A T: a stem 2 m wide from y = 2 m to 8 m into the middle of a corridor of 20 m."""


def test_from_a_car_the_near_and_the_far_edge() -> None:
    """Nearest 5.000 m; the middle of the far side 10.599 m, for both ways round it are alike."""
    near, far = walks_from_edge(SHOP, CAR, [(0, 6)])
    assert near.distance == pytest.approx(5.0, abs=0.002)
    assert near.path[0] == pytest.approx((5, 6), abs=0.1)
    assert far.distance == pytest.approx(hypot(5, 1) + 4.5 + 1, abs=0.002)
    assert far.path[0] == pytest.approx((9.5, 6), abs=0.01)


def test_an_area_on_open_floor_is_walked_through() -> None:
    near, far = walks_from_edge(hall(22, 13), CAR, [(0, 6)])
    assert near.distance == pytest.approx(5.0, abs=0.002)
    assert far.distance == pytest.approx(hypot(9.5, 1), abs=0.002)


def test_a_target_within_the_area_is_that_far_from_its_edge() -> None:
    near, far = walks_from_edge(hall(22, 13), CAR, [(6, 6)])
    assert near.distance == pytest.approx(1.0, abs=0.002)
    assert far.distance == pytest.approx(hypot(3.5, 1), abs=0.002)


def test_every_point_of_the_edge_lies_between_the_two() -> None:
    near, far = walks_from_edge(SHOP, CAR, [(0, 6), (22, 1)])
    assert near.distance is not None
    assert far.distance is not None
    edge = [(5 + 4.5 * k / 9, y) for k in range(10) for y in (5.0, 7.0)]
    edge += [(x, 5.0 + k / 4) for k in range(9) for x in (5, 9.5)]
    for place in edge:
        distance = walk(SHOP, place, [(0, 6), (22, 1)]).distance
        assert distance is not None
        assert near.distance - 0.002 <= distance <= far.distance + 0.002


def test_an_edge_part_of_which_has_no_way() -> None:
    near, far = walks_from_edge(two_rooms(locked=True), rectangle((8, 4), 4, 2), [(0, 5)])
    assert near.distance == pytest.approx(8.0, abs=0.002)
    assert far.distance is None


def test_an_edge_that_is_no_floor_has_no_walk() -> None:
    assert [each.distance for each in walks_from_edge(hall(5, 5), rectangle((9, 9), 1, 1), [(0, 0)])] == [None, None]


@pytest.mark.parametrize(
    "start, exits, length, pair",
    [
        pytest.param((10, 8), [(0, 1), (20, 1)], 0.0, (0, 1), id="the two ways lean to either side at once"),
        pytest.param((9, 8), [(0, 1), (0, 0)], 6.0, (0, 1), id="down the stem along its wall"),
        pytest.param((10, 1), [(0, 1), (20, 1)], 0.0, (0, 1), id="a choice at once"),
        pytest.param((10, 8), [(0, 1)], None, (), id="one exit gives no choice"),
        pytest.param((10, 8), [], None, (), id="no exit"),
        pytest.param((2, 1), [(20, 0.5), (20, 1.5)], 0.0, (0, 1), id="two doors side by side"),
        pytest.param((2, 1), [(10, 1), (20, 1)], 8.0, (0, 1), id="one exit on the way to the other"),
        pytest.param((9, 8), [(0, 1), (0, 0), (20, 1)], 0.0, (0, 2), id="the pair with the choice soonest"),
    ],
)
def test_how_far_two_ways_run_together(
    start: Point, exits: list[Point], length: float | None, pair: tuple[int, ...]
) -> None:
    """Ways down the stem bend at its corners, (9, 2) and (11, 2)."""
    found = shared_start(one_room(CORRIDOR), start, exits)
    assert (found.distance, found.exits) == (length if length is None else pytest.approx(length), pair)


def test_ways_through_one_door_run_together_to_its_jamb() -> None:
    plan = Plan(two_rooms().rooms, doors=(Door("d", "a", "b", (10.1, 0.5), 1.0, False),))
    found = shared_start(plan, (2, 9), [(20, 9), (20, 5)])
    assert found.distance == pytest.approx(hypot(8, 8) + 0.2, abs=0.001)
    assert found.path[-1] == pytest.approx((10.2, 1), abs=0.001)


def test_exits_behind_a_locked_door_do_not_count() -> None:
    plan = two_rooms(locked=True)
    assert shared_start(plan, (2, 9), [(0, 5), (20, 5)]).distance is None
    assert shared_start(plan, (2, 9), [(0, 5), (20, 5), (0, 1)]).exits == (0, 2)


def test_rooms_that_are_asked_about_by_outline() -> None:
    room = Room("room", rectangle((0, 0), 4, 4))
    assert walks_from_edge(Plan((room,)), room.outline, [(2, 2)])[1].distance == pytest.approx(hypot(2, 2), abs=0.002)
