"""Where on a wall one more target would bring all floor within a limit: the best place, or proof that there is none.

A place on a wall is weighed against some of the floor beyond the limit, its witnesses. The best for them is tried on
all floor; what then is still too far becomes one more witness. What the witnesses rule out is ruled out.
"""

from collections.abc import Sequence
from math import ceil
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry as Geometry

from checker.plan.contours import reach
from checker.plan.edges import straight_pieces
from checker.plan.errors import NotOnFloor
from checker.plan.floor import Floor, floor_of, hanging_places
from checker.plan.results import Suggestion
from checker.plan.shapes import Plan, Point
from checker.plan.walking import Targets, farthest
from checker.plan.ways import Numbers, Part

FIRST_STEP: Final = 0.5
"""m. How long the stretches of wall are that are weighed at first."""
MOST_STRETCHES: Final = 1000
"""Where there is more wall, stretches are longer at first."""
LAST_STEP: Final = 0.02
"""m. How long those are at last that may still hold the best place."""
WORTH: Final = 0.25
"""m. Once a place is good enough, one that gains less than this on it is not looked for."""
MOST_WORK: Final = 100_000_000
"""Lines of sight that are looked at, times corners of the floor; then what was found so far has to do."""
WITNESSES: Final = 24
ROUNDS: Final = 12


def suggest(
    plan: Plan, places: Sequence[Point], limit: float, within: Geometry | None = None, clearance: float = 0.0
) -> Suggestion:
    """Where on a wall one more target brings all floor within a limit in m. Raises UnusablePlan, NotOnFloor."""
    floor = floor_of(plan, clearance)
    now = farthest(floor, places, within, limit)
    if now.settles(limit) is not False:
        return Suggestion(False, None, now, now.least)
    far = _far_floor(floor, places, limit, within)
    if len({part for part, _ in far}) != 1:
        return Suggestion(True, None, None, None)
    number = far[0][0]
    witnesses = _spread_out(np.array([at for _, at in far]))
    walls = _stretches(plan, floor.parts[number], clearance)
    before, at_least, left = Targets(floor, places).field(number), 0.0, MOST_WORK
    for _ in range(ROUNDS if len(walls) else 0):
        known = np.full(len(witnesses), np.inf) if before is None else before.at(witnesses)[0]
        score, place, bound, left = _best(floor.parts[number], walls, witnesses, known, limit, clearance > 0, left)
        at_least = max(at_least, bound)
        if score > limit:
            break
        then = farthest(floor, [*places, place], within, limit)
        if then.settles(limit):
            return Suggestion(True, place, farthest(floor, [*places, place], within), at_least)
        if then.place is None:
            break
        witnesses = np.concatenate([witnesses, [then.place]])
    return Suggestion(True, None, None, at_least)


def _far_floor(floor: Floor, places: Sequence[Point], limit: float, within: Geometry | None) -> list[tuple[int, Point]]:
    """Corners of the floor beyond the limit, each with the part of the floor that it is in; the farthest first."""
    found: list[tuple[int, Point]] = []
    worst = farthest(floor, places, within)
    corners = [worst.place] if worst.place is not None and worst.least is not None and worst.least > limit else []
    for patch in reach(floor, places, limit, within).beyond:
        corners.extend(patch.outline)
    for corner in corners:
        try:
            spot = floor.spot(corner)
        except NotOnFloor:
            continue
        found.append((spot.part, spot.at))
    return found


def _spread_out(points: Numbers) -> Numbers:
    """Some of the points, each as far from those before it as can be."""
    chosen, apart = [0], np.hypot(*(points - points[0]).T)
    while len(chosen) < min(WITNESSES, len(points)):
        chosen.append(int(apart.argmax()))
        apart = np.minimum(apart, np.hypot(*(points - points[chosen[-1]]).T))
    return points[chosen]


def _stretches(plan: Plan, part: Part, clearance: float) -> Numbers:
    """Stretches of wall beside a part of the floor, cut short."""
    beside = hanging_places(plan).intersection(part.polygon.buffer(1e-5 + 1.5 * clearance))
    found = [np.zeros((0, 2, 2))]
    step = max(FIRST_STEP, beside.length / MOST_STRETCHES)
    for start, end in straight_pieces(beside):
        count = ceil(float(np.hypot(*(end - start))) / step)
        cuts = start + np.linspace(0, 1, count + 1)[:, None] * (end - start)
        found.append(np.stack([cuts[:-1], cuts[1:]], axis=1))
    return np.concatenate(found)


def _best(
    part: Part, walls: Numbers, witnesses: Numbers, known: Numbers, limit: float, kept_clear: bool, left: int
) -> tuple[float, Point, float, int]:
    """The longest walk from a witness for a good place on walls, the place, and what no place does better than.

    Along a wall the walk changes no faster than one goes; a walk that keeps clear of walls, at most twice as fast. It
    is gone on while there is work left, and what then is left of that is the last of the four.
    """
    onward = _onward(part, witnesses)
    best, at, at_least, corners = np.inf, walls[0, 0], np.inf, len(part.corners)
    bounds = np.zeros(len(walls))
    while len(walls):
        left -= len(walls) * (corners + len(witnesses)) * corners
        if left < 0:
            at_least = min(at_least, float(bounds.min()))
            break
        middles = walls.mean(axis=1)
        halves = np.hypot(*(walls[:, 1] - walls[:, 0]).T) / 2
        scores = np.minimum(known, _distances(part, middles, witnesses, onward)).max(axis=1)
        if scores.min() < best:
            best, at = float(scores.min()), middles[scores.argmin()]
        bounds = scores - halves * (2 if kept_clear else 1)
        wanted = min(limit, best - WORTH) if best <= limit else limit
        open_ = (bounds <= wanted) & (halves * 2 > LAST_STEP)
        at_least = min(at_least, float(bounds[~open_].min(initial=np.inf)))
        walls, middles, bounds = walls[open_], middles[open_], bounds[open_]
        walls = np.concatenate([np.stack([walls[:, 0], middles], 1), np.stack([middles, walls[:, 1]], 1)])
    return best, (float(at[0]), float(at[1])), min(best, at_least), left


def _onward(part: Part, witnesses: Numbers) -> Numbers:
    """Walking distances from each corner to each witness."""
    lines = part.lines_to_corners(witnesses).T
    onward = np.full_like(lines, np.inf)
    for corner, line in enumerate(lines):
        np.minimum(onward, part.between[:, corner, None] + line, out=onward)
    return onward


def _distances(part: Part, walls: Numbers, witnesses: Numbers, onward: Numbers) -> Numbers:
    """Walking distances from places on walls to witnesses."""
    steps = shapely.get_coordinates(shapely.shortest_line(shapely.points(walls), part.polygon)).reshape(-1, 2, 2)
    on = steps[:, 1]
    found = part.lines_between(on, witnesses)
    for corner, lines in enumerate(part.lines_to_corners(on).T):
        np.minimum(found, lines[:, None] + onward[corner], out=found)
    return np.asarray(found + np.hypot(*(on - walls).T)[:, None])
