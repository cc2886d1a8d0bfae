"""Where in a wall a door stands: the two ends of its opening."""

from collections.abc import Iterable
from itertools import pairwise
from math import hypot

from checker.findings.storey import Corners, Spot

_REACH = 1.0
"""m. A door's place lies no farther than this from the wall it is in; rooms farther apart share no wall."""


def opening(at: Spot, width: float | None, walls: Iterable[Corners], room: Corners | None) -> Corners:
    """The ends of a door on the nearest side of some walls, the left one first as seen from inside a room."""
    sides = [(line[n], line[n + 1]) for line in walls for n in range(len(line) - 1) if line[n] != line[n + 1]]
    if not width or not sides:
        return ()
    apart, start, end = min((_apart(at, side), *side) for side in sides)
    if apart > _REACH:
        return ()
    length = hypot(end[0] - start[0], end[1] - start[1])
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    middle = (at[0] - start[0]) * ux + (at[1] - start[1]) * uy
    first, last = max(0.0, middle - width / 2), min(length, middle + width / 2)
    if first >= last:
        return ()
    ends = tuple((start[0] + each * ux, start[1] + each * uy) for each in (first, last))
    # Along an outline that runs against the clock the room lies on the left; who looks out has its end at the right.
    return ends if room is not None and _area(room) < 0 else ends[::-1]


def _apart(at: Spot, side: tuple[Spot, Spot]) -> float:
    (x1, y1), (x2, y2) = side
    dx, dy = x2 - x1, y2 - y1
    share = ((at[0] - x1) * dx + (at[1] - y1) * dy) / (dx * dx + dy * dy)
    share = min(1.0, max(0.0, share))
    return hypot(at[0] - x1 - share * dx, at[1] - y1 - share * dy)


def _area(ring: Corners) -> float:
    """Twice the area inside a closed line: above 0 where it runs against the clock."""
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairwise(ring))
