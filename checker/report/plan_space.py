"""Free paper: where a label finds room beside what is drawn already."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import pairwise
from math import ceil, cos, hypot, pi, sin

from msgspec import Struct

from checker.findings.storey import Spot
from checker.report.page import columns
from checker.report.plan_styles import SIZE, WIDE

_STEP = 3.0
"""mm. A slanting line takes up room in pieces of this length."""
_HALF = 0.4
"""mm. Half of what a line takes up to both sides."""
_TURNS = 16
_ELSEWHERE = 5.0
"""mm2. So much may be covered rather than that a box lies where it does not fit."""
_LINE, _SOLID = 0.4, 1.0
"""How much it matters to lie on a line, and on another label."""


class Box(Struct, frozen=True):
    """A rectangle on paper: its middle, width and height in mm."""

    x: float
    y: float
    width: float
    height: float

    @property
    def left(self) -> float:
        """mm."""
        return self.x - self.width / 2

    @property
    def top(self) -> float:
        """mm."""
        return self.y - self.height / 2


def text_width(text: str, size: float = SIZE) -> float:
    """About how wide a text is in mm."""
    return columns(text) * WIDE * size


def round_about(at: Spot, radii: Iterable[float]) -> Iterator[Spot]:
    """Places round a place, the near ones first."""
    for radius in radii:
        for turn in range(_TURNS):
            angle = 2 * pi * turn / _TURNS - pi / 4
            yield at[0] + radius * cos(angle), at[1] + radius * sin(angle)


def holds(corners: Sequence[Spot], spot: Spot) -> bool:
    """Whether a place on paper lies inside an outline."""
    inside = False
    for (x1, y1), (x2, y2) in zip(corners, [*corners[1:], corners[0]], strict=True):
        if (y1 > spot[1]) != (y2 > spot[1]) and spot[0] < x1 + (x2 - x1) * (spot[1] - y1) / (y2 - y1):
            inside = not inside
    return inside


class Space:
    """A sheet, and what of it is taken."""

    def __init__(self, width: float, height: float) -> None:
        self._width, self._height = width, height
        self._taken: list[tuple[float, float, float, float, float]] = []

    def within(self, spot: Spot) -> Spot:
        """The place, or the nearest on the sheet."""
        return self._within(spot[0], 0, self._width), self._within(spot[1], 0, self._height)

    def take(self, box: Box, weight: float = _SOLID) -> None:
        """Nothing else is to lie here."""
        right, bottom = box.left + box.width, box.top + box.height
        self._taken.append((box.left, box.top, right, bottom, weight))

    def take_line(self, points: Iterable[Spot]) -> None:
        """Labels lie rather beside than on this line."""
        for (x1, y1), (x2, y2) in pairwise(points):
            straight = x1 == x2 or y1 == y2
            pieces = 1 if straight else ceil(hypot(x2 - x1, y2 - y1) / _STEP)
            dx, dy = (x2 - x1) / pieces, (y2 - y1) / pieces
            for n in range(pieces):
                middle = x1 + dx * (n + 0.5), y1 + dy * (n + 0.5)
                self.take(Box(*middle, abs(dx) + 2 * _HALF, abs(dy) + 2 * _HALF), _LINE)

    def place(
        self, width: float, height: float, middles: Iterable[Spot], fits: Callable[[Spot], bool] | None = None
    ) -> Box:
        """A box at the first of some places that is free, else where it covers least; all of it on the sheet.

        A place that does not fit is taken where those that do would cover much.
        """
        best, least = None, float("inf")
        for x, y in middles:
            box = Box(self._within(x, width, self._width), self._within(y, height, self._height), width, height)
            covered = self._covered(box) + (0 if fits is None or fits((box.x, box.y)) else _ELSEWHERE)
            if covered < least:
                best, least = box, covered
            if not covered:
                break
        assert best is not None
        self.take(best)
        return best

    def _covered(self, box: Box) -> float:
        left, top = box.left, box.top
        right, bottom = left + box.width, top + box.height
        found = 0.0
        for one, two, three, four, weight in self._taken:
            if one < right and three > left and two < bottom and four > top:
                found += weight * (min(three, right) - max(one, left)) * (min(four, bottom) - max(two, top))
        return found

    @staticmethod
    def _within(middle: float, size: float, whole: float) -> float:
        return min(max(middle, size / 2 + 0.5), whole - size / 2 - 0.5)
