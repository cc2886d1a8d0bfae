"""What stands under a plan: a bar to measure by, which way is up, and every class of mark that is used, in words."""

from collections.abc import Callable, Iterator

from checker.findings.storey import PlacedDoor
from checker.report.plan_frame import MARGIN, PAPER_WIDTH, Frame
from checker.report.plan_model import FloorPlan
from checker.report.plan_parts import arrow_head, draw_bars, draw_rollers, draw_screen, draw_unknown
from checker.report.plan_sheet import Sheet
from checker.report.plan_signs import SIGNS, draw
from checker.report.plan_styles import AREAS, INK, LABELS, LINES, PAPER
from checker.report.sentences import say

_COLUMNS = 3
_ROW = 6.6
SAMPLE = 10.0
"""mm. How wide a mark is shown."""
LETTERS = 2.6
"""mm. Of its words."""
_BAR_HEIGHT = 13.0
_LONGEST_BAR = 55.0
_FOOT = 0.3048
_STEPS = (1, 2, 5)
Sample = Callable[[Sheet, float, float], None]


def legend_height(plan: FloorPlan) -> float:
    """How many mm it takes under the plan."""
    rows = -(-len(list(_samples(plan))) // _COLUMNS)
    return _BAR_HEIGHT + rows * _ROW + 3


def draw_legend(sheet: Sheet, plan: FloorPlan, frame: Frame, top: float) -> None:
    """The bar and the arrow, then the marks in columns."""
    _bar(sheet.group("scale"), plan, frame, top)
    _up(sheet.group("up"), top)
    legend = sheet.group("legend")
    across = (PAPER_WIDTH - 4) / _COLUMNS
    for place, (words, sample) in enumerate(_samples(plan)):
        x = 2 + across * (place % _COLUMNS)
        y = top + _BAR_HEIGHT + _ROW * (place // _COLUMNS) + _ROW / 2
        sample(legend, x + SAMPLE / 2, y)
        legend.text((x + SAMPLE + 1.5, y + LETTERS * 0.36), words, anchor="start", font_size=str(LETTERS))


def _bar(sheet: Sheet, plan: FloorPlan, frame: Frame, top: float) -> None:
    unit = _FOOT if plan.imperial else 1.0
    each = unit * frame.per_metre
    steps = [step * 10.0**power for power in range(-2, 7) for step in _STEPS]
    size = max((step for step in steps if step * each <= _LONGEST_BAR), default=steps[0])
    x, y, width = MARGIN, top + 5, size * each
    for part in range(4):
        fill = INK if part % 2 == 0 else PAPER
        style = {"fill": fill, "stroke": INK, "stroke-width": "0.25"}
        sheet.rectangle(x + part * width / 4, y, width / 4, 1.6, style)
    sheet.text((x, y - 1), "0", font_size="2.5")
    symbol = say("plan_feet" if plan.imperial else "plan_metres", number=f"{size:g}")
    sheet.text((x + width, y - 1), symbol, font_size="2.5")
    sheet.text((x, y + 4.6), say("plan_scale", scale=f"{frame.scale:g}"), anchor="start", font_size="2.5")


def _up(sheet: Sheet, top: float) -> None:
    x, y = PAPER_WIDTH - MARGIN, top + 9
    sheet.path([(x, y), (x, y - 5)], "up", LINES["leaf"])
    arrow_head(sheet, (x, y), (x, y - 7), INK)
    sheet.text((x - 2.5, y - 2), say("plan_up"), anchor="end", font_size="2.5")


def _samples(plan: FloorPlan) -> Iterator[tuple[str, Sample]]:
    """Words, and what draws the mark with its middle at a place: whatever the plan has."""
    storey = plan.storey
    kinds = dict.fromkeys(thing.kind if thing.kind in SIGNS else "other" for thing in storey.things)
    kinds |= {"suggested": None} if any(each.at for each in plan.suggested) else {}
    for kind in kinds:
        yield say(f"legend {kind}"), _sign(kind)
    if any(is_way_out(door) for door in storey.doors):
        yield say("legend exit"), _sign("exit")
    if storey.machines:
        yield say("legend machine"), _area("machine")
    if any(machine.faces for machine in storey.machines):
        yield say("legend rollers"), _travel
    for name, there in (("obstacle", storey.obstacles), ("clear-zone", storey.clear_zones)):
        if there:
            yield say(f"legend {name}"), _area(name)
    for solid, name in ((True, "partition-solid"), (False, "partition-thin"), (None, "partition-unknown")):
        if any(each.solid is solid for each in storey.partitions):
            yield say(f"legend {name}"), _partition(name)
    if any(door.locked for door in storey.doors):
        yield say("legend locked"), _locked
    if any(door.locked is None and door.opening for door in storey.doors):
        yield say("legend not-known-locked"), _unknown
    if any(door.swing == "roller" for door in storey.doors):
        yield say("legend roller-door"), _stroke("roller-door")
    yield from _of_lines(plan)


def _of_lines(plan: FloorPlan) -> Iterator[tuple[str, Sample]]:
    for style in dict.fromkeys(line.style for line in plan.lines):
        words = say("legend other-line" if style == "other" else f"legend {style}")
        yield words, _area(style) if style in AREAS else _stroke(style)
    if any(each.contour for each in plan.suggested) and not any(line.style == "reach" for line in plan.lines):
        yield say("legend reach"), _stroke("reach")
    for outcome in dict.fromkeys(line.outcome for line in plan.lines):
        yield say(f"legend {outcome}"), _label(outcome)


def is_way_out(door: PlacedDoor) -> bool:
    """Whether a door leads outside, is recorded as one that people are meant to leave by, and is not locked."""
    return door.to == "outside" and door.way_out is True and door.locked is False


def _sign(kind: str) -> Sample:
    return lambda sheet, x, y: draw(sheet, kind, (x, y), "sample", "B" if kind == "hazard" else "")


def _area(name: str) -> Sample:
    return lambda sheet, x, y: sheet.rectangle(x - SAMPLE / 2, y - 2, SAMPLE, 4, AREAS[name])


def _stroke(name: str) -> Sample:
    return lambda sheet, x, y: sheet.path([(x - SAMPLE / 2, y), (x + SAMPLE / 2, y)], name, LINES[name])


def _partition(name: str) -> Sample:
    return lambda sheet, x, y: draw_screen(sheet, [(x - SAMPLE / 2, y), (x + SAMPLE / 2, y)], name, 0)


def _label(outcome: str) -> Sample:
    return lambda sheet, x, y: sheet.rectangle(x - SAMPLE / 2, y - 1.8, SAMPLE, 3.6, LABELS[outcome], 0.6)


def _travel(sheet: Sheet, x: float, y: float) -> None:
    draw_rollers(sheet, (x - 3.5, y), (1.0, 0.0), 2.2)


def _locked(sheet: Sheet, x: float, y: float) -> None:
    draw_bars(sheet, (x, y), (1.0, 0.0), (0.0, 1.0))


def _unknown(sheet: Sheet, x: float, y: float) -> None:
    draw_unknown(sheet, (x, y))
