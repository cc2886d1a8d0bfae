"""Free distances and working space, against plane geometry done by hand: the expression stands beside the number."""

from math import cos, hypot, radians, sin, sqrt

import pytest

from checker.plan import (
    Area,
    Disc,
    Door,
    Face,
    Hinge,
    Line,
    Obstacle,
    Outline,
    Plan,
    Point,
    Room,
    Sector,
    Shape,
    Swing,
    UnusablePlan,
    Wall,
    edge_distances,
    gap,
    gap_to_outline,
    rectangle,
    swept_by,
    working_space,
)

MICROMETRE = 2e-6
NINE_BY_SIX: Outline = rectangle((0, 0), 9, 6)
SQUARE_ROOM = Room("room", rectangle((0, 0), 6, 5))


def turned_about_its_middle(corner: Point, length: float, width: float, degrees: float) -> Outline:
    x, y = corner[0] + length / 2, corner[1] + width / 2
    c, s = cos(radians(degrees)), sin(radians(degrees))
    dx, dy = -length / 2, -width / 2
    return rectangle((x + c * dx - s * dy, y + s * dx + c * dy), length, width, degrees)


@pytest.mark.parametrize(
    "one, other, distance",
    [
        pytest.param(Area(rectangle((0, 0), 2, 1)), Area(rectangle((3, 2), 1, 1)), sqrt(2), id="corner to corner"),
        pytest.param(Disc((5, 5), 0.3), Area(rectangle((2, 2), 2.5, 3.6)), 0.2, id="column beside a car"),
        pytest.param(Area(((0, 0), (4, 0), (0, 3))), Disc((4, 3), 1e-4), 12 / 5 - 1e-4, id="the slanted side"),
        pytest.param(Disc((0, 0), 1), Disc((3, 4), 2), 2, id="two columns"),
        pytest.param(Line(((0, 0), (4, 0))), Line(((5, 1), (5, 3))), hypot(1, 1), id="two lines"),
        pytest.param(Sector((0, 0), 1, 0, 90), Area(rectangle((2, 2), 1, 1)), hypot(2, 2) - 1, id="arc to corner"),
        pytest.param(Sector((0, 0), 1, 0, 90), Disc((-3, 0), 1), 2, id="the hinge is nearest"),
        pytest.param(Sector((0, 0), 0.9, 0, 90), Sector((2, 0), 0.9, 90, 180), 0.2, id="two doors side by side"),
        pytest.param(Sector((0, 0), 0.9, 0, 90), Line(((-1, -1), (1, -1))), 1, id="the closed leaf to a wall"),
        pytest.param(Area(rectangle((0, 0), 2, 2)), Disc((1, 1), 0.1), 0, id="one inside the other"),
        pytest.param(Area(rectangle((0, 0), 2, 2)), Area(rectangle((2, 1), 2, 2)), 0, id="touching"),
    ],
)
def test_the_free_distance_and_where_it_is(one: Shape, other: Shape, distance: float) -> None:
    found = gap(one, other)
    assert found.distance == pytest.approx(distance, abs=MICROMETRE)
    apart = hypot(found.there[0] - found.here[0], found.there[1] - found.here[1])
    assert apart == pytest.approx(found.distance, abs=1e-9)
    back = gap(other, one)
    assert back.distance == pytest.approx(distance, abs=MICROMETRE)


@pytest.mark.parametrize(
    "car, distance",
    [
        (rectangle((2, 2), 4.5, 1.8), 2.0),
        (turned_about_its_middle((2, 2), 4.5, 1.8, 10), 2.9 - (2.25 * sin(radians(10)) + 0.9 * cos(radians(10)))),
        (rectangle((2, 2), 8, 1.8), 0.0),
    ],
    ids=["straight", "turned by 10 degrees", "through the wall"],
)
def test_the_least_gap_to_the_walls(car: Outline, distance: float) -> None:
    assert gap_to_outline(Area(car), NINE_BY_SIX).distance == pytest.approx(distance, abs=1e-9)


@pytest.mark.parametrize(
    "swing, hinge, place, start, end",
    [
        ("in", "left", (2.5, 5), -90, 0),
        ("in", "right", (3.5, 5), 180, 270),
        ("out", "left", (2.5, 5), 0, 90),
        ("out", "right", (3.5, 5), 90, 180),
    ],
)
def test_a_leaf_sweeps_a_quarter_turn_about_its_hinge(
    swing: Swing, hinge: Hinge, place: Point, start: int, end: int
) -> None:
    """The door is in the upper wall: who stands inside and faces it has the left jamb at smaller x."""
    door = Door("d", "room", "outside", (3, 5), 1.0, False, swing, hinge)
    (found,) = swept_by(door, Plan((SQUARE_ROOM,), doors=(door,)))
    assert (*found.hinge, found.radius) == pytest.approx((*place, 1.0))
    assert (found.start, found.end) == pytest.approx((start, end))


@pytest.mark.parametrize(
    "swing, hinge, count",
    [("in", None, 2), ("both", "left", 2), ("both", None, 4), ("sliding", None, 0), ("roller", None, 0)],
)
def test_what_is_not_known_of_a_door_is_swept_both_ways(swing: Swing, hinge: Hinge | None, count: int) -> None:
    door = Door("d", "room", "outside", (3, 5), 1.0, False, swing, hinge)
    assert len(swept_by(door, Plan((SQUARE_ROOM,), doors=(door,)))) == count


@pytest.mark.parametrize(
    "door",
    [
        Door("d", "room", "outside", None, 1.0, False, "in"),
        Door("d", "room", "outside", (3, 5), None, False, "in"),
        Door("d", "room", "outside", (3, 5), 1.0, False),
        Door("d", "room", "outside", (3, 2.5), 1.0, False, "in"),
        Door("d", "attic", "outside", (3, 5), 1.0, False, "in"),
    ],
    ids=["no place", "no width", "no way of opening", "on no wall", "no such room"],
)
def test_a_door_of_which_too_little_is_known_sweeps_nothing_known(door: Door) -> None:
    with pytest.raises(UnusablePlan, match="door d"):
        swept_by(door, Plan((SQUARE_ROOM,), doors=(door,)))


PANEL = Face((3, 5), 0.6, 270)
"""On the upper wall, 0.6 m wide; one stands below it."""


@pytest.mark.parametrize(
    "obstacles, clear, depth, thing, area",
    [
        pytest.param([], True, 1.0, None, 0.0, id="nothing"),
        pytest.param([rectangle((2.2, 4.2), 0.3, 0.3)], True, 1.0, None, 0.0, id="off to one side is clear"),
        pytest.param([rectangle((2.9, 4.2), 0.3, 0.3)], False, 0.5, "obstacle o0", 0.09, id="in the middle"),
        pytest.param([rectangle((0, 0), 6, 4)], True, 1.0, None, 0.0, id="just behind"),
        pytest.param([rectangle((0, 0), 6, 4.1)], False, 0.9, "obstacle o0", 0.09, id="a little too near"),
        pytest.param(
            [rectangle((2.2, 4.2), 0.45, 0.3), rectangle((3.35, 4.2), 1, 0.2)],
            False,
            0.6,
            "obstacle o1",
            0.04,
            id="no room for the width between two",
        ),
    ],
)
def test_the_space_before_a_panel(
    obstacles: list[Outline], clear: bool, depth: float, thing: str | None, area: float
) -> None:
    plan = Plan((SQUARE_ROOM,), tuple(Obstacle(f"o{i}", each) for i, each in enumerate(obstacles)))
    found = working_space(plan, PANEL, 1.0, 0.9)
    assert (found.clear, found.depth) == (clear, pytest.approx(depth))
    assert sum(each.area for each in found.intrusions) == pytest.approx(area)
    assert [each.thing for each in found.intrusions][:1] == ([thing] if thing else [])
    (x1, y1), (x2, y2) = (f(found.outline, key=sum) for f in (min, max))
    assert (x2 - x1, y2 - y1) == pytest.approx((0.9, 1.0))
    assert x1 <= 2.7 + 1e-9
    assert x2 >= 3.3 - 1e-9


@pytest.mark.parametrize(
    "face, clear",
    [
        pytest.param(Face((0.4, 5), 0.6, 270), True, id="0.1 m from the corner, room to the other side"),
        pytest.param(Face((0.3, 5), 0.6, 270), True, id="in the corner"),
        pytest.param(Face((3, 0.8), 0.6, 270), False, id="a wall 0.8 m before it"),
        pytest.param(Face((6, 2), 0.6, 180), True, id="on the right wall"),
        pytest.param(Face((2, 2), 0.6, 45), True, id="on a slant"),
        pytest.param(Face((5.6, 4.6), 0.6, 45), False, id="on a slant, into the corner"),
    ],
)
def test_walls_limit_the_space_before_a_panel(face: Face, clear: bool) -> None:
    found = working_space(Plan((SQUARE_ROOM,)), face, 1.0, 0.9)
    assert found.clear is clear
    assert {each.thing for each in found.intrusions} <= {"wall"}


def test_a_thin_partition_and_a_named_thing_lie_in_the_way() -> None:
    plan = Plan((SQUARE_ROOM,), walls=(Wall("screen", ((2, 4.5), (4, 4.5))),))
    assert working_space(plan, PANEL, 1.0, 0.9).depth == pytest.approx(0.5, abs=1e-5)
    found = working_space(Plan((SQUARE_ROOM,)), PANEL, 1.0, 0.9, {"fan f-1": Disc((3, 4.3), 0.2)})
    assert [(each.thing, round(each.distance, 5)) for each in found.intrusions] == [("fan f-1", 0.5)]


def test_a_thing_wider_than_the_width_asked_for_is_covered() -> None:
    found = working_space(Plan((SQUARE_ROOM,)), Face((3, 5), 2.0, 270), 1.0, 0.9)
    assert max(x for x, _ in found.outline) - min(x for x, _ in found.outline) == pytest.approx(2.0)


def test_anchors_to_edge_joint_and_one_another() -> None:
    joint = Line(((2, 0), (2, 4)))
    near, far, off = edge_distances([(0.3, 1), (0.3, 1.2), (5, 5)], rectangle((0, 0), 4, 4), [joint])
    assert near.to_edge.distance == pytest.approx(0.3)
    assert near.to_edge.there == pytest.approx((0, 1))
    assert near.to_joint is not None
    assert near.to_joint.distance == pytest.approx(1.7)
    assert near.to_anchor is not None
    assert near.to_anchor.distance == pytest.approx(0.2)
    assert far.to_anchor is not None
    assert far.to_anchor.there == (0.3, 1)
    assert off.to_edge.distance == 0


def test_a_lone_anchor_in_a_slab_without_joints() -> None:
    (found,) = edge_distances([(1, 2)], rectangle((0, 0), 4, 4))
    assert (found.to_joint, found.to_anchor) == (None, None)
