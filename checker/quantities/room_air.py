"""What exhaust fans do to a closed room: how hard they suck at it and at its doors, and how far a run warms it."""

import math

from checker.quantities.exhaust import DRIVE_LINE
from checker.quantities.heat import AIR_DENSITY, AIR_HEAT_CAPACITY, fuel_power
from checker.quantities.registry import Argument, above, between, quantity

DISCHARGE = 0.61
"""Share of the ideal flow that passes a sharp-edged opening; 0.61 to 0.65 are given (secondary)."""
HANDLE_TO_EDGE = 0.07
"""m, from a door's handle to its edge (an example's figure, secondary)."""
CLOSER = 40.0
"""N, what closer, seals and hinges of a door take by themselves: common practice, from memory."""


@quantity(
    "room.suction",
    gives="pressure_difference",
    inputs={"exhaust": "exhaust_flow", "supply": "supply_flow", "area": "make_up.opening_area"},
    formula="1.204 kg/m3 ÷ 2 × ((exhaust − supply) ÷ (0.61 × opening area))²; 0 where supply is no less",
    source="flow through a sharp-edged opening, as smoke-control handbooks use it (secondary)",
    status="secondary",
    leaves_out="gaps and doors that let air in as well, wind, and how far fans lose flow against suction",
    range={"area": above(0, "m2")},
)
def suction(exhaust: float, supply: float, area: float) -> float:
    """How far the pressure in a room falls below that outdoors in Pa, from m3/s, m3/s and m2."""
    return pressure_across(max(exhaust - supply, 0.0), area, DISCHARGE)


def pressure_across(flow: float, area: float, discharge: float) -> float:
    """The pressure in Pa that drives a flow of air (m3/s) through an opening (m2) of a discharge coefficient."""
    return AIR_DENSITY / 2 * (flow / (discharge * area)) ** 2


@quantity(
    "door.opening_force",
    gives="force",
    inputs={"suction": "room.suction", "width": "width", "height": "height"},
    formula="40 N + suction × width² × height ÷ (2 × (width − 0.07 m))",
    source=(
        "ASHRAE Handbook HVAC Applications 2011, chapter 53, equation 11 (secondary); "
        "40 N for closer, seals and hinges is common practice (from memory)"
    ),
    status="memory",
    leaves_out="doors that slide or roll, and that suction helps a door that opens into the room",
    range={"width": above(HANDLE_TO_EDGE, "m")},
)
def opening_force(suction: float, width: float, height: float) -> float:
    """The force at the handle in N that opens a hinged door against suction (Pa), from its sides in m."""
    return CLOSER + force_of_suction(suction, width, height)


def force_of_suction(suction: float, width: float, height: float) -> float:
    """The part of that force which suction makes, in N."""
    return suction * width**2 * height / (2 * (width - HANDLE_TO_EDGE))


@quantity(
    "run.room_warming",
    gives="temperature_difference",
    inputs={
        "power": "highest_power",
        "lasts": "lasts",
        "flow": "dyno.room.through_flow",
        "volume": "dyno.room.volume",
    },
    arguments=(Argument("heat_share", "ratio"),),
    formula=(
        "heat ÷ (1.204 kg/m3 × 1006 J/(kg K) × flow) × (1 − e^(−flow × time ÷ volume)), "
        "heat = heat share × highest power ÷ 0.85 ÷ 0.30; without flow heat × time ÷ (… × volume)"
    ),
    source=(
        "heat balance of well-mixed air (own derivation); split of fuel energy 30-30-30-10: Martyr & Plint, "
        "Engine Testing, 3rd ed., table 2.2 (secondary); 0.85 from crankshaft to wheel is common practice (from memory)"
    ),
    status="memory",
    leaves_out="heat taken up by walls, brake and engine, and that power is below its highest for most of a run",
    range={"volume": above(0, "m3"), "heat_share": between(0, 1)},
)
def room_warming(power: float, lasts: float, flow: float, volume: float, heat_share: float) -> float:
    """How far one run warms the air of its room in K, from the power at the wheel in W, s, m3/s and m3."""
    return warming_after(heat_share * fuel_power(power / DRIVE_LINE), lasts, flow, volume)


def warming_after(heat: float, lasts: float, flow: float, volume: float) -> float:
    """The rise in temperature of well-mixed air in K, after heat (W) for a time (s) with or without a flow (m3/s)."""
    capacity = AIR_DENSITY * AIR_HEAT_CAPACITY
    if flow == 0:
        return heat * lasts / (capacity * volume)
    return heat / (capacity * flow) * -math.expm1(-flow * lasts / volume)
