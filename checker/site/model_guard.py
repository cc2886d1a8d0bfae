"""Guards, barriers and shields at a dynamometer."""

from typing import Annotated, ClassVar

from checker.site.aliases import Distance, Words, YesNo
from checker.site.entries import Recorded
from checker.site.fields import Word
from checker.site.names import Reference
from checker.site.parts import Noted, Thing, unrecorded


class Guard(Thing):
    """A guard or barrier that keeps people off moving parts of a dynamometer."""

    kind_of_thing: ClassVar[str] = "guard"
    name: Words = unrecorded("What people call it.", "cover over the coupling")
    dyno: Annotated[Recorded, Reference("dyno")] = unrecorded("The dynamometer it belongs to.", "d1")
    kind: Annotated[Recorded, Word("fixed guard", "guard that opens", "barrier")] = unrecorded(
        "A guard close to the part, one with a hinge or slide, or a fence at a distance.", "fixed guard"
    )
    stays_shut_by: Annotated[
        Recorded, Word("fasteners that need a tool", "lock", "switch that stops the machine", "nothing")
    ] = unrecorded(
        "What keeps it in place while rollers turn, or stops them when it is opened.", "fasteners that need a tool"
    )
    opening_shape: Annotated[Recorded, Word("slot", "square", "round", "no opening")] = unrecorded(
        "Shape of its widest opening.", "slot"
    )
    opening: Distance = unrecorded("Width of that slot, side of the square, or diameter.", "12 mm", "1/2 in")
    distance: Distance = unrecorded("From that opening to the nearest moving part behind it.", "5 in", "130 mm")
    height: Distance = unrecorded("Height of its upper edge above the floor.", "1.4 m", "55 in")


class DebrisShield(Noted):
    """What stops parts that fly off a wheel, a chain or a shaft."""

    material: Annotated[
        Recorded, Word("steel plate", "steel mesh", "polycarbonate", "laminated glass", "plain glass", "wood")
    ] = unrecorded("What it is made of.", "polycarbonate")
    covers_people: YesNo = unrecorded(
        "Whether it stands between the turning wheels and every place where people stay during a run."
    )
