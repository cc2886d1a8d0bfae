"""Free gaps on a floor, between each two things that stand next to each other, walls and leaves of doors among them.

A gap is the shortest straight line between two things that crosses nothing else. Where two things face each other along
a length it is looked for from every corner, so that something that stands in one part of a gap hides no other part.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

import numpy as np
import shapely
from msgspec import Struct
from numpy.typing import NDArray
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry as Geometry

from checker.plan.clearances import geometry_of, swept_by
from checker.plan.errors import UnusablePlan
from checker.plan.floor import NARROWEST, Shell
from checker.plan.results import Between, Gap
from checker.plan.shapes import Door, Plan

DIGITS: Final = 5
"""Of a metre."""
TRIMMED: Final = 1e-5
"""m. So much of a line is left out at both ends when it is asked what it crosses: more than obstacles are grown by."""
INSIDE: Final = 1e-4
"""m. What reaches no farther into a room than this stands outside and touches it."""
MOST_LINES: Final = 2_000_000
"""Corners times sides that are looked at; what is drawn finer than that is not measured."""
ALIKE: Final = 1e-9
"""m. Lines that differ by less are as long as each other."""
Numbers = NDArray[np.float64]
Whose = NDArray[np.intp]


class _Standing(Struct, frozen=True):
    """Something that a gap ends at."""

    kind: str
    id: str
    lines: Geometry
    """Its sides."""
    inside: bool
    """Whether it stands in the room, at least in part."""

    @property
    def is_side(self) -> bool:
        """Whether it is a side of the room."""
        return self.kind == "side"


def free_gaps(plan: Plan, room: str, swinging: Sequence[Door], farthest: float) -> tuple[Between, ...]:
    """Every free gap in a room that is wider than a slip of the drawing and no wider than `farthest`, narrowest first.

    Between obstacles, partitions and sides of the room, and from the leaves of the doors given to obstacles and
    partitions. Two sides of the room, or two parts of one thing, have none. Lengths in m. Raises UnusablePlan.
    """
    shell = Shell(plan)
    outline = next(Polygon(each.outline) for each in plan.rooms if each.id == room)
    near = outline.buffer(farthest)
    standing = [each for each in _standing(plan, shell, outline) if near.intersects(each.lines)]
    free = shell.open.difference(shell.blocked)
    shapely.prepare(free)
    found = [*_between(standing, free, farthest), *_at_doors(plan, standing, swinging, free, farthest)]
    return tuple(sorted(found, key=lambda each: (each.gap.distance, each.kinds, each.ids, each.gap.here)))


def _standing(plan: Plan, shell: Shell, outline: Polygon) -> Iterator[_Standing]:
    inner = outline.buffer(-INSIDE, join_style="mitre")
    for each in plan.obstacles:
        if each.stands:
            body = Polygon(each.outline)
            yield _Standing("obstacle", each.id, body.exterior, inner.intersects(body))
    for wall in plan.walls:
        line = LineString(wall.line)
        sides = line.buffer(wall.thickness / 2, cap_style="flat", join_style="mitre").boundary
        lines = sides if wall.thickness else line
        yield _Standing("partition", wall.id, lines, inner.intersects(lines))
    for number, side in enumerate(pairwise(outline.exterior.coords)):
        rest = LineString(side).difference(shell.passages)
        if rest.length > NARROWEST:
            yield _Standing("side", str(number), rest, True)


def _between(standing: Sequence[_Standing], free: Geometry, farthest: float) -> Iterator[Between]:
    """Between things that stand, from every corner of one to every side of the other."""
    sides, owners = _sides([each.lines for each in standing])
    ends = np.unique(np.column_stack([sides.reshape(-1, 2), np.repeat(owners, 2)]), axis=0)
    corners, whose = ends[:, :2].astype(np.float64), ends[:, 2].astype(int)
    if len(corners) * len(sides) > MOST_LINES:
        raise UnusablePlan(f"{len(corners)} corners stand on the floor, too many to look at every gap between them")
    feet = _feet(corners, sides)
    lengths = np.hypot(*np.moveaxis(feet - corners[:, None, :], 2, 0))
    walls, inside = (np.array([getattr(each, name) for each in standing]) for name in ("is_side", "inside"))
    one, other = whose[:, None], owners[None, :]
    in_here = np.where(walls[one] | walls[other], inside[one] & inside[other], inside[one] | inside[other])
    wanted = (one != other) & in_here & ~(walls[one] & walls[other])
    corner, side = np.nonzero((lengths > NARROWEST) & (lengths <= farthest) & wanted)
    pairs = np.sort(np.column_stack([whose[corner], owners[side]]), axis=1)
    lines = np.stack([corners[corner], feet[corner, side]], axis=1)
    turned = whose[corner] != pairs[:, 0]
    lines[turned] = lines[turned][:, ::-1]
    for (one_, other_), line in _shortest_seen(pairs, lines, free):
        first, second = standing[one_], standing[other_]
        if not _runs_along_a_wall(line, (first, second)):
            yield _made(first, second, line)


def _at_doors(
    plan: Plan, standing: Sequence[_Standing], swinging: Sequence[Door], free: Geometry, farthest: float
) -> Iterator[Between]:
    """From what the leaves of doors sweep to obstacles and partitions."""
    bodies = {each.id: Polygon(each.outline) for each in plan.obstacles}
    for door in swinging:
        sweeps = [geometry_of(each) for each in swept_by(door, plan)]
        for thing in standing:
            if thing.kind == "side" or not thing.inside:
                continue
            body = bodies[thing.id] if thing.kind == "obstacle" else thing.lines
            lines = np.array([shapely.get_coordinates(shapely.shortest_line(each, body)) for each in sweeps])
            lines = lines[[NARROWEST < _length(line) <= farthest for line in lines]]
            for _, line in _shortest_seen(np.zeros((len(lines), 2), int), lines, free):
                yield _made(_Standing("door", door.id, sweeps[0], True), thing, line)


def _shortest_seen(pairs: Whose, lines: Numbers, free: Geometry) -> Iterator[tuple[tuple[int, int], Numbers]]:
    """Each pair with its shortest line that crosses nothing, if it has one: between parallel sides the middle one."""
    if not len(lines):
        return
    lengths = np.hypot(*(lines[:, 1] - lines[:, 0]).T)
    numbers = np.flatnonzero(_seen(lines, free))
    first_x, first_y = lines[numbers, 0].T
    keys = (first_y, first_x, lengths[numbers].round(9), *pairs[numbers].T)
    order = numbers[np.lexsort(keys)]
    _, first, count = np.unique(pairs[order], axis=0, return_index=True, return_counts=True)
    for start, end in zip(first.tolist(), (first + count).tolist(), strict=True):
        alike = order[start:end]
        alike = alike[lengths[alike].round(9) == lengths[alike[0]].round(9)]
        middle = (lines[alike[:1]] + lines[alike[-1:]]) / 2
        level = abs(_length(middle[0]) - lengths[alike[0]]) < ALIKE and _seen(middle, free)[0]
        one, other = pairs[alike[0]].tolist()
        yield (one, other), middle[0] if level else lines[alike[0]]


def _seen(lines: Numbers, free: Geometry) -> NDArray[np.bool_]:
    """Whether each line crosses nothing but what stands at its ends."""
    along = lines[:, 1] - lines[:, 0]
    steps = along / np.hypot(*along.T)[:, None] * TRIMMED
    return np.asarray(
        shapely.covers(free, shapely.linestrings(np.stack([lines[:, 0] + steps, lines[:, 1] - steps], 1)))
    )


def _runs_along_a_wall(line: Numbers, ends: Sequence[_Standing]) -> bool:
    """Whether a gap lies wholly on the side that it would end at: the side that meets it there has the same gap."""
    points = shapely.points(line)
    return any(each.is_side and bool((shapely.distance(each.lines, points) < TRIMMED).all()) for each in ends)


def _sides(shapes: Sequence[Geometry]) -> tuple[Numbers, Whose]:
    """All straight sides, n × 2 ends × 2, and whose they are."""
    parts, owners = shapely.get_parts(np.array(shapes, dtype=object), return_index=True)
    found = [shapely.get_coordinates(each) for each in parts]
    sides = [np.stack([each[:-1], each[1:]], axis=1) for each in found]
    whose = [np.full(len(each), owner) for each, owner in zip(sides, owners, strict=True)]
    return (np.concatenate(sides), np.concatenate(whose)) if sides else (np.zeros((0, 2, 2)), np.zeros(0, int))


def _feet(points: Numbers, sides: Numbers) -> Numbers:
    """For each point and side the nearest point of the side."""
    start, along = sides[:, 0], sides[:, 1] - sides[:, 0]
    squared = np.maximum((along**2).sum(axis=1), 1e-300)
    share = np.clip(((points[:, None, :] - start) * along).sum(axis=2) / squared, 0.0, 1.0)
    return np.asarray(start + share[..., None] * along)


def _made(one: _Standing, other: _Standing, line: Numbers) -> Between:
    (x1, y1), (x2, y2) = line.tolist()
    gap = Gap(round(_length(line), DIGITS), (x1, y1), (x2, y2))
    return Between((one.kind, other.kind), (one.id, other.id), gap)


def _length(line: Numbers) -> float:
    return float(np.hypot(*(line[1] - line[0])))
