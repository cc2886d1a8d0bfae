"""Free gaps between things on a floor, against plane geometry done by hand and against shapely's own distances."""

from itertools import combinations
from math import cos, hypot, radians, sin, sqrt

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon

from checker.plan import (
    OUTSIDE,
    Between,
    Door,
    Hinge,
    Obstacle,
    Outline,
    Plan,
    Room,
    UnusablePlan,
    Wall,
    free_gaps,
    rectangle,
)
from tests.plan.plans import hall, one_room, two_rooms, workshop
from tests.plan.test_clearances import turned_about_its_middle

MILLIMETRE = 1e-3
CAR: Outline = rectangle((2, 2), 4.5, 1.8)
TURNED = turned_about_its_middle((2, 2), 4.5, 1.8, 10)


def narrowest(plan: Plan, *kinds: str, room: str = "room", doors: tuple[Door, ...] = ()) -> Between | None:
    """The narrowest gap, or the narrowest between things of two kinds."""
    found = free_gaps(plan, room, doors, 9.0)
    return next((each for each in found if not kinds or each.kinds == kinds), None)


@pytest.mark.parametrize(
    "plan, ids, width",
    [
        pytest.param(hall(9, 6, CAR), ("o0", "0"), 2.0, id="C1 of the notes: a car square to the walls"),
        pytest.param(
            hall(9, 6, TURNED), ("o0", "0"), 2.9 - (2.25 * sin(radians(10)) + 0.9 * cos(radians(10))),
            id="C2 of the notes: the same car turned by 10 degrees",
        ),
        pytest.param(
            hall(30, 30, rectangle((12, 12), 2, 1), rectangle((15, 14), 1, 1)), ("o0", "o1"), sqrt(2), id="corners"
        ),
        pytest.param(
            hall(30, 30, ((10, 10), (14, 10), (10, 13)), rectangle((14, 13), 1, 1)), ("o0", "o1"), 12 / 5,
            id="a corner to a slanted side",
        ),
        pytest.param(
            hall(20, 20, rectangle((8, 8), 4, 1), turned_about_its_middle((9, 10), 2, 2, 45)), ("o0", "o1"),
            11 - sqrt(2) - 9, id="the corner of a turned square to a side",
        ),
        pytest.param(hall(9, 6, walls=[Wall("w", ((3, 0), (3, 5.2)))]), ("w", "2"), 0.8, id="round a partition's end"),
        pytest.param(
            hall(9, 6, rectangle((4, 1), 2, 4.5), walls=[Wall("w", ((3, 0), (3, 6)), 0.2)]), ("o0", "2"), 0.5,
            id="a thick partition takes off half its thickness, and more is left of it",
        ),
        pytest.param(one_room(((0, 0), (8, 0), (8, 3), (4, 3), (4, 8), (0, 8)), rectangle((5, 3.6), 1, 1)), None, 0,
                     id="what stands in another room has no gap here"),
        pytest.param(hall(1.2, 30), None, 0, id="two walls are a corridor and no gap between things"),
        pytest.param(hall(30, 30, rectangle((12, 12), 3, 3)), None, 0, id="open floor"),
        pytest.param(hall(9, 6, rectangle((0, 0), 9, 5.995)), None, 0, id="a slip of the drawing"),
    ],
)  # fmt: skip
def test_the_narrowest_gap(plan: Plan, ids: tuple[str, str] | None, width: float) -> None:
    found = narrowest(plan)
    assert (found and found.ids) == ids
    if found:
        assert found.gap.distance == pytest.approx(width, abs=MILLIMETRE)


def test_what_stands_in_one_part_of_a_gap_hides_no_other_part() -> None:
    """Two long benches 1.5 m apart; a post stands between them at the end where their corners face each other."""
    plan = hall(20, 20, rectangle((5, 5), 6, 1), rectangle((5, 7.5), 6, 1), rectangle((4.9, 6.2), 0.4, 1))
    gaps = {each.ids: each.gap for each in free_gaps(plan, "room", (), 3.0)}
    assert gaps["o0", "o1"].distance == pytest.approx(1.5)
    assert gaps["o0", "o1"].here[0] > 5.3
    assert gaps["o0", "o2"].distance == pytest.approx(0.2)
    assert gaps["o1", "o2"].distance == pytest.approx(0.3)


def test_a_gap_between_sides_that_face_each_other_is_drawn_in_the_middle_of_them() -> None:
    plan = hall(20, 20, rectangle((5, 5), 6, 1), rectangle((7, 7.5), 8, 1), rectangle((2, 7.5), 3, 1))
    gaps = {each.ids: each.gap for each in free_gaps(plan, "room", (), 3.0)}
    assert gaps["o0", "o1"].here == pytest.approx((9, 6))
    assert gaps["o0", "o1"].there == pytest.approx((9, 7.5))
    assert gaps["o1", "o2"].here == pytest.approx((7, 8))
    assert gaps["o0", "o2"].distance == pytest.approx(1.5)


def test_what_is_hidden_by_something_else_has_no_gap() -> None:
    plan = hall(20, 20, rectangle((5, 5), 1, 1), rectangle((7, 4), 0.5, 3), rectangle((9, 5), 1, 1))
    assert {each.ids for each in free_gaps(plan, "room", (), 3.2)} == {("o0", "o1"), ("o1", "o2")}


def test_gaps_run_through_doors_that_are_open_and_end_at_those_that_are_not() -> None:
    """A bench 0.7 m before the wall that a door 1 m wide stands in, and another behind the door, 0.5 m off the wall."""
    benches = (Obstacle("here", rectangle((8, 4.2), 1.3, 0.6)), Obstacle("there", rectangle((10.7, 4.2), 1, 0.6)))
    for locked, across in ((False, {("here", "there")}), (True, set())):
        base = two_rooms(locked=locked)
        found = free_gaps(Plan(base.rooms, benches, (), base.doors), "a", (), 3.0)
        assert {each.ids for each in found if "side" not in each.kinds} == across
        wall = next(each for each in found if each.ids == ("here", "1"))
        assert wall.gap.distance == pytest.approx(0.7 if locked else hypot(0.7, 0.2), abs=MILLIMETRE)


@pytest.mark.parametrize("hinge, gap", [("left", 0.5), ("right", hypot(0.9, 1.4) - 0.9), (None, 0.5)])
def test_the_leaf_of_a_door_counts_where_it_swings(hinge: Hinge | None, gap: float) -> None:
    """A leaf 0.9 m wide in the upper wall; the corner of a rack lies 1.4 m below its left jamb.

    Hung left it stands straight above that corner when open; hung right its edge runs round the right jamb.
    """
    door = Door("d", "room", OUTSIDE, (4, 6), 0.9, False, "in", hinge)
    plan = Plan(hall(9, 6).rooms, (Obstacle("rack", rectangle((0.5, 3.6), 3.05, 1.0)),), (), (door,))
    found = narrowest(plan, "door", "obstacle", doors=(door,))
    assert found is not None
    assert found.gap.distance == pytest.approx(gap, abs=MILLIMETRE)
    assert narrowest(plan, "door", "obstacle") is None, "only doors that are given swing"


def test_what_is_drawn_too_finely_is_refused() -> None:
    rough = tuple((5 + 2 * cos(radians(a / 5)), 5 + 2 * sin(radians(a / 5))) for a in range(1800))
    with pytest.raises(UnusablePlan, match="too many to look at every gap"):
        free_gaps(hall(10, 10, rough), "room", (), 3.0)


counts, seeds = st.integers(2, 9), st.integers(0, 100_000)


def solids(plan: Plan) -> dict[str, Polygon]:
    return {each.id: Polygon(each.outline) for each in plan.obstacles}


@settings(max_examples=60, deadline=None)
@given(counts, seeds)
def test_a_gap_joins_its_two_things_and_crosses_nothing(count: int, seed: int) -> None:
    plan = workshop(count, 14.0, 9.0, seed)
    bodies, walls = solids(plan), Polygon(plan.rooms[0].outline)
    corners = [*walls.exterior.coords]
    for each in free_gaps(plan, "room", (), 3.0):
        line = LineString([each.gap.here, each.gap.there])
        assert line.length == pytest.approx(each.gap.distance, abs=1e-5)
        ends = [
            LineString(corners[int(name) : int(name) + 2]) if kind == "side" else bodies[name].exterior
            for kind, name in zip(each.kinds, each.ids, strict=True)
        ]
        assert max(end.distance(shapely.Point(at)) for end, at in zip(ends, line.coords, strict=True)) < 1e-6
        assert all(line.intersection(body).length < 1e-4 for body in bodies.values())
        assert line.length >= ends[0].distance(ends[1]) - 1e-9


@settings(max_examples=60, deadline=None)
@given(counts, seeds)
def test_where_the_straight_line_is_free_the_gap_is_the_distance_of_the_outside_library(count: int, seed: int) -> None:
    plan = workshop(count, 14.0, 9.0, seed)
    bodies = solids(plan)
    found = {each.ids: each.gap.distance for each in free_gaps(plan, "room", (), 3.0) if "side" not in each.kinds}
    for one, other in combinations(sorted(bodies), 2):
        line = shapely.shortest_line(bodies[one], bodies[other])
        others = [body for name, body in bodies.items() if name not in (one, other)]
        if 0.011 < line.length < 2.99 and not any(body.dwithin(line, 1e-4) for body in others):
            assert found[one, other] == pytest.approx(line.length, abs=2e-5)


@settings(max_examples=25, deadline=None)
@given(st.integers(2, 4), seeds)
def test_no_line_drawn_from_edge_to_edge_is_shorter_than_the_narrowest_gap(count: int, seed: int) -> None:
    """Brute force: places every 10 cm along all edges, and whatever straight lines between them cross nothing."""
    plan = workshop(count, 16.0, 13.0, seed)
    bodies = {name: body for name, body in solids(plan).items() if Polygon(plan.rooms[0].outline).covers(body)}
    plan = Plan(plan.rooms, tuple(each for each in plan.obstacles if each.id in bodies))
    pairs = [pair for pair in combinations(sorted(bodies), 2) if bodies[pair[0]].distance(bodies[pair[1]]) > 0.02]
    if len(pairs) < len(bodies) * (len(bodies) - 1) / 2 or not pairs:
        return
    found = [each.gap.distance for each in free_gaps(plan, "room", (), 3.0) if "side" not in each.kinds]
    sampled = []
    for one, other in pairs:
        a, b = (shapely.points(shapely.get_coordinates(bodies[n].exterior.segmentize(0.1))) for n in (one, other))
        lines = shapely.shortest_line(a[:, None], b[None, :]).ravel()
        hit = shapely.relate_pattern(lines[:, None], list(bodies.values()), "T********").any(axis=1)
        sampled += shapely.length(lines[~hit]).tolist()
    best = min(sampled, default=9.0)
    if best < 3.0:
        assert min(found) <= best + 1e-5
        assert min(found) >= best - 0.1
    else:
        assert not found or min(found) >= best - 0.1


@pytest.mark.parametrize("room", ["a", "b"])
def test_each_room_has_its_own_gaps(room: str) -> None:
    base = two_rooms()
    bench = Obstacle("bench", rectangle((4, 0.4), 2, 1))
    found = free_gaps(Plan(base.rooms, (bench,), (), base.doors), room, (), 1.0)
    assert [each.ids for each in found] == ([("bench", "0")] if room == "a" else [])


def test_a_bay_without_walls_has_no_gap_to_its_open_side() -> None:
    """A bay whose whole right side is open to the hall: the lift there is near no wall, but near what stands beyond."""
    plan = Plan(
        (Room("bay", rectangle((0, 0), 4, 4)), Room("hall", rectangle((4, 0), 6, 4))),
        (Obstacle("lift", rectangle((2, 1), 1.8, 2)), Obstacle("bench", rectangle((4.5, 1), 1, 2))),
        (),
        (Door("open side", "bay", "hall", (4, 2), 4.0, False, "sliding"),),
    )
    found = {each.ids: each.gap.distance for each in free_gaps(plan, "bay", (), 1.5)}
    assert found == {("lift", "bench"): 0.7, ("lift", "0"): 1.0, ("lift", "2"): 1.0}
