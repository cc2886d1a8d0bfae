"""Signs for what stands at a point. Each is our own plain drawing, and each differs in shape, not only in colour.

Where ISO 7010 has a sign for a thing, its content is drawn in our own lines, and its number stands beside it; the other
signs are plain geometry.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from checker.findings.storey import Spot
from checker.report.plan_sheet import Sheet, told
from checker.report.plan_styles import FIRE, INK, PAPER, SAFE

SIDE: Final = 5.4
"""mm. The square that a sign takes."""
_HALF = SIDE / 2
_INKED = {"fill": INK, "stroke": "none"}
_OPEN = {"fill": PAPER, "stroke": INK, "stroke-width": "0.4", "stroke-linejoin": "round"}
_LINED = {"fill": "none", "stroke": INK, "stroke-width": "0.4"}
_WHITE = {"fill": PAPER, "stroke": "none"}
_WHITE_LINE = {"fill": "none", "stroke": PAPER, "stroke-width": "0.45", "stroke-linecap": "round"}


def draw(sheet: Sheet, kind: str, at: Spot, class_: str, detail: str = "") -> None:
    """The sign of a kind of thing with its middle at a place; `detail` is a letter that some show."""
    place = sheet.group(class_, transform=f"translate({told(at[0])} {told(at[1])})")
    SIGNS.get(kind, _other)(place, detail)


def _square(sheet: Sheet, colour: str, corner: float = 0.3) -> None:
    style = {"fill": colour, "stroke": PAPER, "stroke-width": "0.3"}
    sheet.rectangle(-_HALF, -_HALF, SIDE, SIDE, style, corner)


def _extinguisher(sheet: Sheet, _: str) -> None:
    # ISO 7010 F001: an extinguisher beside flames.
    _square(sheet, FIRE, 0)
    sheet.rectangle(-1.7, -0.7, 1.5, 2.9, _WHITE, 0.4)
    sheet.shape("M-0.95,-0.7 V-1.5 M-1.6,-1.9 L-0.4,-1.3 M-0.95,-1.4 C-2.2,-1.4 -2.2,-0.4 -2.2,0.6", "", _WHITE_LINE)
    sheet.shape("M0.5,2.2 C0,1 1,0.6 0.9,-0.6 C1.9,0 2.3,1.2 1.9,2.2", "", _WHITE, closed=True)


def _exit(sheet: Sheet, _: str) -> None:
    # ISO 7010 E001 and E002: a person who runs through a door.
    _square(sheet, SAFE, 0)
    sheet.rectangle(0.4, -1.9, 1.7, 4, _WHITE)
    sheet.circle((-0.5, -1.5), 0.45, _WHITE)
    sheet.shape("M-0.6,-0.9 L-0.9,0.4 L0,1 L-0.3,2 M-0.9,0.4 L-1.5,1.3 L-2.3,1.3", "", _WHITE_LINE)
    sheet.shape("M-1.9,-0.2 L-1.5,-0.8 L-0.5,-0.8 L0.1,-0.1", "", _WHITE_LINE)


def _first_aid(sheet: Sheet, _: str) -> None:
    # ISO 7010 E003: a cross with arms of one length.
    _square(sheet, SAFE, 0)
    sheet.shape("M-0.6,-1.9 H0.6 V-0.6 H1.9 V0.6 H0.6 V1.9 H-0.6 V0.6 H-1.9 V-0.6 H-0.6", "", _WHITE, closed=True)


def _eyewash(sheet: Sheet, _: str) -> None:
    # ISO 7010 E011: an eye that water is let on.
    _square(sheet, SAFE, 0)
    sheet.shape("M-2,0.8 C-1,-0.5 1,-0.5 2,0.8 C1,2 -1,2 -2,0.8", "", _WHITE, closed=True)
    sheet.circle((0, 0.75), 0.6, {"fill": SAFE, "stroke": "none"})
    sheet.shape("M-1,-2 V-0.9 M0,-2.2 V-0.9 M1,-2 V-0.9", "", _WHITE_LINE)


def _hazard(sheet: Sheet, detail: str) -> None:
    sheet.shape("M0,-2.7 L2.7,2.3 L-2.7,2.3", "", _OPEN | {"fill": "#ffe28a"}, closed=True)
    letter = detail if len(detail) == 1 else "!"
    sheet.text((0, 1.7), letter, font_size="3", font_weight="700")


def _panel(sheet: Sheet, _: str) -> None:
    sheet.rectangle(-1.9, -_HALF, 3.8, SIDE, _OPEN)
    sheet.shape("M0.5,-2 L-0.9,0.3 H0.2 L-0.5,2 L1,-0.4 H-0.1", "", _INKED, closed=True)


def _emergency_stop(sheet: Sheet, _: str) -> None:
    sheet.circle((0, 0), _HALF, _OPEN | {"fill": "#ffe28a"})
    sheet.circle((0, 0), 1.5, {"fill": FIRE, "stroke": INK, "stroke-width": "0.3"})


def _disconnect(sheet: Sheet, _: str) -> None:
    # A box with a switch whose lever stands open.
    sheet.rectangle(-_HALF, -1.9, SIDE, 3.8, _OPEN)
    sheet.shape("M-2.1,0.6 H-1.1 L1,-1.1 M1.1,0.6 H2.1", "", _LINED | {"stroke-width": "0.55"})
    for x in (-1.1, 1.1):
        sheet.circle((x, 0.6), 0.45, _INKED)


def _operator(sheet: Sheet, _: str) -> None:
    # A person: head, shoulders and arms held out to a desk.
    sheet.circle((0, -1.5), 1, _INKED)
    sheet.shape("M-2,2.6 V1 C-2,-0.6 2,-0.6 2,1 V2.6", "", _OPEN, closed=True)
    sheet.shape("M-2.7,2.6 H2.7", "", _LINED | {"stroke-width": "0.6"})


def _charging_place(sheet: Sheet, _: str) -> None:
    # A battery with its two poles.
    sheet.rectangle(-2.5, -1.3, 5, 3.4, _OPEN)
    sheet.shape("M-1.9,-1.3 V-2.2 H-0.7 V-1.3 M0.7,-1.3 V-2.2 H1.9 V-1.3", "", _OPEN)
    sheet.shape("M-1.9,0.4 H-0.7 M0.7,0.4 H1.9 M1.3,-0.2 V1", "", _LINED)


def _light(sheet: Sheet, _: str) -> None:
    sheet.circle((0, 0), 1.5, _OPEN)
    sheet.shape("M-1.05,-1.05 L1.05,1.05 M-1.05,1.05 L1.05,-1.05", "", _LINED)
    sheet.shape("M0,-2.6 V-1.9 M0,2.6 V1.9 M-2.6,0 H-1.9 M2.6,0 H1.9", "", _LINED)


def _fuel(sheet: Sheet, _: str) -> None:
    sheet.shape("M-1.9,2.5 V-1.2 L-0.9,-2.2 H0.4 V-1.4 H1.9 V2.5", "", _OPEN, closed=True)
    sheet.shape("M-1.2,-0.6 L1.2,1.8 M-1.2,1.8 L1.2,-0.6", "", _LINED)


def _detector(sheet: Sheet, _: str) -> None:
    sheet.shape("M0,-2.6 L2.6,0 L0,2.6 L-2.6,0", "", _OPEN, closed=True)
    sheet.shape("M-1.2,0.5 C-0.6,-0.6 0,1.2 1.2,-0.4", "", _LINED)


def _suggested(sheet: Sheet, _: str) -> None:
    sheet.rectangle(-_HALF, -_HALF, SIDE, SIDE, _OPEN | {"stroke-dasharray": "1 0.6"})
    sheet.shape("M0,-1.6 V1.6 M-1.6,0 H1.6", "", _LINED | {"stroke-width": "0.7"})


def _other(sheet: Sheet, _: str) -> None:
    sheet.shape("M-1.3,-2.3 H1.3 L2.6,0 L1.3,2.3 H-1.3 L-2.6,0", "", _OPEN, closed=True)
    sheet.circle((0, 0), 0.5, _INKED)


SIGNS: Mapping[str, Callable[[Sheet, str], None]] = MappingProxyType(
    {
        "extinguisher": _extinguisher,
        "exit": _exit,
        "first_aid_kit": _first_aid,
        "eyewash": _eyewash,
        "hazard": _hazard,
        "panel": _panel,
        "emergency_stop": _emergency_stop,
        "disconnect": _disconnect,
        "operator": _operator,
        "charging_place": _charging_place,
        "emergency_light": _light,
        "fuel": _fuel,
        "detector": _detector,
        "suggested": _suggested,
        "other": _other,
    }
)
"""By the kind of thing."""
