"""Fans, compressed air, and what compressed air moves."""

from typing import Annotated, ClassVar

from checker.site.aliases import (
    Distance,
    Flow,
    Found,
    FreeAir,
    GaugePressure,
    LastDone,
    Length,
    Volume,
    Words,
    YesNo,
)
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.names import Reference
from checker.site.parts import Thing, unrecorded


class Fan(Thing):
    """A fan that moves air out of, into or around a room."""

    kind_of_thing: ClassVar[str] = "fan"
    name: Words = unrecorded("What people call it.", "wall fan")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room whose air it moves.", "cell")
    moves: Annotated[Recorded, word("out of the room", "into the room", "around the room")] = unrecorded(
        "Which way it moves air.", "out of the room"
    )
    flow: Flow = unrecorded("Air flow as installed.", "3000 cfm", "1.4 m3/s")
    blade_height: Distance = unrecorded("Height of the lowest part of the blades above the floor.", "8 ft", "2.4 m")
    guarded: YesNo = unrecorded("Whether a guard covers the blades on every side that can be reached.")
    guard_opening: Distance = unrecorded(
        "Widest opening of its guard; leave out where there is no guard.", "1/2 in", "12 mm"
    )
    outdoors: YesNo = unrecorded("Whether it stands outdoors.")


class AirSystem(Thing):
    """A compressor with its receiver and pipes."""

    kind_of_thing: ClassVar[str] = "air_system"
    name: Words = unrecorded("What people call it.", "shop air")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room the receiver stands in.", "plant")
    delivered: FreeAir = unrecorded("Free air delivered by the compressor.", "15 cfm", "7 L/s")
    receiver_pressure: GaugePressure = unrecorded("Pressure in the receiver in normal use.", "125 psi", "8.5 bar")
    receiver_volume: Volume = unrecorded("Volume of the receiver.", "60 US gal", "270 L")
    max_working_pressure: GaugePressure = unrecorded(
        "Highest working pressure on the receiver's plate.", "150 psi", "11 bar"
    )
    relief_pressure: GaugePressure = unrecorded("Pressure at which the safety valve opens.", "140 psi", "10.5 bar")
    gauge_reads: Found = unrecorded("Whether the receiver's gauge can be seen and reads right.")
    valve_before_safety_valve: YesNo = unrecorded("Whether any valve lies between the receiver and its safety valve.")
    drained: Annotated[Recorded, word("by itself", "by hand, each week or more", "now and then", "not")] = unrecorded(
        "How water is let out at the receiver's lowest point.", "by itself"
    )
    condensate_to: Annotated[
        Recorded, word("oil separator", "container for oily waste", "drain", "ground", "nothing, oil-free")
    ] = unrecorded("Where the oily water goes.", "oil separator")
    dried_and_filtered: YesNo = unrecorded("Whether a dryer and a filter stand before what needs clean air.")
    feeds_masks: YesNo = unrecorded("Whether anybody breathes its air through a mask or hood.")
    fit_to_breathe: YesNo = unrecorded("Whether a test in date shows that its air is fit to breathe.")
    written_scheme: YesNo = unrecorded("Whether a competent person has written a scheme of examination.")
    examined_on: LastDone = unrecorded("When the receiver was last examined.", "2025-09-12", "never")
    pipe_bore: Length = unrecorded("Inside diameter of the pipe to the accessories.", "1/2 in", "13 mm")
    pipe_length: Length = unrecorded("Length of the pipe to the accessories.", "50 ft", "15 m")


class Accessory(Thing):
    """Something on or beside a dynamometer that compressed air moves."""

    kind_of_thing: ClassVar[str] = "accessory"
    name: Words = unrecorded("What people call it.", "wheel clamp")
    dyno: Annotated[Recorded, Reference("dyno")] = unrecorded("The dynamometer it belongs to.", "dyno-1")
    air_system: Annotated[Recorded, Reference("air_system")] = unrecorded("The air system that feeds it.", "shop-air")
    kind: Annotated[Recorded, word("clamp", "lift", "brake", "blow gun", "tool")] = unrecorded("What it does.", "clamp")
    pressure: GaugePressure = unrecorded("Pressure at its connection while it works.", "100 psi", "7 bar")
    flow: FreeAir = unrecorded("Free air through its connection while it works.", "5 cfm", "2.4 L/s")
    blocked_pressure: GaugePressure = unrecorded("Pressure at its nozzle when the nozzle is blocked.", "30 psi")


class AirHose(Thing):
    """A hose under pressure, from a pipe to what it feeds."""

    kind_of_thing: ClassVar[str] = "air_hose"
    name: Words = unrecorded("What people call it.", "hose to the wheel clamp")
    air_system: Annotated[Recorded, Reference("air_system")] = unrecorded("The air system that feeds it.", "shop-air")
    bore: Length = unrecorded("Its inside diameter.", "3/8 in", "10 mm")
    sound: Found = unrecorded("Whether it is free of cuts, bulges, burns and leaks, with its ends made for it.")
    clear_of_rollers: Found = unrecorded("Whether it lies where no roller, wheel or hot part can catch it.")
    if_it_parts: Annotated[Recorded, word("air shuts off by itself", "held by a cable or chain", "whips freely")] = (
        unrecorded("What it does when it parts or bursts under pressure.", "held by a cable or chain")
    )
