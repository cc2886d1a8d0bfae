"""What divides the floor of a room: partitions, floor that is kept clear, and gaps between what stands there."""

from typing import Annotated, ClassVar

from checker.site.aliases import Corners, Length, Place, Polyline, Words, YesNo
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.names import OnTheFloor
from checker.site.parts import Thing, unrecorded


class Partition(Thing):
    """A wall inside a room, or a thin screen, rail or fence that people walk round."""

    kind_of_thing: ClassVar[str] = "partition"
    name: Words = unrecorded("What people call it.", "screen by the console")
    line: Polyline = unrecorded(
        "Its middle line on the floor plan, from end to end.", [["3 m", "0 m"], ["3 m", "2.5 m"]]
    )
    thickness: Length = unrecorded("How thick it is, where that counts.", "100 mm")
    solid: YesNo = unrecorded("Whether it is a wall that would stop what the rollers throw.")


class ClearZone(Thing):
    """Floor that has to stay clear: before a panel, a shutter, an eyewash, along a way out."""

    kind_of_thing: ClassVar[str] = "clear_zone"
    name: Words = unrecorded("What it is kept clear for.", "before the panel")
    outline: Corners = unrecorded("Its corners on the floor plan.", [["0 m", "4 m"], ["1 m", "5 m"]])
    marked: YesNo = unrecorded("Whether it is marked on the floor.")


class FloorGap(Thing):
    """The floor between two things that stand next to each other, and who can get into it."""

    kind_of_thing: ClassVar[str] = "floor_gap"
    name: Words = unrecorded("What people call it.", "behind the large rollers")
    one: Annotated[Recorded, OnTheFloor()] = unrecorded(
        "What lies on one side of it: a machine, an obstacle, a partition, or a door with what its leaf sweeps.", "d1"
    )
    other: Annotated[Recorded, OnTheFloor()] = unrecorded(
        "What lies on the other side; wall for a wall of the room.", "bench", "wall"
    )
    wall_at: Place = unrecorded("A point of that wall on the floor plan, where one side is a wall.", ["0 m", "3 m"])
    people: Annotated[Recorded, word("pass", "work there", "cannot get in")] = unrecorded(
        "Whether people pass through it or work in it; cannot get in: a panel, a rail or goods close it off.", "pass"
    )
