"""Compressed air: what a receiver holds and what a pipe costs."""

from checker.quantities.missing import OutsideRange
from checker.quantities.registry import above, quantity

ATMOSPHERE = 101325.0
"""Pa."""
BAR = 1e5
MOST_DROP = 0.10
"""Share of the absolute pressure above which the form for small drops no longer holds."""


@quantity(
    "air_system.pressure_volume",
    gives="energy",
    inputs={"pressure": "max_working_pressure", "volume": "receiver_volume"},
    formula="highest working pressure (gauge) × volume of the receiver",
    source="pressure-volume product as pressure equipment rules use it (definition); 1 bar L = 100 J",
    status="definition",
    leaves_out="pipes; it is a threshold, not the energy set free in a burst",
)
def pressure_volume(pressure: float, volume: float) -> float:
    """The product of gauge pressure and volume in J (100 J are 1 bar litre), from Pa and m3."""
    return pressure * volume


@quantity(
    "accessory.line_drop",
    gives="pressure_difference",
    inputs={
        "flow": "flow",
        "length": "air_system.pipe_length",
        "bore": "air_system.pipe_bore",
        "pressure": "air_system.receiver_pressure",
    },
    formula="1.6×10⁸ × flow^1.85 × length ÷ (bore⁵ × absolute pressure), in bar, m3/s, m and mm",
    source="empirical form of compressed-air handbooks (secondary)",
    status="secondary",
    leaves_out="fittings, hoses and couplings, other tools on the same pipe; at sea level",
    range={"bore": above(0, "m")},
)
def line_drop(flow: float, length: float, bore: float, pressure: float) -> float:
    """The fall of pressure along a steel pipe in Pa, from free air in m3/s, m, m and gauge pressure in Pa.

    Holds while the fall is below a tenth of the absolute pressure; raises OutsideRange beyond.
    """
    absolute = pressure + ATMOSPHERE
    drop = BAR * 1.6e8 * flow**1.85 * length / ((bore * 1000) ** 5 * absolute / BAR)
    if drop > MOST_DROP * absolute:
        raise OutsideRange("the fall comes to more than a tenth of the absolute pressure, where the form fails")
    return float(drop)
