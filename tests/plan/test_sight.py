"""What is seen from a point, as far as is looked."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from checker.plan.floor import floor_of
from checker.plan.sight import Sight
from tests.plan.plans import workshop

ALL = 100.0
"""m. Farther than the hall is long."""


@settings(max_examples=80, deadline=None)
@given(st.integers(0, 9), st.integers(0, 100_000), st.floats(0.2, 12.0), st.data())
def test_how_far_is_looked_changes_nothing_nearer(
    obstacles: int, seed: int, within: float, data: st.DataObject
) -> None:
    """Corners of obstacles and of the hall, and places on the floor."""
    part = max(floor_of(workshop(obstacles, 14.0, 9.0, seed)).parts, key=lambda each: each.polygon.area)
    corners = shapely.get_coordinates(part.polygon)
    inside = part.polygon.representative_point()
    point = data.draw(st.sampled_from([*map(tuple, corners.tolist()), (inside.x, inside.y)]))
    sight, disc = Sight(part), shapely.Point(point).buffer(within)
    near, all_ = (shapely.make_valid(sight.seen_from(np.array(point), far)) & disc for far in (within, ALL))
    assert near.symmetric_difference(all_).area == pytest.approx(0, abs=1e-5)
