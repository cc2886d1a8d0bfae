"""Rules, provisions, tables, sources and layers as read: frozen, checked, with the place each stands at.

They are kept between runs as lists of their fields.
"""

import datetime as dt
from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from msgspec import Struct

from checker.rules.tables import Table
from checker.rules.tree import Tree
from checker.rules.types import TableShape
from checker.units import Period
from checker.vocabulary import (
    LIE_ON_ANY_REGION,
    Authority,
    Evidence,
    Judges,
    Outcome,
    ReadIn,
    Severity,
    SourceKind,
    Status,
    Trade,
)


class Place(Struct, frozen=True, array_like=True):
    """A place in a ruleset file, counted from 1."""

    file: str
    line: int
    column: int


class Limit(Struct, frozen=True, array_like=True):
    """One limit that a provision gives: SI value on the grid, kind, and as written."""

    value: Decimal | Period
    kind: str
    written: str


class Source(Struct, frozen=True, array_like=True):
    """One entry of the bibliography."""

    id: str
    kind: SourceKind
    designation: str
    title: str
    edition: str | None
    publisher: str
    address: str | None
    note: str
    location: Place


class SourceUse(Struct, frozen=True, array_like=True):
    """Where a provision's values come from; `source` is None for common practice."""

    source: Source | None
    clause: str
    status: Status
    read_in: ReadIn | None
    note: str


class Case(Struct, frozen=True, array_like=True):
    """One proof of a rule."""

    given: Mapping[str, Any]
    outcome: Outcome
    as_of: dt.date | None
    place: Place


class Rule(Struct, frozen=True, array_like=True):
    """One requirement: its words, its expressions as text and as tree, its proofs."""

    id: str
    was: tuple[str, ...]
    """The ids of the rules that it was before: one if it was renamed, several that became one."""
    title: str
    reason: str
    each: str
    when: str | None
    require: str
    when_tree: Tree | None
    require_tree: Tree
    part_kinds: tuple[str, ...]
    """The kind in which the sides of each part of what it asks are shown."""
    limit: Mapping[str, str]
    tables: Mapping[str, TableShape]
    evidence: Evidence | None
    severity: Severity
    acts: Trade
    closes_with: str
    advice: str
    meanwhile: str
    cases: Sequence[Case]
    layer: str
    topic: str
    location: Place


class Provision(Struct, frozen=True, array_like=True):
    """What one authority asks of one rule, from a day until a day, both inclusive."""

    rule: str
    layer: str
    authority: Authority
    limit: Mapping[str, Limit]
    tables: Mapping[str, Table]
    from_: dt.date | None
    until: dt.date | None
    judges: Judges
    source: SourceUse
    location: Place

    def speaks_on(self, day: dt.date) -> bool:
        """Whether the provision is in force on a day."""
        return (self.from_ is None or self.from_ <= day) and (self.until is None or day <= self.until)


class NotHeld(Struct, frozen=True, array_like=True):
    """Something an authority asks that a layer does not hold."""

    topic: str
    authority: str
    asks: str
    why: str


class Layer(Struct, frozen=True, array_like=True):
    """One layer of rules: a region's law, or what all regions share."""

    name: str
    title: str
    extends: str | None
    version: str
    authorities: tuple[str, ...]
    not_held: tuple[NotHeld, ...]
    digest: str
    place: Place

    @property
    def lies_on_any_region(self) -> bool:
        """Whether it belongs to no region: a house, an insurer, a landlord or a maker speaks in it, and nobody else."""
        return self.extends is None and bool(self.authorities) and set(self.authorities) <= LIE_ON_ANY_REGION
