"""People at work: what they were taught, what they hear, and what helps them when something happens."""

from typing import Annotated, ClassVar

from checker.site.aliases import (
    Date,
    Decibels,
    Duration,
    Flow,
    Found,
    LastDone,
    Place,
    SoundLevel,
    SoundLevelC,
    Words,
    YesNo,
)
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.names import Reference
from checker.site.parts import List, Maybe, Noted, Part, Thing, unrecorded


class NoiseSpell(Part):
    """A stretch of the day at one level of noise."""

    doing: Words = unrecorded("What is done.", "runs at full load")
    level: SoundLevel = unrecorded("A-weighted average level at the ear, without protectors.", "104 dB(A)")
    lasts: Duration = unrecorded("How long it lasts in one day, all together.", "45 min")


class HearingProtectors(Noted):
    """What is worn over or in the ears."""

    worn: Found = unrecorded("Whether they are worn whenever an engine is loaded.")
    nrr: Decibels = unrecorded("The NRR on the label, in dB.", 25)
    snr: Decibels = unrecorded("The SNR on the label, in dB.", 28)


class NoiseDay(Noted):
    """The noise of one person's usual working day."""

    spells: List[NoiseSpell] = unrecorded("The stretches of the day; quiet ones may be left out.")
    level_c: SoundLevelC = unrecorded(
        "C-weighted average level spread over eight hours, without protectors.", "97 dB(C)"
    )
    peak: SoundLevelC = unrecorded("Highest C-weighted peak.", "132 dB(C)")
    protectors: Maybe[HearingProtectors] = unrecorded("Hearing protectors.")
    protectors_offered: YesNo = unrecorded("Whether protectors are handed out to whoever wants them.")
    told_of_risk: YesNo = unrecorded("Whether the person was told what noise does and how protectors are worn.")
    zone_marked: Found = unrecorded("Whether the places where protectors must be worn are marked as such.")
    hearing_watched: YesNo = unrecorded("Whether the person's hearing is tested at set times and the results are kept.")


class Worker(Thing):
    """A person who works here, by what they do and not by name."""

    kind_of_thing: ClassVar[str] = "worker"
    name: Words = unrecorded("What the person does here, not who it is.", "dyno operator")
    runs_dyno: YesNo = unrecorded("Whether the person runs a dynamometer or rides on it.")
    instructed: YesNo = unrecorded(
        "Whether somebody who knows the machine has shown its use, its stops and its dangers to the person."
    )
    fights_fire: YesNo = unrecorded("Whether the person is meant to use an extinguisher.")
    extinguisher_trained_on: LastDone = unrecorded(
        "When the person last practised with extinguishers.", "2026-04-10", "never"
    )
    first_aid_until: LastDone = unrecorded(
        "The last day of the person's first-aid certificate; never where there is none.", "2027-06-30", "never"
    )
    noise: Maybe[NoiseDay] = unrecorded("The noise of the person's day; none where no engine is heard at work.")


class FirstAidKit(Thing):
    """A first-aid kit."""

    kind_of_thing: ClassVar[str] = "first_aid_kit"
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it is kept in.", "workshop")
    at: Place = unrecorded("Where it hangs on the floor plan.", ["1 m", "0 m"])
    contents_to: Words = unrecorded("The standard or list that its contents follow.", "small kit for up to 25 people")
    complete: Found = unrecorded("Whether all of its contents are there and in date.")
    marked: Found = unrecorded("Whether it is marked and can be reached at once.")


class Eyewash(Thing):
    """A place or a unit to rinse eyes."""

    kind_of_thing: ClassVar[str] = "eyewash"
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it is in.", "battery-corner")
    at: Place = unrecorded("Where one stands at it, on the floor plan.", ["6 ft", "0 ft"])
    kind: Annotated[Recorded, word("plumbed", "tank", "bottle")] = unrecorded(
        "A unit on the water main, one with its own tank, or a bottle.", "plumbed"
    )
    flow: Flow = unrecorded("How much water it gives.", "0.5 US gal/min", "6 L/min")
    lasts: Duration = unrecorded("How long it gives that much; on the main, as long as it was tried.", "15 min")
    reached_in: Duration = unrecorded("How long one walks to it from where acid is handled.", "8 s")
    way_clear: Found = unrecorded("Whether the way to it is free, lit and without a step.")
    opened_on: LastDone = unrecorded("When it was last run to flush it.", "2026-11-23", "never")
    holds_until: Date = unrecorded("The last day for the liquid of a tank or a bottle.", "2027-01-31")


class EmergencyPlan(Noted):
    """What people do when there is a fire or somebody is hurt."""

    written: YesNo = unrecorded("Whether it is written down where everybody can read it.")
    gathering_place: Words = unrecorded("Where people gather outside.", "gate of the yard")
    gathering_place_known: Found = unrecorded(
        "Whether everybody here can say where to gather, out of the way of fire engines."
    )
    calls_help: Words = unrecorded("Who calls for help.", "whoever is at the desk")
    gives_address: YesNo = unrecorded("Whether the number to call and the address to give hang beside a telephone.")
    practised_on: LastDone = unrecorded("When leaving the building was last practised.", "2026-03-15", "never")


class PastEvent(Thing):
    """A fire, an injury, a flood or a near miss that happened here."""

    kind_of_thing: ClassVar[str] = "past_event"
    name: Words = unrecorded("What happened, in a few words.", "strap let go at half speed")
    kind: Annotated[
        Recorded, word("fire", "injury", "gas alarm", "vehicle off the rollers", "flood", "near miss", "other")
    ] = unrecorded("What it was.", "near miss")
    on: Date = unrecorded("When it happened.", "2025-09-14")
    put_right: YesNo = unrecorded("Whether what led to it has been put right.")
