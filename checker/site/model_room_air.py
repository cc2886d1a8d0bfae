"""Air that comes into a room: where it is taken, what it passes, and whether it runs with the exhaust."""

from typing import Annotated

from checker.site.aliases import Area, Distance, Found, LastDone, YesNo
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.parts import Noted, unrecorded


class MakeUpAir(Noted):
    """The air that replaces what the exhaust fans take out."""

    comes_from: Annotated[Recorded, word("outdoors", "another room", "gaps and doors")] = unrecorded(
        "Where it comes from.", "outdoors"
    )
    opening_area: Area = unrecorded(
        "Free area of the openings it passes without a fan, less what bars and blades cover.", "10 ft2", "1 m2"
    )
    open_with_exhaust: Found = unrecorded(
        "Whether its fan or its openings start or open by themselves whenever the exhaust runs."
    )
    tempered: YesNo = unrecorded("Whether it is warmed or cooled before it reaches people.")
    intake_to_outlet: Distance = unrecorded("From its intake to the nearest exhaust or flue outlet.", "12 ft", "4 m")
    intake_below_outlet: Distance = unrecorded(
        "How far the intake lies below the nearest outlet; 0 m where it lies level or above.", "3 ft"
    )
    filters_clean: Found = unrecorded("Whether its filters, and those of the exhaust, are in place and not clogged.")
    filters_changed_on: LastDone = unrecorded("When filters were last changed.", "2026-09-01", "never")
