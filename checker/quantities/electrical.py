"""Circuits: load, size of conductor, fall of voltage."""

import math
import re

from checker.quantities.registry import Argument, above, among, between, quantity

RESISTIVITY = {"copper": 0.0225e-6, "aluminium": 0.036e-6}
"""ohm m at working temperature: 1.25 times the value at 20 °C."""
REACTANCE = 0.08e-3
"""ohm/m."""


@quantity(
    "circuit.design_load",
    gives="current",
    inputs={"continuous": "continuous_load", "other": "other_load"},
    arguments=(Argument("continuous_factor", "number"),),
    formula="other load + factor × continuous load",
    source="NEC 210.20(A) and 215.3 with a factor of 1.25 (2011 and 2020 editions read in copies)",
    status="verified",
    leaves_out="starting currents and demand factors",
)
def design_load(continuous: float, other: float, continuous_factor: float) -> float:
    """The current a circuit is designed for in A, from its loads in A."""
    return other + continuous_factor * continuous


@quantity(
    "circuit.conductor_area",
    gives="area",
    inputs={"size": "conductor"},
    formula="AWG n: π/4 × (0.127 mm × 92^((36 − n) ÷ 39))²; mm2 as named",
    source="ASTM B258 (from memory)",
    status="memory",
    leaves_out="the gaps between strands: the area is the metal's",
)
def conductor_area(size: str) -> float:
    """The area of a conductor in m2, from its size as named: 8 AWG, 2/0 AWG, 10 mm2."""
    found = re.fullmatch(r"([0-9.]+)(/0)? ?(AWG|mm2)", size)
    if found is None:
        raise ValueError(f"{size!r} is no size of conductor")
    number, aught, unit = found.groups()
    if unit == "mm2":
        return float(number) * 1e-6
    gauge = 1 - int(number) if aught else int(number)
    return math.pi / 4 * awg_diameter(gauge) ** 2


def awg_diameter(gauge: int) -> float:
    """The diameter of a gauge in m; 1/0 is 0, 2/0 is -1 and so on. Source: ASTM B258 (from memory)."""
    return 0.127e-3 * float(92 ** ((36 - gauge) / 39))


@quantity(
    "circuit.voltage_drop",
    gives="ratio",
    inputs={
        "continuous": "continuous_load",
        "other": "other_load",
        "length": "length",
        "area": "conductor_area",
        "material": "conductor_material",
        "voltage": "nominal_voltage",
        "phases": "phases",
    },
    formula="b × length × load × √((ρ ÷ area)² + x²) ÷ voltage; b = 2, or √3 with three phases",
    source=(
        "IEC 60364-5-52 Annex G (secondary; b and the factor 1.25 from memory): copper 0.0225, aluminium "
        "0.036 ohm mm2/m, x = 0.08 mohm/m; at the power factor that drops most (own arithmetic)"
    ),
    status="memory",
    leaves_out="the feeder before the circuit, starting currents, unbalanced phases, harmonics",
    range={"phases": among(1, 3), "voltage": above(0, "V"), "length": between(0, 2000, "m")},
)
def voltage_drop(
    continuous: float,
    other: float,
    length: float,
    area: float,
    material: str,
    voltage: float,
    phases: float,
) -> float:
    """The largest fall of voltage along a circuit as a share of its nominal voltage.

    Loads in A, one-way length in m, area in m2, voltage in V (between lines where there are three phases).
    """
    resistance = RESISTIVITY[material] / area
    cosine = resistance / math.hypot(resistance, REACTANCE)
    return line_drop(continuous + other, length, resistance, REACTANCE, cosine, phases) / voltage


def line_drop(
    current: float, length: float, resistance: float, reactance: float, cosine: float, phases: float
) -> float:
    """The fall of voltage along a line in V, between lines where there are three phases.

    A, m one way, ohm/m of one conductor, power factor (lagging). Source: R cos φ + X sin φ, UFC 3-520-01 (2002)
    B-2 (verified for one conductor; the factors 2 and √3 secondary). Good while the fall is small.
    """
    ways = 2 if phases == 1 else math.sqrt(3)
    return ways * length * current * (resistance * cosine + reactance * math.sqrt(1 - cosine**2))
