"""Where in a wall a door stands: the two ends of its opening."""

from collections.abc import Iterable
from itertools import pairwise

from checker.findings.storey import Corners, Spot


def opening(at: Spot, width: float | None, walls: Iterable[Corners], room: Corners | None) -> Corners:
    """The ends of a door on the nearest side of some walls, the left one first as seen from inside a room."""
    sides = [(line[n], line[n + 1]) for line in walls for n in range(len(line) - 1) if line[n] != line[n + 1]]
    if not width or not sides:
        return ()
    from checker.plan.sides import THICKEST_WALL, nearest_of, stretch

    nearest = nearest_of(at, sides)
    ends = stretch(nearest, width) if nearest.distance <= THICKEST_WALL else None
    if ends is None:
        return ()
    # Along an outline that runs against the clock the room lies on the left; who looks out has its end at the right.
    return ends if room is not None and _area(room) < 0 else ends[::-1]


def _area(ring: Corners) -> float:
    """Twice the area inside a closed line: above 0 where it runs against the clock."""
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairwise(ring))
