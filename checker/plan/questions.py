"""What can be asked about a plan. An answer kept from before imports no geometry.

Every question takes `kept`, where answers are kept between runs; with None they are not. Lengths in m, angles in
degrees against the clock from x, places in the plan's frame. With a `clearance`, people's middles keep that far from
walls, obstacles and corners: half a body's width, or what a code says. Walks need a plan in which nothing is unknown:
one reading, or a question for a range. UnusablePlan and NotOnFloor are raised where there is no answer.
"""

from collections.abc import Mapping, Sequence
from functools import lru_cache
from math import inf
from types import MappingProxyType
from typing import TypeVar

from checker.plan.errors import NotOnFloor, OnThinWall, UnusablePlan
from checker.plan.kept import Answers
from checker.plan.readings import longest_reading, possible_readings, shortest_reading
from checker.plan.results import (
    Between,
    EdgeDistance,
    Farthest,
    Fault,
    FreeFloor,
    Gap,
    NoAnswer,
    Reach,
    SharedStart,
    Strip,
    Suggestion,
    Walk,
    WorkingSpace,
)
from checker.plan.shapes import Door, Face, Line, Outline, Plan, Point, Sector, Shape

Answer = TypeVar("Answer")
NO_THINGS: Mapping[str, Shape] = MappingProxyType({})


@lru_cache(maxsize=64)
def faults_of(plan: Plan, kept: Answers | None = None) -> tuple[Fault, ...]:
    """Everything in a plan that cannot be so. Unknown parts are no fault. Every room on it asks, in every reading."""
    return _asked(kept, tuple, "faults_of", plan)


def walk(
    plan: Plan, start: Point, targets: Sequence[Point], clearance: float = 0.0, kept: Answers | None = None
) -> Walk:
    """The shortest walk from a place to the nearest of some targets."""
    return _asked(kept, Walk, "walk", plan, start, tuple(targets), clearance)


def walk_range(
    plan: Plan, start: Point, targets: Sequence[Point], clearance: float = 0.0, kept: Answers | None = None
) -> tuple[Walk, Walk]:
    """The walk if everything unknown is in its favour, and if everything is against it."""
    readings = shortest_reading(plan), longest_reading(plan)
    short, long_ = (walk(each, start, targets, clearance, kept) for each in readings)
    return short, long_


def walks_from_edge(
    plan: Plan, outline: Outline, targets: Sequence[Point], clearance: float = 0.0, kept: Answers | None = None
) -> tuple[Walk, Walk]:
    """The shortest and the longest walk from the edge of an area, such as a hazard, to the nearest of some targets."""
    return _asked(kept, tuple, "walks_from_edge", plan, outline, tuple(targets), clearance)


def farthest(
    plan: Plan,
    targets: Sequence[Point],
    within: Outline | None = None,
    limit: float | None = None,
    clearance: float = 0.0,
    kept: Answers | None = None,
) -> Farthest:
    """The place from which the walk to the nearest of some targets is longest, proven on both sides to 1 cm.

    Only floor within an outline counts, if one is given. With a limit, it is proven on which side of it the longest
    walk lies, and the bounds may be wide; where they stay on both sides of it, they are 1 mm apart.
    """
    return _asked(kept, Farthest, "farthest", plan, tuple(targets), within, limit, clearance)


def farthest_range(
    plan: Plan,
    targets: Sequence[Point],
    within: Outline | None = None,
    limit: float | None = None,
    clearance: float = 0.0,
    kept: Answers | None = None,
) -> tuple[Farthest, Farthest]:
    """The longest walk where what is unknown makes it shortest, and where it makes it longest."""
    found = [
        [farthest(each, targets, within, limit, clearance, kept) for each in pair] for pair in possible_readings(plan)
    ]
    return min((pair[0] for pair in found), key=_length), max((pair[1] for pair in found), key=_length)


def reach(
    plan: Plan,
    targets: Sequence[Point],
    distance: float,
    within: Outline | None = None,
    clearance: float = 0.0,
    kept: Answers | None = None,
) -> Reach:
    """The floor within a distance of the nearest of some targets, the floor beyond, and the line between to draw."""
    return _asked(kept, Reach, "reach", plan, tuple(targets), distance, within, clearance)


def suggest(
    plan: Plan,
    targets: Sequence[Point],
    limit: float,
    within: Outline | None = None,
    clearance: float = 0.0,
    kept: Answers | None = None,
) -> Suggestion:
    """Where on a wall one more target would bring all floor within a limit, and what the longest walk would be then."""
    return _asked(kept, Suggestion, "suggest", plan, tuple(targets), limit, within, clearance)


def shared_start(
    plan: Plan, start: Point, exits: Sequence[Point], clearance: float = 0.0, kept: Answers | None = None
) -> SharedStart:
    """How far one walks before the shortest ways to two exits part: at least the true common path."""
    return _asked(kept, SharedStart, "shared_start", plan, start, tuple(exits), clearance)


def longest_shared_start(
    plan: Plan, exits: Sequence[Point], within: Outline | None = None, kept: Answers | None = None
) -> SharedStart:
    """The longest such start from any place, sought at corners and on a grid; the whole way where one exit serves."""
    return _asked(kept, SharedStart, "longest_shared_start", plan, tuple(exits), within)


def gap(one: Shape, other: Shape, kept: Answers | None = None) -> Gap:
    """The free distance between two shapes, and the two points where it is; 0 where they meet."""
    return _asked(kept, Gap, "gap", one, other)


def gap_to_outline(inner: Shape, outline: Outline, kept: Answers | None = None) -> Gap:
    """The free distance from something in a room to its walls."""
    return _asked(kept, Gap, "gap_to_outline", inner, outline)


def free_gaps(
    plan: Plan, room: str, swinging: Sequence[Door], farthest: float, kept: Answers | None = None
) -> tuple[Between, ...]:
    """Every free gap in a room up to a width, between things that stand in it, its walls, and the leaves of doors."""
    return _asked(kept, tuple, "free_gaps", plan, room, tuple(swinging), farthest)


def swept_by(door: Door, plan: Plan, kept: Answers | None = None) -> tuple[Sector, ...]:
    """What the leaf of a hinged door sweeps: one shape, or as many as what is not known about it allows."""
    return _asked(kept, tuple, "swept_by", door, plan)


def working_space(
    plan: Plan,
    face: Face,
    depth: float,
    width: float,
    things: Mapping[str, Shape] = NO_THINGS,
    kept: Answers | None = None,
) -> WorkingSpace:
    """The rectangle before a face that has to be clear, where it is clearest; other things than obstacles by name."""
    return _asked(kept, WorkingSpace, "working_space", plan, face, depth, width, dict(things))


def clear_depth(plan: Plan, face: Face, width: float, farthest: float, kept: Answers | None = None) -> FreeFloor:
    """How deep the floor is clear before a face, over a width that lies before all of it, where that is deepest."""
    return _asked(kept, FreeFloor, "clear_depth", plan, face, width, farthest)


def clear_width(plan: Plan, face: Face, depth: float, widest: float, kept: Answers | None = None) -> FreeFloor:
    """How wide the floor is clear before a face to a depth; 0 if something stands before the face itself."""
    return _asked(kept, FreeFloor, "clear_width", plan, face, depth, widest)


def strips(
    plan: Plan,
    rollers: Outline,
    direction: float,
    things: Mapping[str, Shape] = NO_THINGS,
    farthest: float = 30.0,
    kept: Answers | None = None,
) -> tuple[Strip, Strip]:
    """The strips as wide as the rollers, ahead and behind, as far as the first solid wall, and what lies in them.

    Where no wall ends a strip it is followed no farther than the last distance.
    """
    return _asked(kept, tuple, "strips", plan, rollers, direction, dict(things), farthest)


def edge_distances(
    anchors: Sequence[Point], slab: Outline, joints: Sequence[Line] = (), kept: Answers | None = None
) -> tuple[EdgeDistance, ...]:
    """For each anchor, how far it is from the slab's edge, the nearest joint and the nearest other anchor."""
    return _asked(kept, tuple, "edge_distances", tuple(anchors), slab, tuple(joints))


def _refusal(held: NoAnswer) -> ValueError:
    if held.place is None:
        return UnusablePlan(held.says)
    return OnThinWall(held.place) if held.why == OnThinWall.__name__ else NotOnFloor(held.place)


def _length(found: Farthest) -> float:
    return inf if found.most is None or found.least is None else found.least


def _asked(kept: Answers | None, kind: type[Answer], name: str, *arguments: object) -> Answer:
    """The answer kept for a question, or a new one, which is kept."""
    question = [name, *arguments]
    held = None if kept is None else kept.held(question)
    if isinstance(held, NoAnswer):
        raise _refusal(held)
    if isinstance(held, kind):
        return held
    from checker.plan import answering

    try:
        answer: Answer = getattr(answering, name)(*arguments)
    except (NotOnFloor, UnusablePlan) as none:
        if kept is not None:
            kept.keep(question, NoAnswer(type(none).__name__, str(none), getattr(none, "place", None)))
        raise
    if kept is not None:
        kept.keep(question, answer)
    return answer
