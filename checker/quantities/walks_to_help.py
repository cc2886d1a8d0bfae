"""Walks on the floor plan to what helps people: eyewash, first-aid kit, emergency stop, and what cuts a machine off."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from checker.quantities.missing import Missing
from checker.quantities.registry import quantity
from checker.quantities.walks import LEAVES_OUT, SOURCE, Place, farthest_from, serving, walk_to
from checker.quantities.working import Drawn

if TYPE_CHECKING:
    from checker.plan import Outline
    from checker.quantities.storeys import StoreyPlan
    from checker.quantities.things import Thing

_OPERATOR: Final = {"plan": "room.plan", "here": "operator_place"}
"""What a walk needs that begins where a machine is run."""


@quantity(
    "charging_place.walk_to_eyewash",
    gives="length",
    inputs={
        "plan": "room.plan",
        "here": "at",
        "places": "site.eyewashes[*].at?",
        "rooms": "site.eyewashes[*].room?",
        "kinds": "site.eyewashes[*].kind?",
    },
    formula="shortest walk on the floor plan to an eyewash on the water main or with a tank of its own",
    source=SOURCE,
    status="definition",
    leaves_out=f"{LEAVES_OUT}; whether the eyewash gives enough water for long enough",
)
def walk_to_eyewash(
    plan: "StoreyPlan",
    here: Place,
    places: Sequence[Place | Missing],
    rooms: Sequence["Thing | Missing"],
    kinds: Sequence[str | Missing],
) -> Drawn:
    """The walk in m from where batteries are charged to the nearest eyewash; bottles are none."""
    fit = [each if isinstance(each, Missing) else each != "bottle" for each in kinds]
    return walk_to(plan, here, serving(plan, places, rooms, fit), "eyewash on the main or with a tank")


@quantity(
    "room.farthest_from_first_aid_kit",
    gives="length",
    inputs={
        "plan": "plan",
        "places": "site.first_aid_kits[*].at?",
        "rooms": "site.first_aid_kits[*].room?",
        "complete": "site.first_aid_kits[*].complete?",
    },
    formula="longest of the shortest walks from any point of the room to a first-aid kit whose contents are all there",
    source=SOURCE,
    status="definition",
    leaves_out=f"{LEAVES_OUT}; whether the kit is marked",
)
def farthest_from_first_aid_kit(
    plan: "StoreyPlan",
    places: Sequence[Place | Missing],
    rooms: Sequence["Thing | Missing"],
    complete: Sequence[bool | Missing],
) -> Drawn:
    """The walk in m from the point of the room that is farthest from a complete first-aid kit."""
    return farthest_from(plan, serving(plan, places, rooms, complete), "first-aid kit whose contents are all there")


@quantity(
    "dyno.walk_to_emergency_stop",
    gives="length",
    inputs={
        **_OPERATOR,
        "room": "room",
        "stop": "emergency_stop.at",
        "others": "emergency_stop.other_actuators[*].at?",
    },
    formula="shortest walk on the floor plan from where the machine is run to an actuator of its emergency stop",
    source=SOURCE,
    status="definition",
    leaves_out=f"{LEAVES_OUT}; how far an arm reaches over what stands between; whether the stop works",
)
def walk_to_emergency_stop(
    plan: "StoreyPlan", here: Place, room: "Thing", stop: Place, others: Sequence[Place | Missing]
) -> Drawn:
    """The walk in m from where a machine is run to the nearest actuator of its emergency stop."""
    places = [stop, *others]
    actuators = serving(plan, places, [room] * len(places), [True] * len(places))
    return walk_to(plan, here, actuators, "actuator of the emergency stop")


@quantity(
    "dyno.walk_to_disconnect",
    gives="length",
    inputs={**_OPERATOR, "disconnect": "isolation.at"},
    formula="shortest walk on the floor plan from where the machine is run to what cuts it off from the mains",
    source=SOURCE,
    status="definition",
    leaves_out=f"{LEAVES_OUT}; whether it is marked and can be worked",
)
def walk_to_disconnect(plan: "StoreyPlan", here: Place, disconnect: Place) -> Drawn:
    """The walk in m from where a machine is run to what cuts it off from the mains."""
    return walk_to(plan, here, [disconnect], "disconnect")


@quantity(
    "dyno.distance_to_disconnect",
    gives="length",
    inputs={"room": "room", "footprint": "footprint", "disconnect": "isolation.at"},
    formula="straight line on the floor plan from the edge of the machine to what cuts it off from the mains",
    source="plane geometry",
    status="definition",
    leaves_out="height above the floor; whether anything stands in the line of sight",
)
def distance_to_disconnect(room: "Thing", footprint: "Outline", disconnect: Place) -> Drawn:
    """The straight distance in m from a machine to what cuts it off from the mains."""
    from checker.plan.sides import nearest_side

    nearest = nearest_side(disconnect, footprint)
    return Drawn(nearest.distance, "straight line", room.id, (nearest.foot, disconnect))
