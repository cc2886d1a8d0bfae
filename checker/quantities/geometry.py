"""Sizes of rooms."""

from collections.abc import Sequence
from itertools import pairwise
from typing import cast

from checker.quantities.missing import OutsideRange
from checker.quantities.registry import above, other_way, quantity
from checker.site.entries import Pair
from checker.site.outlines import fault_of

_GEOMETRY = "plane geometry"


@quantity(
    "room.floor_area",
    gives="area",
    inputs={"outline": "outline"},
    formula="half the sum of x × next y − next x × y over the corners of the outline",
    source=_GEOMETRY,
    status="definition",
    leaves_out="columns and walls inside the outline",
)
def outline_area(outline: Sequence[tuple[float, float]]) -> float:
    """The area inside an outline whose sides do not cross, in m2.

    Corners in m, either way round; raises OutsideRange where they enclose nothing. They are taken from the first one,
    so that a frame far away costs no digits.
    """
    if fault := fault_of(cast("tuple[Pair, ...]", outline)):
        raise OutsideRange(fault)
    x0, y0 = outline[0]
    corners = [(x - x0, y - y0) for x, y in (*outline, outline[0])]
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairwise(corners))) / 2


@other_way(
    "room.floor_area",
    inputs={"length": "length", "width": "width"},
    formula="length × width",
    source=_GEOMETRY,
    status="definition",
    leaves_out="corners that are not square, columns, alcoves",
)
def rectangle_area(length: float, width: float) -> float:
    """The area of a rectangle in m2, from its sides in m."""
    return length * width


@quantity(
    "room.volume",
    gives="volume",
    inputs={"area": "floor_area", "height": "height"},
    formula="floor area × height",
    source=_GEOMETRY,
    status="definition",
    leaves_out="sloping ceilings, beams, and what stands in the room",
    range={"height": above(0, "m")},
)
def prism_volume(area: float, height: float) -> float:
    """The volume under a level ceiling in m3, from m2 and m."""
    return area * height
