"""What an authority has granted: exceptions for a time, and other ways that it accepts."""

import datetime
from typing import Annotated

from checker.site.fields import Day, Text, word
from checker.site.parts import Needed, Part, Plain, Texts, required, unrecorded

GRANTERS = (
    *("workplace law", "fire code", "building code", "mechanical code", "wiring rules"),
    *("house", "insurer", "landlord", "maker"),
)
"""Who can set aside what it asks itself. A standard, guidance and good practice have nobody who could."""

Sentence = Annotated[str, Plain(Text()), Needed()]
NeededDay = Annotated[datetime.date, Plain(Day()), Needed()]
OptionalDay = Annotated[datetime.date | None, Plain(Day())]
Subjects = Annotated[tuple[str, ...], Texts(), Needed()]
Granter = Annotated[str, Plain(word(*GRANTERS)), Needed()]


class GrantedException(Part):
    """A requirement set aside for a time, for named things, by whoever asks it. What is not met stays not met."""

    rule: Sentence = required("The rule.", "fire.extinguisher-clocks")
    subjects: Subjects = required("The things it is granted for, as paths.", ["extinguishers[fe-4]"])
    authority: Granter = required("Whose requirement is set aside: only its own.", "house")
    by: Sentence = required("Who granted it.", "safety manager")
    why: Sentence = required("Why.", "office closed for repair")
    since: NeededDay = required("The first day.", "2026-11-01")
    until: NeededDay = required("The last day; it lapses by itself.", "2027-02-28")
    interim: Sentence = required("What is done meanwhile.", "the unit hangs in the workshop")
    paper: Annotated[str | None, Plain(Text())] = unrecorded("Where the paper is kept.", "folder 3")


class AcceptedAlternative(Part):
    """Another way that an authority has accepted in place of what its words ask."""

    rule: Sentence = required("The rule.", "ventilation.exhaust-rate")
    subjects: Subjects = required("The things it is accepted for, as paths.", ["rooms[cell]"])
    authority: Granter = required("Whose requirement is met in another way.", "mechanical code")
    by: Sentence = required("Who accepted it.", "building official")
    paper: Sentence = required("The paper that says so.", "letter of 3 May 2026")
    on: NeededDay = required("The day it was accepted.", "2026-05-03")
    until: OptionalDay = unrecorded("The last day, where it has one.", "2028-05-02")
    conditions: Sentence = required("On what conditions.", "fans run whenever an engine runs")
