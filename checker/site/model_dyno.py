"""A dynamometer: the machine, its plate and manual, how exhaust leaves it, how it is held down and stopped."""

from typing import Annotated, ClassVar

from checker.site.aliases import (
    Area,
    Corners,
    Current,
    Date,
    Distance,
    Duration,
    Flow,
    Force,
    Found,
    Frequency,
    Inertia,
    LastDone,
    Length,
    Mass,
    Phases,
    Place,
    Polyline,
    Power,
    Rotation,
    Several,
    Speed,
    Stress,
    Temperature,
    Voltage,
    Volume,
    Words,
    YesNo,
)
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.model_computer import Computer
from checker.site.model_guard import DebrisShield
from checker.site.model_isolation import Isolation
from checker.site.model_restraint import Restraint
from checker.site.model_run import DuringRuns, OnFailure, WheelLine
from checker.site.names import Reference
from checker.site.parts import List, Maybe, Noted, Thing, unrecorded


class Rollers(Noted):
    """The rollers or drums the wheels turn."""

    diameter: Length = unrecorded("Outside diameter of a roller.", "18 in", "460 mm")
    width: Length = unrecorded("Width of a roller.", "24 in")
    inertia: Inertia = unrecorded("Moment of inertia of all that turns with the rollers.", "12 kg m2")
    top_speed: Speed = unrecorded("Highest speed at the rollers' surface that is run.", "200 mph", "320 km/h")
    guarded: YesNo = unrecorded("Whether guards keep people off the turning parts during a run.")
    covered_when_idle: YesNo = unrecorded("Whether the opening is covered when no vehicle stands on it.")
    pit_depth: Distance = unrecorded(
        "Depth of the pit below the floor; 0 m where the machine stands on the floor.", "2 ft"
    )
    in_pit: YesNo = unrecorded("Whether they lie in a pit below the floor, where vapour could gather.")
    pit_area: Area = unrecorded("Floor area of the pit that they lie in.", "50 ft2", "4.6 m2")
    pit_exhaust: Flow = unrecorded("Air drawn from the bottom of the pit by a fan; 0 cfm without one.", "75 cfm")


class Absorber(Noted):
    """The brake that loads the engine."""

    kind: Annotated[Recorded, word("eddy current", "water brake", "friction brake", "electric machine")] = unrecorded(
        "How it takes up power.", "eddy current"
    )
    power: Power = unrecorded("Power it can take up for as long as runs last.", "300 hp", "220 kW")
    cooled_by: Annotated[Recorded, word("room air", "outside air", "water", "returned to the mains")] = unrecorded(
        "Where its heat goes.", "room air"
    )
    over_temperature_trip_proved: Found = unrecorded(
        "Whether its over-temperature trip was tried, by heat or by its test, and ended the run."
    )


class Plate(Noted):
    """What the plate on the machine says."""

    voltage: Voltage = unrecorded("Rated voltage on the plate.", "240 V")
    phases: Phases = unrecorded("Phases on the plate.", 1)
    frequency: Frequency = unrecorded("Frequency on the plate.", "60 Hz")
    current: Current = unrecorded("Rated current on the plate.", "32 A")
    power: Power = unrecorded("Rated power on the plate.", "7.5 kW")
    max_roller_speed: Speed = unrecorded("Highest speed at the rollers' surface on the plate.", "320 km/h", "200 mph")
    max_vehicle_power: Power = unrecorded("Highest power at the wheels on the plate.", "300 kW", "400 hp")
    max_roller_load: Mass = unrecorded("Highest load on the rollers on the plate.", "1500 kg", "3300 lb")


class Manual(Noted):
    """What the maker's manual for this machine asks of the supply."""

    title: Words = unrecorded("Title of the manual.", "Installation guide")
    edition: Words = unrecorded("Edition or date of the manual.", "rev. C")
    voltage: Voltage = unrecorded("Supply voltage it asks for.", "240 V")
    phases: Phases = unrecorded("Phases it asks for.", 1)
    breaker: Current = unrecorded("Rating of the breaker it asks for.", "50 A")


class ReliesOn(Noted):
    """The parts that a run needs."""

    absorber: YesNo = unrecorded("Whether runs use the absorber.")
    blower: YesNo = unrecorded("Whether runs use a blower that cools the vehicle.")
    starter: YesNo = unrecorded("Whether runs use the starter that spins up the rollers.")


class Capture(Noted):
    """The extraction that takes exhaust gas from the tailpipe."""

    connected: YesNo = unrecorded("Whether it is joined to the tailpipe; no: it stands open behind it.")
    discharges_outdoors: YesNo = unrecorded("Whether it ends in the open air.")
    engine_stops_without_flow: YesNo = unrecorded("Whether loss of flow stops the engine.")
    interlock_proved: Found = unrecorded("Whether it was tried that loss of flow stops the engine, and it did.")
    flow: Flow = unrecorded("Air flow it draws.", "600 cfm", "0.28 m3/s")
    bore: Length = unrecorded("Inside diameter of its narrowest hose or duct.", "6 in", "150 mm")
    couplings_tight: Found = unrecorded("Whether hoses, nozzle and couplings are sound and tight.")
    examined_on: LastDone = unrecorded("When it was last examined thoroughly.", "2026-03-14", "never")
    outlet_to_property_line: Distance = unrecorded("From its outlet to the nearest boundary of the property.", "12 ft")
    outlet_to_opening: Distance = unrecorded("From its outlet to the nearest door, window or air intake.", "15 ft")
    outlet_above_ground: Distance = unrecorded("Height of its outlet above the ground.", "14 ft")


class SlabJoint(Noted):
    """A joint, a saw cut or a crack along which the slab ends for an anchor."""

    line: Polyline = unrecorded("The points it runs through on the floor plan.", [["0 m", "3 m"], ["6 m", "3 m"]])


class Anchors(Noted):
    """What holds the machine, or the vehicle on it, to the floor."""

    kind: Annotated[
        Recorded,
        word(
            "cast-in bolt",
            "expansion torque-controlled",
            "expansion displacement-controlled",
            "screw",
            "undercut",
            "bonded",
        ),
    ] = unrecorded("How the anchors hold.", "bonded")
    count: Several = unrecorded("How many anchors share the load.", 4)
    places: Polyline = unrecorded(
        "The middle of each anchor on the floor plan.", [["2 m", "1 m"], ["5 m", "1 m"], ["5 m", "3 m"], ["2 m", "3 m"]]
    )
    slab: Corners = unrecorded("The outline of the slab that the anchors stand in.", [["0 m", "0 m"], ["9 m", "6 m"]])
    joints: List[SlabJoint] = unrecorded("Joints and cuts in the slab.")
    diameter: Length = unrecorded("Nominal diameter of an anchor.", "1/2 in", "12 mm")
    embedment: Length = unrecorded("Effective embedment depth.", "4 in", "100 mm")
    spacing: Length = unrecorded("Smallest distance between two anchors, centre to centre.", "12 in")
    edge_distance: Distance = unrecorded("From an anchor to the nearest edge of the concrete.", "10 in")
    slab_thickness: Length = unrecorded("Thickness of the slab.", "6 in", "150 mm")
    concrete_strength: Stress = unrecorded("Compressive strength of the concrete, cylinder.", "3000 psi", "25 MPa")
    cracked: YesNo = unrecorded("Whether the concrete is taken as cracked.")
    product_data: YesNo = unrecorded("Whether the anchor's own design data are at hand.")
    certified: YesNo = unrecorded("Whether the installer's certificate of completion for these anchors is on file.")
    design_tension: Force = unrecorded("Largest design tension on one anchor.", "2000 lbf", "9 kN")


class Actuator(Noted):
    """One more button or cord that works the same stop."""

    at: Place = unrecorded("Where it is on the floor plan.", ["2 ft", "6 ft"])


class EmergencyStop(Noted):
    """The emergency stop of the machine."""

    at: Place = unrecorded("Where its actuator is on the floor plan.", ["14 ft", "6 ft"])
    other_actuators: List[Actuator] = unrecorded("Its other actuators; none where it has one alone.")
    in_reach: YesNo = unrecorded("Whether it can be reached from the seat and from the console.")
    latches: YesNo = unrecorded("Whether it stays in until it is reset by hand.")
    height: Distance = unrecorded("Height of the actuator above the floor.", "40 in", "1 m")
    proved: Found = unrecorded("Whether it was tried and stopped the machine.")
    proved_from: Speed = unrecorded("Speed at the rollers' surface when it was tried.", "120 km/h")
    stopped_in: Duration = unrecorded("How long the rollers then took to standstill.", "9 s")
    extraction_runs_on: Found = unrecorded("Whether exhaust extraction and room exhaust ran on after it was pressed.")
    light_stays_on: Found = unrecorded("Whether the light stayed on after it was pressed.")
    colours: Annotated[Recorded, word("red on yellow", "red", "other")] = unrecorded(
        "Colour of the actuator, and of what lies behind it.", "red on yellow"
    )
    removes_power: Found = unrecorded("Whether power is off drive and starter once the machine has stopped.")
    reset_starts_nothing: Found = unrecorded("Whether it was reset and nothing started before somebody started it.")


class Condition(Noted):
    """The state of the machine's parts, as found on a day."""

    battery_charged: Found = unrecorded("Whether the starter's battery is charged.")
    battery_on_maintenance_charger: Found = unrecorded("Whether the battery stands on a maintenance charger when idle.")
    acid_protection_used: Found = unrecorded("Whether gloves and goggles are worn when battery acid is handled.")
    pickup_aligned: Found = unrecorded("Whether the speed pickup is aligned with its target.")
    pickup_plug_tight: Found = unrecorded("Whether the pickup's plug sits tight.")
    bearing_fasteners_at_torque: Found = unrecorded("Whether the bearing fasteners were checked at their torque.")
    starter_fasteners_at_torque: Found = unrecorded("Whether the starter's fasteners were checked at their torque.")
    starter_aligned: Found = unrecorded("Whether the starter is aligned with what it drives.")
    drive_line_sound: Found = unrecorded("Whether shafts, couplings and joints are sound.")
    brake_sensor_aimed: Found = unrecorded("Whether the brake's temperature sensor is aimed at the brake.")
    lines_tied_clear: Found = unrecorded("Whether cables and hoses are tied clear of moving and hot parts.")
    plugs_seated: Found = unrecorded("Whether all plugs are fully seated.")
    unused_ports_terminated: Found = unrecorded("Whether unused ports of the data line are terminated.")
    main_breaker_works: Found = unrecorded("Whether the main breaker switches the machine off and on.")
    main_indicator_works: Found = unrecorded("Whether the main indicator lamp lights.")


class Dyno(Thing):
    """A dynamometer on which vehicles run on rollers."""

    kind_of_thing: ClassVar[str] = "dyno"
    name: Words = unrecorded("What people call it.", "Dyno 1")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it stands in.", "cell")
    at: Place = unrecorded("The middle of the rollers on the floor plan.", ["12 ft", "8 ft"])
    faces: Place = unrecorded("A point on the floor plan straight ahead of the vehicle's nose.", ["20 ft", "8 ft"])
    footprint: Corners = unrecorded(
        "The corners of the machine on the floor plan.", [["2 m", "1 m"], ["5 m", "1 m"], ["5 m", "3 m"]]
    )
    operator_place: Place = unrecorded(
        "Where the person who runs it stands or sits during a run, on the floor plan.", ["14 ft", "4 ft"]
    )
    widest_vehicle: Length = unrecorded("Width of the widest vehicle that is run on it.", "0.9 m", "75 in")
    installed_on: Date = unrecorded("When it was put in.", "2024-05-01")
    runs: Annotated[Recorded, word("motorcycles", "cars", "cars and motorcycles")] = unrecorded(
        "What is run on it.", "motorcycles"
    )
    runs_combustion: YesNo = unrecorded("Whether engines that burn fuel are run on it.")
    highest_power: Power = unrecorded("Highest power run on it, at the wheel.", "200 hp", "150 kW")
    engine_displacement: Volume = unrecorded("Displacement of the largest engine run on it.", "1300 cm3", "2 L")
    engine_speed: Rotation = unrecorded("Speed of the largest engine at its highest power.", "11000 rpm")
    exhaust_temperature: Temperature = unrecorded(
        "Temperature of the exhaust gas at the tailpipe under load.", "500 °C", "930 °F"
    )
    rollers: Maybe[Rollers] = unrecorded("The rollers or drums.")
    absorber: Maybe[Absorber] = unrecorded(
        "The brake that loads the engine; none on a machine that measures by inertia alone."
    )
    plate: Maybe[Plate] = unrecorded("What the plate on the machine says.")
    manual: Maybe[Manual] = unrecorded("What the maker's manual asks for.")
    circuit: Annotated[Recorded, Reference("circuit")] = unrecorded("The circuit that feeds it.", "dyno-feed")
    relies_on: Maybe[ReliesOn] = unrecorded("The parts that a run needs.")
    capture: Maybe[Capture] = unrecorded("The extraction at the tailpipe.")
    anchors: Maybe[Anchors] = unrecorded("What holds it down.")
    emergency_stop: Maybe[EmergencyStop] = unrecorded("Its emergency stop.")
    restraint: Maybe[Restraint] = unrecorded("How vehicles are held on it.")
    debris_shield: Maybe[DebrisShield] = unrecorded("What stops parts that fly off.")
    line_ahead: Maybe[WheelLine] = unrecorded("What lies in line with the wheels, ahead of the vehicle.")
    line_behind: Maybe[WheelLine] = unrecorded("What lies in line with the wheels, behind the vehicle.")
    on_failure: Maybe[OnFailure] = unrecorded("What it does when power, load or air fails.")
    during_runs: Maybe[DuringRuns] = unrecorded("How runs are held.")
    drive_guarded: YesNo = unrecorded("Whether guards close off the shafts, belts, pulleys and couplings of its drive.")
    drive_height: Distance = unrecorded(
        "Height of the lowest open part of its drive above the floor or platform.", "1 ft"
    )
    run_down: Duration = unrecorded("From a stop at top speed to standstill.", "20 s")
    approach_distance: Distance = unrecorded(
        "From the moving parts to the nearest place a person stands during a run.", "4 ft"
    )
    clear_sides: Distance = unrecorded("Free floor at its narrower side.", "3 ft", "1 m")
    clear_front: Distance = unrecorded("Free floor in front of the vehicle.", "6 ft")
    clear_rear: Distance = unrecorded("Free floor behind the vehicle.", "6 ft")
    walk_to_emergency_stop: Distance = unrecorded(
        "Walk from that place to the nearest actuator of its emergency stop.", "2 ft", "0.6 m"
    )
    walk_to_disconnect: Distance = unrecorded(
        "Walk from that place to what cuts the machine off from the mains.", "12 ft", "4 m"
    )
    distance_to_disconnect: Distance = unrecorded(
        "From the machine to what cuts it off from the mains, in a straight line.", "20 ft", "6 m"
    )
    isolation: Maybe[Isolation] = unrecorded("How it is cut off and kept off for work on it.")
    bonded: Found = unrecorded(
        "Whether an electrician measured that frame, guards and plates are joined to the supply's protective earth."
    )
    computer: Maybe[Computer] = unrecorded("The computer that runs it.")
    condition: Maybe[Condition] = unrecorded("The state of its parts.")
