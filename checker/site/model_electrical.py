"""Supplies, circuits, panels, and the places where batteries are charged."""

from typing import Annotated, ClassVar

from checker.site.aliases import (
    Amount,
    Area,
    Current,
    Distance,
    Flow,
    Frequency,
    LastDone,
    Length,
    Phases,
    Place,
    Several,
    Size,
    Voltage,
    Words,
    YesNo,
)
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.names import Reference
from checker.site.parts import Maybe, Noted, Thing, unrecorded


class Supply(Thing):
    """The supply that enters the building."""

    kind_of_thing: ClassVar[str] = "supply"
    voltage: Voltage = unrecorded("Nominal voltage between lines.", "240 V", "400 V")
    phases: Phases = unrecorded("Phases of the supply.", 3)
    frequency: Frequency = unrecorded("Nominal frequency.", "60 Hz")
    rating: Current = unrecorded("Rating of the main switch or fuse.", "200 A")


class Rcd(Noted):
    """A residual-current device, also called a ground-fault interrupter."""

    trips_at: Current = unrecorded("Residual current at which it trips.", "30 mA", "5 mA")
    tried_on: LastDone = unrecorded("When its test button was last pressed and it tripped.", "2026-10-01", "never")


class Circuit(Thing):
    """A branch or final circuit from its breaker to what it feeds."""

    kind_of_thing: ClassVar[str] = "circuit"
    name: Words = unrecorded("What the panel's directory calls it.", "Dyno 1")
    supply: Annotated[Recorded, Reference("supply")] = unrecorded("The supply it hangs on.", "mains")
    nominal_voltage: Voltage = unrecorded("Nominal voltage between its live conductors.", "240 V")
    voltage_to_ground: Voltage = unrecorded("Highest voltage of a conductor to earth.", "120 V")
    phases: Phases = unrecorded("Phases of the circuit.", 1)
    frequency: Frequency = unrecorded("Nominal frequency.", "60 Hz")
    breaker: Current = unrecorded("Rating of its breaker or fuse.", "50 A")
    dedicated: YesNo = unrecorded("Whether it feeds the machine and nothing else.")
    connection: Annotated[Recorded, word("hard-wired", "socket")] = unrecorded(
        "How the machine is joined to it.", "hard-wired"
    )
    length: Length = unrecorded("One-way length of the conductors.", "60 ft", "18 m")
    conductor: Size = unrecorded("Size of its live conductors.", "8 AWG", "10 mm2")
    conductor_material: Annotated[Recorded, word("copper", "aluminium")] = unrecorded(
        "Material of the conductors.", "copper"
    )
    conductor_ampacity: Current = unrecorded(
        "What the conductors may carry as they are laid, found by an electrician.", "50 A"
    )
    continuous_load: Current = unrecorded("Load that may last three hours or more.", "32 A")
    other_load: Current = unrecorded("Load that does not last so long.", "5 A")
    rcd: Maybe[Rcd] = unrecorded("Its residual-current device.")


class Panel(Thing):
    """A panel or board with live parts behind a cover."""

    kind_of_thing: ClassVar[str] = "panel"
    name: Words = unrecorded("What people call it.", "Board A")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it hangs in.", "shop")
    at: Place = unrecorded("The middle of its front on the floor plan.", ["0 m", "3 m"])
    width: Length = unrecorded("Width of the panel itself.", "20 in", "0.6 m")
    voltage_to_ground: Voltage = unrecorded("Highest voltage in it to earth.", "120 V")
    condition: Annotated[Recorded, word("nothing live or earthed", "earthed surface", "live parts")] = unrecorded(
        "What stands opposite a person who works at it.", "earthed surface"
    )
    clear_depth: Distance = unrecorded("Free depth in front of it.", "36 in", "1 m")
    clear_width: Distance = unrecorded("Free width in front of it.", "30 in")
    clear_height: Distance = unrecorded("Free height in front of it.", "6.5 ft")
    inspected_on: LastDone = unrecorded("When the installation was last inspected and tested.", "2024-02-20", "never")


class ChargingPlace(Thing):
    """A place where lead-acid batteries are charged."""

    kind_of_thing: ClassVar[str] = "charging_place"
    name: Words = unrecorded("What people call it.", "battery bench")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it lies in.", "shop")
    at: Place = unrecorded("Where one stands at it, on the floor plan.", ["0 m", "3 m"])
    cells: Several = unrecorded("Cells charged at once; a 12 V battery has six.", 6)
    gassing_current: Current = unrecorded("Current per battery string that makes gas.", "5 A")
    air_flow: Flow = unrecorded("Air that passes over the batteries.", "10 m3/h")
    low_opening: Area = unrecorded(
        "Free area of the low opening to outdoors that always stands open.", "100 cm2", "16 in2"
    )
    high_opening: Area = unrecorded(
        "Free area of the high opening to outdoors on the other side, always open too.", "100 cm2", "16 in2"
    )
    ventilated: YesNo = unrecorded("Whether fresh air reaches it.")
    charger_height: Distance = unrecorded("Height of the charger's sparking parts above the floor.", "18 in")
    spark_distance: Distance = unrecorded("From the batteries to the nearest thing that sparks or glows.", "2 ft")
    topped_up: YesNo = unrecorded("Whether cells are topped up with water or acid here.")
    eyewash: YesNo = unrecorded("Whether an eyewash is close by.")
    walk_to_eyewash: Distance = unrecorded(
        "Walk from here to the nearest eyewash that is no bottle, round all that stands in the way.", "20 ft", "6 m"
    )
    rinse_volume: Amount = unrecorded(
        "Rinsing water at hand in sealed bottles, where there is no eyewash.", "1 L", "0.5 US gal"
    )
    goggles_and_gloves: YesNo = unrecorded("Whether goggles and acid-proof gloves lie ready.")
