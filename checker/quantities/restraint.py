"""Straps that hold a vehicle on rollers: how they lie, what they hold together, what pulls at them. Screening only.

A strap is measured with a tape: its rise and, on the floor, how far it runs along and across the vehicle. Wheels roll,
so friction at the tyre holds nothing, and what keeps the vehicle from driving off is the part of each strap that lies
along it. Road rules for cargo do not bind a vehicle that stands on rollers; their way to count is used by analogy.
"""

import math
from collections.abc import Sequence

from checker.quantities.registry import Argument, above, quantity

GRAVITY = 9.80665
"""m/s2, standard."""

_TAPED = {"rise": "rise", "along": "along", "across": "across"}


def straight_length(rise: float, along: float, across: float) -> float:
    """The length of a strap that runs straight, from its three extents in one unit."""
    return math.hypot(rise, along, across)


@quantity(
    "strap.share_along",
    gives="ratio",
    inputs=_TAPED,
    formula="along ÷ √(rise² + along² + across²)",
    source="statics of a straight strap: cosine of its slope × cosine of its angle in plan (definition)",
    status="definition",
    leaves_out="straps that bend round an edge",
)
def share_along(rise: float, along: float, across: float) -> float:
    """The share of a strap's tension that acts along the vehicle."""
    return along / straight_length(rise, along, across)


@quantity(
    "strap.share_down",
    gives="ratio",
    inputs=_TAPED,
    formula="rise ÷ √(rise² + along² + across²)",
    source="statics of a straight strap: sine of its slope (definition)",
    status="definition",
    leaves_out="straps that bend round an edge",
)
def share_down(rise: float, along: float, across: float) -> float:
    """The share of a strap's tension that presses the vehicle down, and pulls its floor point up."""
    return rise / straight_length(rise, along, across)


@quantity(
    "strap.usable_load",
    gives="force",
    inputs={"strap": "working_load_limit", "point": "floor_point.rated_load"},
    formula="the smaller of the strap's limit and its floor point's rating",
    source="49 CFR 393.108(a) (read in a copy), by analogy",
    status="verified",
    leaves_out="the point at the vehicle, and a ratchet or hook rated lower than the label says",
)
def usable_load(strap: float, point: float) -> float:
    """What a strap may carry in N: no more than its weakest part, the floor point included."""
    return min(strap, point)


@quantity(
    "run.tractive_force",
    gives="force",
    inputs={"power": "power_at_hardest_pull", "speed": "speed_at_hardest_pull"},
    formula="power ÷ speed",
    source="mechanics (definition)",
    status="definition",
    leaves_out="jerks when the clutch bites or a gear is changed, and pulls in lower gears than the one recorded",
    range={"speed": above(0, "m/s")},
)
def tractive_force(power: float, speed: float) -> float:
    """The force with which the wheels push at the rollers in N, from W and m/s of the same moment."""
    return power / speed


@quantity(
    "run.strap_capacity",
    gives="force",
    inputs={
        "loads": "dyno.straps[pulls=rearward,sound=yes].usable_load",
        "shares": "dyno.straps[pulls=rearward,sound=yes].share_along",
    },
    formula="number of sound straps that pull rearward × the smallest (usable load × share along the vehicle) of them",
    source="statics: n × LC × cos α × cos β ≥ F for equal straps, the weakest taken for all (own derivation)",
    status="definition",
    leaves_out="what the straps are tightened to, jerks, stretch, friction, and clamps or stops that help",
)
def strap_capacity(loads: Sequence[float], shares: Sequence[float]) -> float:
    """The pull along the vehicle in N that the straps hold together, if each takes an equal part of it."""
    return len(loads) * min((load * share for load, share in zip(loads, shares, strict=True)), default=0.0)


@quantity(
    "run.strap_share_of_weight",
    gives="ratio",
    inputs={"loads": "dyno.straps[sound=yes].usable_load", "mass": "vehicle_mass"},
    arguments=(Argument("counted", "ratio"),),
    formula="counted share × sum of usable loads of sound straps ÷ (vehicle mass × 9.80665 m/s²)",
    source="49 CFR 393.106(d) (secondary), by analogy",
    status="secondary",
    leaves_out="directions and pull: the weight alone is compared",
    range={"mass": above(0, "kg")},
)
def strap_share_of_weight(loads: Sequence[float], mass: float, counted: float) -> float:
    """What all sound straps may carry over the vehicle's weight, from N and kg, each counted with a share."""
    return counted * sum(loads) / (mass * GRAVITY)
