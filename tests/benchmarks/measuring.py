"""How everything here is timed: candidates take turns in rounds, and what counts is the median of a round's ratios.

Times on a shared machine drift by a factor of two within minutes; ratios of neighbours in time hardly do.
"""

import gc
import time
from collections.abc import Callable, Mapping, Sequence
from statistics import median

Clock = Callable[[], float]
Times = Mapping[str, Sequence[float]]
"""Seconds by candidate, one a round."""


def interleaved(candidates: Mapping[str, Callable[[], object]], rounds: int, clock: Clock = time.process_time) -> Times:
    """Run every candidate once a round. The clock counts this process alone unless another is given."""
    times: dict[str, list[float]] = {name: [] for name in candidates}
    gc.collect()
    gc.freeze()
    for _ in range(rounds):
        for name, run in candidates.items():
            start = clock()
            run()
            times[name].append(clock() - start)
    gc.unfreeze()
    return times


def ratio(times: Times, one: str, other: str) -> float:
    """How many times as long one candidate takes as another: the median over the rounds."""
    return median(a / b for a, b in zip(times[one], times[other], strict=True))


def once(run: Callable[[], object], clock: Clock = time.process_time) -> float:
    """Seconds of a single run."""
    start = clock()
    run()
    return clock() - start


def markdown(head: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """A table: the first column is text, the others are numbers."""
    lines = [head, ["---"] + ["---:"] * (len(head) - 1), *rows]
    return "\n".join(f"| {' | '.join(cells)} |" for cells in lines)
