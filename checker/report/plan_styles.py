"""How each class of mark on a floor plan is drawn. What differs, differs in more than colour: width, dashes, pattern.

Lengths are millimetres on paper.
"""

from collections.abc import Mapping
from types import MappingProxyType

Style = Mapping[str, str]
INK, QUIET, PAPER = "#1d1c1a", "#55524b", "#ffffff"
GRAVE, CALM, FIRE, SAFE = "#8f1414", "#124a78", "#9b1c1c", "#0b5f41"


def _line(colour: str, width: float, dashes: str = "", **more: str) -> Style:
    style = {"fill": "none", "stroke": colour, "stroke-width": str(width), "stroke-linejoin": "round", **more}
    return MappingProxyType(style | ({"stroke-dasharray": dashes} if dashes else {}))


AREAS: Mapping[str, Style] = MappingProxyType(
    {
        "wall": _line(INK, 2.0),
        "room": _line(INK, 0.2, fill=PAPER),
        "obstacle": _line(INK, 0.35, fill="pattern:obstacle"),
        "machine": _line(INK, 0.6, fill="pattern:machine"),
        "clear-zone": _line(QUIET, 0.35, "1.2 0.8", fill="pattern:clear-zone"),
        "strip": _line(GRAVE, 0.4, "3 0.8 0.5 0.8", fill="pattern:strip"),
        "working-space": _line(CALM, 0.4, "0.5 0.7", fill="pattern:working-space"),
        "area": _line(CALM, 0.4, "2 2"),
    }
)
"""Floor that something takes up, or that was looked at."""
PATTERNS: Mapping[str, tuple[float, str, str, float]] = MappingProxyType(
    {
        "obstacle": (1.5, "M-0.4,1.9 L1.9,-0.4 M-0.4,0.4 L0.4,-0.4 M1.1,1.9 L1.9,1.1", QUIET, 0.2),
        "machine": (1.2, "M0,0 H1.2 M0,0 V1.2", QUIET, 0.12),
        "clear-zone": (2.2, "M0.9,1.1 H1.3", QUIET, 0.4),
        "strip": (3.0, "M-0.5,-0.5 L3.5,3.5 M2.5,-0.5 L3.5,0.5 M-0.5,2.5 L0.5,3.5", GRAVE, 0.25),
        "working-space": (1.6, "M0,0.8 H1.6", CALM, 0.15),
    }
)
"""The side of a tile, what is drawn on it, colour and width of its lines."""
LINES: Mapping[str, Style] = MappingProxyType(
    {
        "partition-solid": _line(INK, 1.2),
        "partition-thin": _line(INK, 2.0),
        "partition-unknown": _line(INK, 0.6, "1.6 0.9"),
        "leaf": _line(INK, 0.4),
        "swing": _line(INK, 0.18),
        "roller-door": _line(INK, 0.7, "0.7 0.5"),
        "bar": _line(INK, 0.55),
        "rollers": _line(INK, 1.1),
        "travel": _line(INK, 0.5),
        "leader": _line(QUIET, 0.15),
        "walk": _line(CALM, 0.55),
        "farthest-walk": _line(CALM, 0.55, "2.4 1"),
        "common-path": _line(CALM, 0.55, "4 0.9 0.8 0.9"),
        "measure": _line(CALM, 0.3),
        "straight-line": _line(CALM, 0.3, "1.6 0.6"),
        "reach": _line(CALM, 0.45, "0.3 0.9"),
        "other": _line(CALM, 0.55, "1 1"),
    }
)
"""What is a line on a plan."""
BY_OUTCOME: Mapping[str, Style] = MappingProxyType(
    {
        "not met": {"stroke": GRAVE, "stroke-width": "0.95"},
        "undetermined": {},
        "met": {"stroke-width": "0.4"},
        "not applicable": {"stroke-width": "0.4"},
    }
)
"""What the outcome of its finding changes on a line."""
TEXT = {"font-family": "system-ui, sans-serif", "font-size": "2.8", "fill": INK}
SIZE = 2.8
"""Of letters."""
WIDE = 0.58
"""What a column of text takes of its size."""
LABELS: Mapping[str, Style] = MappingProxyType(
    {
        "not met": {"fill": INK, "stroke": INK, "stroke-width": "0.3"},
        "undetermined": {"fill": PAPER, "stroke": INK, "stroke-width": "0.3", "stroke-dasharray": "1 0.6"},
        "met": {"fill": PAPER, "stroke": INK, "stroke-width": "0.2"},
        "not applicable": {"fill": PAPER, "stroke": QUIET, "stroke-width": "0.1"},
    }
)
"""The box round a label; that of what is not met is dark, and its letters light."""
