"""How far off a barrier has to stand so that nobody reaches over it to a moving part."""

from collections.abc import Mapping
from itertools import pairwise
from typing import Final

from checker.quantities.missing import OutsideRange
from checker.quantities.registry import quantity

LOW_RISK_BARRIERS: Final = (1000, 1200, 1400, 1600, 1800, 2000, 2200, 2400, 2500)
"""mm. Heights of barriers that the table for low risk has, one a column."""
LOW_RISK: Final = {
    2500: (0, 0, 0, 0, 0, 0, 0, 0, 0),
    2400: (100, 100, 100, 100, 100, 100, 100, 100, 0),
    2200: (600, 600, 500, 500, 400, 350, 250, 0, 0),
    2000: (1100, 900, 700, 600, 500, 350, 0, 0, 0),
    1800: (1100, 1000, 900, 900, 600, 0, 0, 0, 0),
    1600: (1300, 1000, 900, 900, 500, 0, 0, 0, 0),
    1400: (1300, 1000, 900, 800, 100, 0, 0, 0, 0),
    1200: (1400, 1000, 900, 500, 0, 0, 0, 0, 0),
    1000: (1400, 1000, 900, 300, 0, 0, 0, 0, 0),
    800: (1300, 900, 600, 0, 0, 0, 0, 0, 0),
    600: (1200, 500, 0, 0, 0, 0, 0, 0, 0),
    400: (1200, 300, 0, 0, 0, 0, 0, 0, 0),
    200: (1100, 200, 0, 0, 0, 0, 0, 0, 0),
    0: (1100, 200, 0, 0, 0, 0, 0, 0, 0),
}
"""mm. Height of the moving part: level distance for each height of barrier. Row 0 and column 2500 are from memory."""
HIGH_RISK_BARRIERS: Final = (*LOW_RISK_BARRIERS, 2700)
HIGH_RISK: Final = {
    2700: (0, 0, 0, 0, 0, 0, 0, 0, 0, 0),
    2600: (900, 800, 700, 600, 600, 500, 400, 300, 100, 0),
    2400: (1100, 1000, 900, 800, 700, 600, 400, 300, 100, 0),
    2200: (1300, 1200, 1000, 900, 800, 600, 400, 300, 0, 0),
    2000: (1400, 1300, 1100, 900, 800, 600, 400, 0, 0, 0),
    1800: (1500, 1400, 1100, 900, 800, 600, 0, 0, 0, 0),
    1600: (1500, 1400, 1100, 900, 800, 500, 0, 0, 0, 0),
    1400: (1500, 1400, 1100, 900, 800, 0, 0, 0, 0, 0),
    1200: (1500, 1400, 1100, 900, 700, 0, 0, 0, 0, 0),
    1000: (1500, 1400, 1000, 800, 0, 0, 0, 0, 0, 0),
    800: (1500, 1300, 900, 600, 0, 0, 0, 0, 0, 0),
    600: (1400, 1300, 800, 0, 0, 0, 0, 0, 0, 0),
    400: (1400, 1200, 400, 0, 0, 0, 0, 0, 0, 0),
    200: (1200, 900, 0, 0, 0, 0, 0, 0, 0, 0),
    0: (1100, 500, 0, 0, 0, 0, 0, 0, 0, 0),
}
"""The same for high risk, from memory throughout."""
_READING: Final = "read at the next lower height of barrier and at that neighbouring height of part that asks for more"
_INPUTS: Final = {"part_height": "part_height", "height": "height"}


@quantity(
    "guard.reach_over_low_risk",
    gives="length",
    inputs=_INPUTS,
    formula=f"table of level distances by height of part and of barrier, {_READING}",
    source="ISO 13857:2019, 4.2.2, table 1 (secondary; parts from memory)",
    status="memory",
    leaves_out="things to climb on; high risk, which parts that draw in are",
)
def reach_over_low_risk(part_height: float, height: float) -> float:
    """How far a barrier stands from a moving part at low risk, in m, by the heights of both above the floor in m."""
    return _read(LOW_RISK, LOW_RISK_BARRIERS, part_height, height)


@quantity(
    "guard.reach_over",
    gives="length",
    inputs=_INPUTS,
    formula=f"table of level distances by height of part and of barrier, {_READING}",
    source="ISO 13857:2019, 4.2.2, table 2 (memory)",
    status="memory",
    leaves_out="things to climb on; that a barrier under 1400 mm is not enough by itself",
)
def reach_over_high_risk(part_height: float, height: float) -> float:
    """How far a barrier stands from a moving part at high risk, in m, by the heights of both above the floor in m."""
    return _read(HIGH_RISK, HIGH_RISK_BARRIERS, part_height, height)


def _read(table: Mapping[int, tuple[int, ...]], barriers: tuple[int, ...], part: float, barrier: float) -> float:
    part_mm, barrier_mm = (round(1000 * each, 6) for each in (part, barrier))
    if barrier_mm < barriers[0]:
        raise OutsideRange(f"the table holds no barrier lower than {barriers[0]} mm")
    column = max(number for number, each in enumerate(barriers) if each <= barrier_mm)
    rows = sorted(table)
    if part_mm >= rows[-1]:
        return table[rows[-1]][column] / 1000
    if part_mm in table:
        return table[int(part_mm)][column] / 1000
    below, over = next(pair for pair in pairwise(rows) if pair[0] < part_mm < pair[1])
    return max(table[below][column], table[over][column]) / 1000
