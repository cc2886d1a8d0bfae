"""A place for one more target: once it is there, all floor is within the limit; or it is proven that none is enough."""

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from checker.plan import Door, Plan, Point, Room, Zone, farthest, placing, rectangle, suggest
from tests.plan.plans import hall, one_room, targets_of, two_rooms, workshop


def test_no_place_is_needed_where_all_floor_is_within() -> None:
    found = suggest(hall(10, 6), [(0, 0)], 12)
    assert (found.needed, found.place) == (False, None)
    assert found.then is not None
    assert found.then.settles(12)


def test_a_second_unit_goes_to_the_far_end() -> None:
    """In 40 m x 6 m with a unit at one end, one at the other serves all of it within hypot(20, 6) = 20.88 m."""
    found = suggest(hall(40, 6), [(0, 3)], 21)
    assert found.place is not None
    assert found.place[0] > 25
    assert found.then is not None
    assert found.then.most is not None
    assert found.then.most <= 21


def test_where_one_more_is_not_enough_that_is_proven() -> None:
    """Two units in 40 m x 6 m leave some floor farther than hypot(10, 6) = 11.66 m, wherever the second one is."""
    found = suggest(hall(40, 6), [(0, 3)], 11)
    assert found.place is None
    assert found.rules_out(11)
    assert found.at_least is not None
    assert found.at_least > 11


@pytest.mark.parametrize("limit", [14.0, 15.0, 15.7])
def test_the_best_place_found_by_trying_all_is_no_better_than_what_is_ruled_out(limit: float) -> None:
    plan: Plan = hall(22, 13, rectangle((14, 3), 0.2, 10), rectangle((5, 5), 4.5, 2))
    found = suggest(plan, [(0, 6)], limit)
    ring = shapely.LinearRing(rectangle((0, 0), 22, 13))
    tried = [(point.x, point.y) for point in (ring.interpolate(0.5 * step) for step in range(140))]
    best = min(each for place in tried if (each := farthest(plan, [(0, 6), place]).least) is not None)
    assert (found.place is not None) == (best <= limit)
    assert found.at_least is not None
    assert found.at_least <= best + 0.01


@pytest.mark.parametrize("work", [0, 5_000, 20_000, 100_000])
def test_with_little_work_no_more_is_claimed(work: int, monkeypatch: pytest.MonkeyPatch) -> None:
    plan: Plan = hall(22, 13, rectangle((14, 3), 0.2, 10), rectangle((5, 5), 4.5, 2))
    whole = suggest(plan, [(0, 6)], 14.0)
    monkeypatch.setattr(placing, "MOST_WORK", work)
    found = suggest(plan, [(0, 6)], 14.0)
    assert found.needed
    assert found.at_least is not None
    assert whole.at_least is not None
    assert found.at_least <= whole.at_least + 0.01
    if found.place is not None:
        assert found.then is not None
        assert found.then.settles(14.0)
    assert work or not found.rules_out(14.0)


def test_floor_in_two_places_that_nobody_can_reach_from_one_is_told() -> None:
    rooms = tuple(Room(name, rectangle((x, 0), 5, 5)) for name, x in (("a", 0), ("b", 6), ("c", 12)))
    found = suggest(Plan(rooms), [(0, 0)], 10)
    assert (found.place, found.at_least) == (None, None)
    assert found.rules_out(10)


def test_a_room_behind_a_locked_door_gets_its_own() -> None:
    found = suggest(two_rooms(locked=True), [(5, 0)], 12)
    assert found.place is not None
    assert found.place[0] >= 10.2


@pytest.mark.parametrize("limit", [6.0, 6.4, 7.0])
def test_nothing_is_hung_in_a_doorway_or_over_what_is_kept_clear(limit: float) -> None:
    """The best place by far is the middle of the far wall, which is taken."""
    room = Room("room", rectangle((0, 0), 12, 10))
    gate = Door("gate", "room", "outside", (12, 5), 4.0, False)
    zone = Zone("panel", rectangle((11, 7), 1, 1))
    found = suggest(Plan((room,), doors=(gate,), zones=(zone,)), [(0, 5)], limit)
    if found.place is not None:
        x, y = found.place
        assert not (x > 11.9 and (2.95 <= y <= 7.05 or 6.95 <= y <= 8.05))


@settings(max_examples=25, deadline=None)
@given(seed=st.integers(0, 10_000), obstacles=st.integers(0, 8), spare=st.floats(0.3, 6))
def test_with_the_place_that_is_suggested_the_limit_is_met(seed: int, obstacles: int, spare: float) -> None:
    """The suggestion is tried as if a person had hung the unit there."""
    plan, targets = workshop(obstacles, 16, 10, seed), targets_of(16, 10)[:2]
    try:
        now = farthest(plan, targets)
    except ValueError:
        return  # an obstacle stands before one of the targets
    if now.least is None or now.most is None:
        return
    limit = now.least - spare
    found = suggest(plan, targets, limit)
    assert found.needed
    if found.place is None:
        assert found.then is None
        return
    then = farthest(plan, [*targets, found.place])
    assert then.most is not None
    assert then.most <= limit + 0.01
    assert found.at_least is not None
    assert found.at_least <= limit


def test_a_place_that_serves_only_with_a_turn_is_found() -> None:
    """Round the corner of an L nothing on the near leg serves the end of the far one."""
    outline: tuple[Point, ...] = ((0, 0), (20, 0), (20, 4), (4, 4), (4, 20), (0, 20))
    found = suggest(one_room(outline), [(0, 20)], 18.5)
    assert found.place is not None
    assert found.then is not None
    assert found.then.settles(18.5)
