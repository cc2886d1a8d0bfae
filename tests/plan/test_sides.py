"""Sides of outlines in plain arithmetic, against shapely."""

from math import hypot

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from checker.plan.sides import apart, inwards, nearest_side, opening

L_ROOM = ((0.0, 0.0), (8.0, 0.0), (8.0, 3.0), (4.0, 3.0), (4.0, 6.0), (0.0, 6.0))
COORDINATE = st.integers(-40, 120).map(lambda tenth: tenth / 10)
PLACE = st.tuples(COORDINATE, COORDINATE)


@given(PLACE)
def test_the_nearest_side_is_as_near_as_the_outline(place: tuple[float, float]) -> None:
    assert nearest_side(place, L_ROOM).distance == pytest.approx(Polygon(L_ROOM).exterior.distance(Point(place)))


@given(PLACE, st.booleans())
def test_inwards_leads_into_the_room_whichever_way_round_it_is_drawn(place: tuple[float, float], turned: bool) -> None:
    outline = L_ROOM[::-1] if turned else L_ROOM
    side = nearest_side(place, outline).side
    x, y = inwards(side, outline)
    (x1, y1), (x2, y2) = side
    assert hypot(x, y) == pytest.approx(1)
    assert Polygon(outline).contains(Point((x1 + x2) / 2 + 0.01 * x, (y1 + y2) / 2 + 0.01 * y))


@given(PLACE, PLACE, PLACE, PLACE)
def test_apart_is_the_distance_of_two_lines(
    a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float]
) -> None:
    assume(a != b and c != d)
    assert apart((a, b), (c, d)) == pytest.approx(LineString([a, b]).distance(LineString([c, d])), abs=1e-9)


@pytest.mark.parametrize(
    ("at", "width", "found"),
    [
        ((2.0, 0.0), 1.0, ((1.5, 0.0), (2.5, 0.0))),
        ((0.2, 0.0), 1.0, ((0.0, 0.0), (0.7, 0.0))),
        ((8.1, 1.5), 1.0, ((8.0, 1.0), (8.0, 2.0))),
        ((2.0, 2.0), 1.0, None),
    ],
)
def test_an_opening_is_cut_at_the_ends_of_its_wall(at: tuple[float, float], width: float, found: object) -> None:
    assert opening(at, width, L_ROOM) == found
