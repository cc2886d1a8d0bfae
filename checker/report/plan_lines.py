"""What findings measured: walks with their arrow, clearances with a dimension line, strips, and lines of reach."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from math import hypot

from checker.findings.storey import Corners, Spot
from checker.report.plan_frame import Frame
from checker.report.plan_model import Line
from checker.report.plan_parts import arrow_head
from checker.report.plan_sheet import Sheet
from checker.report.plan_space import Space, round_about, text_width
from checker.report.plan_styles import AREAS, BY_OUTCOME, INK, LABELS, LINES, PAPER, SIZE

_NEAR = 0.002
"""m. A side whose length differs from a value by less is the side that was measured."""
_TICK = 1.3
_CASE = {"fill": "none", "stroke": PAPER, "stroke-width": "1.5", "stroke-linejoin": "round", "stroke-opacity": "0.7"}
"""Paper left free beside a walk that crosses a pattern."""
_LABEL_HEIGHT = 4.2
_RADII = (4.0, 6.5, 9.0, 13.0, 18.0, 24.0, 31.0)


def style_of(line: Line) -> Mapping[str, str]:
    """How a line is drawn: by what it shows and by how the finding came out."""
    if line.style in AREAS:
        return {**AREAS[line.style], **(BY_OUTCOME[line.outcome] if line.outcome == "not met" else {})}
    return {**LINES[line.style], **BY_OUTCOME[line.outcome]}


def draw_line(sheet: Sheet, line: Line, frame: Frame, space: Space) -> None:
    """A line or area, without its label. What reaches past the paper is cut off there by the sheet."""
    group, style = sheet.group("line"), style_of(line)
    for ring in line.rings:
        points = frame.all(ring)
        if line.style in AREAS:
            group.path(points, line.style, style, closed=True)
            _measure(group, line, ring, frame)
            space.take_line([*points, points[0]])
            continue
        space.take_line(points)
        if line.style in ("measure", "straight-line"):
            _dimension(group, points, style, style.get("stroke-dasharray", ""))
        else:
            _walk(group, line, points, style)


def _walk(sheet: Sheet, line: Line, points: Sequence[Spot], style: Mapping[str, str]) -> None:
    if len(points) < 2:
        return
    sheet.path(points, "case", _CASE)
    sheet.path(points, line.style, style)
    arrow_head(sheet, points[-2], points[-1], style["stroke"], 2.2)
    if line.style == "farthest-walk":
        sheet.circle(points[0], 1.5, {"fill": PAPER, "stroke": style["stroke"], "stroke-width": "0.5"}, "farthest")
        sheet.circle(points[0], 0.5, {"fill": style["stroke"], "stroke": "none"})
    else:
        sheet.circle(points[0], 0.8, {"fill": style["stroke"], "stroke": PAPER, "stroke-width": "0.2"})


def _measure(sheet: Sheet, line: Line, ring: Corners, frame: Frame) -> None:
    """The dimension line through an area along the side that has the measured length."""
    if line.size is None or len(ring) != 4:
        return
    for n in (0, 1):
        a, b, c, d = (ring[(n + turn) % 4] for turn in range(4))
        if abs(hypot(b[0] - a[0], b[1] - a[1]) - line.size) < _NEAR:
            ends = ((a[0] + d[0]) / 2, (a[1] + d[1]) / 2), ((b[0] + c[0]) / 2, (b[1] + c[1]) / 2)
            _dimension(sheet, frame.all(ends), style_of(line))
            return


def _dimension(sheet: Sheet, points: Sequence[Spot], style: Mapping[str, str], dashes: str = "") -> None:
    (x1, y1), (x2, y2) = points[0], points[-1]
    length = hypot(x2 - x1, y2 - y1)
    plain = {"fill": "none", "stroke": style["stroke"], "stroke-width": "0.35"}
    sheet.path([(x1, y1), (x2, y2)], "dimension", plain | ({"stroke-dasharray": dashes} if dashes else {}))
    ux, uy = ((x2 - x1) / length, (y2 - y1) / length) if length else (0.0, 1.0)
    for x, y in ((x1, y1), (x2, y2)):
        sheet.path([(x - _TICK * uy, y + _TICK * ux), (x + _TICK * uy, y - _TICK * ux)], "dimension", plain)
        slant = (ux - uy) * 0.7, (uy + ux) * 0.7
        sheet.path([(x - slant[0], y - slant[1]), (x + slant[0], y + slant[1])], "dimension", plain)


def draw_label(sheet: Sheet, line: Line, frame: Frame, space: Space) -> None:
    """Name and value in a box beside the line: dark where it is not met, dashed where it is not known."""
    width = text_width(line.label) + 2
    middles = list(_middles(line, frame, space))
    box = space.place(width, _LABEL_HEIGHT, (spot for middle in middles for spot in round_about(middle, _RADII)))
    group = sheet.group("label")
    nearest = min(middles, key=lambda each: hypot(each[0] - box.x, each[1] - box.y))
    group.path([nearest, (box.x, box.y)], "leader", LINES["leader"])
    group.circle(nearest, 0.35, {"fill": INK, "stroke": "none"})
    group.rectangle(box.left, box.top, width, _LABEL_HEIGHT, LABELS[line.outcome], 0.6)
    ink = PAPER if line.outcome == "not met" else INK
    group.text((box.x, box.y + SIZE * 0.36), line.label, fill=ink, font_weight="600")


def _middles(line: Line, frame: Frame, space: Space) -> Iterator[Spot]:
    """What a label belongs to: the middle of an area, or of the longest pieces of a line; on the paper."""
    points = frame.all(line.rings[0])
    if line.style in AREAS:
        for ring in line.rings:
            xs, ys = zip(*(space.within(spot) for spot in frame.all(ring)), strict=True)
            yield (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
        return
    pieces = sorted(pairwise(points), key=lambda each: -hypot(each[1][0] - each[0][0], each[1][1] - each[0][1]))
    yield from [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pieces[:3]] or points[:1]


def draw_contour(sheet: Sheet, contour: Corners, frame: Frame) -> None:
    """How far it reaches from what is there now."""
    sheet.path(frame.all(contour), "reach", LINES["reach"])
