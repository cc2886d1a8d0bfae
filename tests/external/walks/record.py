"""Records what another program answers about floors drawn at random: `walks.jsonl`, one floor a line.

    python -m venv SOMEWHERE && SOMEWHERE/bin/pip install extremitypathfinder==2.7.2
    SOMEWHERE/bin/python tests/external/walks/record.py

It has an environment of its own because it wants an older numpy. Its answers were recorded with version 2.7.2, numpy
1.26.4 and Python 3.11. Lengths in millimetres, as the floors are.
"""

import json
from pathlib import Path

from drawn import drawn
from extremitypathfinder import PolygonEnvironment

FLOORS = 240


def main() -> None:
    """Writes all floors, with their geometry, so that the file stands by itself."""
    lines = []
    for seed in range(FLOORS):
        floor = drawn(seed)
        world = PolygonEnvironment()
        # It wants the outline against the clock and holes with the clock.
        world.store(_turned(floor.boundary, 1), [_turned(hole, -1) for hole in floor.holes], validate=False)
        walks = []
        for start, end in floor.pairs:
            there, back = _length(world, start, end), _length(world, end, start)
            walks.append([start, end, there, back])
        one = {"seed": seed, "kinds": floor.kinds, "room": floor.room, "pieces": floor.pieces, "lines": floor.lines}
        lines.append(json.dumps(one | {"walks": walks}, separators=(",", ":")))
    Path(__file__).with_name("walks.jsonl").write_text("\n".join(lines) + "\n", encoding="utf-8", newline="\n")


def _length(world: PolygonEnvironment, start: tuple[int, int], end: tuple[int, int]) -> float | None:
    _, length = world.find_shortest_path((float(start[0]), float(start[1])), (float(end[0]), float(end[1])))
    return None if length is None else round(length, 4)


def _turned(outline: list[tuple[int, int]], sign: int) -> list[tuple[float, float]]:
    twice_area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(outline, [*outline[1:], outline[0]], strict=True))
    return [(float(x), float(y)) for x, y in (outline if twice_area * sign > 0 else outline[::-1])]


if __name__ == "__main__":
    main()
