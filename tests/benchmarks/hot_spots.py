"""Where the time goes, by function with file and line."""

import cProfile
import pstats
from collections.abc import Callable
from pathlib import Path
from typing import Any, Final

import checker
from tests.benchmarks.measuring import markdown

PACKAGE: Final = Path(checker.__file__).resolve().parent


def hot_spots(run: Callable[[], object], repeats: int, top: int) -> str:
    """Where time is spent, by the time within each function itself and by the time with what it calls."""
    profile = cProfile.Profile()
    profile.enable()
    for _ in range(repeats):
        run()
    profile.disable()
    stats: dict[tuple[str, int, str], Any] = pstats.Stats(profile).stats  # type: ignore[attr-defined]
    total = sum(own for _, _, own, _, _ in stats.values())
    lines = []
    for title, column, ours in (("itself", 2, False), ("with what it calls", 3, True)):
        chosen = [(place, each) for place, each in stats.items() if not ours or PACKAGE.name in Path(place[0]).parts]
        chosen.sort(key=lambda entry: -entry[1][column])
        rows = [
            [_where(place), f"{each[1] / repeats:.0f}", f"{each[column] / repeats * 1e3:.2f}",
             f"{each[column] / total * 100:.1f}"]
            for place, each in chosen[:top]
        ]  # fmt: skip
        lines.append(markdown((title, "calls", "ms", "%"), rows))
    return "\n\n".join(lines)


def _where(place: tuple[str, int, str]) -> str:
    file, line, name = place
    path = Path(file)
    ours = path.is_relative_to(PACKAGE.parent)
    within = path.relative_to(PACKAGE.parent).as_posix() if ours else "/".join(path.parts[-2:])
    return f"{within}:{line} {name}" if line else name
