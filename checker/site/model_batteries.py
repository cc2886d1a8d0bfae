"""Loose lithium batteries, and where electric vehicles are charged."""

from typing import Annotated, ClassVar

from checker.site.aliases import Amount, Distance, Found, Words, YesNo
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.names import Reference
from checker.site.parts import Thing, unrecorded


class LithiumStore(Thing):
    """A place where loose lithium batteries are kept, not those in vehicles or tools."""

    kind_of_thing: ClassVar[str] = "lithium_store"
    name: Words = unrecorded("What people call it.", "battery shelf")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it lies in.", "store")
    volume: Amount = unrecorded("Space that all packs take, packing among it.", "2 ft3", "60 L")
    permit: YesNo = unrecorded("Whether the fire official gave a permit for it.")
    damaged_apart: Found = unrecorded(
        "Whether damaged, swollen or wet packs lie outdoors or in a box that does not burn, away from the others."
    )
    charged: Annotated[Recorded, word("not here", "with their own charger", "with any charger")] = unrecorded(
        "How packs are charged here.", "with their own charger"
    )
    charging_watched: YesNo = unrecorded("Whether somebody is in the building and awake while packs charge.")
    lies_on: Annotated[Recorded, word("what does not burn", "what burns")] = unrecorded(
        "What packs lie on and beside, stored or on charge.", "what does not burn"
    )


class VehicleCharger(Thing):
    """Charging equipment for electric vehicles."""

    kind_of_thing: ClassVar[str] = "vehicle_charger"
    name: Words = unrecorded("What people call it.", "wall box by the gate")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it hangs in.", "workshop")
    circuit: Annotated[Recorded, Reference("circuit")] = unrecorded("The circuit that feeds it.", "c-ev")
    connector_height: Distance = unrecorded(
        "Height above the floor at which its connector is kept when not in use.", "3 ft", "0.9 m"
    )
    sound: Found = unrecorded("Whether cable, connector and case are free of cuts, cracks and scorch marks.")
