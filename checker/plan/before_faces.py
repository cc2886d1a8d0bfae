"""How deep and how wide the floor before a face is clear."""

from typing import Final

import shapely
from shapely import Polygon

from checker.plan.clearances import TOUCH, standing
from checker.plan.floor import polygons
from checker.plan.results import FreeFloor
from checker.plan.shapes import Face, Plan
from checker.plan.turned import Turn

DIGITS: Final = 5
"""Of a metre: hairs on walls and turned frames leave less than a hundredth of a millimetre."""


def clear_depth(plan: Plan, face: Face, width: float, farthest: float) -> FreeFloor:
    """How deep the floor is clear before a face, over a width in m that lies before all of it, where that is deepest.

    Followed as far as `farthest`. Beside things with slanting sides it may be a little deeper. Raises UnusablePlan.
    """
    width = max(width, face.width)
    turn, spare = Turn(face.middle, face.towards), width - face.width
    blocking = _blocking(plan, turn, shapely.box(TOUCH, -face.width / 2 - spare, farthest, face.width / 2 + spare))
    first, last = face.width / 2 - width, -face.width / 2
    edges = [y for each in blocking for _, y in each.exterior.coords]
    starts = {first, last, -width / 2, *(min(max(each, first), last) for y in edges for each in (y, y - width))}
    deepest = max(starts, key=lambda start: (_depth(blocking, start, width, farthest), -abs(start + width / 2)))
    depth = _depth(blocking, deepest, width, farthest)
    return FreeFloor(round(depth, DIGITS), turn.outline(shapely.box(0.0, deepest, depth or TOUCH, deepest + width)))


def clear_width(plan: Plan, face: Face, depth: float, widest: float) -> FreeFloor:
    """How wide the floor is clear before a face to a depth in m, as far as `widest` to each side; 0 if something stands
    before the face itself. Raises UnusablePlan.
    """
    turn, half = Turn(face.middle, face.towards), face.width / 2
    blocking = _blocking(plan, turn, shapely.box(TOUCH, -widest, depth - 2 * TOUCH, widest))
    low, high = -widest, widest
    for each in blocking:
        _, bottom, _, top = each.bounds
        if top <= -half + TOUCH:
            low = max(low, top)
        elif bottom >= half - TOUCH:
            high = min(high, bottom)
        else:
            return FreeFloor(0.0, turn.outline(each))
    return FreeFloor(round(high - low, DIGITS), turn.outline(shapely.box(0.0, low, depth, high)))


def _blocking(plan: Plan, turn: Turn, box: Polygon) -> list[Polygon]:
    """What stands in a rectangle, in a frame turned to it; what only touches it is left out."""
    found = [part for _, each in standing(plan) for part in polygons(turn.into(each).intersection(box))]
    return [one for one in found if min(one.bounds[2] - one.bounds[0], one.bounds[3] - one.bounds[1]) > TOUCH]


def _depth(blocking: list[Polygon], start: float, width: float, farthest: float) -> float:
    strip = shapely.box(0.0, start + TOUCH, farthest, start + width - TOUCH)
    return min((part.bounds[0] for each in blocking for part in polygons(each.intersection(strip))), default=farthest)
