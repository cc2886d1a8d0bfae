"""Papers: what is kept in the folder, what it says, and how long it holds."""

from typing import Annotated, ClassVar

from checker.site.aliases import Date, Words, YesNo
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.parts import Thing, unrecorded

KINDS = (
    "operating permit",
    "building permit",
    "hot work permit",
    "lease",
    "landlord's consent",
    "insurance policy",
    "fire risk assessment",
    "explosive atmosphere assessment",
    "hazardous substances assessment",
    "noise assessment",
    "first-aid assessment",
    "electrical inspection",
    "pressure vessel scheme",
    "pressure vessel examination",
    "lifting gear examination",
    "extraction examination",
    "gas detector calibration",
    "sprinkler inspection",
    "fire alarm service",
    "emergency light test",
    "extinguisher service",
    "emergency plan",
    "training record",
    "machine manual",
    "safety data sheets",
    "waste transfer note",
    "other",
)
"""What a paper may be for."""


class Paper(Thing):
    """A certificate, permit, consent, policy, report or manual."""

    kind_of_thing: ClassVar[str] = "paper"
    name: Words = unrecorded("What people call it, with what it speaks of.", "electrical test of unit 4")
    kind: Annotated[Recorded, word(*KINDS)] = unrecorded("What it is.", "electrical inspection")
    issuer: Words = unrecorded("Who issued it.", "Harbour Electrical Testing")
    number: Words = unrecorded("Its number.", "EI-2031")
    dated: Date = unrecorded("The day it bears.", "2025-04-02")
    result: Annotated[Recorded, word("satisfactory", "unsatisfactory", "gives none")] = unrecorded(
        "What it finds; a lease, a policy or a manual gives none.", "satisfactory"
    )
    open_defects: YesNo = unrecorded("Whether a defect it lists is still to be put right.")
    defects: Words = unrecorded("The defects still to be put right.", "no cover on distribution board 2")
    runs_out: YesNo = unrecorded("Whether it has to be renewed or done again some day.")
    next_due: Date = unrecorded("The last day on which it holds, or on which it is to be done again.", "2030-04-01")
    covers_rollers: YesNo = unrecorded("Whether it speaks of running vehicles on rollers, and allows it.")
    kept_at: Words = unrecorded("Where it is kept.", "red folder, office")
