"""Air that fans move through a room."""

import math
from collections.abc import Sequence

from checker.quantities.registry import above, quantity

_BALANCE = "balance of air (definition)"


@quantity(
    "room.exhaust_flow",
    gives="flow",
    inputs={"flows": "fans[moves=out of the room].flow"},
    formula="sum of the flows of the fans that move air out of the room",
    source=_BALANCE,
    status="definition",
    leaves_out="leaks, open doors, natural draught, and whether the fans run at the same time",
)
@quantity(
    "room.supply_flow",
    gives="flow",
    inputs={"flows": "fans[moves=into the room].flow"},
    formula="sum of the flows of the fans that move air into the room",
    source=_BALANCE,
    status="definition",
    leaves_out="leaks, open doors, natural draught, and whether the fans run at the same time",
)
def total_flow(flows: Sequence[float]) -> float:
    """The sum of flows in m3/s; 0 where there is none. A fan that stirs the room's own air is not in it."""
    return math.fsum(flows)


@quantity(
    "room.through_flow",
    gives="flow",
    inputs={"exhaust": "exhaust_flow", "supply": "supply_flow"},
    formula="the larger of exhaust flow and supply flow",
    source=_BALANCE,
    status="definition",
    leaves_out="the path the air takes: what enters may leave again without crossing the room",
)
def through_flow(exhaust: float, supply: float) -> float:
    """The flow of outside air through a room in m3/s: what the weaker side lacks comes or goes by gaps and doors."""
    return max(exhaust, supply)


@quantity(
    "room.air_changes",
    gives="air_changes",
    inputs={"flow": "through_flow", "volume": "volume"},
    formula="through flow ÷ volume",
    source="definition; used in UFC 3-410-04N (2004), equation 6 (read in a copy)",
    status="verified",
    leaves_out="how well the air mixes: dead corners are changed less often",
    range={"volume": above(0, "m3")},
)
def air_changes(flow: float, volume: float) -> float:
    """How often a room's air is replaced, per second, from m3/s and m3."""
    return flow / volume
