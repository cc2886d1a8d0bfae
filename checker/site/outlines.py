"""Whether an outline closes an area, and whether a point lies in it. Lengths in metres, exact."""

from decimal import Decimal
from itertools import pairwise

from checker.site.entries import Pair

Edge = tuple[Pair, Pair]


def fault_of(corners: tuple[Pair, ...]) -> str | None:
    """What keeps the corners from being the outline of an area; None if they are one."""
    if corners[0] == corners[-1]:
        return "The last corner repeats the first"
    if len(set(corners)) < len(corners):
        return "The outline touches the same corner twice"
    if not any(_turn(corners[0], corners[1], corner) for corner in corners):
        return "The outline has no area"
    if _crosses_itself(corners):
        return "The outline crosses itself"
    return None


def contains(corners: tuple[Pair, ...], point: Pair) -> bool:
    """Whether the point lies in the outline or on it."""
    y = point[1]
    inside = False
    for start, end in _edges(corners):
        if _on_edge((start, end), point):
            return True
        y1, y2 = start[1], end[1]
        if (y1 > y) != (y2 > y) and (_turn(start, end, point) > 0) == (y2 > y1):
            inside = not inside
    return inside


def _edges(corners: tuple[Pair, ...]) -> list[Edge]:
    return list(pairwise((*corners, corners[0])))


def _crosses_itself(corners: tuple[Pair, ...]) -> bool:
    edges = _edges(corners)
    for place, one in enumerate(edges):
        if _folds_back(one, edges[(place + 1) % len(edges)]):
            return True
        last = len(edges) - 1 if place == 0 else len(edges)
        if any(_meet(one, other) for other in edges[place + 2 : last]):
            return True
    return False


def _folds_back(one: Edge, following: Edge) -> bool:
    return _on_edge(one, following[1]) or _on_edge(following, one[0])


def _meet(one: Edge, other: Edge) -> bool:
    (a, b), (c, d) = one, other
    if _apart(one, other, 0) or _apart(one, other, 1):
        return False
    if _turn(a, b, c) * _turn(a, b, d) < 0 and _turn(c, d, a) * _turn(c, d, b) < 0:
        return True
    return _on_edge(one, c) or _on_edge(one, d) or _on_edge(other, a) or _on_edge(other, b)


def _apart(one: Edge, other: Edge, axis: int) -> bool:
    (a, b), (c, d) = one, other
    return max(a[axis], b[axis]) < min(c[axis], d[axis]) or max(c[axis], d[axis]) < min(a[axis], b[axis])


def _turn(a: Pair, b: Pair, c: Pair) -> Decimal:
    """Above 0 where c lies to the left of the way from a to b, below 0 to the right, 0 on the line."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _on_edge(edge: Edge, point: Pair) -> bool:
    (x1, y1), (x2, y2) = edge
    within = min(x1, x2) <= point[0] <= max(x1, x2) and min(y1, y2) <= point[1] <= max(y1, y2)
    return within and _turn(edge[0], edge[1], point) == 0
