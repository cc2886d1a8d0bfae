"""Extinguishers, fire hazards, fuels, and gas detectors."""

from typing import Annotated, ClassVar

from checker.site.aliases import (
    Amount,
    Area,
    Concentration,
    Date,
    Distance,
    Found,
    LastDone,
    Mass,
    Place,
    Share,
    Words,
    YesNo,
)
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.model_storeys import DECIDERS, LEVELS
from checker.site.names import Reference
from checker.site.parts import List, Needed, Part, Thing, required, unrecorded
from checker.site.ratings import SYSTEMS


class Detector(Thing):
    """A gas detector fixed in a room."""

    kind_of_thing: ClassVar[str] = "detector"
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it watches.", "cell")
    gas: Annotated[
        Recorded, word("carbon monoxide", "nitrogen dioxide", "fuel vapour", "hydrogen", "natural gas", "LPG")
    ] = unrecorded("The gas it senses.", "carbon monoxide")
    made_for: Annotated[Recorded, word("workplaces", "homes", "car parks")] = unrecorded(
        "The use it is made for.", "workplaces"
    )
    alarm_at: Concentration = unrecorded("Where its first alarm is set.", "35 ppm")
    second_alarm_at: Concentration = unrecorded("Where its second alarm is set.", "100 ppm")
    alarm_at_share: Share = unrecorded(
        "Where its first alarm is set, as a share of the lower explosive limit; asked of gases that burn.", "20 %"
    )
    height: Distance = unrecorded("Height of the sensor above the floor.", "5 ft", "1.5 m")
    calibrated_on: LastDone = unrecorded("When it was last calibrated.", "2026-06-01", "never")
    calibration_due: Date = unrecorded("When the next calibration falls due.", "2026-12-01")
    tried_on: LastDone = unrecorded("When somebody last set it off with gas.", "2026-11-02", "never")
    stops_engine: YesNo = unrecorded("Whether its alarm stops the engine.")


class Extinguisher(Thing):
    """A portable fire extinguisher. Ratings of different systems come from different tests and are never converted."""

    kind_of_thing: ClassVar[str] = "extinguisher"
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it hangs in.", "cell")
    at: Place = unrecorded("Where it hangs on the floor plan.", ["1 ft", "10 ft"])
    rating: Words = unrecorded("The rating on its label; name the system as well.", "4-A:80-B:C", "21A 113B C")
    rating_system: Annotated[Recorded, word(*SYSTEMS)] = unrecorded(
        "The standard its rating was tested to; wanted whenever a rating is given.", "UL 711"
    )
    approved: Found = unrecorded("Whether it bears the mark of a body that tests extinguishers for this country.")
    agent: Annotated[
        Recorded,
        word(
            "powder",
            "foam",
            "carbon dioxide",
            "water",
            "wet chemical",
            "clean agent",
            "class D powder",
            "lithium battery agent",
        ),
    ] = unrecorded("What it puts out.", "powder")
    gross_mass: Mass = unrecorded("Mass of the full unit.", "9 kg", "20 lb")
    top_height: Distance = unrecorded("Height of its top above the floor.", "4 ft")
    base_height: Distance = unrecorded("Height of its base above the floor.", "6 in")
    handle_height: Distance = unrecorded("Height of the top of its handle above the floor.", "1.1 m")
    on_bracket: Found = unrecorded(
        "Whether it hangs on its own bracket or stands in a cabinet that is not locked, held fast beside what shakes."
    )
    sign: Found = unrecorded("Whether a sign marks its place, or the unit itself is seen from all over the room.")
    access_clear: Found = unrecorded("Whether nothing stands in front of it, for about 1 m (3 ft).")
    label_signed: Found = unrecorded("Whether its tag or label shows who last inspected it, and when.")
    serviced_on: LastDone = unrecorded("When a competent person last serviced it.", "2026-01-15", "never")
    extended_service_on: LastDone = unrecorded(
        "When it was last emptied, opened or pressure tested.", "2022-01-15", "never"
    )
    made_on: Date = unrecorded("When it was made, from the stamp in its shell or its label.", "2014-05-01")
    recharged_on: LastDone = unrecorded("When it was last refilled.", "2021-03-10", "never")
    pressure_tested_on: LastDone = unrecorded("When its shell was last tested with water.", "2026-05-04", "never")
    propellant: Annotated[Recorded, word("stored pressure", "cartridge", "its own vapour")] = unrecorded(
        "What drives it out: gas in the shell itself, a cartridge, or the agent's own vapour.", "stored pressure"
    )
    shell: Annotated[Recorded, word("steel", "stainless steel", "aluminium or brass")] = unrecorded(
        "What its shell is made of.", "steel"
    )
    refillable: YesNo = unrecorded("Whether it can be refilled; those that cannot are thrown away.")
    looked_at_on: LastDone = unrecorded("When somebody on the site last looked it over.", "2026-10-30", "never")
    charged: Found = unrecorded("Whether the gauge or the mass shows it full.")
    visible: YesNo = unrecorded("Whether it, or a sign for it, is seen from where people work.")


class Walk(Part):
    """A walk to an extinguisher, measured the way a person goes."""

    to: Annotated[Recorded, Reference("extinguisher"), Needed()] = required("The extinguisher it ends at.", "fe-2")
    distance: Distance = unrecorded("Length of the walk, round all that stands in the way.", "49 ft")
    note: Words = unrecorded("How one walks.", "round the lift")


class Hazard(Thing):
    """A place where a fire may start."""

    kind_of_thing: ClassVar[str] = "hazard"
    name: Words = unrecorded("What people call it.", "fuel bench")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it lies in.", "cell")
    at: Place = unrecorded(
        "Where it lies on the floor plan: of something large, the side that is farthest from extinguishers.",
        ["12 ft", "8 ft"],
    )
    fire_class: Annotated[Recorded, word("A", "B", "C", "D", "F")] = unrecorded(
        "Class of fire: A solids, B liquids, C as the region's standard has it, D metals, F cooking oils.", "B"
    )
    level: Annotated[Recorded, word(*LEVELS)] = unrecorded("How much could burn.", "ordinary")
    level_by: Annotated[Recorded, word(*DECIDERS)] = unrecorded("Who decided that level.", "fire official")
    stores_liquid: YesNo = unrecorded("Whether flammable liquid is stored here, not only used.")
    open_liquid: YesNo = unrecorded("Whether liquid that burns lies open here, in a tray, a bath or a pan.")
    open_surface: Area = unrecorded("Surface of the largest open vessel.", "0.48 m2", "6 ft2")
    liquid_depth: Distance = unrecorded("Depth of the liquid in it.", "4 in", "100 mm")
    spill: Amount = unrecorded("The most liquid that could run out here at once.", "5 US gal", "20 L")
    walks: List[Walk] = unrecorded("Walks measured from here to extinguishers.")


class Fuel(Thing):
    """Fuel kept in a room, in one kind of container."""

    kind_of_thing: ClassVar[str] = "fuel"
    name: Words = unrecorded("What people call it.", "race fuel cans")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it is kept in.", "store")
    at: Place = unrecorded("Where it stands on the floor plan.", ["3 ft", "4 ft"])
    substance: Annotated[Recorded, word("petrol", "diesel", "alcohol", "race fuel", "other")] = unrecorded(
        "What it is.", "petrol"
    )
    volume: Amount = unrecorded("How much at most.", "5 US gal", "20 L")
    mass: Mass = unrecorded("How much at most, by mass, where the label says so.", "15 kg")
    container: Annotated[Recorded, word("vehicle tank", "approved can", "drum", "open container")] = unrecorded(
        "What it is kept in.", "approved can"
    )
    in_cabinet: YesNo = unrecorded("Whether it stands in a cabinet made for flammable liquids.")
    made_of: Annotated[Recorded, word("safety can", "metal", "plastic or glass", "steel drum for transport")] = (
        unrecorded("What the container is; a safety can has a lid with a spring and a flame screen.", "safety can")
    )
    container_size: Amount = unrecorded("How much one container holds when full.", "5 US gal", "20 L")
    hazard_category: Annotated[Recorded, word("category 1", "category 2", "category 3", "category 4")] = unrecorded(
        "Category of flammable liquid, from section 2 of its safety data sheet.", "category 2"
    )
    closed: Found = unrecorded("Whether lids are on, but for the can that is being poured from.")
    clear_of_way_out: Found = unrecorded("Whether it stands neither in nor beside the way people leave by.")
