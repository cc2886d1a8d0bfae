"""What is not known of a plan is taken both ways, and what is true lies between."""

import pytest
from msgspec.structs import replace

from checker.plan import (
    Door,
    Obstacle,
    Plan,
    Room,
    UnusablePlan,
    exits_of,
    farthest,
    farthest_range,
    is_settled,
    longest_reading,
    rectangle,
    shortest_reading,
    walk,
    walk_range,
)
from tests.plan.plans import hall, two_rooms

CELL = Room("cell", rectangle((0, 0), 10, 10))
STORE = Room("store", rectangle((10, 0), 10, 10))
LEAST = 1e-4


def rooms_with(*doors: Door) -> Plan:
    return Plan((CELL, STORE), doors=doors)


def test_a_plan_with_nothing_unknown_has_one_reading() -> None:
    assert is_settled(two_rooms())
    assert not is_settled(two_rooms(locked=None))
    assert not is_settled(Plan((CELL,), (Obstacle("o", rectangle((1, 1), 1, 1), stands=None),)))
    assert is_settled(rooms_with(Door("d", "cell", "store", None, None, locked=True)))


def test_an_unknown_lock_is_open_for_the_shortest_walk_and_locked_for_the_longest() -> None:
    short, long_ = walk_range(two_rooms(locked=None), (2, 9), [(18, 9)])
    assert short == walk(two_rooms(), (2, 9), [(18, 9)])
    assert long_.distance is None


def test_an_obstacle_that_may_stand_is_walked_through_or_round() -> None:
    plan = Plan((CELL,), (Obstacle("o", rectangle((4, 2), 2, 8), stands=None),))
    short, long_ = walk_range(plan, (2, 9), [(8, 9)])
    assert short.distance == pytest.approx(6)
    assert long_.distance == walk(Plan((CELL,), (Obstacle("o", rectangle((4, 2), 2, 8)),)), (2, 9), [(8, 9)]).distance


@pytest.mark.parametrize("at", [(10.0, 0.5), (10.0, 5.0), (10.0, 9.5)])
@pytest.mark.parametrize("width", [0.1, 0.9])
def test_a_door_of_unknown_place_or_width_is_bounded_by_every_place_and_width(
    at: tuple[float, float], width: float
) -> None:
    true = walk(rooms_with(Door("d", "cell", "store", at, width, False)), (2, 8), [(18, 3)])
    assert true.distance is not None
    for plan in (
        rooms_with(Door("d", "cell", "store", None, None, False)),
        rooms_with(Door("d", "cell", "store", None, width, False)),
        rooms_with(Door("d", "cell", "store", at, None, False)),
    ):
        short, long_ = walk_range(plan, (2, 8), [(18, 3)])
        assert short.distance is not None
        assert short.distance <= true.distance + LEAST
        assert long_.distance is None or true.distance <= long_.distance + LEAST


def test_a_door_of_unknown_width_narrows_to_its_middle() -> None:
    plan = rooms_with(Door("d", "cell", "store", (10, 5), None, False))
    _, long_ = walk_range(plan, (2, 9), [(18, 9)])
    assert long_.distance == pytest.approx(2 * (8**2 + 4**2) ** 0.5, abs=0.05)


def test_the_longest_of_all_walks_counts_floor_that_an_obstacle_may_take() -> None:
    """In the far corner a thing may stand: if it does not, that corner is the farthest floor."""
    corner = Obstacle("o", rectangle((15, 5), 5, 5))
    plan = Plan(hall(20, 10).rooms, (replace(corner, stands=None),))
    without, with_it = farthest(hall(20, 10), [(0, 0)]), farthest(Plan(plan.rooms, (corner,)), [(0, 0)])
    assert without.least is not None
    assert with_it.least is not None
    assert with_it.least < without.least - 1
    assert farthest_range(plan, [(0, 0)]) == (with_it, without)


def test_the_longest_walk_with_an_unknown_lock_may_have_no_end() -> None:
    small, large = farthest_range(two_rooms(locked=None), [(0, 0)])
    assert small.most is not None
    assert large.most is None


def test_more_unknown_obstacles_than_can_be_tried_are_refused() -> None:
    many = tuple(Obstacle(f"o{i}", rectangle((i, 1), 0.5, 0.5), stands=None) for i in range(6))
    with pytest.raises(UnusablePlan, match="of 6 obstacles"):
        farthest_range(Plan((CELL,), many), [(0, 0)])


def test_only_a_door_that_is_known_to_be_open_and_placed_is_an_exit() -> None:
    plan = rooms_with(
        Door("open", "cell", "outside", (0, 5), 1.0, False),
        Door("locked", "cell", "outside", (0, 2), 1.0, True),
        Door("unknown", "cell", "outside", (0, 8), 1.0, None),
        Door("somewhere", "cell", "outside", None, 1.0, False),
        Door("inner", "cell", "store", (10, 5), 1.0, False),
    )
    assert exits_of(plan) == (("open", (0, 5)),)
    assert exits_of(shortest_reading(plan)) == (("open", (0, 5)), ("unknown", (0, 8)))
    assert exits_of(longest_reading(plan)) == (("open", (0, 5)),)
