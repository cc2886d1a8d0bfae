"""Walks on the floor plan to extinguishers for the classes of fire that have no number in a rating."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from checker.quantities.fire import with_letter
from checker.quantities.missing import Missing
from checker.quantities.registry import other_way
from checker.quantities.walks import Place, high_enough, serving, walk_to

if TYPE_CHECKING:
    from checker.quantities.storeys import StoreyPlan
    from checker.quantities.things import Thing

SOURCE: Final = "plane geometry: shortest path round obstacles"
LEAVES_OUT: Final = (
    "steps and slopes; how wide a person is; walks by way of another storey; "
    "whether the unit is charged and can be seen"
)


@other_way(
    "hazard.walk_to_lettered_extinguisher",
    inputs={
        "plan": "room.plan",
        "here": "at",
        "places": "site.extinguishers[*].at?",
        "rooms": "site.extinguishers[*].room?",
        "labels": "site.extinguishers[*].rating?",
        "systems": "site.extinguishers[*].rating_system?",
    },
    formula="shortest walk on the floor plan to an extinguisher whose rating of that system has the letter",
    source=SOURCE,
    status="definition",
    leaves_out=LEAVES_OUT,
)
def walk_to_lettered_unit(
    plan: "StoreyPlan",
    here: Place,
    places: Sequence[Place | Missing],
    rooms: Sequence["Thing | Missing"],
    labels: Sequence[str | Missing],
    systems: Sequence[str | Missing],
    letter: str,
    system: str,
) -> float:
    """The walk in m from a place to the nearest unit for class C or D."""
    units = serving(plan, places, rooms, high_enough(with_letter(labels, systems, letter, system), 1))
    return walk_to(plan, here, units, f"an extinguisher for class {letter} of {system}")
