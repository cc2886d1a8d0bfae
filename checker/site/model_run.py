"""Runs on a dynamometer: what was run, how fast, who stood where, what lies in line, and what a failure does."""

from typing import Annotated, ClassVar

from checker.site.aliases import (
    Date,
    Distance,
    Duration,
    Force,
    Found,
    LastDone,
    Mass,
    Power,
    Speed,
    Words,
    YesNo,
)
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.names import Reference
from checker.site.parts import Maybe, Noted, Thing, unrecorded


class Tyre(Noted):
    """The tyre that turns the rollers; of several, the one with the lowest speed symbol or the worst state."""

    speed_symbol: Annotated[
        Recorded,
        word("F", "G", "J", "K", "L", "M", "N", "P", "Q", "R", "S", "T", "U", "H", "V", "W", "Y", "ZR", "none"),
    ] = unrecorded("The letter for its highest speed, behind the load index on its side.", "V")
    sound: Found = unrecorded("Whether it is free of cuts, bulges, cracks and plugs, with tread left and air as asked.")
    made_on: Date = unrecorded("When it was made; the four digits on its side are week and year.", "2023-06-01")


class Run(Thing):
    """A run that was watched, or the hardest run that is usual: one vehicle, one speed, one power."""

    kind_of_thing: ClassVar[str] = "run"
    name: Words = unrecorded("What people call it.", "full power, sports motorcycle")
    dyno: Annotated[Recorded, Reference("dyno")] = unrecorded("The dynamometer it is made on.", "d1")
    vehicle: Words = unrecorded("The vehicle.", "sports motorcycle, 1000 cm3")
    fuel: Annotated[
        Recorded, word("petrol", "diesel", "alcohol", "race fuel", "gas", "hydrogen", "electricity", "other")
    ] = unrecorded("What it runs on.", "petrol")
    on: Date = unrecorded("When it was made.", "2026-11-03")
    lasts: Duration = unrecorded("How long it is under load.", "12 s")
    vehicle_mass: Mass = unrecorded("Mass of the vehicle with whoever sits on it.", "280 kg", "4200 lb")
    roller_load: Mass = unrecorded("Mass that rests on the rollers, straps slack.", "150 kg")
    top_speed: Speed = unrecorded("Highest speed at the rollers' surface.", "160 mph", "250 km/h")
    highest_power: Power = unrecorded("Highest power at the rollers.", "180 hp", "130 kW")
    power_at_hardest_pull: Power = unrecorded("Power at the moment of the highest torque, off the chart.", "95 kW")
    speed_at_hardest_pull: Speed = unrecorded("Roller speed at the moment of the highest torque.", "150 km/h")
    tractive_force: Force = unrecorded(
        "Highest force at the rollers' surface, where the machine shows it.", "2.3 kN", "500 lbf"
    )
    tyre: Maybe[Tyre] = unrecorded("The tyre on the rollers.")
    operator_at: Annotated[
        Recorded, word("on or in the vehicle", "console outside the room", "console in the room", "beside the vehicle")
    ] = unrecorded("Where the person is who gives the throttle.", "on or in the vehicle")
    helper_at: Annotated[
        Recorded, word("no helper", "console outside the room", "console in the room", "beside the vehicle")
    ] = unrecorded("Where the helper is.", "console in the room")
    danger_area_empty: YesNo = unrecorded(
        "Whether nobody was beside wheels and rollers, in line with them, or in line with a tight strap."
    )
    hot_exhaust_clear: Found = unrecorded(
        "Whether hot exhaust parts and the jet behind them are clear of straps, hoses, cables, fuel lines and covers."
    )


class WheelLine(Noted):
    """What lies in line with the wheels on one side: where a vehicle or a part of one would go."""

    clear_distance: Distance = unrecorded("From the wheel on the rollers to the first thing that would stop it.", "5 m")
    ends_at: Annotated[
        Recorded, word("solid wall", "thin wall", "window", "door or gate", "equipment", "open ground")
    ] = unrecorded("What the first thing is that would stop a vehicle there.", "solid wall")
    people_stay: YesNo = unrecorded("Whether a seat, a console or another place where people stay lies in it.")
    people_pass: YesNo = unrecorded("Whether a way or a door that is used during runs leads through it.")
    fuel_or_gas: YesNo = unrecorded("Whether fuel, gas bottles or pipes with gas stand in it.")


class OnFailure(Noted):
    """What the machine was seen to do when something fails."""

    power_loss_safe: Found = unrecorded("Whether power was cut in a run, and vehicle and rollers came to rest safely.")
    starts_only_on_purpose: Found = unrecorded(
        "Whether power came back and nothing turned before somebody started it on purpose."
    )
    load_loss_safe: Found = unrecorded("Whether the brake's load or its signal was cut, and the engine did not race.")
    uses_air: YesNo = unrecorded("Whether compressed air holds or works anything in a run.")
    air_loss_safe: Found = unrecorded("Whether air was shut off, and clamps held and nothing moved by itself.")


class DuringRuns(Noted):
    """How runs are held, as people do it."""

    kept_out_by: Annotated[
        Recorded, word("shut door", "fixed barrier", "rope or chain", "line on the floor", "nothing")
    ] = unrecorded("What keeps everybody else out during a run.", "shut door")
    signals: Annotated[
        Recorded, word("one person alone runs it", "headset", "agreed hand signals", "lamp or horn", "nothing agreed")
    ] = unrecorded("How rider and operator tell each other to stop.", "agreed hand signals")
    somebody_within_call: YesNo = unrecorded("Whether somebody who can stop the machine is within call at every run.")
    waits_for_standstill: YesNo = unrecorded(
        "Whether everybody keeps off until the rollers are seen to stand still and cannot be started."
    )
    extinguisher_without_crossing: YesNo = unrecorded(
        "Whether rider and operator reach an extinguisher without crossing rollers or the line of the wheels."
    )
    door_without_crossing: YesNo = unrecorded(
        "Whether rider and operator reach a door without crossing rollers or the line of the wheels."
    )
    vehicle_fire_drill_on: LastDone = unrecorded(
        "When a fire on a vehicle on the rollers was last practised: stop, straps, extinguisher, way out.",
        "2026-05-20",
        "never",
    )
