"""What was built and what stands on the floor: rooms, doors, partitions, obstacles, machines, floor kept clear."""

from collections.abc import Sequence
from math import hypot

from checker.findings.storey import PlacedDoor, PlacedMachine, PlacedPartition, Spot, Storey
from checker.report.plan_frame import Frame
from checker.report.plan_sheet import Sheet, told
from checker.report.plan_space import Space
from checker.report.plan_styles import AREAS, INK, LINES, PAPER

_CASE = {"fill": "none", "stroke": PAPER, "stroke-width": "1.8", "stroke-linecap": "round"}
"""Paper left free round a line that crosses a pattern."""
_ARROW = 2.6
"""mm from the tip of an arrow to its foot."""
_WALL = 1.2
"""mm. A wall of unknown thickness, with the line along it."""
_SHORT = 3.0
"""mm. Rollers of which no width is recorded are drawn to both sides of their middle so far."""


def draw_rooms(sheet: Sheet, storey: Storey, frame: Frame, space: Space) -> None:
    """Walls round rooms: their floor covers the inner half of a broad line, so that they stand where walls do."""
    walls = sheet.group("walls")
    for room in storey.rooms:
        walls.path(frame.all(room.outline), "wall", AREAS["wall"], closed=True)
    for room in storey.rooms:
        _area(sheet.group("room"), room.outline, "room", frame, space)
    for zone in storey.clear_zones:
        _area(sheet.group("clear-zone"), zone.outline, "clear-zone", frame, space)


def draw_obstacles(sheet: Sheet, storey: Storey, frame: Frame, space: Space) -> None:
    """What people walk round."""
    for obstacle in storey.obstacles:
        _area(sheet.group("obstacle"), obstacle.outline, "obstacle", frame, space)


def _area(sheet: Sheet, outline: tuple[Spot, ...], name: str, frame: Frame, space: Space) -> None:
    points = frame.all(outline)
    sheet.path(points, name, AREAS[name], closed=True)
    space.take_line([*points, points[0]])


def draw_partition(sheet: Sheet, partition: PlacedPartition, frame: Frame, space: Space) -> None:
    """A wall or screen where it stands, as thick as recorded."""
    points = frame.all(partition.line)
    space.take_line(points)
    name = {True: "partition-solid", False: "partition-thin", None: "partition-unknown"}[partition.solid]
    draw_screen(sheet.group("partition"), points, name, (partition.thickness or 0) * frame.per_metre)


def draw_screen(sheet: Sheet, points: Sequence[Spot], name: str, thick: float) -> None:
    """Filled where it is solid, a double line where it is not, dashed where that is not known; thickness in mm."""
    style = LINES[name]
    if name == "partition-unknown":
        sheet.path(points, name, style)
        return
    width = max(thick, float(style["stroke-width"]))
    sheet.path(points, name, {**style, "stroke-width": told(width)})
    if name == "partition-thin":
        sheet.path(points, "partition-gap", {**style, "stroke": PAPER, "stroke-width": told(width - 0.8)})


def draw_door(sheet: Sheet, door: PlacedDoor, frame: Frame, space: Space) -> None:
    """The opening in the wall, the leaf and what it sweeps; a bar across what is locked, a question where unknown."""
    group, ends = sheet.group("door"), frame.all(door.opening)
    at = frame.at(door.at)
    if not ends:
        group.circle(at, 1.1, {"fill": PAPER, "stroke": INK, "stroke-width": "0.4", "stroke-dasharray": "0.6 0.5"})
        return
    left, right = ends
    (ux, uy), width = _along(left, right)
    out = uy, -ux
    behind = frame.all(door.beyond) or [(x + _WALL * out[0], y + _WALL * out[1]) for x, y in (right, left)]
    group.path([left, right, *behind], "opening", {"fill": PAPER, "stroke": PAPER, "stroke-width": "0.3"}, closed=True)
    for end in (left, right):
        jamb = [(end[0] + side * out[0], end[1] + side * out[1]) for side in (-0.3, _WALL)]
        group.path(jamb, "jamb", LINES["leaf"])
    _leaf(group, door, (left, right), out, width, space)
    middle = (left[0] + right[0]) / 2, (left[1] + right[1]) / 2
    if door.locked:
        draw_bars(group, middle, (ux, uy), out)
    elif door.locked is None:
        draw_unknown(group, middle)


def draw_bars(sheet: Sheet, at: Spot, along: Spot, across: Spot) -> None:
    """The cross over what is locked; directions as one unit."""
    for side in (1.3, -1.3):
        dx, dy = 1.3 * along[0] + side * across[0], 1.3 * along[1] + side * across[1]
        sheet.path([(at[0] - dx, at[1] - dy), (at[0] + dx, at[1] + dy)], "bar", LINES["bar"])


def draw_unknown(sheet: Sheet, at: Spot) -> None:
    """The question over what nobody recorded as locked or not."""
    sheet.circle(at, 1.5, {"fill": PAPER, "stroke": INK, "stroke-width": "0.2"})
    sheet.text((at[0], at[1] + 0.95), "?", font_size="2.6", font_weight="700")


def _leaf(sheet: Sheet, door: PlacedDoor, ends: tuple[Spot, Spot], out: Spot, width: float, space: Space) -> None:
    left, right = ends
    if door.swing == "roller":
        sheet.path(ends, "roller-door", LINES["roller-door"])
    elif door.swing == "sliding":
        slid = [(x + 0.9 * out[0], y + 0.9 * out[1]) for x, y in ends]
        sheet.path(slid, "leaf", LINES["leaf"])
    elif door.swing in ("in", "out", "both"):
        hung, closed = (right, left) if door.hinge == "right" else (left, right)
        for side in {"in": (-1,), "out": (1,), "both": (1, -1)}[door.swing]:
            open_ = hung[0] + side * out[0] * width, hung[1] + side * out[1] * width
            sheet.path([hung, open_], "leaf", LINES["leaf"])
            turn = (closed[0] - hung[0]) * (open_[1] - hung[1]) - (closed[1] - hung[1]) * (open_[0] - hung[0])
            arc = f"A{told(width)},{told(width)} 0 0 {1 if turn > 0 else 0} {told(open_[0])},{told(open_[1])}"
            style = LINES["swing"] if door.hinge else dict(LINES["swing"]) | {"stroke-dasharray": "0.8 0.6"}
            sheet.shape(f"M{told(closed[0])},{told(closed[1])} {arc}", "swing", style)
            space.take_line([hung, open_, closed])


def draw_machine(sheet: Sheet, machine: PlacedMachine, frame: Frame, space: Space) -> Spot:
    """The footprint, the rollers across, and an arrow to where the vehicle faces. Gives the middle of it."""
    group = sheet.group("machine")
    if machine.footprint:
        points = frame.all(machine.footprint)
        group.path(points, "machine", AREAS["machine"], closed=True)
        space.take_line([*points, points[0]])
    if machine.at is None:
        xs, ys = zip(*frame.all(machine.footprint), strict=True)
        return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    at = frame.at(machine.at)
    if machine.faces is None or machine.faces == machine.at:
        group.circle(at, 1.2, {"fill": PAPER, "stroke": INK, "stroke-width": "0.5"})
        return at
    towards, _ = _along(at, frame.at(machine.faces))
    width = machine.roller_width
    tip = draw_rollers(group, at, towards, _SHORT if width is None else width * frame.per_metre / 2)
    space.take_line([at, tip])
    return at


def draw_rollers(sheet: Sheet, at: Spot, towards: Spot, half: float) -> Spot:
    """Two rollers across, half as wide on either side, and the arrow to where the vehicle faces. Gives its tip."""
    ux, uy = towards
    for shift in (-1.1, 1.1):
        ends = [(at[0] + shift * ux - n * half * uy, at[1] + shift * uy + n * half * ux) for n in (-1, 1)]
        sheet.path(ends, "case", _CASE)
        sheet.path(ends, "rollers", LINES["rollers"])
    tail, tip = (at[0] + 2.4 * ux, at[1] + 2.4 * uy), (at[0] + 8.5 * ux, at[1] + 8.5 * uy)
    sheet.path([tail, tip], "case", _CASE)
    sheet.path([tail, (tip[0] - _ARROW * ux, tip[1] - _ARROW * uy)], "travel", LINES["travel"])
    arrow_head(sheet, tail, tip, INK)
    return tip


def arrow_head(sheet: Sheet, tail: Spot, tip: Spot, colour: str, size: float = _ARROW) -> None:
    """A filled triangle whose tip is the end of a line."""
    (ux, uy), length = _along(tail, tip)
    if not length:
        return
    foot = tip[0] - size * ux, tip[1] - size * uy
    half = size * 0.38
    corners = [tip, (foot[0] - half * uy, foot[1] + half * ux), (foot[0] + half * uy, foot[1] - half * ux)]
    sheet.path(corners, "arrow", {"fill": colour, "stroke": "none"}, closed=True)


def _along(start: Spot, end: Spot) -> tuple[Spot, float]:
    """The direction from one place to another as one unit, and how far it is."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = hypot(dx, dy)
    return ((dx / length, dy / length) if length else (0.0, 0.0)), length
