"""What changed from one edition of a rulesets folder to the next: one change, and what the cases show of it."""

from dataclasses import dataclass
from typing import Literal

from checker.rules.model import Place, Provision, Rule, SourceUse
from checker.rules.vocabulary import Outcome

How = Literal["added", "withdrawn", "tightened", "relaxed", "changed", "words", "sources", "cases"]
What = Literal[
    "rule", "rule not asked", "name", "layer of rule", "field", "expression", "form", "severity", "evidence",
    "limit kind", "column kind", "provision", "edition", "nearer", "farther", "limit", "table", "row", "from", "until",
    "judges", "source", "clause", "status", "note", "bibliography", "case", "layer", "extends", "authorities",
    "not held", "unused",
]  # fmt: skip
Part = Literal[1, 2]
"""Of a version `3.2`: 1, some site may get another outcome; 2, words, sources and cases only."""


@dataclass(frozen=True, slots=True)
class Tried:
    """A case that comes out otherwise in the other edition."""

    case_number: int
    of_old: bool
    """Whether it is a case of the old edition; else of the new."""
    place: Place
    before: Outcome
    after: Outcome


@dataclass(frozen=True, slots=True)
class Trial:
    """What the cases of both editions of a rule show of a change of its expressions."""

    otherwise: tuple[Tried, ...]
    alike: int
    """Cases with the same outcome in both."""
    not_tried: int
    """Cases that give something which the other edition has no name for."""


@dataclass(frozen=True, slots=True)
class Change:
    """One change, in the layer whose files say it."""

    how: How
    what: What
    layer: str
    about: str
    """Id of the rule or of the source; empty where it is the layer itself."""
    part: Part
    authority: str = ""
    name: str = ""
    """Which limit, field, row or case."""
    before: str = ""
    after: str = ""
    was_at: Place | None = None
    at: Place | None = None
    trial: Trial | None = None
    rule: Rule | None = None
    """The rule that came or went."""
    source: SourceUse | None = None
    """Where the values of the provision come from: as it is now, or was where it is gone."""
    was_source: SourceUse | None = None
    """Where those come from that it replaces."""
    beside: tuple[Provision, ...] = ()
    """What other authorities ask in the same place where a provision came: all stand, and the strictest governs."""
    silenced: Provision | None = None
    """The good practice that nobody hears any more where a provision came."""


@dataclass(frozen=True, slots=True)
class Version:
    """What the version of a layer must do after its changes."""

    layer: str
    title: str
    before: str | None
    """None for a layer that is new."""
    after: str | None
    """None for a layer that was withdrawn."""
    rises: Literal[0, 1, 2]
    """The part that must rise; 0: none."""
    least: str
    """The least version that would be right; empty where any is."""
    enough: bool


@dataclass(frozen=True, slots=True)
class Diff:
    """All changes, by layer and rule, and what they ask of each layer's version."""

    changes: tuple[Change, ...]
    versions: tuple[Version, ...]
