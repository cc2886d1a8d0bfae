"""Laws that walks obey on any floor."""

from math import cos, hypot, inf, pi, sin

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from checker.plan import (
    Door,
    NotOnFloor,
    Obstacle,
    Outline,
    Plan,
    Point,
    Room,
    Wall,
    farthest,
    reach,
    rectangle,
    walk,
)
from tests.plan.plans import L_ROOM, one_room, workshop

CLOSE = 1e-4
"""m. Things that touch are joined by growing a thousandth of a millimetre."""
LENGTH, WIDTH = 14.0, 9.0

seeds = st.integers(0, 100_000)
counts = st.integers(0, 8)
places = st.tuples(st.floats(0, LENGTH), st.floats(0, WIDTH))
few = settings(max_examples=60, deadline=None)


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    """A hall or an L with obstacles of all sizes and turns, some of which touch or overlap, and perhaps a thin wall."""
    plan = workshop(draw(counts), LENGTH, WIDTH, draw(seeds))
    if draw(st.booleans()):
        plan = replace(plan, rooms=one_room(tuple((0.7 * x, 0.6 * y) for x, y in L_ROOM)).rooms)
    if draw(st.booleans()):
        plan = replace(plan, walls=(Wall("w", ((4.0, 0.0), (4.0, draw(st.floats(1, 4))))),))
    return plan


def length(plan: Plan, start: Point, *targets: Point, clearance: float = 0.0) -> float:
    """The walk; infinite where there is no way. A place that is no floor rejects the example."""
    try:
        found = walk(plan, start, targets, clearance)
    except NotOnFloor:
        assume(False)
    return inf if found.distance is None else found.distance


@few
@given(plans(), places, places)
def test_a_walk_is_as_long_as_the_way_back_and_no_shorter_than_the_straight_line(
    plan: Plan, one: Point, other: Point
) -> None:
    there, back = length(plan, one, other), length(plan, other, one)
    assert there == pytest.approx(back, abs=CLOSE)
    assert there >= hypot(one[0] - other[0], one[1] - other[1]) - CLOSE


@few
@given(plans(), places, places, places)
def test_no_detour_is_shorter(plan: Plan, one: Point, over: Point, other: Point) -> None:
    assert length(plan, one, other) <= length(plan, one, over) + length(plan, over, other) + CLOSE


@few
@given(plans(), places, places, places, st.floats(0.2, 4), st.floats(0.2, 4), st.floats(0, 90))
def test_one_more_obstacle_never_shortens_a_walk(
    plan: Plan, one: Point, other: Point, corner: Point, long_: float, wide: float, turned: float
) -> None:
    more = replace(plan, obstacles=(*plan.obstacles, Obstacle("more", rectangle(corner, long_, wide, turned))))
    assert length(plan, one, other) <= length(more, one, other) + CLOSE


@few
@given(plans(), places, places, places)
def test_one_more_target_never_lengthens_a_walk(plan: Plan, one: Point, other: Point, more: Point) -> None:
    nearest = length(plan, one, other, more)
    assert nearest == pytest.approx(min(length(plan, one, other), length(plan, one, more)), abs=CLOSE)


@few
@given(plans(), places, places, st.floats(0.05, 0.4))
def test_keeping_clear_of_corners_never_shortens_a_walk(plan: Plan, one: Point, other: Point, clearance: float) -> None:
    assert length(plan, one, other) <= length(plan, one, other, clearance=clearance) + CLOSE


@few
@given(plans(), places, places, st.floats(-pi, pi), st.floats(-500, 500), st.floats(-500, 500))
def test_the_frame_does_not_matter(
    plan: Plan, one: Point, other: Point, turn: float, east: float, north: float
) -> None:
    def moved(point: Point) -> Point:
        x, y = point
        return cos(turn) * x - sin(turn) * y + east, sin(turn) * x + cos(turn) * y + north

    def outline(corners: Outline) -> Outline:
        return tuple(map(moved, corners))

    elsewhere = replace(
        plan,
        rooms=tuple(replace(each, outline=outline(each.outline)) for each in plan.rooms),
        obstacles=tuple(replace(each, outline=outline(each.outline)) for each in plan.obstacles),
        walls=tuple(replace(each, line=outline(each.line)) for each in plan.walls),
    )
    assert length(elsewhere, moved(one), moved(other)) == pytest.approx(length(plan, one, other), abs=CLOSE)


@few
@given(plans(), places, st.lists(places, max_size=12))
def test_no_place_is_farther_than_the_farthest(plan: Plan, target: Point, others: list[Point]) -> None:
    length(plan, target, target)
    found = farthest(plan, [target])
    assume(found.least is not None)
    assert found.least is not None
    assert found.place is not None
    assert length(plan, found.place, target) == pytest.approx(found.least, abs=CLOSE)
    if found.most is not None:
        assert found.most - found.least <= 0.01 + CLOSE
    for place in others:
        try:
            distance = walk(plan, place, [target]).distance
        except NotOnFloor:
            continue
        if distance is not None:
            assert distance <= found.least + 0.01 + CLOSE
        else:
            assert found.cut_off


@few
@given(plans(), places, st.floats(0.1, 30))
def test_a_limit_is_settled_as_the_bounds_say(plan: Plan, target: Point, limit: float) -> None:
    length(plan, target, target)
    exact, settled = farthest(plan, [target]), farthest(plan, [target], limit=limit).settles(limit)
    if exact.cut_off:
        assert settled is False
    elif exact.most is not None and exact.most < limit:
        assert settled is True
    elif exact.least is not None and exact.least > limit:
        assert settled is False


@few
@given(plans(), places, st.floats(0.5, 12), st.lists(places, min_size=1, max_size=12))
def test_a_place_lies_within_reach_or_beyond(plan: Plan, target: Point, distance: float, others: list[Point]) -> None:
    length(plan, target, target)
    found = reach(plan, [target], distance)
    beyond = shapely.union_all([shapely.Polygon(each.outline, each.holes) for each in found.beyond])
    for place in others:
        try:
            walked = walk(plan, place, [target]).distance or 0.0
        except NotOnFloor:
            continue
        if walk(plan, place, [target]).distance is None:
            walked = inf
        point = shapely.Point(place)
        if beyond.is_empty:
            assert walked <= distance + 0.01
        elif abs(walked - distance) > 0.01 and beyond.boundary.distance(point) > 0.06:
            assert beyond.covers(point) == (walked > distance)


@few
@given(st.floats(0.5, 8.5), st.floats(0.3, 1), places, places)
def test_locking_a_door_never_shortens_a_walk(at: float, width: float, one: Point, other: Point) -> None:
    rooms = (Room("a", rectangle((0, 0), 6.8, WIDTH)), Room("b", rectangle((7, 0), 7, WIDTH)))
    doors = (
        Door("d", "a", "b", (6.9, at), width, False),
        Door("e", "a", "b", (6.9, 4.5), 0.8, False),
    )
    both = Plan(rooms, doors=doors)
    one_left = replace(both, doors=(replace(doors[0], locked=True), doors[1]))
    assert length(both, one, other) <= length(one_left, one, other) + CLOSE
