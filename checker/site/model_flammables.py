"""Where flammable liquids stand, how fuel is drained, and what becomes of waste."""

from typing import Annotated, ClassVar

from checker.site.aliases import Amount, Duration, Found, Words, YesNo
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.names import Reference
from checker.site.parts import Thing, unrecorded


class Cabinet(Thing):
    """A cabinet for flammable liquids."""

    kind_of_thing: ClassVar[str] = "cabinet"
    name: Words = unrecorded("What people call it.", "yellow cabinet")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it stands in.", "store")
    listed: YesNo = unrecorded("Whether a label says that it was tested as a cabinet for flammable liquids.")
    resists: Duration = unrecorded("How long it resists fire, from its label.", "30 min", "90 min")
    holds: Amount = unrecorded("How much liquid stands in it at most, of all kinds.", "40 US gal", "100 L")
    largest_vessel: Amount = unrecorded("Size of the largest vessel in it.", "20 L", "5 US gal")
    catches: Amount = unrecorded("How much its sill or tray catches when something leaks.", "25 L")
    shuts_and_latches: Found = unrecorded("Whether its doors shut by themselves and latch, with nothing in the way.")
    marked: Found = unrecorded("Whether a sign on it warns of fire.")
    vents: Annotated[Recorded, word("none", "closed by their plugs", "piped outdoors", "open to the room")] = (
        unrecorded("What became of the vents in its sides.", "closed by their plugs")
    )


class DrainingPlace(Thing):
    """A place where fuel is drained from vehicles or poured from can to can."""

    kind_of_thing: ClassVar[str] = "draining_place"
    name: Words = unrecorded("What people call it.", "yard behind the shop")
    lies: Annotated[Recorded, word("outdoors", "ventilated room", "room without ventilation", "over a pit")] = (
        unrecorded("Where it lies; over a pit also where one is beside it.", "outdoors")
    )
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room, where it lies in one.", "workshop")
    equipment: Annotated[
        Recorded,
        word("closed fuel retriever", "pump into a closed can", "safety can", "gravity tap that shuts", "open pan"),
    ] = unrecorded("What the fuel runs through and into.", "closed fuel retriever")
    bonded: Found = unrecorded(
        "Whether vehicle, nozzle and can are joined by a wire, or one touches the other all the time."
    )
    ignition_clear: Found = unrecorded(
        "Whether nothing near it sparks, glows or burns: chargers, lamps, heaters, telephones, running engines."
    )
    done_by_instructed: YesNo = unrecorded("Whether only people who were shown the equipment do it.")


class Waste(Thing):
    """One kind of waste kept for collection."""

    kind_of_thing: ClassVar[str] = "waste"
    name: Words = unrecorded("What people call it.", "waste oil tank")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it stands in.", "workshop")
    kind: Annotated[Recorded, word("waste oil", "oily rags", "coolant", "brake fluid", "fuel", "filters", "other")] = (
        unrecorded("What it is.", "oily rags")
    )
    volume: Amount = unrecorded("How much at most.", "200 L", "55 US gal")
    container: Annotated[
        Recorded, word("metal can that shuts itself", "metal can with lid", "closed tank or drum", "bin or bag", "none")
    ] = unrecorded("What it is kept in.", "metal can that shuts itself")
    emptied: Annotated[Recorded, word("each day", "each week", "less often")] = unrecorded(
        "How often it is emptied or carried out.", "each day"
    )
    caught: Found = unrecorded("Whether a tray, a bund or a second wall catches what leaks.")
