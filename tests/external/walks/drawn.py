"""Floors drawn at random from a seed, in whole millimetres, each in two spellings of the same floor.

`pieces` and `lines` are what a survey would hold: obstacles that touch or overlap, slits of a drawing, walls as lines.
`boundary` and `holes` are the same floor as one outline with holes that touch nothing, joined by construction and not
by any geometry library, for a program that needs it that way. Standard library only.
"""

from dataclasses import dataclass, field
from math import cos, hypot, radians, sin
from random import Random

Corner = tuple[int, int]
Outline = list[Corner]

ROOMS: dict[str, Outline] = {
    "oblong": [(0, 0), (14000, 0), (14000, 9000), (0, 9000)],
    "L": [(0, 0), (14000, 0), (14000, 4500), (7000, 4500), (7000, 10000), (0, 10000)],
    "U": [(0, 0), (14000, 0), (14000, 10000), (9500, 10000), (9500, 4000), (4500, 4000), (4500, 10000), (0, 10000)],
    "T": [(0, 5000), (5000, 5000), (5000, 0), (9000, 0), (9000, 5000), (14000, 5000), (14000, 9500), (0, 9500)],
    "slanted": [(0, 0), (13000, 1500), (15000, 8000), (8000, 7000), (3000, 10000)],
}
KINDS = ("turned", "touching", "crossing", "slit", "narrow gap", "line", "drum")
THIN = 1
"""mm. A wall that is drawn as a line, where an outline is needed."""
APART = 80
"""mm. What is not meant to touch keeps at least this far away."""


@dataclass
class Drawn:
    """A floor and pairs of places on it."""

    seed: int
    room: Outline
    pieces: list[Outline] = field(default_factory=list)
    lines: list[tuple[Corner, Corner]] = field(default_factory=list)
    boundary: Outline = field(default_factory=list)
    holes: list[Outline] = field(default_factory=list)
    kinds: list[str] = field(default_factory=list)
    pairs: list[tuple[Corner, Corner]] = field(default_factory=list)


def drawn(seed: int) -> Drawn:
    """The floor of a seed. Every room shape and every kind of obstacle comes up about equally often."""
    random = Random(seed)
    room = list(ROOMS.values())[seed % len(ROOMS)]
    found = Drawn(seed, room, boundary=list(room))
    if seed % 3 == 0:
        _partition(found, random)
    circles: list[tuple[float, float, float]] = []
    for number in range(random.randint(1, 6)):
        kind = KINDS[(seed + number) % len(KINDS)]
        for _ in range(60):
            x, y = random.uniform(0, 15000), random.uniform(0, 10000)
            radius = random.uniform(500, 1500)
            if _is_clear(found.boundary, circles, x, y, radius + APART):
                circles.append((x, y, radius + APART))
                _obstacle(found, kind, (x, y), radius, random)
                break
    _pairs(found, circles, random)
    return found


def _partition(found: Drawn, random: Random) -> None:
    """A thin wall from the middle of the first side into the room; a notch in the joined outline."""
    (x, y), (x2, y2) = found.room[0], found.room[1]
    share = random.uniform(0.15, 0.3)
    foot = (round(x + share * (x2 - x)), round(y + share * (y2 - y)))
    top = (foot[0], foot[1] + random.randint(800, 2500))
    found.lines.append((foot, top))
    slope = (y2 - y) / (x2 - x)
    right = (foot[0] + THIN, round(foot[1] + THIN * slope))
    found.boundary[1:1] = [foot, top, (top[0] + THIN, top[1]), right]
    found.kinds.append("partition")


def _obstacle(found: Drawn, kind: str, at: tuple[float, float], radius: float, random: Random) -> None:
    """One obstacle of a kind within a circle."""
    turn = random.uniform(0, 180)
    found.kinds.append(kind)

    def put(*corners: tuple[float, float]) -> Outline:
        c, s = cos(radians(turn)), sin(radians(turn))
        return [(round(at[0] + radius * (c * u - s * v)), round(at[1] + radius * (s * u + c * v))) for u, v in corners]

    if kind == "drum":
        steps = random.randint(5, 9)
        ring = put(*[(cos(radians(360 * i / steps)), sin(radians(360 * i / steps))) for i in range(steps)])
        found.pieces.append(ring)
        found.holes.append(ring)
        return
    if kind == "line":
        start, end = put((-0.9, 0), (0.9, 0))
        found.lines.append((start, end))
        length = hypot(end[0] - start[0], end[1] - start[1])
        nx, ny = (start[1] - end[1]) / length, (end[0] - start[0]) / length
        dx, dy = round(nx) * THIN, 0 if round(nx) else round(ny) * THIN
        found.holes.append([start, end, (end[0] + dx, end[1] + dy), (start[0] + dx, start[1] + dy)])
        return
    if kind == "turned":
        box = put((-0.9, -0.4), (0.9, -0.4), (0.9, 0.4), (-0.9, 0.4))
        found.pieces.append(box)
        found.holes.append(box)
        return
    turn = 90.0 * random.randint(0, 3)
    if kind == "touching":
        a, b, c, d, e, f = put((-0.7, -0.7), (0.7, -0.7), (0.7, 0), (-0.1, 0), (-0.1, 0.7), (-0.7, 0.7))
        foot = put((-0.7, 0))[0]
        found.pieces += [[a, b, c, foot], [foot, d, e, f]]
        found.holes.append([a, b, c, d, e, f])
    elif kind == "crossing":
        found.pieces += [
            put((-0.9, -0.2), (0.9, -0.2), (0.9, 0.2), (-0.9, 0.2)),
            put((-0.2, -0.9), (0.2, -0.9), (0.2, 0.9), (-0.2, 0.9)),
        ]
        found.holes.append(
            put(
                (-0.9, -0.2), (-0.2, -0.2), (-0.2, -0.9), (0.2, -0.9), (0.2, -0.2), (0.9, -0.2),
                (0.9, 0.2), (0.2, 0.2), (0.2, 0.9), (-0.2, 0.9), (-0.2, 0.2), (-0.9, 0.2),
            )
        )  # fmt: skip
    else:
        width = (4 if kind == "slit" else random.randint(60, 300)) / radius / 2
        sides = [
            put((-0.8, -0.6), (-width, -0.6), (-width, 0.5), (-0.8, 0.5)),
            put((width, -0.6), (0.8, -0.6), (0.8, 0.5), (width, 0.5)),
        ]
        found.pieces += sides
        found.holes += [put((-0.8, -0.6), (0.8, -0.6), (0.8, 0.5), (-0.8, 0.5))] if kind == "slit" else sides


def _pairs(found: Drawn, circles: list[tuple[float, float, float]], random: Random) -> None:
    """Pairs of places: on the floor, on walls, at corners of the room and at corners of obstacles."""
    corners = [corner for outline in found.pieces for corner in outline if "slit" not in found.kinds]
    for number in range(8):
        ends = [_place(found, circles, random)]
        side = random.randrange(2, len(found.room))
        (x, y), (x2, y2) = found.room[side], found.room[(side + 1) % len(found.room)]
        others: list[Corner] = [_place(found, circles, random), found.room[side]]
        if x == x2 or y == y2:
            share = random.random()
            others.append((round(x + share * (x2 - x)), round(y + share * (y2 - y))))
        if corners:
            others.append(random.choice(corners))
        ends.append(others[number % len(others)])
        if ends[0] != ends[1]:
            found.pairs.append((ends[0], ends[1]))


def _place(found: Drawn, circles: list[tuple[float, float, float]], random: Random) -> Corner:
    while True:
        x, y = random.randint(0, 15000), random.randint(0, 10000)
        if _is_clear(found.boundary, circles, x, y, 5):
            return x, y


def _is_clear(boundary: Outline, circles: list[tuple[float, float, float]], x: float, y: float, radius: float) -> bool:
    """Whether a circle lies in an outline and meets no other circle."""
    if any(hypot(x - cx, y - cy) < radius + r for cx, cy, r in circles):
        return False
    inside = False
    for (ax, ay), (bx, by) in zip(boundary, [*boundary[1:], boundary[0]], strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            inside = not inside
        share = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2)
        share = min(1.0, max(0.0, share))
        if hypot(x - ax - share * (bx - ax), y - ay - share * (by - ay)) < radius:
            return False
    return inside
