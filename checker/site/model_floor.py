"""What divides the floor of a room: partitions, and floor that is kept clear."""

from typing import ClassVar

from checker.site.aliases import Corners, Length, Polyline, Words, YesNo
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
