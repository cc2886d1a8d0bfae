"""Plans that several tests walk on, and plans drawn at random from a seed."""

import random
from collections.abc import Sequence

from checker.plan.shapes import Door, Obstacle, Outline, Plan, Point, Room, Wall, rectangle


def one_room(outline: Outline, *obstacles: Outline, walls: Sequence[Wall] = ()) -> Plan:
    return Plan(
        (Room("room", outline),), tuple(Obstacle(f"o{i}", each) for i, each in enumerate(obstacles)), tuple(walls)
    )


def hall(length: float, width: float, *obstacles: Outline, walls: Sequence[Wall] = ()) -> Plan:
    return one_room(rectangle((0, 0), length, width), *obstacles, walls=walls)


def two_rooms(thickness: float = 0.2, locked: bool | None = False) -> Plan:
    """Rooms of 20 m x 10 m in all, with a wall at x = 10 m and a door from y = 4 m to 5 m."""
    return Plan(
        (
            Room("a", rectangle((0, 0), 10, 10)),
            Room("b", rectangle((10 + thickness, 0), 10 - thickness, 10)),
        ),
        doors=(Door("d", "a", "b", (10 + thickness / 2, 4.5), 1.0, locked),),
    )


def workshop(obstacles: int, length: float, width: float, seed: int = 1) -> Plan:
    """A hall with rectangles of all sizes and turns in it, some of which touch or overlap."""
    draw = random.Random(seed)
    outlines = [
        rectangle(
            (draw.uniform(0, length - 4), draw.uniform(0, width - 4)),
            draw.uniform(0.5, 4),
            draw.uniform(0.5, 3),
            draw.uniform(0, 90),
        )
        for _ in range(obstacles)
    ]
    return hall(length, width, *outlines)


def targets_of(length: float, width: float) -> list[Point]:
    """Four places on the walls of such a hall."""
    return [(0.0, width / 4), (length, width / 2), (length / 3, width), (length / 2, 0.0)]


U_WALL: Outline = ((6, 3), (12, 3), (12, 9), (6, 9), (6, 8.5), (11.5, 8.5), (11.5, 3.5), (6, 3.5))
L_ROOM: Outline = ((0, 0), (20, 0), (20, 6), (8, 6), (8, 14), (0, 14))
