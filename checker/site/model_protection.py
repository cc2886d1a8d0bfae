"""What warns of fire, fights it and lights the way out, and what of it is out of service."""

from typing import Annotated, ClassVar

from checker.site.aliases import Date, Duration, Found, LastDone, Place, Words, YesNo
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.names import Reference
from checker.site.parts import Noted, Thing, unrecorded


class Sprinklers(Noted):
    """The sprinklers of the building."""

    covers: Annotated[Recorded, word("whole building", "fire area of the workshop", "part of it")] = unrecorded(
        "How far they reach.", "whole building"
    )
    shared: YesNo = unrecorded("Whether another occupier's sprinklers hang on the same supply or valve.")
    valve_open: Found = unrecorded("Whether the main valve stands open and is locked or watched in that position.")
    heads_clear: Found = unrecorded(
        "Whether nothing is stacked, hung or painted so that it keeps a head from opening or its water from spreading."
    )
    alarm_answered: YesNo = unrecorded("Whether flow of water calls somebody who answers day and night.")
    serviced_on: LastDone = unrecorded("When a firm last inspected and tested them.", "2026-02-10", "never")


class FireAlarm(Noted):
    """The fire alarm of the site."""

    started_by: Annotated[Recorded, word("people", "detectors", "people and detectors")] = unrecorded(
        "What starts it: people by call points, bells or shouts, or detectors.", "people and detectors"
    )
    noticed_everywhere: Found = unrecorded(
        "Whether it is heard or seen wherever people are, also beside a running engine with ears covered."
    )
    supervised: YesNo = unrecorded("Whether it watches its own wires and batteries and tells of a fault.")
    shared: YesNo = unrecorded("Whether it is one alarm with other occupiers.")
    answered_by: Words = unrecorded("Who answers it when nobody is here.", "monitoring centre, then the owner")
    tested_on: LastDone = unrecorded("When somebody on the site last set it off to try it.", "2026-11-20", "never")
    serviced_on: LastDone = unrecorded("When a firm last serviced it.", "2026-07-01", "never")


class EmergencyLight(Thing):
    """A lamp, or a group of lamps on one battery, that lights by itself when the mains fails."""

    kind_of_thing: ClassVar[str] = "emergency_light"
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it lights.", "cell")
    at: Place = unrecorded("Where it hangs on the floor plan.", ["3 ft", "1 ft"])
    made_to_last: Duration = unrecorded("How long it is made to burn on its battery.", "90 min", "3 h")
    lasted: Duration = unrecorded("How long it burned in the last full test.", "92 min")
    works: Found = unrecorded("Whether it came on when the mains was cut to it.")
    tried_on: LastDone = unrecorded("When it was last cut from the mains for a short trial.", "2026-11-01", "never")
    full_test_on: LastDone = unrecorded("When it last burned for its full time.", "2026-03-01", "never")


class Impairment(Thing):
    """Something that protects people or the building and is out of service."""

    kind_of_thing: ClassVar[str] = "impairment"
    name: Words = unrecorded("Which part is out of service, as people say it.", "alarm zone 2, workshop")
    what: Annotated[
        Recorded,
        word(
            "sprinklers",
            "fire alarm",
            "extinguishers",
            "emergency light",
            "fire door or shutter",
            "gas detectors",
            "extraction",
            "emergency stop",
            "other",
        ),
    ] = unrecorded("What it belongs to.", "fire alarm")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room that is left without it.", "cell")
    since: Date = unrecorded("Since when.", "2026-11-20")
    restored_by: Date = unrecorded("The day by which it is to work again.", "2026-11-30")
    covered: Found = unrecorded(
        "Whether what is done meanwhile makes up for it: a patrol, more extinguishers, no runs, no hot work."
    )
    meanwhile: Words = unrecorded("What is done meanwhile.", "no runs, patrol each hour")
    told: YesNo = unrecorded(
        "Whether those who rely on it know: people here, the insurer, the owner, the fire brigade."
    )
