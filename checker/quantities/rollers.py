"""Rollers that turn: what they store, and how far to stay away until they stand."""

from checker.quantities.registry import Argument, above, quantity


@quantity(
    "dyno.rollers.energy",
    gives="energy",
    inputs={"inertia": "inertia", "speed": "top_speed", "diameter": "diameter"},
    formula="½ × inertia × (2 × top speed ÷ diameter)²",
    source="mechanics (definition)",
    status="definition",
    leaves_out="the energy of the wheels and the drive line that turn with them",
    range={"diameter": above(0, "m")},
)
def stored_energy(inertia: float, speed: float, diameter: float) -> float:
    """The energy in rollers at their surface speed in J, from kg m2, m/s and m."""
    turning = 2 * speed / diameter
    return inertia * turning**2 / 2


@quantity(
    "dyno.separation",
    gives="length",
    inputs={"run_down": "run_down"},
    arguments=(Argument("approach_speed", "speed"), Argument("allowance", "length")),
    formula="approach speed × run-down + allowance",
    source="ISO 13855:2010, S = K × T + C (secondary)",
    status="secondary",
    leaves_out="the least distances the standard sets for single devices, and the response time of the device",
)
def separation(run_down: float, approach_speed: float, allowance: float) -> float:
    """The distance from which nobody reaches a part that still turns, in m, from s, m/s and m."""
    return approach_speed * run_down + allowance
