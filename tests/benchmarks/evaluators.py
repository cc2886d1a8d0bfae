"""Evaluators on the same 250 rules: how fast, and how right.

python -m tests.benchmarks.evaluators                 every peer that is installed, each in a process of its own
python -m tests.benchmarks.evaluators --only ours typed --rounds 3
"""

import argparse
import json
import subprocess
import sys
from collections.abc import Sequence
from functools import partial
from importlib.util import find_spec
from itertools import islice
from pathlib import Path
from statistics import median
from typing import Any, Final

from tests.benchmarks import workload
from tests.benchmarks.measuring import interleaved, markdown, once, ratio
from tests.benchmarks.peers import PEERS, Judge, Peer
from tests.benchmarks.reference import Verdict, verdicts

ROOT: Final = Path(__file__).resolve().parents[2]
FLOORS: Final = ("plain", "same-facts")
"""Measured in the rounds of every peer."""
HEAD: Final = ("evaluator", "ms a site", "rules/s", "× plain", "× same facts", "× ours", "ready, ms", "facts, ms", "MB",
               "right, %", "unknown called met, %", "sites")  # fmt: skip


class Race:
    """Some peers made ready for the same rules and sites. The first is the one that is asked about."""

    def __init__(self, names: Sequence[str], most_sites: int = workload.SITES) -> None:
        self.rules = workload.rules()
        self.judges: dict[str, Judge] = {}
        before = _peak()
        self.ready_seconds = once(lambda: self._ready(names[0]))
        self.megabytes = None if before is None else (_peak() or before) - before
        for name in names[1:]:
            self._ready(name)
        self.peers: dict[str, Peer] = {name: PEERS[name] for name in names}
        self.count = {name: min(peer.sites, most_sites) for name, peer in self.peers.items()}
        self.sites = list(workload.sites(max(self.count.values())))
        self.facts: dict[str, list[Any]] = {}
        seconds = {name: once(partial(self._made, name)) for name in names}
        self.facts_seconds = seconds[names[0]] / self.count[names[0]]

    def _ready(self, name: str) -> None:
        self.judges[name] = PEERS[name].ready(self.rules)

    def _made(self, name: str) -> None:
        self.facts[name] = [self.peers[name].facts(site) for site in self.sites[: self.count[name]]]

    def run(self, rounds: int) -> dict[str, list[float]]:
        """Seconds a site by peer and round."""
        runs = {name: partial(self.judged, name) for name in self.peers}
        times = interleaved(runs, rounds)
        return {name: [each / self.count[name] for each in times[name]] for name in times}

    def judged(self, name: str) -> list[list[Verdict]]:
        """What a peer says, site by site."""
        judge = self.judges[name]
        return [judge(facts) for facts in self.facts[name]]

    def rightness(self, name: str) -> dict[str, float]:
        """The share of verdicts equal to Kleene's, and the share of the unknown that was called met."""
        wanted = [each for site in islice(self.sites, self.count[name]) for each in verdicts(self.rules, site)]
        found = [each for site in self.judged(name) for each in site]
        pairs = list(zip(wanted, found, strict=True))
        unknown = [said for true, said in pairs if true is None]
        return {
            "right": sum(true is said for true, said in pairs) / len(pairs),
            "unknown_met": sum(said is True for said in unknown) / len(unknown),
        }


def _peak() -> float | None:
    """The most memory this process has held, in MB; None on a system that does not say."""
    try:
        import resource
    except ImportError:
        return None
    unit = 1 if sys.platform == "darwin" else 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * unit / 1e6


def measured(name: str, rounds: int) -> dict[str, Any]:
    """One peer beside plain Python."""
    race = Race([name, *(floor for floor in FLOORS if floor != name)])
    times = race.run(rounds)
    return {
        "ms": median(times[name]) * 1e3,
        "plain": ratio(times, name, "plain"),
        "same_facts": ratio(times, name, "same-facts"),
        "ready_ms": race.ready_seconds * 1e3,
        "facts_ms": race.facts_seconds * 1e3,
        "megabytes": race.megabytes,
        "sites": race.count[name],
    } | race.rightness(name)


def in_own_process(name: str, rounds: int) -> dict[str, Any] | None:
    """The same, measured in a process of its own; None where the peer is not installed."""
    if find_spec(PEERS[name].module) is None:
        print(f"{PEERS[name].title}: passed over, {PEERS[name].module} is not installed", file=sys.stderr)
        return None
    command = [sys.executable, "-m", "tests.benchmarks.evaluators", "--own", name, "--rounds", str(rounds)]
    run = subprocess.run(command, cwd=ROOT, check=True, stdout=subprocess.PIPE, text=True, encoding="utf-8")
    found: dict[str, Any] = json.loads(run.stdout)
    return found


def row(name: str, found: dict[str, Any], ours: float | None) -> list[str]:
    """A line of the table. Speed never stands without rightness."""
    megabytes = found["megabytes"]
    return [
        PEERS[name].title,
        f"{found['ms']:.3g}",
        f"{len(workload.rules()) / found['ms'] * 1e3:,.0f}",
        f"{found['plain']:.3g}",
        f"{found['same_facts']:.3g}",
        "" if ours is None else f"{found['plain'] / ours:.3g}",
        f"{found['ready_ms']:.0f}",
        f"{found['facts_ms']:.2f}",
        "" if megabytes is None else f"{megabytes:.0f}",
        f"{found['right'] * 100:.2f}",
        f"{found['unknown_met'] * 100:.1f}",
        str(found["sites"]),
    ]


def main() -> None:
    """Print the table."""
    words = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    words.add_argument("--only", nargs="+", choices=PEERS, default=list(PEERS))
    words.add_argument("--own", choices=PEERS, help="measure one in this process and print JSON")
    words.add_argument("--rounds", type=int, default=5)
    given = words.parse_args()
    if given.own:
        print(json.dumps(measured(given.own, given.rounds)))
        return
    results = {name: in_own_process(name, given.rounds) for name in given.only}
    found = {name: each for name, each in results.items() if each is not None}
    ours = found["ours"]["plain"] if "ours" in found else None
    print(markdown(HEAD, [row(name, each, ours) for name, each in found.items()]))


if __name__ == "__main__":
    main()
