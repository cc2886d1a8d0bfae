"""How wide the narrowest aisle of a room is, and how far gaps close, measured between things on the floor plan.

Which gaps are ways only a person can say. One that nobody spoke of is doubtful: it counts where it is so wide that it
changes nothing, and leaves the width unknown where it is narrower than every gap that is known to be a way.
"""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from checker.quantities.missing import Missing, OutsideRange
from checker.quantities.registry import quantity
from checker.quantities.walks import asked
from checker.quantities.working import Drawn

if TYPE_CHECKING:
    from checker.plan import Between, Shape
    from checker.quantities.storeys import StoreyPlan

Place = tuple[float, float]
Said = Sequence["str | Missing"]
FARTHEST: Final = 3.0
"""m. Gaps wider than this are open floor. Our own choice."""
NO_BODY: Final = 0.18
"""m. Through a gap up to this nobody gets with the whole body: ISO 13857:2019, 4.3 (secondary)."""
CLOSED: Final = "cannot get in"
WALL: Final = "wall"
ON_WALL: Final = 0.05
"""m. A point given for a wall lies at most this much farther from it than from the nearest. Our own choice."""
MOST_NAMED: Final = 3
_BETWEEN: Final = {
    "one": "floor_gaps[*].one?",
    "other": "floor_gaps[*].other?",
    "wall_at": "floor_gaps[*].wall_at?",
    "people": "floor_gaps[*].people?",
}


@quantity(
    "room.aisle_width",
    gives="length",
    inputs={"plan": "plan", **_BETWEEN},
    formula=(
        "least free distance between two things on the floor where people pass or work, walls and the leaves of doors "
        "among them, looked for up to 3 m; gaps up to 180 mm are no aisle"
    ),
    source="plane geometry; ISO 13857:2019, 4.3: no body passes 180 mm (secondary)",
    status="secondary",
    leaves_out=(
        "what is not on the plan; gaps inside one thing, between two walls, and a second one between the same two "
        "things; a door that strikes something"
    ),
)
def aisle_width(
    plan: "StoreyPlan", one: Said, other: Said, wall_at: Sequence[Place | Missing], people: Said
) -> Drawn | float:
    """The narrowest gap in m between things on the floor of a room in which people pass or work."""
    records = list(_records(one, other, wall_at, people))
    ways: list[Between] = []
    doubtful: list[tuple[Between, Missing | None]] = []
    for each in _gaps(plan):
        told, leaf = _said(each, records, plan), _leaf(each, plan)
        if told == CLOSED:
            continue
        if each.gap.distance <= NO_BODY:
            if told:
                raise OutsideRange(f"people are said to go where no body gets through: {_words(each, plan)}")
        elif told and leaf is None:
            ways.append(each)
        else:
            doubtful.append((each, leaf))
    widest = min((each.gap.distance for each in ways), default=FARTHEST)
    narrower = [(each, leaf) for each, leaf in doubtful if each.gap.distance < widest]
    if narrower and plan.reading == "recorded":
        raise _unsaid(narrower, plan, next((each for each in people if isinstance(each, Missing)), None))
    if plan.reading == "longest":
        ways += [each for each, _ in narrower]
    if not ways:
        return FARTHEST
    least = min(ways, key=lambda each: each.gap.distance)
    return Drawn(least.gap.distance, "gap", plan.room, (least.gap.here, least.gap.there), between=_names(least, plan))


@quantity(
    "closing_gap.least",
    gives="length",
    inputs={
        "plan": "dyno.room.plan", "one": "one", "other": "other", "wall_at": "wall_at?", "closes_by": "closes_by",
    },
    formula="free distance between the two things on the floor plan, less how much nearer the moving part comes",
    source="plane geometry",
    status="definition",
    leaves_out="what is not on the plan; how far a part gives way or a vehicle on it sticks out",
)  # fmt: skip
def least_when_closed(plan: "StoreyPlan", one: str, other: str, wall_at: Place | Missing, closes_by: float) -> Drawn:
    """How wide in m a gap between two things on the floor is when it is closed as far as it goes."""
    from checker.plan import gap

    here, there = (_shape(name, wall_at, plan) for name in (one, other))
    found = asked(lambda: gap(here, there, plan.kept))
    least = max(0.0, found.distance - closes_by)
    return Drawn(
        least, "gap", plan.room, (found.here, found.there), between=f"{_label(one, plan)} and {_label(other, plan)}"
    )


class _Record(Struct, frozen=True):
    """Who gets into the gap between two things, as somebody wrote it down."""

    ends: frozenset[str]
    wall_at: Place | None
    people: str


def _records(ones: Said, others: Said, walls_at: Sequence[Place | Missing], people: Said) -> Iterator[_Record]:
    for one, other, wall_at, who in zip(ones, others, walls_at, people, strict=True):
        if not (isinstance(one, Missing) or isinstance(other, Missing) or isinstance(who, Missing)):
            yield _Record(frozenset((one, other)), None if isinstance(wall_at, Missing) else wall_at, who)


def _gaps(plan: "StoreyPlan") -> Sequence["Between"]:
    """The gaps of the room. Raises Missing where there may be doors that nobody could place."""
    from checker.plan import as_it_may_open, free_gaps

    placed = [door for door in plan.plan.doors if door.at is not None and door.width is not None]
    unplaced = plan.leaf_gaps.keys() - {door.id for door in placed}
    if plan.reading == "longest" and (plan.way_gaps or unplaced):
        raise Missing.together([*plan.way_gaps, *(plan.leaf_gaps[name] for name in sorted(unplaced))])
    swinging = [as_it_may_open(door) for door in placed]
    found: tuple[Between, ...] = asked(lambda: free_gaps(plan.plan, plan.room, swinging, FARTHEST, kept=plan.kept))
    return found


def _said(found: "Between", records: Sequence[_Record], plan: "StoreyPlan") -> str | None:
    """Who gets into a gap; people where one record says so and another does not; None where none speaks of it."""
    told = {record.people for record in records if _is_about(record, found, plan)}
    return next((each for each in sorted(told) if each != CLOSED), CLOSED if told else None)


def _is_about(record: _Record, found: "Between", plan: "StoreyPlan") -> bool:
    one, other = found.ids
    if "side" not in found.kinds:
        return record.ends == {one, other}
    number = found.kinds.index("side")
    if record.ends != {found.ids[1 - number], WALL} or record.wall_at is None:
        return False
    from checker.plan.sides import nearest_of, nearest_side

    corners, side = plan.outline, int(found.ids[number])
    own = nearest_of(record.wall_at, [(corners[side], corners[(side + 1) % len(corners)])])
    return own.distance <= nearest_side(record.wall_at, corners).distance + ON_WALL


def _shape(name: str, wall_at: Place | Missing, plan: "StoreyPlan") -> "Shape":
    """What stands on the plan under a name. Raises Missing and OutsideRange."""
    from checker.plan import Area, Line
    from checker.plan.sides import nearest_side

    if name == WALL:
        if isinstance(wall_at, Missing):
            raise wall_at
        return Line(nearest_side(wall_at, plan.outline).side)
    for each in plan.plan.obstacles:
        if each.id == name:
            return Area(each.outline)
    for wall in plan.plan.walls:
        if wall.id == name and not wall.thickness:
            return Line(wall.line)
    raise OutsideRange(f"{name} stands on the floor plan neither as a machine, an obstacle nor a thin partition")


def _leaf(found: "Between", plan: "StoreyPlan") -> Missing | None:
    """What is not known of the leaf of a door that a gap ends at."""
    doors = (name for kind, name in zip(found.kinds, found.ids, strict=True) if kind == "door")
    return next((plan.leaf_gaps[name] for name in doors if name in plan.leaf_gaps), None)


def _unsaid(
    doubtful: Sequence[tuple["Between", Missing | None]], plan: "StoreyPlan", absent: Missing | None
) -> Missing:
    """The gaps of which nobody said who gets in, and the leaves of which nobody said how they open."""
    leaves = [leaf for _, leaf in doubtful if leaf is not None]
    named = [_words(each, plan) for each, leaf in doubtful if leaf is None]
    if not named:
        return Missing.together(leaves)
    more = "; and wider ones" if len(named) > MOST_NAMED else ""
    why = f"who gets into these gaps is for a person to say: {'; '.join(named[:MOST_NAMED])}{more}"
    because = absent.because if absent is not None else "not recorded"
    return Missing.together([Missing(f"rooms[{plan.room}].floor_gaps", because, why), *leaves])


def _words(found: "Between", plan: "StoreyPlan") -> str:
    return f"{found.gap.distance:.2f} m between {_names(found, plan)}"


def _names(found: "Between", plan: "StoreyPlan") -> str:
    return " and ".join(
        WALL if kind == "side" else f"the leaf of {name}" if kind == "door" else _label(name, plan)
        for kind, name in zip(found.kinds, found.ids, strict=True)
    )


def _label(name: str, plan: "StoreyPlan") -> str:
    return next((each.name for each in plan.plan.obstacles if each.id == name and each.name), name)
