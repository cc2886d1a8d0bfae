"""A frame of its own for what runs in some direction."""

from math import cos, radians, sin
from typing import TypeVar

from shapely import Polygon
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry as Geometry

from checker.plan.shapes import Outline, Point

G = TypeVar("G", bound=Geometry)


class Turn:
    """A frame with its origin at a point and its x axis in a direction, in degrees against the clock from x."""

    def __init__(self, origin: Point, degrees: float) -> None:
        """Takes both in the plan's frame."""
        along, aside = cos(radians(degrees)), sin(radians(degrees))
        x, y = origin
        self._back = [along, -aside, aside, along, x, y]
        self._into = [along, aside, -aside, along, -x * along - y * aside, x * aside - y * along]

    def into(self, geometry: G) -> G:
        """The same in this frame."""
        return affine_transform(geometry, self._into)

    def back(self, geometry: G) -> G:
        """The same in the plan's frame."""
        return affine_transform(geometry, self._back)

    def outline(self, polygon: Polygon) -> Outline:
        """A polygon's outline in the plan's frame."""
        return tuple((float(x), float(y)) for x, y in self.back(polygon).exterior.coords[:-1])
