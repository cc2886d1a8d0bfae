"""Walks and clearances against answers that others have published with their own programs.

Shortest paths: test data of the library extremitypathfinder, repository jannikmi/extremitypathfinder,
tests/test_cases.py at commit 04c15fd (read there). Clearance: the example of `minimum_clearance` in the manual of
Shapely 2.1 (read there). Lengths count as metres here.
"""

from math import hypot, sqrt

import pytest

from checker.plan import Line, Obstacle, Plan, Point, Room, gap, rectangle, walk

NOTCHED = Plan(
    (Room("room", ((0, 0), (10, 0), (9, 5), (10, 10), (0, 10))),),
    (Obstacle("hole", ((3, 7), (5, 9), (4.6, 7), (5, 4))),),
)
BLOCKED = (
    (0, 1), (1, 1), (2, 1), (3, 1), (17, 9), (17, 8), (17, 7), (17, 5), (17, 4), (17, 3), (17, 2), (17, 1), (17, 0),
    (5, 5), (5, 6), (6, 6), (6, 7), (7, 7), (7, 5),
)  # fmt: skip
CELLS = Plan(
    (Room("room", rectangle((0, 0), 19, 10)),),
    tuple(Obstacle(f"cell-{x}-{y}", rectangle((x, y), 1, 1)) for x, y in BLOCKED),
)
WITHIN = 1e-4
"""Obstacles grow by a thousandth of a millimetre to join what they touch; no walk below has more than ten bends."""


@pytest.mark.parametrize(
    "plan, start, end, published",
    [
        (NOTCHED, (9.1, 4), (9.1, 6), 2.009975124224178),
        (NOTCHED, (4, 4.5), (6, 4.5), 2.23606797749979),
        (NOTCHED, (9, 5), (5, 9), sqrt(32)),
        (NOTCHED, (3, 7), (5, 9), sqrt(8)),
        (CELLS, (0.5, 6), (18.5, 0.5), 23.18783787537749),
        (CELLS, (0.5, 6), (9, 5.5), 8.727806217396338),
        (CELLS, (0.5, 0.5), (0.5, 2.5), 8.071067811865476),
        (CELLS, (16.5, 9.5), (18.5, 9.5), 6.0990195135927845),
    ],
)
def test_a_walk_is_as_long_as_published(plan: Plan, start: Point, end: Point, published: float) -> None:
    assert walk(plan, start, [end]).distance == pytest.approx(published, abs=WITHIN)


def test_where_cells_touch_at_a_corner_nobody_walks_between_them() -> None:
    """Published: 5.830925564196269, from (6.9, 4) to (7, 9), straight through (7, 6) where two cells touch.

    Obstacles that touch are joined here, so the way leads round cell (7, 5).
    """
    published_way = hypot(0.1, 2) + sqrt(2) + 1 + sqrt(2)
    assert published_way == pytest.approx(5.830925564196269)
    round_the_cell = hypot(1.1, 1) + 3 + sqrt(2)
    assert walk(CELLS, (6.9, 4), [(7, 9)]).distance == pytest.approx(round_the_cell, abs=WITHIN)


def test_a_gap_is_as_wide_as_published() -> None:
    """Published: 2.0, the least clearance of the outline of which these are the upper and the lower edge."""
    upper, lower = Line(((0, 10), (5, 6), (10, 10))), Line(((0, 0), (5, 4), (10, 0)))
    found = gap(upper, lower)
    assert found.distance == pytest.approx(2.0)
    assert (found.here, found.there) == ((5, 6), (5, 4))
