"""Isolation of a machine: how it is cut off from every energy, and kept off, while somebody works on it."""

from typing import Annotated

from checker.site.aliases import Found, LastDone, Place, YesNo
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.parts import Noted, unrecorded


class Isolation(Noted):
    """How the machine is cut off for work on it."""

    cut_off_by: Annotated[
        Recorded,
        word("switch that takes a lock", "breaker that takes a lock", "switch or breaker without lock", "plug"),
    ] = unrecorded("What cuts it off from the mains.", "switch that takes a lock")
    at: Place = unrecorded(
        "Where one stands at the switch or plug that cuts it off, on the floor plan.", ["0 m", "3 m"]
    )
    in_sight: Found = unrecorded("Whether the switch or plug that cuts it off is seen from the machine.")
    out_of_sight_justified: YesNo = unrecorded(
        "Whether an electrician says in writing why the switch need not be in sight: a place in sight would not "
        "work or would add danger, or trained people work by written steps."
    )
    reached_at_once: YesNo = unrecorded(
        "Whether what cuts it off is marked as this machine's and reached without a ladder or key."
    )
    locked_when_idle: Found = unrecorded(
        "Whether it is off and locked, or its plug locked away, when nobody uses the machine."
    )
    procedure: YesNo = unrecorded(
        "Whether written steps for this machine name every energy, how each is cut off, and how that is tried."
    )
    procedure_reviewed_on: LastDone = unrecorded(
        "When somebody last watched the written steps being done and put them right.", "2026-03-02", "never"
    )
    locks_at_hand: YesNo = unrecorded("Whether each person who works on it has a lock and tag of their own.")
    rollers_held: Annotated[Recorded, word("pin, wedge or brake", "run-down waited for", "nothing")] = unrecorded(
        "What keeps the rollers from turning while somebody reaches in.", "pin, wedge or brake"
    )
    capacitors: Annotated[Recorded, word("none", "waiting time marked", "waiting time not marked")] = unrecorded(
        "Whether the drive keeps a charge, and whether it says how long to wait.", "waiting time marked"
    )
    air_cut_off: Annotated[
        Recorded, word("no air used", "valve that locks and vents", "valve without lock or vent", "no valve")
    ] = unrecorded("What cuts it off from compressed air and lets the rest out.", "valve that locks and vents")
