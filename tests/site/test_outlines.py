"""Outlines against shapely, a general geometry library."""

from decimal import Decimal

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import Point, Polygon

from checker.site.entries import Pair
from checker.site.outlines import contains, fault_of

GRID_POINTS = st.tuples(st.integers(0, 5), st.integers(0, 5))
Corners = list[tuple[int, int]]
CORNERS = st.lists(GRID_POINTS, min_size=3, max_size=7)


def pairs(corners: Corners) -> tuple[Pair, ...]:
    return tuple((Decimal(x), Decimal(y)) for x, y in corners)


@given(CORNERS)
def test_an_outline_without_fault_is_a_valid_polygon_and_the_other_way_round(corners: Corners) -> None:
    assume(len(set(corners)) == len(corners))
    polygon = Polygon(corners)
    assert (fault_of(pairs(corners)) is None) == (polygon.is_valid and polygon.area > 0)


@given(CORNERS, GRID_POINTS)
def test_a_point_lies_within_where_the_polygon_covers_it(corners: Corners, point: tuple[int, int]) -> None:
    assume(fault_of(pairs(corners)) is None)
    assert contains(pairs(corners), pairs([point])[0]) == Polygon(corners).covers(Point(point))


@pytest.mark.parametrize(
    ("corners", "fault"),
    [
        ([(0, 0), (4, 0), (4, 3), (0, 3)], None),
        ([(0, 0), (4, 0), (4, 3), (0, 3), (0, 0)], "The last corner repeats the first"),
        ([(0, 0), (4, 0), (4, 0), (0, 3)], "The outline touches the same corner twice"),
        ([(0, 0), (4, 0), (2, 0)], "The outline has no area"),
        ([(0, 0), (4, 4), (4, 0), (0, 4)], "The outline crosses itself"),
        ([(0, 0), (4, 0), (4, 4), (4, 2), (0, 2)], "The outline crosses itself"),
    ],
)
def test_faults_have_names(corners: Corners, fault: str | None) -> None:
    assert fault_of(pairs(corners)) == fault
