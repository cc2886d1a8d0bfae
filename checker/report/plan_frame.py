"""From metres on a storey to millimetres on paper, and the scale that lets a plan fit."""

from collections.abc import Iterable, Iterator
from itertools import count

from msgspec import Struct

from checker.findings.storey import Spot

PAPER_WIDTH = 170.0
"""mm. Fits A4 and Letter between the margins of a report."""
MARGIN = 11.0
"""mm round the plan, for what is told beside it."""
_LOW, _HIGH = 118.0, 165.0
"""mm. The most a plan is high: one that lies, one that stands."""
_LEAST = 1.0
"""m. A plan is at least as long and wide."""
_ROUND = (1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 7.5)


class Frame(Struct, frozen=True):
    """Where a plan lies on paper."""

    scale: float
    """1 on paper is as many in the storey."""
    left: float
    """m at the left edge of the plan, and so on."""
    top: float
    x: float
    """mm at the left edge of the plan, and so on."""
    y: float
    height: float
    """mm, of the plan and the margins above and below."""

    def at(self, spot: Spot) -> Spot:
        """The place on paper; y runs down."""
        return self.x + (spot[0] - self.left) * self.per_metre, self.y + (self.top - spot[1]) * self.per_metre

    def all(self, spots: Iterable[Spot]) -> list[Spot]:
        """Places on paper."""
        return [self.at(each) for each in spots]

    @property
    def per_metre(self) -> float:
        """Millimetres on paper to a metre."""
        return 1000 / self.scale


def frame_of(spots: Iterable[Spot]) -> Frame:
    """The frame in which all places fit, at a round scale."""
    xs, ys = zip(*spots, strict=True)
    left, right, low, top = min(xs), max(xs), min(ys), max(ys)
    length, width = max(right - left, _LEAST), max(top - low, _LEAST)
    most = _HIGH if width > length else _LOW
    across = PAPER_WIDTH - 2 * MARGIN
    needed = 1000 * max(length / across, width / most)
    scale = next(each for each in _scales() if each >= needed)
    wide = 1000 * (right - left) / scale
    return Frame(scale, left, top, (PAPER_WIDTH - wide) / 2, MARGIN, 1000 * (top - low) / scale + 2 * MARGIN)


def _scales() -> Iterator[float]:
    return (step * float(10**power) for power in count(1) for step in _ROUND)
