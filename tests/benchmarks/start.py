"""How long the program takes to start, against what it cannot do without.

python -m tests.benchmarks.start [--rounds 15]
"""

import argparse
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from statistics import median
from typing import Final

from tests.benchmarks.measuring import Times, interleaved, markdown, ratio

ROOT: Final = Path(__file__).resolve().parents[2]
SITE: Final = "ridgeway-motorcycles"
DAY: Final = "2026-11-25"
ANSWERS: Final = (0, 1)
"""Exit codes of a check that came to its end."""
PAIRS: Final = (
    ("help", "click", 2.0, "`checker --help` / `import click`"),
    ("warm", "yaml and pydantic", 3.0, "`checker check`, nothing changed / `import yaml, pydantic`"),
    ("warm", "yaml and models", None, "the same / `import yaml; from pydantic import BaseModel`"),
    ("site", "yaml and pydantic", None, "`checker check` after a value of the site changed / `import yaml, pydantic`"),
    ("site", "yaml and models", None, "the same / `import yaml; from pydantic import BaseModel`"),
    ("limit", "rule-engine", 2.0, "first `checker check` after a limit changed / `import rule_engine`"),
    ("expression", "rule-engine", 2.0, "the same after an expression changed / `import rule_engine`"),
    ("nothing kept", "rule-engine", None, "`checker check` with nothing kept / `import rule_engine`"),
)
"""What is measured, against what, how many times as long it may take, and how it is written."""


class Starts:
    """Runs of whole processes, with caches of their own."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.changes = folder, 0
        self.rulesets, self.own_site = folder / "rulesets", folder / "site.yaml"
        shutil.copytree(ROOT / "rulesets", self.rulesets)
        self.environment = os.environ | {"HOME": str(folder), "XDG_CACHE_HOME": str(folder / "cache")}
        self.environment.pop("PYTHONDONTWRITEBYTECODE", None)

    def python(self, *words: str, cache: Path | None = None) -> None:
        """Run Python and wait for it."""
        environment = self.environment | ({"XDG_CACHE_HOME": str(cache)} if cache else {})
        run = subprocess.run(
            [sys.executable, *words], cwd=ROOT, env=environment, capture_output=True, text=True, encoding="utf-8"
        )
        if run.returncode not in ANSWERS or "Traceback" in run.stderr:
            raise RuntimeError(f"exit {run.returncode}: {run.stderr[-500:]}")

    def importing(self, text: str) -> Callable[[], None]:
        """A process that does nothing but import."""
        return lambda: self.python("-c", text)

    def help(self) -> None:
        """`checker --help`."""
        self.python("-m", "checker", "--help")

    def warm(self) -> None:
        """`checker check`, with nothing changed since the last time."""
        self.python(*self._check())

    def site(self) -> None:
        """`checker check` after one value of the site got another."""
        self.changes += 1
        text = (ROOT / "sites" / f"{SITE}.yaml").read_text(encoding="utf-8")
        was = "length: {value: 96 ft,"
        assert was in text
        now = was.replace("96", f"96.{self.changes:05}")
        self.own_site.write_text(text.replace(was, now), encoding="utf-8", newline="\n")
        self.python(*self._check(str(self.own_site)))

    def limit(self) -> None:
        """`checker check` after one limit got another value."""
        self._changed("us/fire.yaml", "walk: 50", f"walk: 50.{self.changes + 1:05}")

    def expression(self) -> None:
        """`checker check` after one requirement got another text."""
        self._changed("common/fire.yaml", "<= limit.walk", f"<= 1.{self.changes + 1:05} * limit.walk")

    def nothing_kept(self) -> None:
        """`checker check` on a machine where it never ran."""
        empty = self.folder / "empty"
        shutil.rmtree(empty, ignore_errors=True)
        self.python(*self._check(), cache=empty)

    def _changed(self, file: str, was: str, now: str) -> None:
        self.changes += 1
        text = (ROOT / "rulesets" / file).read_text(encoding="utf-8")
        assert was in text
        (self.rulesets / file).write_text(text.replace(was, now, 1), encoding="utf-8", newline="\n")
        self.python(*self._check(), "--rulesets", str(self.rulesets))

    def _check(self, site: str = SITE) -> list[str]:
        return ["-m", "checker", "check", site, "--as-of", DAY, "-o", str(self.folder / "findings.txt")]


STARTS: Final = (
    "python", "click", "help", "yaml and pydantic", "yaml and models", "warm", "site", "rule-engine", "limit",
    "expression", "nothing kept",
)  # fmt: skip


def measured(names: Sequence[str], rounds: int) -> Times:
    """Wall-clock seconds of these kinds of start, round by round."""
    with tempfile.TemporaryDirectory() as folder:
        starts = Starts(Path(folder))
        candidates: dict[str, Callable[[], None]] = {
            "python": starts.importing("pass"),
            "click": starts.importing("import click"),
            "help": starts.help,
            "yaml and pydantic": starts.importing("import yaml, pydantic"),
            "yaml and models": starts.importing("import yaml; from pydantic import BaseModel"),
            "warm": starts.warm,
            "site": starts.site,
            "rule-engine": starts.importing("import rule_engine"),
            "limit": starts.limit,
            "expression": starts.expression,
            "nothing kept": starts.nothing_kept,
        }
        chosen = {name: candidates[name] for name in names}
        for run in chosen.values():  # byte code and caches are written
            run()
        return interleaved(chosen, rounds, time.perf_counter)


def table(times: Times) -> str:
    """The ratios that are promised, with the medians behind them."""
    rows = []
    for one, other, most, words in PAIRS:
        found = ratio(times, one, other)
        wanted = "" if most is None else f"{most:g}"
        milliseconds = [f"{median(times[name]) * 1e3:.0f}" for name in (one, other)]
        rows.append([words, *milliseconds, f"{found:.2f}", wanted])
    head = ("start", "ms", "against, ms", "ratio", "at most")
    return f"{markdown(head, rows)}\n\nPython alone: {median(times['python']) * 1e3:.0f} ms"


def main() -> None:
    """Print the table."""
    words = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    words.add_argument("--rounds", type=int, default=15)
    print(table(measured(STARTS, words.parse_args().rounds)))


if __name__ == "__main__":
    main()
