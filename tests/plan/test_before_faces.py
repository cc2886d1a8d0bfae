"""How deep and how wide the floor before a face is clear, against shapes whose sizes can be read off."""

import pytest

from checker.plan import Face, Obstacle, Outline, Plan, Room, clear_depth, clear_width, longest_shared_start, rectangle

ROOM = Room("room", ((0, 0), (10, 0), (10, 8), (0, 8)))
FACE = Face((0, 4), 0.6, 0.0)
"""A panel 0.6 m wide in the middle of the left wall, looking along x."""


def plan(*outlines: Outline) -> Plan:
    return Plan((ROOM,), tuple(Obstacle(f"o{number}", outline) for number, outline in enumerate(outlines)))


@pytest.mark.parametrize(
    "outlines, depth, width",
    [
        pytest.param([], 5.0, 8.0, id="nothing there: as far as is looked, and from wall to wall"),
        pytest.param([rectangle((1.2, 3.9), 1, 0.2)], 1.2, 8.0, id="a post ahead"),
        pytest.param([rectangle((0.2, 4.3), 1, 1)], 5.0, 4.3, id="a box beside the face: the rectangle moves off it"),
        pytest.param([rectangle((0.2, 4.2), 1, 1)], 0.2, 8.0, id="a box that reaches before the face"),
        pytest.param(
            [rectangle((0.5, 4.39), 1, 1), rectangle((0.9, 2.9), 1, 0.7)], 0.9, 4.39, id="boxes on both sides"
        ),
        pytest.param(
            [rectangle((0.5, 4.5), 1, 1), rectangle((0.5, 2.5), 1, 1.2)], 5.0, 0.8, id="a gap as wide as asked"
        ),
        pytest.param([rectangle((0.5, 4.49), 1, 1), rectangle((0.6, 2.5), 1, 1.2)], 0.6, 4.49, id="a gap too narrow"),
    ],
)
def test_the_clear_rectangle(outlines: list[Outline], depth: float, width: float) -> None:
    deep = clear_depth(plan(*outlines), FACE, 0.8, 5.0)
    assert deep.length == depth
    assert clear_width(plan(*outlines), FACE, deep.length, 5.0).length == pytest.approx(width, abs=1e-5)


def test_a_turned_room_gives_the_same() -> None:
    turned = Plan((Room("room", rectangle((5, 5), 10, 8, 30)),), ())
    middle = (5 - 4 * 0.5, 5 + 4 * 3**0.5 / 2)
    face = Face(middle, 0.6, 30.0)
    assert clear_depth(turned, face, 0.8, 20.0).length == pytest.approx(10, abs=1e-5)
    assert clear_width(turned, face, 2.0, 20.0).length == pytest.approx(8, abs=1e-5)


def test_the_longest_shared_start_is_the_way_out_of_a_blind_corridor() -> None:
    """A corridor of 2 m × 10 m opens into a hall with a door on each side of its mouth."""
    corridor = ((0, 3), (10, 3), (10, 0), (16, 0), (16, 8), (10, 8), (10, 5), (0, 5))
    found = longest_shared_start(Plan((Room("room", corridor),)), [(13, 0), (13, 8)])
    assert found.distance == pytest.approx(0, abs=1e-6), "from the corridor's middle the two ways part at once"
    alone = longest_shared_start(Plan((Room("room", corridor),)), [(13, 8)])
    assert alone.distance is not None
    assert alone.distance > 13


def test_floor_without_any_way_out_has_no_shared_start() -> None:
    cut = Plan((ROOM, Room("far", ((20, 0), (22, 0), (22, 2), (20, 2)))))
    assert longest_shared_start(cut, [(10, 4), (0, 4)]).distance is None
