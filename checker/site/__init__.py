"""What was seen at a workshop: the model of a site file, its JSON Schema, and reading one with every mistake named."""

from typing import TYPE_CHECKING

from checker.site.entries import EVIDENCE, NEVER, NOTHING, Entry, NotReached
from checker.site.model import LISTS, THINGS, Site
from checker.site.parts import FieldOf, Part, Thing, fields_of
from checker.site.paths import Step, steps
from checker.site.ratings import SYSTEMS, Rating, UnreadableRating, read_rating
from checker.site.walk import Located, parts_of

if TYPE_CHECKING:
    from checker.reading import Document

__all__ = [
    "EVIDENCE",
    "LISTS",
    "NEVER",
    "NOTHING",
    "SYSTEMS",
    "THINGS",
    "Entry",
    "FieldOf",
    "Located",
    "NotReached",
    "Part",
    "Rating",
    "Site",
    "Step",
    "Thing",
    "UnreadableRating",
    "fields_of",
    "parts_of",
    "read_rating",
    "read_site",
    "steps",
]


def read_site(document: "Document") -> Site:
    """The site that a document describes. Raises reading.Unreadable with all that is wrong with it."""
    from checker.site import build

    return build.read_site(document)
