"""Concrete that breaks out with a floor anchor pulled upward: screening of one anchor of a pattern.

Both methods take the anchor at a corner of its pattern: an edge of the slab at the recorded distance on one side and
the next anchor at the recorded spacing on the other, in both directions. In a pattern of more than four, an anchor
between two others shares on both sides; the smaller area counts. Saw cuts, joints and pit edges are edges.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final, cast

from checker.quantities.missing import OutsideRange
from checker.quantities.registry import above, between, quantity
from checker.site.entries import Pair
from checker.site.outlines import contains

if TYPE_CHECKING:
    from checker.plan import EdgeDistance

Point = tuple[float, float]
Outline = tuple[Point, ...]
Line = tuple[Point, ...]

PSI = 6894.757293168
"""Pa; from the exact pound and inch."""
INCH = 0.0254
POUND_FORCE = 4.4482216152605
"""N."""
MM = 1e-3
MPA = 1e6

CAST_IN = "cast-in bolt"
ACI_BASIC = {True: 24.0, False: 17.0}
"""Factor of the basic strength in lb, in and psi: cast-in, post-installed."""
ACI_UNCRACKED = {True: 1.25, False: 1.4}
ACI_CRITICAL_EDGE = {
    "expansion torque-controlled": 4.0,
    "expansion displacement-controlled": 4.0,
    "screw": 4.0,
    "undercut": 2.5,
    "bonded": 2.0,
}
"""Edge distance, in embedments, from which an uncracked slab does not split; without data of the product."""
ACI_STRONGEST = {True: 10_000 * PSI, False: 8_000 * PSI}
"""Concrete strength beyond which no more is counted, in Pa."""
EN_BASIC = {(True, True): 8.9, (True, False): 12.7, (False, True): 7.7, (False, False): 11.0}
"""Factor of the basic strength in N, mm and N/mm2: (cast-in, cracked)."""

_INPUTS = {
    "kind": "kind",
    "count": "count",
    "embedment": "embedment",
    "spacing": "spacing",
    "edge": "edge_distance",
    "strength": "concrete_strength",
    "cracked": "cracked",
}
_LEAVES_OUT = (
    "steel, pullout, splitting and shear, pull off the centre of the pattern, patterns of more than two rows, "
    "and the data of the product, which come first: screening, not design"
)


def shared_width(near: float, spacing: float, embedment: float) -> float:
    """The width of concrete that one anchor has to itself, in the unit given: toward an edge and toward the next one.

    The cone spreads 1.5 times the embedment to each side; anchors share what lies between them evenly.
    """
    reach = 1.5 * embedment
    return min(near, reach) + min(spacing / 2, reach)


def area_ratio(count: float, embedment: float, spacing: float, edge: float) -> float:
    """The concrete of one anchor of a pattern over that of an anchor far from all others and all edges, at most 1."""
    corner = shared_width(edge, spacing, embedment)
    along = min(corner, shared_width(spacing / 2, spacing, embedment)) if count > 4 else corner
    return corner * along / (3 * embedment) ** 2


def edge_factor(edge: float, embedment: float) -> float:
    """How much a near edge disturbs the cone, at most 1: the same in ACI 318-19 17.6.2.4 and CEN/TS 1992-4-2 6.2.5."""
    return min(1.0, 0.7 + 0.3 * edge / (1.5 * embedment))


def basic_breakout(factor: float, strength: float, embedment: float) -> float:
    """factor × √strength × embedment^1.5, in the units of the factor."""
    return float(factor * strength**0.5 * embedment**1.5)


def aci_splitting_factor(kind: str, cracked: bool, edge: float, embedment: float) -> float:
    """How much an uncracked slab without bars against splitting loses near an edge. Source: ACI 318-19 17.6.2.6."""
    if kind == CAST_IN or cracked:
        return 1.0
    critical = ACI_CRITICAL_EDGE[kind] * embedment
    return min(1.0, max(edge, 1.5 * embedment) / critical)


@quantity(
    "dyno.anchors.breakout_aci",
    gives="force",
    inputs=_INPUTS,
    formula=(
        "area ratio × edge factor × cracking factor × splitting factor × k × √strength × embedment^1.5 "
        "(lb, in, psi; k = 24 cast-in, 17 post-installed)"
    ),
    source="ACI 318-19 17.6.2 and Table 17.9.5, inch-pound form, nominal strength (secondary)",
    status="secondary",
    leaves_out=f"the strength reduction factor; normal-weight concrete; {_LEAVES_OUT}",
    range={
        "count": above(0),
        "embedment": between(0.038, 0.635, "m"),
        "spacing": above(0, "m"),
        "edge": above(0, "m"),
        "strength": above(0, "Pa"),
    },
)
def breakout_aci(
    kind: str, count: float, embedment: float, spacing: float, edge: float, strength: float, cracked: bool
) -> float:
    """The nominal breakout strength of one anchor in tension after ACI 318-19, in N, from m and Pa.

    Strength above the cap of 17.3.1 is not counted. The form is that of the inch-pound edition; its SI edition rounds
    the factors down, by up to 1.6 %.
    """
    cast = kind == CAST_IN
    counted = min(strength, ACI_STRONGEST[cast]) / PSI
    basic = basic_breakout(ACI_BASIC[cast], counted, embedment / INCH) * POUND_FORCE
    cracking = 1.0 if cracked else ACI_UNCRACKED[cast]
    splitting = aci_splitting_factor(kind, cracked, edge, embedment)
    return area_ratio(count, embedment, spacing, edge) * edge_factor(edge, embedment) * cracking * splitting * basic


@quantity(
    "dyno.anchors.breakout_en",
    gives="force",
    inputs=_INPUTS,
    formula=(
        "area ratio × edge factor × k × √strength × embedment^1.5 "
        "(N, mm, N/mm2; k = 8.9 or 12.7 cast-in, 7.7 or 11.0 post-installed, cracked or not)"
    ),
    source=(
        "EN 1992-4:2018 7.2.1.4, characteristic strength, cylinder strength (from memory; k of cast-in secondary; "
        "the other factors verified in the superseded CEN/TS 1992-4-2:2009)"
    ),
    status="memory",
    leaves_out=f"the partial factor; closely barred slabs under 100 mm of embedment; {_LEAVES_OUT}",
    range={
        "count": above(0),
        "embedment": between(0.040, 0.635, "m"),
        "spacing": above(0, "m"),
        "edge": above(0, "m"),
        "strength": between(12e6, 60e6, "Pa"),
    },
)
def breakout_en(
    kind: str, count: float, embedment: float, spacing: float, edge: float, strength: float, cracked: bool
) -> float:
    """The characteristic breakout resistance of one anchor in tension after EN 1992-4, in N, from m and Pa."""
    basic = basic_breakout(EN_BASIC[kind == CAST_IN, cracked], strength / MPA, embedment / MM)
    return area_ratio(count, embedment, spacing, edge) * edge_factor(edge, embedment) * basic


_ON_THE_PLAN: Final = {"places": "places", "slab": "slab", "joints": "joints[*].line"}


@quantity(
    "dyno.anchors.edge_distance",
    gives="length",
    inputs=_ON_THE_PLAN,
    formula="least distance from the middle of an anchor to an edge of the slab or to a joint in it",
    source="plane geometry",
    status="definition",
    leaves_out="edges of pits and channels that were not drawn; how true the drawing is",
)
def nearest_edge(places: Sequence[Point], slab: Outline, joints: Sequence[Line]) -> float:
    """The distance in m from anchors to the nearest edge of their slab, a joint being one. Raises OutsideRange."""
    found = _distances(places, slab, joints)
    return min(gap.distance for each in found for gap in (each.to_edge, each.to_joint) if gap is not None)


@quantity(
    "dyno.anchors.spacing",
    gives="length",
    inputs=_ON_THE_PLAN,
    formula="least distance between the middles of two anchors",
    source="plane geometry",
    status="definition",
    leaves_out="how true the drawing is",
)
def nearest_anchor(places: Sequence[Point], slab: Outline, joints: Sequence[Line]) -> float:
    """The distance in m between those two anchors that stand closest. Raises OutsideRange."""
    found = _distances(places, slab, joints)
    return min(each.to_anchor.distance for each in found if each.to_anchor is not None)


def _distances(places: Sequence[Point], slab: Outline, joints: Sequence[Line]) -> "tuple[EdgeDistance, ...]":
    from checker.plan import edge_distances
    from checker.plan.shapes import Line as Joint

    if any(not contains(cast("tuple[Pair, ...]", slab), cast("Pair", each)) for each in places):
        raise OutsideRange("an anchor stands outside the outline of the slab")
    return edge_distances(places, slab, [Joint(tuple(each)) for each in joints])
