"""What a floor plan shows, numbered and in words, before it is drawn."""

from msgspec import Struct

from checker.findings.storey import Corners, Spot, Storey


class Mark(Struct, frozen=True):
    """Something on the plan that a number stands beside."""

    number: int
    kind: str
    """Kind of thing, with words between its parts: a sign's name for what stands at a point."""
    path: str
    told: str
    """What the key says of it."""


class Line(Struct, frozen=True):
    """What a finding measured on the plan. Points in metres."""

    style: str
    """A name of plan_styles."""
    name: str
    """Walk 3: findings refer to it."""
    label: str
    """What stands on the plan: name and value."""
    size: float | None
    """The value where it is a length, in metres."""
    outcome: str
    rings: tuple[Corners, ...]
    """One line, or the outlines of areas."""
    between: str
    """Of a gap the two things that it lies between; else empty."""
    told: tuple[str, ...]
    """What the key says of it: one finding a line."""
    findings: frozenset[str]
    """The ids of all findings that measured it."""


class Suggested(Struct, frozen=True):
    """Where one more unit would mend what is too far, and lines at the limit from what is there now."""

    at: Spot | None
    contour: tuple[Corners, ...]
    told: str


class FloorPlan(Struct, frozen=True):
    """One storey, ready to be drawn."""

    name: str
    """The same in every language: plan-1."""
    heading: str
    storey: Storey
    imperial: bool
    """Whether its scale bar is in feet."""
    marks: tuple[Mark, ...]
    lines: tuple[Line, ...]
    suggested: tuple[Suggested, ...]
    not_placed: tuple[str, ...]
    not_drawn: int
    """How many more things were measured than it has room for."""
