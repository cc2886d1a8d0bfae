"""Lifting equipment: what raises vehicles, and what holds them once they are up."""

from typing import Annotated, ClassVar

from checker.site.aliases import Found, LastDone, Mass, Words, YesNo
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.names import Reference
from checker.site.parts import Thing, unrecorded


class LiftingDevice(Thing):
    """A vehicle lift, a hoist, a jack or a stand."""

    kind_of_thing: ClassVar[str] = "lifting_device"
    name: Words = unrecorded("What people call it.", "bay 2 lift")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it stands or is used in.", "shop")
    kind: Annotated[Recorded, word("vehicle lift", "motorcycle lift", "hoist", "jack", "stand")] = unrecorded(
        "What it is.", "vehicle lift"
    )
    load_marked: YesNo = unrecorded("Whether its rated load can be read on it.")
    rated_load: Mass = unrecorded("The rated load on its plate; of stands, what one stand holds.", "3000 kg")
    heaviest_load: Mass = unrecorded(
        "The heaviest load put on it; of stands, the most that rests on one.", "2200 kg", "4800 lb"
    )
    people_beneath: YesNo = unrecorded("Whether anybody gets beneath what it holds, even with an arm.")
    lock_holds: Found = unrecorded(
        "Whether its lock, latch, pin or safety nut was seen to engage and hold; asked of lifts and stands."
    )
    stands_used: Found = unrecorded(
        "Whether stands take the load before anybody gets beneath; asked of jacks and hoists."
    )
    stops_when_let_go: Found = unrecorded("Whether it stops when its control is let go; asked of powered ones.")
    sound: Found = unrecorded(
        "Whether it is free of bends, cracks, leaks, frayed ropes or chains, and stands firm on its anchors or feet."
    )
    examined_on: LastDone = unrecorded("When a competent person last examined it.", "2026-02-10", "never")
