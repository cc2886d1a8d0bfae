"""Floor within reach and beyond, against areas of plane figures."""

from math import acos, hypot, pi, sqrt

import pytest

from checker.plan import Plan, Point, reach, rectangle, walk
from tests.plan.plans import L_ROOM, hall, one_room, targets_of, two_rooms, workshop


def segment(radius: float, off: float) -> float:
    """The area of a disc beyond a line at a distance from its middle."""
    return radius**2 * acos(off / radius) - off * sqrt(radius**2 - off**2)


@pytest.mark.parametrize(
    "plan, targets, distance, area",
    [
        pytest.param(hall(30, 20), [(0, 0)], 10, pi * 25, id="quarter of a disc in a corner"),
        pytest.param(hall(30, 20), [(15, 0)], 10, pi * 50, id="half a disc at a wall"),
        pytest.param(hall(30, 20), [(15, 10)], 8, pi * 64, id="a whole disc"),
        pytest.param(hall(30, 20), [(15, 10)], 12, pi * 144 - 2 * segment(12, 10), id="a disc cut by two walls"),
        pytest.param(hall(30, 20), [(10, 10), (18, 10)], 5, 2 * (pi * 25 - segment(5, 4)), id="two discs that overlap"),
        pytest.param(
            hall(30, 20, rectangle((0, 5), 10, 1)), [(0, 0)], 5, pi * 25 / 4, id="an obstacle that is just touched"
        ),
        pytest.param(
            one_room(((0, 0), (20, 0), (20, 5), (5, 5), (5, 20), (0, 20))),
            [(5, 5)],
            4,
            pi * 16 * 3 / 4,
            id="three quarters of a disc about a corner that sticks in",
        ),
        pytest.param(two_rooms(locked=True), [(0, 5)], 100, 100, id="no farther than a locked door"),
    ],
)
def test_the_area_within_reach(plan: Plan, targets: list[Point], distance: float, area: float) -> None:
    found = reach(plan, targets, distance)
    assert found.within_area == pytest.approx(area, abs=found.tolerance)
    assert found.tolerance < 0.05


def test_a_distance_bends_round_a_corner() -> None:
    """Behind the corner, what is left of the distance reaches a quarter of a disc further."""
    arms = ((0, 0), (20, 0), (20, 5), (5, 5), (5, 20), (0, 20))
    found = reach(one_room(arms), [(20, 5)], 18)
    straight = 15 * 5 + 5 * 5
    left = 3.0
    assert found.within_area < straight + left * 5
    assert walk(one_room(arms), (5, 5 + left), [(20, 5)]).distance == pytest.approx(18)
    behind = [patch for patch in found.beyond if patch.area > 1]
    assert len(behind) == 1
    assert (5, 20) in {(round(x, 3), round(y, 3)) for x, y in behind[0].outline}


def test_within_and_beyond_make_up_the_floor() -> None:
    plan = workshop(10, 30, 20)
    areas = [reach(plan, targets_of(30, 20), distance) for distance in (2, 5, 8, 11, 14)]
    wholes = {round(each.within_area + each.beyond_area, 6) for each in areas}
    assert len(wholes) == 1
    assert [each.within_area for each in areas] == sorted(each.within_area for each in areas)
    assert areas[-1].beyond_area == pytest.approx(0, abs=1e-4)
    assert areas[-1].beyond == ()
    assert areas[0].beyond_share == pytest.approx(areas[0].beyond_area / wholes.pop())


@pytest.mark.parametrize("distance", [3.0, 7.0, 10.0])
def test_points_of_the_line_are_that_far_away(distance: float) -> None:
    plan, targets = workshop(10, 30, 20), targets_of(30, 20)
    found = reach(plan, targets, distance)
    points = [point for line in found.contour for point in line]
    assert len(points) > 20
    for point in points[::7]:
        assert walk(plan, point, targets).distance == pytest.approx(distance, abs=0.02)


def test_patches_beyond_lie_beyond() -> None:
    plan, targets = one_room(L_ROOM), [(0.0, 14.0)]
    found = reach(plan, targets, 15)
    assert sum(each.area for each in found.beyond) == pytest.approx(found.beyond_area, abs=1e-3)
    for patch in found.beyond:
        for corner in patch.outline:
            distance = walk(plan, corner, targets).distance
            assert distance is not None
            assert distance >= 15 - 0.002


def test_only_the_floor_asked_about_is_shared_out() -> None:
    found = reach(hall(30, 20), [(0, 0)], 5, within=rectangle((0, 0), 10, 10))
    assert found.within_area + found.beyond_area == pytest.approx(100)
    assert found.within_area == pytest.approx(pi * 25 / 4, abs=found.tolerance)


def test_a_reach_that_keeps_clear_of_corners_is_smaller() -> None:
    plan = hall(12, 8, rectangle((5, 0), 0.5, 5))
    free, kept = reach(plan, [(0, 0)], 9), reach(plan, [(0, 0)], 9, clearance=0.3)
    assert kept.within_area < free.within_area
    assert hypot(1, 1) < kept.beyond_area
