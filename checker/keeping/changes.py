"""What changed from one edition of a rulesets folder to the next: one change, and what the cases show of it."""

from collections.abc import Mapping
from typing import Literal

from msgspec import Struct, field

from checker.rules.model import Place, Provision, Rule
from checker.vocabulary import Outcome

How = Literal["added", "withdrawn", "tightened", "relaxed", "changed", "words", "sources", "cases"]
What = Literal[
    "rule", "rule not asked", "name", "merged", "layer of rule", "field", "expression", "form", "severity",
    "evidence", "limit kind", "column kind", "provision", "edition", "nearer", "farther", "limit", "table", "row",
    "from", "until", "judges", "source", "clause", "status", "note", "bibliography", "case", "layer", "extends",
    "authorities", "not held", "unused",
]  # fmt: skip
LimitWay = Literal["stricter", "laxer", "the same", "unknown"]
Part = Literal[1, 2]
"""Of a version `3.2`: 1, some site may get another outcome; 2, words, sources and cases only."""


class Tried(Struct, frozen=True):
    """A case that comes out otherwise in the other edition."""

    case_number: int
    of_old: bool
    """Whether it is a case of the old edition; else of the new."""
    place: Place
    before: Outcome
    after: Outcome


class Trial(Struct, frozen=True):
    """What the cases of both editions of a rule show of a change of its expressions."""

    otherwise: tuple[Tried, ...]
    alike: int
    """Cases with the same outcome in both."""
    not_tried: int
    """Cases that give something which the other edition has no name for."""


class Compared(Struct, frozen=True):
    """One limit of a provision beside the same limit of another, as written."""

    name: str
    own: str
    other: str
    way: LimitWay
    """Whether the own one asks more or less; unknown where that is not to be told."""


class Beside(Struct, frozen=True):
    """Another provision, and what is asked in place of it or beside it limit by limit."""

    provision: Provision
    limits: tuple[Compared, ...]


class Change(Struct, frozen=True):
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
    was: Provision | None = None
    """The provision as it was, or the one that another replaces."""
    now: Provision | None = None
    """The provision as it is, or the one that replaces another."""
    alike: frozenset[str] = frozenset()
    """Limits in which both agree."""
    operators: Mapping[str, str] = field(default_factory=dict)
    """How the rule compares each limit: `le` where what is measured is at most that."""
    stood: tuple[Provision, ...] | None = None
    """What is in force in the layer until the provision begins; None where it has no first day."""
    follows: tuple[Provision, ...] | None = None
    """What is in force in the layer after the provision has ended; None where it has no last day."""
    beside: tuple[Beside, ...] = ()
    """What other authorities ask in the same places where a provision came: all stand, and the strictest governs."""
    silenced: tuple[Beside, ...] = ()
    """Good practice that nobody hears any more where a provision came; that is heard again where it went."""


class Version(Struct, frozen=True):
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


class Diff(Struct, frozen=True):
    """All changes, by layer and rule, and what they ask of each layer's version."""

    changes: tuple[Change, ...]
    versions: tuple[Version, ...]
