"""Guards, barriers and shields at a dynamometer."""

from typing import Annotated, ClassVar

from checker.site.aliases import Distance, Found, Place, Words, YesNo
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.names import OnTheFloor, Reference
from checker.site.parts import Noted, Thing, unrecorded


class Guard(Thing):
    """A guard or barrier that keeps people off moving parts of a dynamometer."""

    kind_of_thing: ClassVar[str] = "guard"
    name: Words = unrecorded("What people call it.", "cover over the coupling")
    dyno: Annotated[Recorded, Reference("dyno")] = unrecorded("The dynamometer it belongs to.", "d1")
    kind: Annotated[Recorded, word("fixed guard", "guard that opens", "barrier")] = unrecorded(
        "A guard close to the part, one with a hinge or slide, or a fence at a distance.", "fixed guard"
    )
    stays_shut_by: Annotated[
        Recorded, word("fasteners that need a tool", "lock", "switch that stops the machine", "nothing")
    ] = unrecorded(
        "What keeps it in place while rollers turn, or stops them when it is opened.", "fasteners that need a tool"
    )
    opening_shape: Annotated[Recorded, word("slot", "square", "round", "no opening")] = unrecorded(
        "Shape of its widest opening.", "slot"
    )
    opening: Distance = unrecorded("Width of its widest slot, side of the square, or diameter.", "12 mm", "1/2 in")
    distance: Distance = unrecorded("From its widest opening to the nearest moving part behind it.", "5 in", "130 mm")
    height: Distance = unrecorded("Height of its upper edge above the floor.", "1.4 m", "55 in")
    part_height: Distance = unrecorded("Height of the moving part behind it above the floor.", "0.4 m")
    part_distance: Distance = unrecorded("Level distance from its upper edge to the moving part behind it.", "1.5 m")
    distance_confirmed: Found = unrecorded(
        "Whether a competent person held its distance against a licensed copy of the standard and found it enough."
    )


class ClosingGap(Thing):
    """A gap that closes or can close: between a lift, a cover, a moving roller set or a vehicle and what is beside."""

    kind_of_thing: ClassVar[str] = "closing_gap"
    name: Words = unrecorded("Where it is, as people say it.", "between front roller set and pit edge")
    dyno: Annotated[Recorded, Reference("dyno")] = unrecorded("The dynamometer it belongs to.", "d1")
    least: Distance = unrecorded("How wide it is when it is closed as far as it goes.", "120 mm")
    one: Annotated[Recorded, OnTheFloor()] = unrecorded(
        "What lies on one side of it on the floor plan of the machine's room: a machine, an obstacle, a partition.",
        "lift",
    )
    other: Annotated[Recorded, OnTheFloor()] = unrecorded(
        "What lies on the other side; wall for a wall of the room.", "bench", "wall"
    )
    wall_at: Place = unrecorded("A point of that wall on the floor plan, where one side is a wall.", ["0 m", "3 m"])
    closes_by: Distance = unrecorded(
        "How much nearer the moving part comes than the floor plan shows it; 0 m where it is drawn at its farthest.",
        "0.3 m",
    )
    enters: Annotated[
        Recorded, word("body", "head", "leg", "foot", "toes", "arm", "hand or wrist", "finger", "nothing")
    ] = unrecorded("The largest part of a body that can get in while it is open; nothing where guards close it.", "arm")


class DebrisShield(Noted):
    """What stops parts that fly off a wheel, a chain or a shaft."""

    material: Annotated[
        Recorded, word("steel plate", "steel mesh", "polycarbonate", "laminated glass", "plain glass", "wood")
    ] = unrecorded("What it is made of.", "polycarbonate")
    covers_people: YesNo = unrecorded(
        "Whether it stands between the turning wheels and every place where people stay during a run."
    )
