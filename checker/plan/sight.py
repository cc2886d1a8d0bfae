"""What can be seen of a piece of floor from one point, in straight lines over the floor."""

from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon

from checker.plan.ways import SLACK, Numbers, Part

BESIDE: Final = 2e-7
"""m. How far to either side of each corner rays are cast."""
BEYOND: Final = 1.1
"""How many times as far rays run that meet nothing: more than 1 by the cosine of half the widest angle between rays."""
ALL_ROUND: Final = np.linspace(-3, 3, 13)
"""Radians. Rays that are cast in any case, so that a point on a wall counts as the edge of what it sees."""


class Sight:
    """The sides of a piece of floor, ready for rays. The floor lies to their left."""

    def __init__(self, part: Part) -> None:
        """Takes a piece of floor."""
        oriented = shapely.orient_polygons(part.polygon)
        rings = [shapely.get_coordinates(ring) for ring in (oriented.exterior, *oriented.interiors)]
        self.starts: Numbers = np.concatenate([each[:-1] for each in rings])
        self.along: Numbers = np.concatenate([each[1:] - each[:-1] for each in rings])

    def seen_from(self, point: Numbers, within: float) -> Polygon:
        """The floor in sight of a point, whole as far as `within` in m, and some beyond.

        Between two neighbouring corners a ray ends on one side all the way. Sides farther off are left out, and rays
        that meet none of the others end so far off that straight lines between them stay beyond.
        """
        away = self._apart(self.starts - point)
        near = away <= within
        to_starts, along = (self.starts - point)[near], self.along[near]
        ends = np.concatenate([to_starts, to_starts + along])
        apart = np.hypot(*ends.T)
        far = apart > 10 * BESIDE
        angles, turn = np.arctan2(ends[far, 1], ends[far, 0]), BESIDE / apart[far]
        angles = np.sort(np.concatenate([angles - turn, angles + turn, ALL_ROUND]))
        rays = np.stack([np.cos(angles), np.sin(angles)], axis=1)
        touched = away[near] <= SLACK
        length = _hits(rays, to_starts[~touched], along[~touched])
        length[np.isinf(length)] = BEYOND * within
        length[~_over_floor(rays, to_starts[touched], along[touched])] = 0.0
        return Polygon(point + length[:, None] * rays)

    def _apart(self, to_starts: Numbers) -> Numbers:
        """How far off each side is."""
        squared = np.sum(self.along * self.along, axis=1)
        share = np.clip(-np.sum(to_starts * self.along, axis=1) / squared, 0.0, 1.0)
        nearest = to_starts + share[:, None] * self.along
        return np.asarray(np.hypot(*nearest.T))


def _over_floor(rays: Numbers, to_starts: Numbers, touched: Numbers) -> NDArray[np.bool_]:
    """Whether each ray starts over floor, for a point on these sides."""
    left = _cross(touched[None, :, :], rays[:, None, :]) > 0
    if len(touched) == 2:
        one, other = touched if np.hypot(*to_starts[0]) > np.hypot(*to_starts[1]) else touched[::-1]
        if _cross(one, other) < 0:  # the corner where they meet sticks into the floor
            return np.asarray(left.any(axis=1))
    return np.asarray(left.all(axis=1))


def _hits(rays: Numbers, to_starts: Numbers, along: Numbers) -> Numbers:
    """How far each ray runs to the first side; infinite if it meets none."""
    slant = _cross(rays[:, None, :], along[None, :, :])
    with np.errstate(divide="ignore", invalid="ignore"):
        length = _cross(to_starts, along)[None, :] / slant
        share = _cross(to_starts[None, :, :], rays[:, None, :]) / slant
    hit = (slant != 0) & (share >= 0) & (share <= 1) & (length >= 0)
    return np.asarray(np.where(hit, length, np.inf).min(axis=1, initial=np.inf))


def _cross(one: Numbers, other: Numbers) -> Numbers:
    return np.asarray(one[..., 0] * other[..., 1] - one[..., 1] * other[..., 0])
