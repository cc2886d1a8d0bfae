"""Rooms, with their doors, what stands in the way, and readings taken in them."""

from typing import Annotated, ClassVar

from checker.site.aliases import (
    Area,
    Concentration,
    Corners,
    Date,
    Distance,
    Duration,
    Force,
    Found,
    Heads,
    Illuminance,
    Length,
    Place,
    PressureDifference,
    SoundLevel,
    Temperature,
    Volume,
    Words,
    YesNo,
)
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.model_floor import ClearZone, FloorGap, Partition
from checker.site.model_room_air import MakeUpAir
from checker.site.names import Reference
from checker.site.parts import List, Maybe, Noted, Thing, unrecorded


class ExitSign(Noted):
    """The sign that shows a door as a way out."""

    seen: Found = unrecorded("Whether it is seen from wherever one decides which way to go.")
    lit_without_mains: Found = unrecorded("Whether it can still be read when the mains fails.")
    letters: Length = unrecorded("Height of its letters, where it is written in words.", "6 in")


class Door(Thing):
    """A door, gate or roller shutter that a person can leave by."""

    kind_of_thing: ClassVar[str] = "door"
    to: Annotated[Recorded, Reference("room", ("outside",))] = unrecorded(
        "The room it leads to, or outside.", "store", "outside"
    )
    at: Place = unrecorded("The middle of its opening on the floor plan, on the wall.", ["9 m", "2 m"])
    width: Length = unrecorded("Clear width when fully open.", "36 in", "0.9 m")
    height: Length = unrecorded("Clear height.", "80 in", "2.1 m")
    locked: YesNo = unrecorded("Whether it is locked, barred or blocked while people are inside.")
    swing: Annotated[Recorded, word("in", "out", "both", "sliding", "roller")] = unrecorded(
        "Which way it opens, seen from this room.", "out"
    )
    hinge: Annotated[Recorded, word("left", "right")] = unrecorded(
        "The side on which it hangs, seen from inside this room.", "left"
    )
    kind: Annotated[Recorded, word("pedestrian door", "vehicle gate", "door in a vehicle gate")] = unrecorded(
        "What it is made for.", "pedestrian door"
    )
    way_out: YesNo = unrecorded("Whether people are meant to leave by it in a fire.")
    opens_at_once: Found = unrecorded(
        "Whether it opens from inside at any time by one movement, without a key, a code, a tool or power."
    )
    served: Heads = unrecorded("How many people at most are meant to leave by it.", 8)
    pedestrian_door_beside: YesNo = unrecorded("Whether a door for people stands right beside it; asked of gates.")
    safe_on_foot: YesNo = unrecorded("Whether people can walk through it safely, vehicles or not; asked of gates.")
    opening_force: Force = unrecorded(
        "Force at the handle that sets it moving, with all fans running.", "40 N", "9 lbf"
    )
    exit_sign: Maybe[ExitSign] = unrecorded("The sign that shows it as a way out.")


class Obstacle(Thing):
    """Something fixed or heavy that people walk round: a lift, a bench, a rack, a column."""

    kind_of_thing: ClassVar[str] = "obstacle"
    name: Words = unrecorded("What people call it.", "parts shelf")
    outline: Corners = unrecorded("Its corners on the floor.", [["2 m", "1 m"], ["4 m", "1 m"], ["4 m", "2 m"]])
    height: Length = unrecorded("Its height above the floor.", "3 ft")


class Readings(Noted):
    """What instruments showed in the room while engines ran."""

    co_8h: Concentration = unrecorded("Carbon monoxide, mean over a working day of eight hours.", "12 ppm")
    co_15min: Concentration = unrecorded("Carbon monoxide, mean over the worst 15 minutes.", "60 ppm")
    co_peak: Concentration = unrecorded("Carbon monoxide, highest reading.", "150 ppm")
    no2_8h: Concentration = unrecorded("Nitrogen dioxide, mean over a working day of eight hours.", "0.2 ppm")
    no2_15min: Concentration = unrecorded("Nitrogen dioxide, mean over the worst 15 minutes.", "0.6 ppm")
    no_8h: Concentration = unrecorded("Nitrogen monoxide, mean over a working day of eight hours.", "1 ppm")
    benzene_8h: Concentration = unrecorded("Benzene, mean over a working day of eight hours.", "0.1 ppm")
    noise_level: SoundLevel = unrecorded("A-weighted level where people stand during a run.", "96 dB(A)")
    noise_hours: Duration = unrecorded("How long one person is exposed to that level in a day.", "2 h")
    temperature: Temperature = unrecorded("Air temperature at the end of a run.", "31 °C", "88 °F")


class Room(Thing):
    """A room, or a bay without walls of its own; outlines lie in one frame a storey, x to the right, y up."""

    kind_of_thing: ClassVar[str] = "room"
    name: Words = unrecorded("What people on the site call it.", "Dyno cell")
    kind: Annotated[
        Recorded,
        word(
            "running room",
            "workshop",
            "control room",
            "office",
            "store",
            "customer area",
            "plant room",
            "corridor",
            "other",
        ),
    ] = unrecorded("What it is used for; vehicles run on rollers in a running room.", "running room")
    storey: Words = unrecorded("The storey it lies on; rooms of one storey share one frame.", "ground floor")
    outline: Corners = unrecorded(
        "Its corners in order, inside the walls.",
        [["0 ft", "0 ft"], ["30 ft", "0 ft"], ["30 ft", "20 ft"], ["0 ft", "20 ft"]],
    )
    length: Length = unrecorded("Inside length, wall to wall.", "30 ft", "9.1 m")
    width: Length = unrecorded("Inside width, wall to wall.", "20 ft", "6.1 m")
    height: Length = unrecorded(
        "Floor to ceiling, or to the underside of what hangs lowest all over.", "12 ft", "3.7 m"
    )
    floor_area: Area = unrecorded("Floor area, where it is known and not to be worked out.", "600 ft2", "56 m2")
    volume: Volume = unrecorded("Volume of air, where it is known and not to be worked out.", "7200 ft3", "204 m3")
    engines_run: YesNo = unrecorded("Whether engines that burn fuel run in it.")
    repairs_vehicles: YesNo = unrecorded("Whether vehicles are repaired in it.")
    mechanical_exhaust: YesNo = unrecorded("Whether a fan draws air out of it.")
    exhaust_switch_at_entrance: YesNo = unrecorded("Whether the exhaust fan can be switched on at the entrance.")
    exhaust_recirculated: YesNo = unrecorded("Whether air drawn out comes back into this or another room.")
    make_up: Maybe[MakeUpAir] = unrecorded("The air that replaces what the exhaust takes out.")
    suction: PressureDifference = unrecorded(
        "How far the pressure in it lies below that outdoors, all fans running, doors shut.", "10 Pa"
    )
    installed_on: Date = unrecorded("When it was fitted out for its present use.", "2024-05-01")
    lining: Annotated[
        Recorded, word("none", "plasterboard", "mineral wool", "metal sheet", "timber", "plastic foam", "textile")
    ] = unrecorded("What the walls and the ceiling are lined with, for sound or for looks.", "mineral wool")
    lining_burns: YesNo = unrecorded(
        "Whether the lining of walls and ceiling burns, as its label or data sheet has it."
    )
    way_out_width: Length = unrecorded("Narrowest place of the way people leave by.", "36 in")
    way_out_headroom: Length = unrecorded(
        "Lowest place above the way people leave by, under pipes, beams and gates.", "80 in"
    )
    dead_end: Distance = unrecorded(
        "Longest stretch of way in it that leads to no exit, so that one has to turn back; 0 m where there is none.",
        "15 ft",
    )
    one_exit_enough: YesNo = unrecorded(
        "Whether one way out would be enough for it, as the building official or the table of the building code has it."
    )
    aisle_width: Length = unrecorded("Narrowest aisle or walkway between machines, benches and stock.", "32 in")
    aisle_headroom: Length = unrecorded("Lowest place above the aisles.", "7 ft")
    most_people: Heads = unrecorded("The most people in it at one time, visitors among them.", 6)
    working_people: Heads = unrecorded("How many people normally work in it.", 2)
    counted_as: Annotated[
        Recorded,
        word(
            "industrial area",
            "parking garage",
            "warehouse",
            "business area",
            "workshop for training",
            "sales area",
            "seats at tables",
            "standing spectators",
            "locker room",
        ),
    ] = unrecorded(
        "The use by whose floor area the building official counts people in it; codes have none for repair bays.",
        "industrial area",
    )
    fire_risk: Annotated[Recorded, word("low", "normal", "high")] = unrecorded(
        "The danger of fire in it, as the fire risk assessment or the fire official has it.", "normal"
    )
    fire_risk_by: Words = unrecorded("Who found that danger of fire, and when.", "fire risk assessment of 2026-02-10")
    fire_risk_measures: Found = unrecorded(
        "Whether what the fire risk assessment asks beyond the usual, such as more units or shorter ways, is in place."
    )
    special_fire_hazard: YesNo = unrecorded(
        "Whether the fire risk assessment takes it for a place of special fire hazard, such as fuel or paint."
    )
    way_out_free: Found = unrecorded("Whether the way people leave by is free of vehicles, hoses, cables and goods.")
    light: Illuminance = unrecorded("Light where people work at the machine, from lamps alone.", "300 lx", "30 fc")
    turning_parts_seen: Found = unrecorded("Whether turning parts look turning under the lamps, at every speed.")
    floor_sound: Found = unrecorded("Whether the floor is dry, clean, level and free of things to trip over.")
    lowest_spark: Distance = unrecorded(
        "Height above the floor of the lowest thing that sparks, glows or burns: motors, switches, sockets, heaters.",
        "20 in",
    )
    spark_below_ceiling: Distance = unrecorded(
        "From the ceiling down to the highest thing that sparks or glows and is not made for gas that burns.", "2 ft"
    )
    exhaust_drawn: Annotated[Recorded, word("low", "high", "low and high")] = unrecorded(
        "Where the exhaust fan draws air: close to the floor, at the highest point, or both.", "low"
    )
    exhaust_below_ceiling: Distance = unrecorded(
        "From the highest point of the ceiling down to the opening where exhaust air leaves.", "12 in"
    )
    smoking_kept_out: Found = unrecorded("Whether nobody smokes in it, and a sign says so.")
    parts_cleaned_in: Annotated[
        Recorded, word("machine with water", "listed machine with solvent", "open tray", "nothing")
    ] = unrecorded("What parts are washed in.", "machine with water")
    floor_drain: Annotated[Recorded, word("none", "to a separator", "elsewhere")] = unrecorded(
        "Where floor drains lead; a separator holds oil and fuel back.", "to a separator"
    )
    separator_kept_clear: Found = unrecorded(
        "Whether the separator of its floor drain is emptied before it is full, with records."
    )
    readings: Maybe[Readings] = unrecorded("What instruments showed while engines ran.")
    doors: List[Door] = unrecorded("The doors one can leave by.")
    obstacles: List[Obstacle] = unrecorded("What stands in the way of people walking.")
    partitions: List[Partition] = unrecorded("Walls and screens inside it.")
    clear_zones: List[ClearZone] = unrecorded("Floor that has to stay clear.")
    farthest_from_first_aid_kit: Distance = unrecorded(
        "Longest walk from any point of it to the nearest first-aid kit whose contents are all there; by the stairs "
        "where that hangs on another storey.",
        "30 m",
    )
    floor_gaps: List[FloorGap] = unrecorded("Narrow gaps between what stands there, and who can get into them.")
    walls_solid: YesNo = unrecorded("Whether its walls would stop what the rollers throw: masonry, concrete, steel.")
