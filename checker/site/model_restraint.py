"""How a vehicle is held on the rollers: what takes its pull, the straps, and the points they hang on in the floor."""

from typing import Annotated, ClassVar

from checker.site.aliases import Distance, Force, Found, Words, YesNo
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.names import Reference
from checker.site.parts import Noted, Thing, unrecorded


class Restraint(Noted):
    """How vehicles are held on the machine."""

    forward_pull_taken_by: Annotated[
        Recorded, word("straps", "front wheel clamp", "stop on the machine", "nothing")
    ] = unrecorded("What keeps the vehicle from driving off the rollers forward.", "front wheel clamp")
    free_wheels: Annotated[Recorded, word("chocked both sides", "in a clamp", "all wheels on rollers", "free")] = (
        unrecorded("What holds the wheels that do not turn.", "chocked both sides")
    )
    tightened_again: YesNo = unrecorded(
        "Whether every strap is tightened again after a first slow run, when the suspension has settled."
    )
    kept_until_standstill: YesNo = unrecorded("Whether straps stay tight until wheels and rollers stand still.")


class FloorPoint(Thing):
    """A point on the machine or in the floor that straps hang on: an eye, a ring, a rail."""

    kind_of_thing: ClassVar[str] = "floor_point"
    name: Words = unrecorded("What people call it.", "left rear eye")
    dyno: Annotated[Recorded, Reference("dyno")] = unrecorded("The dynamometer it belongs to.", "d1")
    fixed_to: Annotated[Recorded, word("machine frame", "slab", "rail in the floor")] = unrecorded(
        "What it is fixed to.", "machine frame"
    )
    rated_load: Force = unrecorded(
        "The load it is rated for in the direction of the strap; a label in kg is written in kgf, one in lb in lbf.",
        "2500 daN",
        "3300 lbf",
    )
    sound: Found = unrecorded("Whether point and floor around it are free of cracks, bending, wear and play.")
    proved: Found = unrecorded("Whether it held a test load, or a paper of who fitted it says what it holds.")


class Strap(Thing):
    """One strap or chain that holds a vehicle down while it runs."""

    kind_of_thing: ClassVar[str] = "strap"
    name: Words = unrecorded("What people call it.", "left rear strap")
    dyno: Annotated[Recorded, Reference("dyno")] = unrecorded("The dynamometer it is used on.", "d1")
    end: Annotated[Recorded, word("front", "rear")] = unrecorded("Which end of the vehicle it holds.", "rear")
    pulls: Annotated[Recorded, word("forward", "rearward", "sideways")] = unrecorded(
        "Which way it pulls at the vehicle; one that pulls rearward keeps it from driving off.", "rearward"
    )
    floor_point: Annotated[Recorded, Reference("floor_point")] = unrecorded("The floor point it hangs on.", "eye-lr")
    held_at: Annotated[Recorded, word("chassis or fork yoke", "wheel strap", "axle", "handlebar", "bumper or trim")] = (
        unrecorded("Where it holds the vehicle.", "chassis or fork yoke")
    )
    working_load_limit: Force = unrecorded(
        "Working load limit or lashing capacity on its label; a label in kg is written in kgf, one in lb in lbf.",
        "2500 daN",
        "3333 lbf",
    )
    label_readable: YesNo = unrecorded("Whether a label with its working load limit is on it and can be read.")
    sound: Found = unrecorded(
        "Whether webbing or links, stitching, hooks and ratchet are free of cuts, burns, wear, cracks and bending."
    )
    rise: Distance = unrecorded("How much higher its end at the vehicle is than its end at the floor.", "20 in")
    along: Distance = unrecorded("Between its two ends, measured on the floor along the vehicle.", "30 in")
    across: Distance = unrecorded("Between its two ends, measured on the floor across the vehicle.", "10 in")
