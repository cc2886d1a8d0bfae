"""Hydrogen from batteries on charge."""

from checker.quantities.registry import quantity

FLOW_PER_CELL_AMPERE = 0.055 / 3600
"""m3/(s A) for each cell."""


@quantity(
    "charging_place.hydrogen_flow",
    gives="flow",
    inputs={"cells": "cells", "current": "gassing_current"},
    formula="0.055 m3/h × cells × gassing current in A",
    source="EN IEC 62485-3, as restated in trade leaflets of 2017 and 2020 (secondary)",
    status="secondary",
    leaves_out="where the air enters and leaves; taken at 25 °C",
)
def dilution_flow(cells: float, current: float) -> float:
    """The flow of fresh air in m3/s that keeps hydrogen thin enough, from cells and the gassing current in A."""
    return FLOW_PER_CELL_AMPERE * cells * current
