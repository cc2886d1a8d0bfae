"""Hydrogen from batteries on charge."""

from checker.quantities.registry import quantity

FLOW_PER_CELL_AMPERE = 0.055 / 3600
"""m3/(s A) for each cell."""

FLOW_PER_OPENING = 1 / 3600 / 28e-4
"""m3/s for each m2 of the smaller opening: 28 cm2 for 1 m3/h, air at about 0.1 m/s."""


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


@quantity(
    "charging_place.air_flow",
    gives="flow",
    inputs={"low": "low_opening", "high": "high_opening"},
    formula="the smaller of low and high opening ÷ 28 cm2, in m3/h",
    source="EN 50272-3, as makers of batteries restate it (secondary)",
    status="secondary",
    leaves_out="wind, and openings that are neither opposite nor 2 m apart on one wall: for those a fan is needed",
)
def flow_through_openings(low: float, high: float) -> float:
    """The air in m3/s that two openings of so many m2, both open all the time, let through by themselves."""
    return FLOW_PER_OPENING * min(low, high)
