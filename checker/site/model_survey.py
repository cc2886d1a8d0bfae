"""The survey itself: who looked, when, by what method, what was taken for granted and what was left out."""

from typing import Annotated

from checker.site.aliases import Date, PlainText, Words
from checker.site.entries import EVIDENCE, Recorded
from checker.site.fields import Text, word
from checker.site.parts import Anything, List, Needed, Noted, Part, Plain, Texts, required, unrecorded
from checker.site.paths import About


class Adopted(Part):
    """A code that binds the site because somebody adopted it."""

    code: Annotated[Recorded, word("fire code", "building code", "mechanical code", "wiring rules"), Needed()] = (
        required("Which code.", "fire code")
    )
    edition: Words = unrecorded("Its edition, in quotes where it is a year.", "2021")
    said_by: Words = unrecorded("Who said that it is adopted here.", "county fire marshal's office")
    on: Date = unrecorded("When they said so.", "2026-10-01")
    note: PlainText = unrecorded("Anything worth keeping beside the fields.")


class Unreached(Part):
    """A part of the site that the survey could not reach."""

    about: Annotated[str, Plain(About()), Needed()] = required(
        "What could not be reached.", "rooms[store]", "extinguishers"
    )
    why: Annotated[str, Plain(Text()), Needed()] = required("What stood in the way.", "locked, key with the landlord")


class Assumption(Part):
    """A value taken for granted wherever nothing else was recorded; reports print it."""

    about: Annotated[str, Plain(About()), Needed()] = required(
        "The field it fills; [*] stands for every one.", "rooms[*].doors[*].locked"
    )
    value: Annotated[object, Anything(), Needed()] = required("What is taken for granted.", False)
    why: Annotated[str, Plain(Text()), Needed()] = required(
        "Why it may be taken for granted.", "open in working hours, the owner says"
    )


class Survey(Noted):
    """The record of the survey, as ISO/IEC 17020 asks an inspection body to keep it."""

    number: Words = unrecorded("Number of the survey.", "S-117")
    body: Words = unrecorded("Who is answerable for the survey.", "Harbour Mutual, risk surveys")
    by: Words = unrecorded("Who looked.", "A. Surveyor")
    on: Date = unrecorded("The day, or the first day, of the survey.", "2026-11-03")
    until: Date = unrecorded("The last day, where it took several.", "2026-11-04")
    issued_on: Date = unrecorded("When the record was issued.", "2026-11-06")
    scope: Words = unrecorded("What was looked at.", "dyno cell and workshop")
    method: Words = unrecorded("How it was looked at.", "walked with the owner, tape and gas meter")
    conditions: Words = unrecorded("Circumstances that bear on what was found.", "no vehicle run")
    present: Words = unrecorded("Who was there.", "owner, one technician")
    instruments: Annotated[tuple[str, ...] | None, Texts()] = unrecorded("Instruments used.", ["tape", "gas meter"])
    omitted: Words = unrecorded("What was left out on purpose.", "first floor")
    evidence: Annotated[str | None, Plain(word(*EVIDENCE))] = unrecorded(
        "What a value written without evidence rests on; told, where this is left out.", "seen"
    )
    not_reached: List[Unreached] = unrecorded("What could not be reached, and why.")
