"""Heaters, gas cylinders, and work with flames and sparks."""

from typing import Annotated, ClassVar

from checker.site.aliases import Distance, Duration, Found, LastDone, Words, YesNo
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.names import Reference
from checker.site.parts import Thing, unrecorded


class Heater(Thing):
    """A heater that warms a room."""

    kind_of_thing: ClassVar[str] = "heater"
    name: Words = unrecorded("What people call it.", "heater over the bench")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it warms.", "workshop")
    gives_heat_by: Annotated[
        Recorded,
        word(
            "open flame",
            "flame behind a cover",
            "glowing wire or plate",
            "warm air or water from elsewhere",
            "warm wire",
        ),
    ] = unrecorded(
        "Where its heat comes from: a flame or glow in the room, a flame closed off from it, a boiler elsewhere, "
        "or an electric wire that warms without a glow.",
        "flame behind a cover",
    )
    air_from: Annotated[Recorded, word("outdoors", "the room", "needs none")] = unrecorded(
        "Where the air for its flame comes from.", "outdoors"
    )
    clear_of_combustibles: Found = unrecorded("Whether nothing that burns is nearer than its plate allows.")
    serviced_on: LastDone = unrecorded("When a heating engineer last serviced it.", "2026-09-01", "never")


class GasCylinder(Thing):
    """A gas cylinder, or several of one gas that stand together."""

    kind_of_thing: ClassVar[str] = "gas_cylinder"
    name: Words = unrecorded("What people call it.", "welding set")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it stands in.", "workshop")
    gas: Annotated[
        Recorded,
        word("oxygen", "acetylene", "LPG", "hydrogen", "natural gas", "shielding gas", "nitrogen", "test gas", "other"),
    ] = unrecorded("What is in it.", "oxygen")
    held_upright: Found = unrecorded("Whether it stands upright and a chain, strap or trolley holds it.")
    valve_covered: Found = unrecorded("Whether its cap is on, or its regulator is.")
    oxygen_apart: Found = unrecorded(
        "Whether oxygen stands apart from fuel gas and oil, save for one set on a trolley in use."
    )
    arrestors: Found = unrecorded(
        "Whether flashback arrestors are fitted and in date, at the regulator; asked of flame sets."
    )
    hoses_sound: Found = unrecorded("Whether hoses are free of cracks, burns and tape, and shut off after work.")


class HotWorkPlace(Thing):
    """A place where somebody welds, cuts, grinds or heats with a flame."""

    kind_of_thing: ClassVar[str] = "hot_work_place"
    name: Words = unrecorded("What people call it.", "welding bay")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it lies in.", "workshop")
    permit: YesNo = unrecorded(
        "Whether somebody looks the place over and writes a permit for it before work, anew each day."
    )
    combustibles_at: Distance = unrecorded(
        "From the work to the nearest thing that burns and is neither moved nor shielded.", "35 ft", "10 m"
    )
    watch: Duration = unrecorded("How long somebody watches the place after work.", "30 min", "1 h")
    extinguisher: Annotated[Recorded, Reference("extinguisher")] = unrecorded("The extinguisher at hand.", "fe-1")
    extinguisher_walk: Distance = unrecorded("Length of the walk to it.", "10 ft", "3 m")
    tanks_made_safe: YesNo = unrecorded(
        "Whether tanks and vessels that held fuel are cleaned, purged or inerted before any heat comes near."
    )
