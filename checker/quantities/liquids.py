"""Flammable liquids by mass, where rules count in kilograms."""

from typing import Final

from checker.quantities.missing import OutsideRange
from checker.quantities.registry import quantity

PETROL: Final = 745.0
"""kg/m3. A mean: petrol lies between 720 and 775 kg/m3 (EN 228, from memory)."""


@quantity(
    "fuel.mass",
    gives="mass",
    inputs={"substance": "substance", "volume": "volume"},
    formula="volume × 745 kg/m³, of petrol alone",
    source="density of petrol (common practice)",
    status="memory",
    leaves_out="that petrol may be 4 % heavier or 3 % lighter; other liquids, whose label says their mass",
)
def petrol_mass(substance: str, volume: float) -> float:
    """The mass of petrol in kg, from m3. Raises OutsideRange for another liquid."""
    if substance != "petrol":
        raise OutsideRange("the density of this liquid is not held: read its mass from the label")
    return volume * PETROL
