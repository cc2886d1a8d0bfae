"""Quantities: facts read from a site, formulas that give more, and the working behind each."""

from checker.quantities import (
    air,
    aisles,
    anchorage,
    batteries,
    compressed_air,
    electrical,
    escape,
    exhaust,
    extinguishing,
    fire,
    floor_space,
    geometry,
    heat,
    liquids,
    noise,
    reach,
    restraint,
    rollers,
    room_air,
    walks,
    walks_by_letter,
    walks_to_help,
)
from checker.quantities.facts import Facts, Notice, facts
from checker.quantities.kinds import Attribute, kinds
from checker.quantities.missing import Broken, Missing, Need, OutsideRange
from checker.quantities.registry import Argument, CatalogueLine, Quantity, catalogue, on_the_plan
from checker.quantities.survey import READINGS, Reading
from checker.quantities.things import OpenList, Thing
from checker.quantities.working import Drawn, Step, Used, evidence_of, working_of

SUBJECTS = (
    air,
    aisles,
    anchorage,
    batteries,
    compressed_air,
    electrical,
    escape,
    exhaust,
    extinguishing,
    fire,
    floor_space,
    geometry,
    heat,
    liquids,
    noise,
    reach,
    restraint,
    rollers,
    room_air,
    walks,
    walks_by_letter,
    walks_to_help,
)
"""The modules whose formulas are registered by being imported here."""

__all__ = [
    "READINGS",
    "SUBJECTS",
    "Argument",
    "Attribute",
    "Broken",
    "CatalogueLine",
    "Drawn",
    "Facts",
    "Missing",
    "Need",
    "Notice",
    "OpenList",
    "OutsideRange",
    "Quantity",
    "Reading",
    "Step",
    "Thing",
    "Used",
    "catalogue",
    "evidence_of",
    "facts",
    "kinds",
    "on_the_plan",
    "working_of",
]
