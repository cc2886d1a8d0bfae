"""How long questions about a floor plan take, how that grows, and against a front marched over a grid.

python -m tests.benchmarks.plan [--rounds 7]
"""

import argparse
import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path
from statistics import median
from typing import Final

import numpy as np
import shapely
import skfmm

from checker.plan import Answers, Plan, Point, farthest, reach, suggest, walk
from checker.plan.floor import floor_of
from tests.benchmarks.measuring import Times, interleaved, markdown, ratio
from tests.plan.plans import targets_of, workshop

GRID: Final = 0.1
"""m. Coarse for a front: on plans with known answers it is off by up to 8 cm."""
HALL: Final = (30.0, 20.0)
LARGE: Final = (60.0, 40.0)
PROMISED: Final = {"10 obstacles": 0.030, "40 obstacles": 0.150}
"""Seconds for the longest walk with four targets, from the plan to the proof; the first in 30 m x 20 m, the other in 60
m x 40 m."""
GROWTH: Final = (0, 5, 10, 20, 40, 80)


def afresh(question: Callable[[], object]) -> Callable[[], object]:
    """The question, with no floor left over from the last one."""

    def ask() -> object:
        floor_of.cache_clear()
        return question()

    return ask


def marched(plan: Plan, targets: Sequence[Point]) -> float:
    """The longest walk as a marching front finds it on a grid."""
    room, *_ = plan.rooms
    x1, y1, x2, y2 = shapely.Polygon(room.outline).bounds
    xs, ys = np.meshgrid(np.arange(x1 + GRID / 2, x2, GRID), np.arange(y1 + GRID / 2, y2, GRID))
    standing = shapely.union_all([shapely.Polygon(each.outline) for each in plan.obstacles])
    closed = shapely.contains_xy(standing, xs, ys)
    apart = np.min([np.hypot(xs - x, ys - y) for x, y in targets], axis=0)
    front = np.ma.MaskedArray(apart - 2 * GRID, closed)
    return float(np.nanmax(np.ma.filled(skfmm.distance(front, dx=GRID, order=2), np.nan)) + 2 * GRID)


def questions(folder: Path) -> dict[str, Callable[[], object]]:
    """What is timed."""
    hall, targets = workshop(10, *HALL), targets_of(*HALL)
    large, ends = workshop(40, *LARGE), targets_of(*LARGE)
    longest = farthest(hall, targets).least or 0.0
    kept = Answers(folder)
    farthest(hall, targets, kept=kept)
    return {
        "10 obstacles": afresh(lambda: farthest(hall, targets)),
        "10 obstacles, limit well kept": afresh(lambda: farthest(hall, targets, limit=1.5 * longest)),
        "10 obstacles, limit missed": afresh(lambda: farthest(hall, targets, limit=longest - 1)),
        "10 obstacles, kept from before": lambda: farthest(hall, targets, kept=kept),
        "10 obstacles, one walk": afresh(lambda: walk(hall, (15, 19), targets)),
        "10 obstacles, 0.3 m clear of corners": afresh(lambda: farthest(hall, targets, clearance=0.3)),
        "10 obstacles, floor within reach": afresh(lambda: reach(hall, targets, 10)),
        "10 obstacles, a place for one more": afresh(lambda: suggest(hall, targets, longest - 1)),
        "10 obstacles, a front on a grid": lambda: marched(hall, targets),
        "40 obstacles": afresh(lambda: farthest(large, ends)),
        "40 obstacles, a front on a grid": lambda: marched(large, ends),
    }


def growth() -> dict[str, Callable[[], object]]:
    """The longest walk in one hall with ever more in it."""
    plans = {number: workshop(number, *LARGE) for number in GROWTH}

    def asked(plan: Plan) -> Callable[[], object]:
        return afresh(lambda: farthest(plan, targets_of(*LARGE)))

    return {f"{number} obstacles": asked(plan) for number, plan in plans.items()}


def table(times: Times) -> str:
    """Milliseconds, and how many times as long as the first."""
    first = next(iter(times))
    rows = [[name, f"{median(each) * 1e3:.1f}", f"{ratio(times, name, first):.2f}"] for name, each in times.items()]
    return markdown(["question", "ms", f"times {first}"], rows)


def missed(times: Times) -> list[str]:
    """What takes longer than is promised."""
    found = {name: min(times[name]) for name in PROMISED}
    return [f"{name}: {found[name] * 1e3:.1f} ms" for name, most in PROMISED.items() if found[name] > most]


def main() -> None:
    """Prints both tables; ends with status 1 if a promise is broken."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--rounds", type=int, default=7)
    rounds = words.parse_args().rounds
    with tempfile.TemporaryDirectory() as folder:
        asked = questions(Path(folder))
        for ask in asked.values():
            ask()
        times = interleaved(asked, rounds)
    print(table(times), table(interleaved(growth(), rounds)), sep="\n\n")
    if late := missed(times):
        raise SystemExit("promised sooner: " + "; ".join(late))


if __name__ == "__main__":
    main()
