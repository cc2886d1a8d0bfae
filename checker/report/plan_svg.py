"""A floor plan as one SVG drawing: to scale, legible in black and white, and complete by itself.

Nothing is measured here: places and values come with the result; what is worked out is only where they fall on paper.
"""

from collections.abc import Iterator

from checker.findings.storey import PlacedDoor, Spot
from checker.report.page import clean
from checker.report.plan_frame import PAPER_WIDTH, Frame, frame_of
from checker.report.plan_legend import draw_legend, is_way_out, legend_height
from checker.report.plan_lines import draw_contour, draw_label, draw_line
from checker.report.plan_model import FloorPlan
from checker.report.plan_parts import draw_door, draw_machine, draw_obstacles, draw_partition, draw_rooms
from checker.report.plan_sheet import Sheet, sheet, told, written
from checker.report.plan_signs import SIDE, draw
from checker.report.plan_space import Box, Space, holds, round_about, text_width
from checker.report.plan_styles import AREAS, INK, LINES, PAPER
from checker.report.sentences import say

_SIGN_RADII = (5.0, 7.5, 10.5, 14.0)
_NUMBER = 2.6
"""mm. Letters of a number."""
_LONGEST_ROOM = 28
_ROOM = 3.0
_SMALLEST = 2.2
"""mm. Letters of a room's name."""
_SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88)
"""Of a room's length and width: where a name is tried."""


def svg(plan: FloorPlan, name: str) -> str:
    """The drawing. `name` is one that nothing else in the page has; the names of its patterns begin with it."""
    frame = frame_of(_spots(plan))
    height = frame.height + legend_height(plan)
    drawing = sheet(name, PAPER_WIDTH, height, say("plan_label", heading=plan.heading))
    drawing.patterns()
    _Drawing(drawing, plan, frame).draw()
    draw_legend(drawing, plan, frame, frame.height)
    return written(drawing)


class _Drawing:
    """One plan in the making: what lies flat first, then lines, then signs and words where paper is free."""

    def __init__(self, drawing: Sheet, plan: FloorPlan, frame: Frame) -> None:
        self._sheet, self._plan, self._frame = drawing, plan, frame
        self._space = Space(PAPER_WIDTH, frame.height)
        self._rooms = [frame.all(room.outline) for room in plan.storey.rooms]
        self._numbers = {mark.path: mark.number for mark in plan.marks}

    def draw(self) -> None:
        """All of it."""
        plan, frame, space, storey = self._plan, self._frame, self._space, self._plan.storey
        draw_rooms(self._sheet, storey, frame, space)
        cut = self._sheet.cut(PAPER_WIDTH, frame.height)
        areas = [line for line in plan.lines if line.style in AREAS]
        for line in areas[::-1]:
            draw_line(cut, line, frame, space)
        draw_obstacles(self._sheet, storey, frame, space)
        machines = [(each, draw_machine(self._sheet, each, frame, space)) for each in storey.machines]
        for partition in storey.partitions:
            draw_partition(self._sheet, partition, frame, space)
        for door in storey.doors:
            draw_door(self._sheet, door, frame, space)
        for suggested in plan.suggested:
            for contour in suggested.contour:
                draw_contour(self._sheet.group("reach"), contour, frame)
        for line in plan.lines[::-1]:
            if line.style not in AREAS:
                draw_line(self._sheet, line, frame, space)
        self._signs()
        for machine, at in machines:
            self._number(machine.path, at, (6.0, 7.5, 9.0, 12.0))
        self._names()
        for line in plan.lines:
            draw_label(self._sheet, line, frame, space)

    def _signs(self) -> None:
        storey = self._plan.storey
        for thing in storey.things:
            self._sign(thing.kind, self._frame.at(thing.at), thing.path, thing.detail)
        for suggested in self._plan.suggested:
            if suggested.at:
                self._sign("suggested", self._frame.at(suggested.at), "", "")
        for door in storey.doors:
            at = self._frame.at(door.at)
            if is_way_out(door):
                self._sign("exit", at, door.path, "")
            else:
                self._number(door.path, at, (3.4, 5.0, 7.5))

    def _sign(self, kind: str, at: Spot, path: str, detail: str) -> None:
        """The sign beside its place, with its number, and a line to the place itself."""
        number = str(self._numbers.get(path, ""))
        wide = text_width(number, _NUMBER) + 0.8 if number else 0
        fits = self._outdoors if kind == "exit" else self._indoors
        box = self._space.place(SIDE + wide, SIDE, round_about(at, _SIGN_RADII), fits)
        group = self._sheet.group("thing")
        middle = box.left + SIDE / 2, box.y
        group.path([at, middle], "leader", LINES["leader"])
        group.circle(at, 0.65, {"fill": INK, "stroke": PAPER, "stroke-width": "0.2"}, "place")
        draw(group, kind, middle, f"sign {kind}" if kind.isidentifier() else "sign", detail)
        if number:
            self._told(group, number, (box.left + SIDE + wide / 2, box.y))
        self._space.take(Box(*at, 1.4, 1.4))

    def _indoors(self, spot: Spot) -> bool:
        return any(holds(room, spot) for room in self._rooms)

    def _outdoors(self, spot: Spot) -> bool:
        return not self._indoors(spot)

    def _number(self, path: str, at: Spot, radii: tuple[float, ...]) -> None:
        number = str(self._numbers[path])
        width = text_width(number, _NUMBER) + 1
        box = self._space.place(width, 3.2, round_about(at, radii))
        self._told(self._sheet.group("number"), number, (box.x, box.y))

    def _told(self, sheet: Sheet, number: str, at: Spot) -> None:
        halo = {"stroke": PAPER, "stroke_width": "0.9", "paint_order": "stroke", "stroke_linejoin": "round"}
        sheet.text((at[0], at[1] + 0.95), number, font_size=str(_NUMBER), font_weight="700", **halo)

    def _names(self) -> None:
        """Names of rooms, and numbers of what takes up floor, where paper is left."""
        storey = self._plan.storey
        for area in (*storey.obstacles, *storey.clear_zones):
            self._number(area.path, self._middle(area.outline), (0.0, 2.5, 4.5))
        for partition in storey.partitions:
            self._number(partition.path, self._middle(partition.line), (2.6, 4.0))
        for room, outline in zip(storey.rooms, self._rooms, strict=True):
            name = clean(room.label, _LONGEST_ROOM)
            xs, _ = zip(*outline, strict=True)
            size = max(_SMALLEST, min(_ROOM, _ROOM * (max(xs) - min(xs) - 2) / text_width(name, _ROOM)))
            width = text_width(name, size)
            box = self._space.place(width, size + 0.6, _inside(outline, width))
            halo = {"stroke": PAPER, "stroke_width": "1.2", "paint_order": "stroke", "stroke_linejoin": "round"}
            group = self._sheet.group("name")
            group.text((box.x, box.y + size * 0.36), name, font_size=told(size), font_style="italic", **halo)

    def _middle(self, outline: tuple[Spot, ...]) -> Spot:
        xs, ys = zip(*self._frame.all(outline), strict=True)
        return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def _inside(corners: list[Spot], width: float) -> list[Spot]:
    """Places for a name of a width over a room: those where all of it lies inside, or at least its middle."""
    xs, ys = zip(*corners, strict=True)
    spots = [
        (min(xs) + across * (max(xs) - min(xs)), min(ys) + down * (max(ys) - min(ys)))
        for down in _SHARES
        for across in _SHARES
    ]
    ends = (-width / 2, 0.0, width / 2)
    whole = [(x, y) for x, y in spots if all(holds(corners, (x + end, y)) for end in ends)]
    return whole or [spot for spot in spots if holds(corners, spot)] or spots[:1]


def _spots(plan: FloorPlan) -> Iterator[Spot]:
    """Every place that has to be on the paper."""
    storey = plan.storey
    for room in storey.rooms:
        yield from room.outline
    for area in (*storey.obstacles, *storey.clear_zones):
        yield from area.outline
    for partition in storey.partitions:
        yield from partition.line
    for machine in storey.machines:
        yield from machine.footprint
        yield from (machine.at,) if machine.at else ()
    yield from (thing.at for thing in storey.things)
    for door in storey.doors:
        yield from _of_door(door)
    for line in plan.lines:
        if line.style not in AREAS:
            yield from (point for ring in line.rings for point in ring)
    yield from (each.at for each in plan.suggested if each.at)


def _of_door(door: PlacedDoor) -> Iterator[Spot]:
    yield door.at
    if door.opening and door.swing in ("out", "both", "in"):
        (x1, y1), (x2, y2) = door.opening
        for side in (1, -1) if door.swing == "both" else (1,) if door.swing == "out" else (-1,):
            yield x1 - side * (y2 - y1), y1 + side * (x2 - x1)
