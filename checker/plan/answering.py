"""The questions of `questions`, worked out. Heavy libraries come with this module."""

from shapely import Polygon

from checker.plan import before_faces, clearances, contours, edges, exits, placing, roller_strips, walking
from checker.plan.between import free_gaps
from checker.plan.faults import faults_of
from checker.plan.floor import floor_of
from checker.plan.results import Farthest, Reach, SharedStart, Suggestion, Walk
from checker.plan.shapes import Outline, Plan, Point

__all__ = [
    "clear_depth",
    "clear_width",
    "edge_distances",
    "farthest",
    "faults_of",
    "free_gaps",
    "gap",
    "gap_to_outline",
    "longest_shared_start",
    "reach",
    "shared_start",
    "strips",
    "suggest",
    "swept_by",
    "walk",
    "walks_from_edge",
    "working_space",
]

clear_depth, clear_width = before_faces.clear_depth, before_faces.clear_width
gap, gap_to_outline = clearances.gap, clearances.gap_to_outline
swept_by, edge_distances = clearances.swept_by, clearances.edge_distances
working_space, strips = clearances.working_space, roller_strips.strips


def walk(plan: Plan, start: Point, targets: tuple[Point, ...], clearance: float) -> Walk:
    """The shortest walk from a place to the nearest target."""
    return walking.walk(floor_of(plan, clearance), start, targets)


def walks_from_edge(plan: Plan, outline: Outline, targets: tuple[Point, ...], clearance: float) -> tuple[Walk, Walk]:
    """The shortest and the longest walk from the edge of an area."""
    return edges.walks_from_edge(floor_of(plan, clearance), outline, targets)


def farthest(
    plan: Plan, targets: tuple[Point, ...], within: Outline | None, limit: float | None, clearance: float
) -> Farthest:
    """The place from which the walk to the nearest target is longest."""
    return walking.farthest(floor_of(plan, clearance), targets, _area(within), limit)


def reach(plan: Plan, targets: tuple[Point, ...], distance: float, within: Outline | None, clearance: float) -> Reach:
    """The floor within a distance of the nearest target, and beyond."""
    return contours.reach(floor_of(plan, clearance), targets, distance, _area(within))


def suggest(
    plan: Plan, targets: tuple[Point, ...], limit: float, within: Outline | None, clearance: float
) -> Suggestion:
    """Where on a wall one more target brings all floor within a limit."""
    return placing.suggest(plan, targets, limit, _area(within), clearance)


def shared_start(plan: Plan, start: Point, ways_out: tuple[Point, ...], clearance: float) -> SharedStart:
    """How far the shortest ways to two exits run together."""
    return exits.shared_start(floor_of(plan, clearance), start, ways_out)


def longest_shared_start(plan: Plan, ways_out: tuple[Point, ...], within: Outline | None) -> SharedStart:
    """The longest start that ways to two exits share, from any place of an area."""
    return exits.longest_shared_start(floor_of(plan), ways_out, _area(within))


def _area(within: Outline | None) -> Polygon | None:
    return None if within is None else Polygon(within)
