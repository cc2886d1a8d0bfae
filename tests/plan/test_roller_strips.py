"""The strips ahead of rollers and behind them, against plane geometry done by hand."""

from math import cos, radians, sin

import pytest

from checker.plan import (
    Area,
    Disc,
    Door,
    Obstacle,
    Plan,
    Room,
    Strip,
    Thing,
    Wall,
    rectangle,
    strips,
)

ROLLERS = rectangle((4, 2), 0.5, 2)
"""0.5 m along the vehicle, which faces along x; 2 m wide, from y = 2 m to 4 m."""
CELL = Room("cell", rectangle((0, 0), 12, 6))


def area(strip: Strip) -> float:
    return sum(each.area for each in strip.outline)


def test_strips_run_to_the_walls() -> None:
    ahead, behind = strips(Plan((CELL,)), ROLLERS, 0)
    assert (ahead.distance, ahead.end, area(ahead)) == pytest.approx((7.5, 7.5, 15))
    assert (behind.distance, behind.end, area(behind)) == pytest.approx((4, 4, 8))
    assert ahead.doors == behind.doors == ahead.holds == behind.holds == ()


def test_the_other_direction_changes_the_two() -> None:
    plan = Plan((CELL,))
    assert [each.distance for each in strips(plan, ROLLERS, 180)] == pytest.approx([4, 7.5])


@pytest.mark.parametrize("turned", [0, 30, 90, 200])
def test_the_frame_does_not_matter(turned: float) -> None:
    c, s = cos(radians(turned)), sin(radians(turned))
    cell = Room("cell", rectangle((3, -7), 12, 6, turned))
    x, y = 3 + c * 4 - s * 2, -7 + s * 4 + c * 2
    ahead, behind = strips(Plan((cell,)), rectangle((x, y), 0.5, 2, turned), turned)
    assert (ahead.distance, area(ahead)) == pytest.approx((7.5, 15))
    assert (behind.distance, area(behind)) == pytest.approx((4, 8))


def test_a_wall_across_part_of_it_shadows_only_that_part() -> None:
    plan = Plan((CELL,), walls=(Wall("fin", ((8, 0), (8, 3)), 0.2),))
    ahead, _ = strips(plan, ROLLERS, 0)
    assert (ahead.distance, ahead.end) == pytest.approx((3.4, 7.5))
    assert area(ahead) == pytest.approx(3.4 * 1 + 7.5 * 1)


def test_a_thin_wall_ends_it() -> None:
    ahead, _ = strips(Plan((CELL,), walls=(Wall("sheet", ((8, 0), (8, 6))),)), ROLLERS, 0)
    assert (ahead.distance, ahead.end) == pytest.approx((3.5, 3.5), abs=1e-5)


@pytest.mark.parametrize("locked", [True, False, None])
def test_a_gate_is_no_solid_wall_even_if_locked(locked: bool | None) -> None:
    gate = Door("gate", "cell", "outside", (12, 3), 3.0, locked, "roller")
    ahead, _ = strips(Plan((CELL,), doors=(gate,)), ROLLERS, 0, farthest=20)
    assert (ahead.distance, ahead.end, area(ahead)) == (None, pytest.approx(20), pytest.approx(40))
    assert ahead.doors == ("gate",)


def test_a_gate_behind_does_not_open_the_wall_ahead() -> None:
    gate = Door("gate", "cell", "outside", (0, 3), 3.0, False, "roller")
    ahead, behind = strips(Plan((CELL,), doors=(gate,)), ROLLERS, 0)
    assert (ahead.distance, ahead.doors) == (pytest.approx(7.5), ())
    assert (behind.distance, behind.doors) == (None, ("gate",))


def test_a_narrow_door_lets_only_its_width_through() -> None:
    door = Door("door", "cell", "outside", (12, 3), 1.0, False)
    ahead, _ = strips(Plan((CELL,), doors=(door,)), ROLLERS, 0, farthest=20)
    assert (ahead.distance, ahead.end) == pytest.approx((7.5, 20))
    assert area(ahead) == pytest.approx(7.5 * 2 + 12.5 * 1)


def test_through_a_door_it_runs_into_the_next_room() -> None:
    store = Room("store", rectangle((12.2, 0), 5, 6))
    door = Door("inner", "cell", "store", (12.1, 3), 2.4, True)
    ahead, _ = strips(Plan((CELL, store), doors=(door,)), ROLLERS, 0)
    assert ahead.end == pytest.approx(17.2 - 4.5)
    assert ahead.doors == ("inner",)


@pytest.mark.parametrize(
    "door",
    [Door("d", "cell", "outside", None, 3.0, False), Door("d", "cell", "outside", (12, 3), None, False)],
    ids=["no place", "no width"],
)
def test_a_door_of_unknown_place_or_width_counts_as_wall(door: Door) -> None:
    assert strips(Plan((CELL,), doors=(door,)), ROLLERS, 0)[0].distance == pytest.approx(7.5)


def test_what_lies_in_it_the_nearest_first() -> None:
    plan = Plan(
        (CELL,),
        (
            Obstacle("bench", rectangle((9, 3.5), 1, 1)),
            Obstacle("rack", rectangle((6, 4.2), 1, 1)),
            Obstacle("gone", rectangle((6, 3), 1, 1), stands=False),
        ),
        things=(Thing("fe-1", (11.9, 3)), Thing("fe-2", (0, 3))),
    )
    ahead, behind = strips(plan, ROLLERS, 0, {"desk": Area(rectangle((5, 1.5), 1, 1)), "lamp": Disc((1, 5), 0.2)})
    found = [(each.thing, round(each.distance, 6), round(each.area, 6)) for each in ahead.holds]
    assert found == [("desk", 0.5, 0.5), ("obstacle bench", 4.5, 0.5), ("thing fe-1", 7.4, 0.0)]
    assert [each.thing for each in behind.holds] == ["thing fe-2"]
