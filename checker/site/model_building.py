"""The building: what it is made of, what divides it, and what lies around it."""

from typing import Annotated, ClassVar

from checker.site.aliases import Area, Duration, Found, LastDone, Several, Words, YesNo
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.names import Reference
from checker.site.parts import Noted, Thing, unrecorded


class Building(Noted):
    """The building as a whole."""

    walls: Annotated[
        Recorded, word("masonry or concrete", "insulated panels", "single metal sheet", "timber", "glass", "mixed")
    ] = unrecorded("What the outside walls are mostly made of.", "masonry or concrete")
    roof: Annotated[
        Recorded, word("concrete", "insulated panels", "metal sheet", "tiles or slates", "felt on timber", "mixed")
    ] = unrecorded("What the roof is mostly made of.", "metal sheet")
    frame: Annotated[Recorded, word("concrete", "bare steel", "protected steel", "timber", "load-bearing walls")] = (
        unrecorded("What carries the roof and the floors.", "bare steel")
    )
    storeys: Several = unrecorded("Number of storeys, basements among them.", 1)
    fire_area: Area = unrecorded(
        "Floor area that holds the workshop, all storeys together, between outside walls and fire walls.", "9000 ft2"
    )
    use_group: Annotated[
        Recorded,
        word(
            "A", "B", "E", "F-1", "F-2", "H-1", "H-2", "H-3", "H-4", "H-5", "M", "S-1", "S-2", "U",
            "F division 1", "F division 2", "F division 3",
        ),
    ] = unrecorded(
        "Use group of the workshop in the building code, as the building official has it; divisions are Canada's.",
        "S-1",
    )  # fmt: skip
    serves_basement_vehicles: YesNo = unrecorded("Whether vehicles that are parked in a basement are serviced.")
    repairs_lorries: YesNo = unrecorded("Whether lorries or buses are repaired.")
    rented: YesNo = unrecorded("Whether somebody else owns it.")


class Surroundings(Noted):
    """What lies around the building, and who else is in it."""

    neighbours: Words = unrecorded(
        "Who else is in the building or against it.", "joiner in unit 5, flats across the yard"
    )
    shares_walls: YesNo = unrecorded("Whether another occupier lies behind one of its walls, floors or ceilings.")
    people_sleep_here: YesNo = unrecorded("Whether people sleep above it, beside it or in it.")
    dividing_walls_resist: Duration = unrecorded(
        "Fire resistance of the walls and floors towards other occupiers.", "60 min", "1 h"
    )
    exhaust_clear_of_neighbours: Found = unrecorded(
        "Whether exhaust and fan outlets blow away from windows, doors and air inlets of others."
    )
    floods: YesNo = unrecorded("Whether water has come in, or the place lies where floods are foreseen.")
    fire_brigade_reaches: Found = unrecorded(
        "Whether a fire engine can come up to the building and to its water, with nothing parked in the way."
    )
    stores_clear_of_walls: Found = unrecorded(
        "Whether bins, pallets, tyres and skips outside stand away from walls, eaves and windows."
    )


class InsulatedPanel(Thing):
    """A run of insulated panels in a wall, a ceiling or a roof: a core between two sheets."""

    kind_of_thing: ClassVar[str] = "insulated_panel"
    name: Words = unrecorded("Where it is, as people say it.", "ceiling of the cell")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it faces.", "cell")
    core: Annotated[
        Recorded, word("mineral wool", "polyisocyanurate", "polyurethane", "polystyrene", "phenolic foam")
    ] = unrecorded("What lies between the sheets: an edge, a drill hole or the papers show it.", "polyurethane")
    fire_tested: YesNo = unrecorded("Whether a fire test of a whole panel wall, passed, is on file for this panel.")
    whole: Found = unrecorded("Whether sheets and joints are whole, with no bare core to be seen.")
    hot_parts_kept_off: Found = unrecorded(
        "Whether exhaust pipes, heaters and lamps keep off it or pass through a sleeve that does not burn."
    )


class FireOpening(Thing):
    """An opening in a wall or a floor that is meant to hold a fire back."""

    kind_of_thing: ClassVar[str] = "fire_opening"
    name: Words = unrecorded("Where it is, as people say it.", "door from the cell to the store")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it is seen from.", "cell")
    passes: Annotated[Recorded, word("people", "vehicles", "air", "pipes or cables", "light")] = unrecorded(
        "What goes through it: people or vehicles by a door or shutter, air by a duct, light by a window.", "people"
    )
    resists: Duration = unrecorded("Fire resistance of what closes it, from its label or papers.", "30 min")
    wall_resists: Duration = unrecorded("Fire resistance of the wall or floor it lies in.", "60 min")
    closed_in_fire: Found = unrecorded(
        "Whether it stands shut, shuts by itself in a fire, or is filled with a stop made for it."
    )
    held_open: Found = unrecorded("Whether a wedge, a hook or goods keep it from shutting.")
    tried_on: LastDone = unrecorded("When its closing was last tried.", "2026-05-12", "never")
