"""Walks and farthest places, against plane geometry done by hand. No outside source: the exact expression stands beside
each number, and tests/external/test_plan_published.py holds what others have published."""

from math import asin, atan, cos, hypot, pi, sin, sqrt

import pytest

from checker.plan.errors import NotOnFloor, OnThinWall, UnusablePlan
from checker.plan.floor import floor_of
from checker.plan.shapes import Door, Obstacle, Plan, Point, Room, Wall, rectangle
from checker.plan.walking import farthest, walk
from tests.plan.plans import L_ROOM, U_WALL, hall, one_room, two_rooms

MILLIMETRE = 0.001
GAPS = (rectangle((10, 1.2), 0.2, 3.8), rectangle((10, 5.6), 0.2, 4.4))
"""A wall at x = 10 m with gaps from y = 0 to 1.2 m and from 5 m to 5.6 m."""
NORTH_WALL = rectangle((10, 1.2), 0.2, 8.8)
PARTITION = rectangle((14, 3), 0.2, 10)
CAR = rectangle((5, 5), 4.5, 2)
BAFFLE = Wall("baffle", ((10, 0), (10, 10)))
DRUM = rectangle((20, 12), 24, 18)


def round_one_corner(d1: float, d2: float, turn: float, r: float) -> float:
    """Length of the tightest way past one corner at distance r, from d1 before it to d2 behind it."""
    return sqrt(d1**2 - r**2) + sqrt(d2**2 - r**2) + r * (turn + asin(r / d1) + asin(r / d2))


def round_two_corners(d1: float, between: float, d2: float, turns: float, r: float) -> float:
    return sqrt(d1**2 - r**2) + between + sqrt(d2**2 - r**2) + r * (turns + asin(r / d1) + asin(r / d2))


@pytest.mark.parametrize(
    "plan, start, end, length",
    [
        pytest.param(hall(20, 12), (2, 2), (20, 10), hypot(18, 8), id="straight, to a point on the wall"),
        pytest.param(hall(20, 12, rectangle((6, 3), 8, 6)), (2, 6), (18, 6), 5 + 8 + 5, id="round a block"),
        pytest.param(
            hall(20, 12, U_WALL),
            (10, 6),
            (18, 6),
            hypot(4, 2.5) + 0.5 + 6 + hypot(6, 3),
            id="out of a U",
        ),
        pytest.param(two_rooms(), (2, 9), (18, 9), hypot(8, 4) + 0.2 + hypot(7.8, 4), id="through a door"),
        pytest.param(two_rooms(0.0), (2, 9), (18, 9), 2 * hypot(8, 4), id="through a door in a shared side"),
        pytest.param(hall(20, 10, *GAPS), (2, 5.3), (18, 5.3), 16, id="straight through a narrow gap"),
        pytest.param(
            hall(20, 10, NORTH_WALL), (2, 5.3), (18, 5.3), hypot(8, 4.1) + 0.2 + hypot(7.8, 4.1), id="no narrow gap"
        ),
        pytest.param(one_room(L_ROOM), (1, 13), (19, 5), 7 * sqrt(2) + sqrt(122), id="round the corner of an L"),
        pytest.param(hall(20, 12, walls=[BAFFLE]), (20, 0), (0, 0), 2 * hypot(10, 10), id="round a baffle"),
        pytest.param(hall(60, 40, DRUM), (0, 20), (60, 20), 63.429, id="round an enclosure"),
        pytest.param(hall(60, 40, DRUM), (0, 20), (60, 40), 63.592, id="round an enclosure, to a corner"),
        pytest.param(hall(60, 40, DRUM), (0, 20), (60, 0), 63.302, id="round an enclosure, to the other corner"),
        pytest.param(hall(22, 13, PARTITION, CAR), (0, 6), (22, 13), 27.200, id="workshop, far corner"),
        pytest.param(hall(22, 13, PARTITION, CAR), (0, 6), (14, 13), 15.652, id="workshop, behind the partition"),
        pytest.param(hall(22, 13, PARTITION, CAR), (0, 6), (22, 0), 22.804, id="workshop, near corner"),
        pytest.param(hall(22, 13, PARTITION, CAR), (0, 6), (9.5, 7), 9.599, id="workshop, corner of the car"),
        pytest.param(hall(22, 13, PARTITION, CAR), (0, 6), (9.5, 6), 10.599, id="workshop, far side of the car"),
    ],
)
def test_a_walk_is_as_long_as_geometry_says(plan: Plan, start: Point, end: Point, length: float) -> None:
    found = walk(floor_of(plan), start, [end])
    assert found.distance == pytest.approx(length, abs=MILLIMETRE)
    assert found.path[0] == start
    assert found.path[-1] == end
    steps = zip(found.path, found.path[1:], strict=False)
    assert sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in steps) == pytest.approx(found.distance, abs=1e-9)


@pytest.mark.parametrize(
    "plan, start, end, clearance, length",
    [
        pytest.param(
            hall(20, 12, rectangle((6, 3), 8, 6)),
            (2, 6),
            (18, 6),
            0.3048,
            round_two_corners(5, 8, 5, 2 * atan(3 / 4), 0.3048),
            id="block",
        ),
        pytest.param(
            two_rooms(),
            (2, 9),
            (18, 9),
            0.3048,
            round_two_corners(hypot(8, 4), 0.2, hypot(7.8, 4), atan(4 / 8) + atan(4 / 7.8), 0.3048),
            id="door",
        ),
        pytest.param(
            one_room(L_ROOM),
            (1, 13),
            (19, 5),
            0.3048,
            round_one_corner(hypot(7, 7), sqrt(122), pi / 4 - atan(1 / 11), 0.3048),
            id="L",
        ),
        pytest.param(
            hall(20, 10, *GAPS), (2, 5.3), (18, 5.3), 0.3556, 18.356076, id="a gap of 0.60 m closes to 0.71 m"
        ),
        pytest.param(hall(20, 10, NORTH_WALL), (2, 5.3), (18, 5.3), 0.3556, 18.356076, id="as if it were wall"),
    ],
)
def test_a_walk_keeps_clear_of_corners(plan: Plan, start: Point, end: Point, clearance: float, length: float) -> None:
    assert walk(floor_of(plan, clearance), start, [end]).distance == pytest.approx(length, abs=MILLIMETRE)


@pytest.mark.parametrize(
    "plan, targets, length",
    [
        pytest.param(hall(10, 6), [(5, 3)], hypot(5, 3), id="empty room"),
        pytest.param(hall(10, 10, rectangle((3, 3), 4, 4)), [(5, 0)], hypot(2, 3) + hypot(3, 7), id="round a block"),
        pytest.param(hall(20, 12, walls=[BAFFLE]), [(0, 0)], 2 * hypot(10, 10), id="round a baffle"),
        pytest.param(hall(10, 10), [(0, 0), (10, 0), (0, 10), (10, 10)], hypot(5, 5), id="between four corners"),
        pytest.param(hall(20, 10), [(0, 0), (20, 0)], hypot(10, 10), id="inside a side"),
        pytest.param(one_room(L_ROOM), [(0, 14)], hypot(8, 8) + hypot(12, 6), id="L"),
        pytest.param(hall(22, 13, PARTITION, CAR), [(0, 6)], 27.200, id="workshop, one unit"),
        pytest.param(hall(22, 13, PARTITION, CAR), [(0, 6), (22, 1)], 15.652, id="workshop, two units"),
        pytest.param(hall(60, 40, DRUM), [(0, 20)], 64.3227, id="both ways round alike"),
    ],
)
def test_the_longest_walk_is_proven_on_both_sides(plan: Plan, targets: list[Point], length: float) -> None:
    found = farthest(floor_of(plan), targets, tolerance=MILLIMETRE)
    assert found.least is not None
    assert found.most is not None
    assert found.least - 1e-5 <= length + 5e-4
    assert length - 5e-4 <= found.most + 1e-5
    assert found.most - found.least <= MILLIMETRE
    assert found.place is not None
    assert walk(floor_of(plan), found.place, targets).distance == pytest.approx(found.least, abs=1e-9)


@pytest.mark.parametrize("limit, answer", [(13, False), (14.10, False), (14.18, True), (20, True)])
def test_a_limit_is_settled(limit: float, answer: bool) -> None:
    found = farthest(floor_of(hall(20, 10)), [(0, 0), (20, 0)], limit=limit)
    assert found.settles(limit) is answer


def test_a_limit_at_the_very_distance_is_left_open_by_a_millimetre() -> None:
    plan, limit = hall(60, 40, DRUM), 64.3227
    found = farthest(floor_of(plan), [(0, 20)], limit=limit)
    assert found.least is not None
    assert found.most is not None
    assert found.most - found.least <= 0.001
    assert found.least <= limit + 1e-4
    assert found.most >= limit - 1e-4


def test_a_locked_door_cuts_the_floor_behind_it_off() -> None:
    floor = floor_of(two_rooms(locked=True))
    assert walk(floor, (18, 9), [(2, 9)]).distance is None
    found = farthest(floor, [(2, 9)])
    assert found.most is None
    assert [each.area for each in found.cut_off] == [pytest.approx(98, abs=0.001)]
    assert found.settles(100) is False


def test_only_the_floor_asked_about_counts() -> None:
    within = floor_of(hall(3, 3)).rooms
    found = farthest(floor_of(hall(20, 10)), [(0, 0)], within=within)
    assert found.place == (3, 3)
    assert found.least == pytest.approx(hypot(3, 3))


@pytest.mark.parametrize(
    "obstacles",
    [
        pytest.param([rectangle((9, 0), 1, 5), rectangle((9, 5), 1, 5)], id="sides that touch"),
        pytest.param([rectangle((8, 0), 2, 5), rectangle((10, 5), 2, 5)], id="corners that touch"),
        pytest.param([rectangle((9, 0), 1, 4.996), rectangle((9, 5), 1, 5)], id="a slit of 4 mm"),
        pytest.param([rectangle((8, 0), 1.997, 4.997), rectangle((10, 5), 2, 5)], id="corners 4 mm apart"),
        pytest.param([rectangle((9, 0.006), 1, 9.99)], id="slits of 6 mm and 4 mm beside the walls"),
        pytest.param([rectangle((9, 0), 1, 6), rectangle((9.2, 4), 1, 6)], id="overlap"),
        pytest.param([rectangle((9, -1), 1, 12)], id="through both walls"),
        pytest.param([rectangle((5, 5), 5, 5), ((10, 5), (15, 0), (9, 0))], id="a tip that touches a corner"),
    ],
)
def test_what_touches_or_nearly_touches_is_joined(obstacles: list[tuple[Point, ...]]) -> None:
    assert walk(floor_of(hall(20, 10, *obstacles)), (2, 5), [(18, 5)]).distance is None


def test_a_gap_that_can_be_meant_stays_open() -> None:
    obstacles = [rectangle((9, 0), 1, 4.98), rectangle((9, 5), 1, 5)]
    assert walk(floor_of(hall(20, 10, *obstacles)), (2, 4.99), [(18, 4.99)]).distance == pytest.approx(16)


def test_rooms_that_share_a_side_are_two_without_a_door() -> None:
    plan = Plan((Room("a", rectangle((0, 0), 5, 5)), Room("b", rectangle((5, 0), 5, 5))))
    assert walk(floor_of(plan), (1, 1), [(9, 1)]).distance is None


def test_an_open_side_is_a_door_as_wide_as_the_side() -> None:
    bays = (Room("a", rectangle((0, 0), 5, 5)), Room("b", rectangle((5, 0), 5, 5)))
    plan = Plan(bays, doors=(Door("side", "a", "b", (5, 2.5), 5.0, False),))
    assert walk(floor_of(plan), (1, 0), [(9, 5)]).distance == pytest.approx(hypot(8, 5), abs=1e-6)


def test_a_door_in_a_partition_joins_both_sides_of_its_room() -> None:
    wall = Wall("w", ((10, 0), (10, 10)), 0.1)
    plan = Plan(hall(20, 10).rooms, walls=(wall,), doors=(Door("d", "room", "room", (10, 4.5), 1.0, False),))
    expected = hypot(7.95, 4) + 0.1 + hypot(7.95, 4)
    assert walk(floor_of(plan), (2, 9), [(18, 9)]).distance == pytest.approx(expected, abs=MILLIMETRE)


def test_a_nook_too_narrow_to_stand_in_is_no_floor_to_be_reached() -> None:
    nook = [rectangle((0.2, 9), 1, 1), rectangle((0, 8), 1.2, 1)]
    assert farthest(floor_of(hall(20, 10, *nook)), [(10, 0)]).cut_off == ()
    closet = [rectangle((1, 8), 0.2, 2), rectangle((0, 8), 1.2, 0.2)]
    assert len(farthest(floor_of(hall(20, 10, *closet)), [(10, 0)]).cut_off) == 1


@pytest.mark.parametrize("place", [(-1, 5), (9.5, 5)], ids=["outside", "in an obstacle"])
def test_a_place_that_is_no_floor_is_named(place: Point) -> None:
    with pytest.raises(NotOnFloor) as refused:
        walk(floor_of(hall(20, 10, rectangle((9, 4), 2, 2))), place, [(1, 1)])
    assert refused.value.place == place


def test_a_place_a_little_inside_a_wall_is_on_its_face() -> None:
    found = walk(floor_of(hall(20, 10)), (-0.03, 5), [(10, 5)])
    assert found.distance == pytest.approx(10.03)


@pytest.mark.parametrize(
    "plan",
    [
        two_rooms(locked=None),
        Plan(hall(5, 5).rooms, (Obstacle("o", rectangle((1, 1), 1, 1), stands=None),)),
        one_room(((0, 0), (5, 5), (5, 0), (0, 5))),
        Plan(()),
        one_room(rectangle((20_000, 0), 5, 5)),
    ],
    ids=["lock", "obstacle", "crossed outline", "no room", "far from the frame's origin"],
)
def test_a_plan_that_cannot_be_walked_is_refused(plan: Plan) -> None:
    with pytest.raises(UnusablePlan):
        floor_of(plan)


def test_a_place_on_a_thin_wall_has_no_side() -> None:
    floor = floor_of(hall(20, 12, walls=[BAFFLE]))
    with pytest.raises(OnThinWall, match=r"\(10 m, 5 m\) is on the middle of a thin wall"):
        walk(floor, (1, 1), [(10, 5)])
    beside = [walk(floor, (1, 5), [place]).distance for place in ((9.999, 5), (10.001, 5), (10, 10))]
    assert beside == pytest.approx([8.999, hypot(9, 5) + 5, hypot(9, 5)], abs=0.002)


def test_a_plan_too_large_or_too_finely_drawn_is_refused() -> None:
    with pytest.raises(UnusablePlan, match="more than 1 km across"):
        floor_of(hall(1001, 5))
    teeth = [(x / 2 + dx, y) for x in range(500) for dx, y in ((0, 0), (0.25, 0), (0.25, 3), (0.5, 3))]
    with pytest.raises(UnusablePlan, match=r"^9\d\d corners stick into the floor, more than 400$"):
        floor_of(one_room((*teeth, (250, -3), (0, -3))))


def test_a_round_room_is_settled_although_all_its_corners_are_alike() -> None:
    ring = tuple((10 * cos(2 * pi * i / 2000), 10 * sin(2 * pi * i / 2000)) for i in range(2000))
    found = farthest(floor_of(one_room(ring)), [(0, 0)])
    assert (found.least, found.most) == pytest.approx((10, 10), abs=1e-6)
