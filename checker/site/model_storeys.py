"""Storeys, as extinguishers are chosen for them, and what a written policy says of who fights a fire."""

from typing import Annotated, ClassVar

from checker.site.aliases import Area, Heads, Words, YesNo
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.parts import Noted, Thing, unrecorded

LEVELS = ("light", "ordinary", "extra")
DECIDERS = ("fire official", "fire risk assessment", "fire equipment firm", "insurer", "shop")
"""Who may have decided how much could burn."""


class Storey(Thing):
    """A storey, or a mezzanine, for which extinguishers are counted together."""

    kind_of_thing: ClassVar[str] = "storey"
    name: Words = unrecorded("What its rooms call it under `storey`, letter for letter.", "ground floor")
    floor_area: Area = unrecorded(
        "Floor area of all of it, where it is known and not to be added up from the rooms.", "3000 ft2", "280 m2"
    )
    hazard_level: Annotated[Recorded, word(*LEVELS)] = unrecorded(
        "How much could burn on it, as extinguishers are chosen by; North America.", "extra"
    )
    hazard_level_by: Annotated[Recorded, word(*DECIDERS)] = unrecorded("Who decided that level.", "fire official")
    small_units_justified: YesNo = unrecorded(
        "Whether the risk assessment says why extinguishers of fewer than 6 extinguishing units do here; Germany."
    )
    hydrant_units: Heads = unrecorded(
        "Extinguishing units by which the risk assessment counts wall hydrants; 0 where it counts none.",
        0,
    )


class ExtinguisherPolicy(Noted):
    """A written policy that says who uses extinguishers in a fire and who leaves."""

    users: Annotated[Recorded, word("everybody", "named people", "nobody")] = unrecorded(
        "Who is to use extinguishers; all others leave at once.", "named people"
    )
    action_plan: YesNo = unrecorded("Whether there is a written emergency action plan that says the same.")
    prevention_plan: YesNo = unrecorded("Whether there is a written fire prevention plan.")
    people_know: YesNo = unrecorded("Whether everybody who works here was told of it.")
