"""What an engine on the rollers blows out, and what of it stays in the room.

The burning of petrol is taken from its balance of atoms: fuel CHy with y = 1.87, air with 3.773 mol of nitrogen and
other gases to 1 mol of oxygen. Rich mixtures burn no hydrogen and carbon to the end, but the number of moles does not
depend on how the oxygen is shared among them.
"""

import math

from checker.quantities.registry import Argument, above, between, quantity

GAS_CONSTANT = 8.314462618
"""J/(mol K), exact in the SI since 2019 (from memory)."""
ATMOSPHERE = 101325.0
"""Pa."""
ROOM_TEMPERATURE = 298.15
"""K; 25 °C, at which room air is reckoned."""

HYDROGEN_PER_CARBON = 1.87
FUEL_PER_CARBON = 0.013896
"""kg of petrol to one mol of carbon."""
OXYGEN_PER_CARBON = 1 + HYDROGEN_PER_CARBON / 4
NITROGEN_PER_OXYGEN = 3.773

FUEL_PER_WORK = 0.300 / 3.6e6
"""kg/J: 300 g/kWh at the crankshaft, a petrol engine at full load (common practice, from memory: 280 to 340)."""
DRIVE_LINE = 0.85
"""Share of the crankshaft's power that arrives at the wheel (common practice, from memory)."""
MIXTURE = 0.88
"""Ratio of air to what burning needs (lambda) at best power (secondary)."""

_BASIS = (
    "balance of atoms and ideal gas, own arithmetic; 300 g/kWh and 0.85 from crankshaft to wheel are common practice "
    "(from memory), lambda 0.88 for best power is secondary"
)
_TEMPERATURES = between(250, 1300, "K")


def exhaust_per_carbon(mixture: float) -> float:
    """Mol of wet exhaust to one mol of carbon burnt, for lambda up to 1. Source: balance of atoms."""
    return 1 + HYDROGEN_PER_CARBON / 2 + NITROGEN_PER_OXYGEN * mixture * OXYGEN_PER_CARBON


def air_per_carbon(mixture: float) -> float:
    """Mol of dry air to one mol of carbon burnt. Source: balance of atoms."""
    return mixture * OXYGEN_PER_CARBON * (1 + NITROGEN_PER_OXYGEN)


@quantity(
    "dyno.exhaust_flow",
    gives="flow",
    inputs={"power": "highest_power", "temperature": "exhaust_temperature"},
    formula="power ÷ 0.85 × 300 g/kWh ÷ 13.896 g/mol × 6.8075 × R × temperature ÷ 101 325 Pa",
    source=_BASIS,
    status="memory",
    leaves_out="diesel and alcohol fuels, engines far from 300 g/kWh, air drawn into the hose beside the gas",
    range={"temperature": _TEMPERATURES},
)
def exhaust_flow(power: float, temperature: float) -> float:
    """The flow of wet exhaust gas at the tailpipe in m3/s, from power at the wheel in W and gas temperature in K."""
    return exhaust_of_engine(power / DRIVE_LINE, temperature)


def exhaust_of_engine(power: float, temperature: float) -> float:
    """The flow of wet exhaust gas in m3/s, from power at the crankshaft in W and gas temperature in K.

    Petrol at 300 g/kWh and lambda 0.88, at 101 325 Pa.
    """
    carbon = power * FUEL_PER_WORK / FUEL_PER_CARBON
    return carbon * exhaust_per_carbon(MIXTURE) * GAS_CONSTANT * temperature / ATMOSPHERE


@quantity(
    "dyno.exhaust_flow_by_displacement",
    gives="flow",
    inputs={
        "displacement": "engine_displacement",
        "speed": "engine_speed",
        "temperature": "exhaust_temperature",
    },
    formula="displacement × engine speed ÷ 2 × 1.1044 × temperature ÷ 298.15 K",
    source="balance of atoms and ideal gas, own arithmetic; lambda 0.88 for best power is secondary",
    status="secondary",
    leaves_out="two-stroke and blown engines, which take in more than their displacement",
    range={"temperature": _TEMPERATURES},
)
def exhaust_flow_by_displacement(displacement: float, speed: float, temperature: float) -> float:
    """The flow of wet exhaust gas of a four-stroke engine in m3/s, from m3, r/s and gas temperature in K.

    The cylinders are taken to fill with air of 25 °C once in two turns, at lambda 0.88.
    """
    intake = displacement * speed / 2
    return intake * exhaust_per_carbon(MIXTURE) / air_per_carbon(MIXTURE) * temperature / ROOM_TEMPERATURE


@quantity(
    "dyno.co_in_room",
    gives="concentration",
    inputs={"power": "highest_power", "flow": "room.exhaust_flow"},
    arguments=(Argument("escape", "ratio"), Argument("co_fraction", "concentration")),
    formula="escape × CO fraction × exhaust flow at 25 °C ÷ exhaust flow of the room",
    source=f"steady state of a well-mixed room, NIOSH, AIHA Journal 58(11) 1997, equation 5 (secondary); {_BASIS}",
    status="memory",
    leaves_out=(
        "imperfect mixing (dead corners hold several times as much), carbon monoxide in the air that comes in, "
        "runs shorter than the room takes to fill, other engines, and that engines make more as oxygen falls"
    ),
    range={"flow": above(0, "m3/s"), "escape": between(0, 1), "co_fraction": between(0, 1)},
)
def co_in_room(power: float, flow: float, escape: float, co_fraction: float) -> float:
    """The fraction of carbon monoxide a room settles at, by volume, from W, m3/s and two fractions.

    `escape` is the share of the exhaust gas that gets into the room, `co_fraction` the carbon monoxide in wet exhaust.
    """
    return settled_fraction(escape * co_fraction * exhaust_flow(power, ROOM_TEMPERATURE), flow)


def settled_fraction(source_flow: float, air_flow: float) -> float:
    """What a gas settles at in a well-mixed room with clean supply air, as a fraction; flows in m3/s."""
    return source_flow / air_flow


@quantity(
    "dyno.capture.duct_velocity",
    gives="speed",
    inputs={"flow": "flow", "bore": "bore"},
    formula="4 × flow ÷ (π × bore²)",
    source="continuity (definition)",
    status="definition",
    leaves_out="dents and bends, which speed the air up where they narrow the hose",
    range={"bore": above(0, "m")},
)
def duct_velocity(flow: float, bore: float) -> float:
    """The mean speed of air in a round hose in m/s, from m3/s and m."""
    return 4 * flow / (math.pi * bore**2)
