"""Walks on floors drawn at random, against two programs that know nothing of ours.

extremitypathfinder 2.7.2 works exactly, on one outline with holes that touch nothing; its answers stand in
walks/walks.jsonl, made by walks/record.py. scikit-fmm marches a front over a grid; it is asked here.

Where answers differ:

- extremitypathfinder gives another length, or none, for the way back: 44 of 1,920 pairs, all of which end at a corner
  of the room or of an obstacle. Its own slip: a hair beside that corner both of its answers agree. Ours is the shorter.
- Up to 0.45 mm where walls are drawn as lines: it was given walls 1 mm thick, ours are 0.002 mm. Asked: 1 mm.
- scikit-fmm is up to 1.5 cells and 1 % longer and up to half a cell shorter: what stands there is cut to whole cells,
  and a front bends late round a corner. Asked: no more than that.
- scikit-fmm is much longer, or finds no way, at gaps of 60 to 300 mm: the grid closes gaps of a few cells. Asked: ours
  is no longer.
"""

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely
import skfmm

from checker.plan import Obstacle, Plan, Point, Room, Wall, farthest, walk

RECORDED = Path(__file__).with_name("walks") / "walks.jsonl"
MILLIMETRE = 0.001
CELL = 0.05
TWO_LENGTHS = 44
Pair = tuple[Point, Point, float, float]


@cache
def floors() -> tuple[dict[str, Any], ...]:
    return tuple(json.loads(line) for line in RECORDED.read_text(encoding="utf-8").splitlines())


def metres(points: list[list[int]]) -> tuple[Point, ...]:
    return tuple((x / 1000, y / 1000) for x, y in points)


def plan_of(floor: dict[str, Any]) -> Plan:
    return Plan(
        (Room("room", metres(floor["room"])),),
        tuple(Obstacle(f"o{i}", metres(each)) for i, each in enumerate(floor["pieces"])),
        tuple(Wall(f"w{i}", metres(each)) for i, each in enumerate(floor["lines"])),
    )


def pairs_of(floor: dict[str, Any]) -> Iterator[Pair]:
    for start, end, there, back in floor["walks"]:
        (a, b), lengths = metres([start, end]), [np.inf if each is None else each / 1000 for each in (there, back)]
        yield a, b, lengths[0], lengths[1]


def sticks_in(floor: dict[str, Any], place: Point) -> bool:
    corners = [corner for outline in (floor["room"], *floor["pieces"]) for corner in metres(outline)]
    return place in corners


def test_enough_floors_of_every_kind_were_recorded() -> None:
    kinds = [kind for floor in floors() for kind in set(floor["kinds"])]
    assert len(floors()) >= 200
    for kind in ("turned", "touching", "crossing", "slit", "narrow gap", "line", "drum", "partition"):
        assert kinds.count(kind) >= 60
    assert len({json.dumps(floor["room"]) for floor in floors()}) == 5


@pytest.mark.parametrize("tenth", range(10))
def test_a_walk_is_as_long_as_another_exact_program_says(tenth: int) -> None:
    for floor in floors()[tenth::10]:
        plan = plan_of(floor)
        for start, end, there, back in pairs_of(floor):
            expected = min(there, back)
            assert walk(plan, start, [end]).distance == pytest.approx(expected, abs=MILLIMETRE), (floor["seed"], end)
            assert walk(plan, end, [start]).distance == pytest.approx(expected, abs=MILLIMETRE), (floor["seed"], end)


def test_where_the_other_program_gives_two_lengths_the_way_ends_at_a_corner() -> None:
    odd = [
        (floor, end)
        for floor in floors()
        for _, end, there, back in pairs_of(floor)
        if not abs(there - back) <= MILLIMETRE
    ]
    assert len(odd) == TWO_LENGTHS
    assert all(sticks_in(floor, end) for floor, end in odd)


class Grid:
    """A floor cut into cells; those whose middle is no floor, or that a thin wall runs through, are closed."""

    def __init__(self, floor: dict[str, Any]) -> None:
        outline = shapely.Polygon(metres(floor["room"]))
        x1, y1, x2, y2 = outline.bounds
        self.x, self.y = np.arange(x1 + CELL / 2, x2, CELL), np.arange(y1 + CELL / 2, y2, CELL)
        xs, ys = np.meshgrid(self.x, self.y)
        standing = shapely.union_all([shapely.Polygon(metres(each)) for each in floor["pieces"]])
        thin = shapely.union_all([shapely.LineString(metres(each)) for each in floor["lines"]]).buffer(0.71 * CELL)
        self.closed = ~shapely.contains_xy(outline, xs, ys)
        self.closed |= shapely.contains_xy(standing, xs, ys) | shapely.contains_xy(thin, xs, ys)
        self.middles = np.stack([xs, ys], axis=-1)

    def distances(self, place: Point) -> np.ndarray:
        """From the cells' middles to a place; masked where a cell is closed or no way leads there."""
        apart = np.hypot(self.middles[..., 0] - place[0], self.middles[..., 1] - place[1])
        start = np.ma.MaskedArray(apart - 2 * CELL, self.closed)
        return np.ma.filled(skfmm.distance(start, dx=CELL, order=2) + 2 * CELL, np.nan)

    def at(self, distances: np.ndarray, place: Point) -> float:
        """The distance in the nearest open cell, and on to the place."""
        apart = np.hypot(self.middles[..., 0] - place[0], self.middles[..., 1] - place[1])
        apart[np.isnan(distances)] = np.inf
        nearest = np.unravel_index(apart.argmin(), apart.shape)
        return float(distances[nearest] + apart[nearest])


def too_long(length: float) -> float:
    """How much longer a marched walk may be than the walk."""
    return 1.5 * CELL + 0.01 * length


@pytest.mark.parametrize("tenth", range(10))
def test_walks_are_about_as_long_as_a_marching_front_says(tenth: int) -> None:
    for floor in floors()[tenth::10]:
        plan, grid = plan_of(floor), Grid(floor)
        start, end, _, _ = next(pairs_of(floor))
        distances = grid.distances(start)
        marched, ours = grid.at(distances, end), walk(plan, start, [end]).distance
        assert ours is not None
        assert ours <= marched + CELL / 2, floor["seed"]
        if "narrow gap" not in floor["kinds"]:
            assert marched <= ours + too_long(ours), floor["seed"]
        longest, marched_longest = farthest(plan, [start]), float(np.nanmax(distances))
        assert longest.least is not None
        assert longest.most is not None
        assert longest.least <= marched_longest + 1.5 * CELL, floor["seed"]
        if "narrow gap" not in floor["kinds"]:
            assert marched_longest <= longest.most + too_long(longest.most), floor["seed"]
