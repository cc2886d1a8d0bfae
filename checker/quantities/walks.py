"""Walks on the floor plan: how far people go, round all that stands in the way, through doors that are not locked."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, Final

from checker.quantities.fire import ARGUMENTS, CLASSES, RATED, SYSTEMS_APART, Known, in_system, of_class
from checker.quantities.missing import Missing, OutsideRange
from checker.quantities.registry import other_way, quantity
from checker.quantities.working import Drawn

if TYPE_CHECKING:
    from checker.quantities.storeys import StoreyPlan
    from checker.quantities.things import Thing

Place = tuple[float, float]
EXIT: Final = "way out, a door to the outside that is not locked"
CLOSE: Final = 0.001
"""m. How far apart the two bounds of the longest walk may stay."""
SOURCE: Final = "plane geometry: shortest path round obstacles"
LEAVES_OUT: Final = "steps and slopes; how wide a person is; walks by way of another storey"
_SERVES: Final = "whether the unit is charged and can be seen"
_UNITS: Final = {
    "places": "site.extinguishers[*].at?",
    "rooms": "site.extinguishers[*].room?",
    "a": "site.extinguishers[*].class_a_rating?",
    "b": "site.extinguishers[*].class_b_rating?",
}
_RATED_UNITS: Final = {**_UNITS, "systems": "site.extinguishers[*].rating_system?"}
_NEAREST: Final = "shortest walk on the floor plan to an extinguisher rated for the class at least that high"
_FARTHEST: Final = "longest of the shortest walks from any point of the room to an extinguisher that serves"


@other_way(
    "hazard.walk_to_extinguisher",
    inputs={"plan": "room.plan", "here": "at", **_UNITS},
    formula=_NEAREST,
    source=SOURCE,
    status="definition",
    leaves_out=f"{LEAVES_OUT}; {_SERVES}; {SYSTEMS_APART}",
)
def walk_to_unit(
    plan: "StoreyPlan",
    here: Place,
    places: Sequence[Place | Missing],
    rooms: Sequence["Thing | Missing"],
    a: Sequence[Known],
    b: Sequence[Known],
    fire_class: str,
    rating: float,
) -> float:
    """The walk in m from a place to the nearest extinguisher that serves, on the plan of its storey."""
    ratings = of_class(fire_class, dict(zip(CLASSES, (a, b), strict=True)))
    units = serving(plan, places, rooms, high_enough(ratings, rating))
    return walk_to(plan, here, units, f"extinguisher for class {fire_class}")


@other_way(
    "hazard.walk_to_rated_extinguisher",
    inputs={"plan": "room.plan", "here": "at", **_RATED_UNITS},
    formula=f"{_NEAREST} in that system",
    source=SOURCE,
    status="definition",
    leaves_out=f"{LEAVES_OUT}; {_SERVES}",
)
def walk_to_rated_unit(
    plan: "StoreyPlan",
    here: Place,
    places: Sequence[Place | Missing],
    rooms: Sequence["Thing | Missing"],
    a: Sequence[Known],
    b: Sequence[Known],
    systems: Sequence[str | Missing],
    fire_class: str,
    rating: float,
    system: str,
) -> float:
    """As walk_to_unit, where the rating was given in one system only."""
    in_a, in_b = in_system(a, systems, system), in_system(b, systems, system)
    walked: float = walk_to_unit(plan, here, places, rooms, in_a, in_b, fire_class, rating)
    return walked


@quantity(
    "room.farthest_from_extinguisher",
    gives="length",
    inputs={"plan": "plan", **_UNITS},
    arguments=ARGUMENTS,
    formula=_FARTHEST,
    source=SOURCE,
    status="definition",
    leaves_out=f"{LEAVES_OUT}; {_SERVES}; {SYSTEMS_APART}",
)
def farthest_from_unit(
    plan: "StoreyPlan",
    places: Sequence[Place | Missing],
    rooms: Sequence["Thing | Missing"],
    a: Sequence[Known],
    b: Sequence[Known],
    fire_class: str,
    rating: float,
) -> float:
    """The walk in m from the point of the room that is farthest from an extinguisher that serves."""
    ratings = of_class(fire_class, dict(zip(CLASSES, (a, b), strict=True)))
    units = serving(plan, places, rooms, high_enough(ratings, rating))
    return farthest_from(plan, units, f"extinguisher for class {fire_class}")


@quantity(
    "room.farthest_from_rated_extinguisher",
    gives="length",
    inputs={"plan": "plan", **_RATED_UNITS},
    arguments=RATED,
    formula=f"{_FARTHEST}, rated for the class at least that high in that system",
    source=SOURCE,
    status="definition",
    leaves_out=f"{LEAVES_OUT}; {_SERVES}",
)
def farthest_from_rated_unit(
    plan: "StoreyPlan",
    places: Sequence[Place | Missing],
    rooms: Sequence["Thing | Missing"],
    a: Sequence[Known],
    b: Sequence[Known],
    systems: Sequence[str | Missing],
    fire_class: str,
    rating: float,
    system: str,
) -> float:
    """As farthest_from_unit, where the rating was given in one system only."""
    in_a, in_b = in_system(a, systems, system), in_system(b, systems, system)
    walked: float = farthest_from_unit(plan, places, rooms, in_a, in_b, fire_class, rating)
    return walked


@quantity(
    "room.farthest_from_exit",
    gives="length",
    inputs={"plan": "plan"},
    formula="longest of the shortest walks from any point of the room to a way out of the storey that is not locked",
    source=SOURCE,
    status="definition",
    leaves_out=LEAVES_OUT,
)
def farthest_from_exit(plan: "StoreyPlan") -> float:
    """The walk in m from the point of the room that is farthest from a way out."""
    return farthest_from(plan, exits_of(plan), EXIT)


@quantity(
    "hazard.walk_to_exit",
    gives="length",
    inputs={"plan": "room.plan", "here": "at"},
    formula="shortest walk on the floor plan to a way out of the storey that is not locked",
    source=SOURCE,
    status="definition",
    leaves_out=LEAVES_OUT,
)
def walk_to_exit(plan: "StoreyPlan", here: Place) -> float:
    """The walk in m from a place to the nearest way out."""
    return walk_to(plan, here, exits_of(plan), EXIT)


def serving(
    plan: "StoreyPlan",
    places: Sequence[Place | Missing],
    rooms: Sequence["Thing | Missing"],
    fit: Sequence[bool | Missing],
) -> list[Place]:
    """The places of units on the storey that are fit for what they are wanted for.

    A unit of which that is not known raises Missing, unless the plan is read at its longest or shortest: then what
    cannot be told is left out, or counted in where its place is known.
    """
    found: list[Place] = []
    doubtful: list[Missing] = []
    for place, room, serves in zip(places, rooms, fit, strict=True):
        if not isinstance(room, Missing) and room.id not in plan.rooms:
            continue
        if serves is False:
            continue
        gaps = [each for each in (place, room, serves) if isinstance(each, Missing)]
        if not gaps or (plan.reading == "shortest" and not isinstance(place, Missing)):
            assert not isinstance(place, Missing)
            found.append(place)
        elif plan.reading != "longest":
            doubtful += gaps
    if doubtful:
        raise Missing.together(doubtful)
    return found


def high_enough(ratings: Sequence[Known], wanted: float) -> list[bool | Missing]:
    """Whether each rating is at least as high as wanted."""
    return [each if isinstance(each, Missing) else each >= wanted for each in ratings]


def exits_of(plan: "StoreyPlan") -> list[Place]:
    """The middles of the ways out of a storey: doors to the outside, not locked, that people are meant to leave by.

    One of which that is not known raises Missing, unless the plan is read at its longest or shortest.
    """
    from checker.plan import exits_of as places_of

    doors = [(name, place) for name, place in places_of(plan.plan) if name not in plan.no_exits]
    doubtful = [plan.doubtful_exits[name] for name, _ in doors if name in plan.doubtful_exits]
    if doubtful and plan.reading == "recorded":
        raise Missing.together(doubtful)
    return [place for name, place in doors if plan.reading != "longest" or name not in plan.doubtful_exits]


def walk_to(plan: "StoreyPlan", here: Place, targets: Sequence[Place], what: str) -> Drawn:
    """The shortest walk in m to one of some targets, with its path. Raises OutsideRange where no way leads there.

    Read at its shortest, a walk to an exit is 0 where there may be exits that nobody recorded.
    """
    from checker.plan import walk

    if what == EXIT and plan.exit_gaps:
        return Drawn(0.0, "walk", plan.room, (here, here), _ends_at(what), tuple(targets))
    found = asked(lambda: walk(plan.plan, here, _some(targets, what), kept=plan.kept))
    if found.distance is None:
        raise OutsideRange(f"no way on the floor plan leads from here to a {what}")
    return Drawn(found.distance, "walk", plan.room, found.path, _ends_at(what), tuple(targets))


def farthest_from(plan: "StoreyPlan", targets: Sequence[Place], what: str, clearance: float = 0.0) -> Drawn:
    """The longest walk in m from a point of the room asked about to the nearest of some targets, with its path.

    No point is farther by more than 1 mm. Raises OutsideRange where some floor has no way to any of them, and Missing
    where things may stand on the very floor that is farthest.
    """
    from checker.plan import farthest

    if plan.floor_gaps:
        raise Missing.together(plan.floor_gaps)
    if what == EXIT and plan.exit_gaps:
        return Drawn(0.0, "farthest walk", plan.room, (), _ends_at(what), tuple(targets))
    at = _some(targets, what)
    found = asked(lambda: farthest(plan.plan, at, plan.outline, clearance=clearance, kept=plan.kept))
    if found.cut_off:
        x, y = found.cut_off[0].outline[0]
        raise OutsideRange(f"from the floor at ({x:.2f} m, {y:.2f} m) no way leads to a {what}")
    if found.most - found.least > CLOSE:
        found = asked(lambda: farthest(plan.plan, at, plan.outline, found.least, clearance, kept=plan.kept))
    return Drawn(found.least, "farthest walk", plan.room, found.path, _ends_at(what), tuple(targets))


def asked(ask: Callable[[], Any]) -> Any:
    """The answer of the geometry; raises OutsideRange with what is wrong with the plan."""
    from checker.plan import NotOnFloor, UnusablePlan

    try:
        return ask()
    except (NotOnFloor, UnusablePlan) as fault:
        raise OutsideRange(f"the floor plan cannot be walked: {fault}") from None


def _ends_at(what: str) -> str:
    return "exit" if what == EXIT else what.partition(" ")[0]


def _some(targets: Sequence[Place], what: str) -> Sequence[Place]:
    if not targets:
        raise OutsideRange(f"the floor plan holds no {what}")
    return targets
