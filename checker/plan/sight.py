"""What can be seen of a piece of floor from one point, in straight lines over the floor."""

from functools import cached_property
from typing import Final

import numpy as np
import shapely
from shapely import Polygon

from checker.plan.ways import SLACK, Numbers, Part

BESIDE: Final = 1e-9
"""Radians. Rays are cast this much to either side of each corner."""
STEP: Final = 1e-5
"""m. How far along a ray one looks whether it starts over floor."""

ALL_ROUND: Final = np.linspace(-3, 3, 13)
"""Radians. Rays that are cast in any case, so that a point on a wall counts as the edge of what it sees."""


class Sight:
    """The sides of a piece of floor, ready for rays."""

    def __init__(self, part: Part) -> None:
        """Takes a piece of floor."""
        self.part = part

    @cached_property
    def _sides(self) -> tuple[Numbers, Numbers]:
        rings = (self.part.polygon.exterior, *self.part.polygon.interiors)
        corners = [shapely.get_coordinates(ring) for ring in rings]
        return np.concatenate([each[:-1] for each in corners]), np.concatenate([each[1:] for each in corners])

    def seen_from(self, point: Numbers) -> Polygon:
        """The floor in sight of a point: between two neighbouring corners a ray ends on one side all the way."""
        starts, ends = self._sides
        to_corners = starts - point
        apart = np.hypot(*to_corners.T) > SLACK
        angles = np.arctan2(to_corners[apart, 1], to_corners[apart, 0])
        angles = np.sort(np.concatenate([angles - BESIDE, angles + BESIDE, ALL_ROUND]))
        rays = np.stack([np.cos(angles), np.sin(angles)], axis=1)
        onto = self._hits(point, rays, starts, ends - starts)
        first = point + STEP * rays
        onto[~shapely.contains_xy(self.part.slack, first[:, 0], first[:, 1])] = 0.0
        return Polygon(point + onto[:, None] * rays)

    @staticmethod
    def _hits(point: Numbers, rays: Numbers, starts: Numbers, along: Numbers) -> Numbers:
        """How far each ray runs to the first side, those that the point is on left out; 0 if it meets none."""
        off = np.hypot(*along.T) * SLACK
        from_point = starts - point
        elsewhere = np.abs(_cross(from_point, along)) > off
        within = np.sum(-from_point * along, axis=1)
        elsewhere |= (within < 0) | (within > np.sum(along * along, axis=1))
        from_point, along = from_point[elsewhere], along[elsewhere]
        slant = rays[:, 0, None] * along[None, :, 1] - rays[:, 1, None] * along[None, :, 0]
        with np.errstate(divide="ignore", invalid="ignore"):
            far = _cross(from_point, along)[None, :] / slant
            share = (from_point[None, :, 0] * rays[:, 1, None] - from_point[None, :, 1] * rays[:, 0, None]) / slant
        spare = SLACK / np.hypot(*along.T)
        hit = (slant != 0) & (share >= -spare) & (share <= 1 + spare) & (far >= 0)
        found = np.where(hit, far, np.inf).min(axis=1, initial=np.inf)
        return np.asarray(np.where(np.isfinite(found), found, 0.0))


def _cross(one: Numbers, other: Numbers) -> Numbers:
    return np.asarray(one[..., 0] * other[..., 1] - one[..., 1] * other[..., 0])
