"""How far engines on the rollers warm a room."""

import math
from collections.abc import Sequence

from checker.quantities.exhaust import DRIVE_LINE
from checker.quantities.registry import Argument, above, between, quantity

AIR_DENSITY = 1.204
"""kg/m3, dry air at 20 °C and 101 325 Pa (secondary)."""
AIR_HEAT_CAPACITY = 1006.0
"""J/(kg K) (secondary)."""
WORK_SHARE = 0.30
"""Share of the fuel's energy that reaches the crankshaft."""


@quantity(
    "room.temperature_rise",
    gives="temperature_difference",
    inputs={"powers": "dynos[*].highest_power", "flow": "through_flow"},
    arguments=(Argument("heat_share", "ratio"),),
    formula="heat share × Σ highest power ÷ 0.85 ÷ 0.30 ÷ (1.204 kg/m3 × 1006 J/(kg K) × through flow)",
    source=(
        "split of fuel energy 30-30-30-10: Martyr & Plint, Engine Testing, 3rd ed., table 2.2 (secondary); "
        "sensible heat of air (secondary); 0.85 from crankshaft to wheel is common practice (from memory)"
    ),
    status="memory",
    leaves_out=(
        "heat taken up by walls and floor, thin air at altitude, and that short pulls end before the room is warm; "
        "all rollers are taken to run at once"
    ),
    range={"flow": above(0, "m3/s"), "heat_share": between(0, 1)},
)
def temperature_rise(powers: Sequence[float], flow: float, heat_share: float) -> float:
    """How much warmer the air leaves than it came, in K, from powers at the wheel in W and a flow in m3/s.

    `heat_share` is the share of the fuel's energy that ends in the room: 0.70 where brake and radiator both do.
    """
    return warming_of_air(heat_share * fuel_power(math.fsum(powers) / DRIVE_LINE), flow)


def fuel_power(power: float) -> float:
    """The power of the fuel burnt for a power at the crankshaft, both in W."""
    return power / WORK_SHARE


def warming_of_air(heat: float, flow: float) -> float:
    """The rise in temperature of a flow of air (m3/s) that takes up heat (W), in K."""
    return heat / (AIR_DENSITY * AIR_HEAT_CAPACITY * flow)
