"""From the text of a site file to findings in a warm process: milliseconds by stage, and where they go.

python -m tests.benchmarks.stages [--rounds 15]
python -m tests.benchmarks.stages --profile [--top 10]
"""

import argparse
import datetime as dt
import gc
import re
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from statistics import median
from typing import Any, Final

import yaml

from checker import shipped
from checker.__main__ import PATIENCE
from checker.findings.check import judged
from checker.findings.due import due
from checker.findings.judge import Compiled, compile_rules, facts_for, judge
from checker.findings.judged import Judged
from checker.findings.kept import Asked, Results
from checker.findings.result import Result
from checker.findings.subjects import subjects_of
from checker.quantities import Facts, facts
from checker.reading import Document, read_file, read_text
from checker.report import FORMATS, Drawing
from checker.rules import read_rulesets
from checker.site import Site, read_site
from checker.site.gate import lets_pass
from tests.benchmarks.hot_spots import hot_spots
from tests.benchmarks.measuring import interleaved, markdown, once

LINES: Final = 400
LEFT_OUT: Final = frozenset(
    {
        "note",
        "outline",
        "footprint",
        "at",
        "faces",
        "obstacles",
        "partitions",
        "clear_zones",
        "places",
        "slab",
        "joints",
    }
)
"""Remarks, and what is drawn on a floor plan."""
DAY: Final = dt.date(2026, 11, 25)
FILE: Final = "site.yaml"


def site_text(name: str, lines: int = LINES) -> str:
    """A demonstration site cut down to so many lines.

    Comments go, then things that no other thing names, the last first.
    """
    text = (shipped.sites() / f"{name}.yaml").read_text(encoding="utf-8")
    kept = [line for line in text.splitlines() if line.strip() and not line.lstrip().startswith("#")]
    for start in reversed(range(len(kept))):
        if len(kept) <= lines:
            break
        found = re.match(r"  - (?:\{|)id: ([a-z0-9-]+)", kept[start])
        if found is None:
            continue
        end = next(at for at in range(start + 1, len(kept) + 1) if at == len(kept) or kept[at][:4] != "    ")
        rest = kept[:start] + kept[end:]
        alone = kept[start - 1][0] != " " and (end == len(kept) or kept[end][0] != " ")
        if not alone and len(rest) >= lines - 10 and not re.search(rf"(?<![\w-]){found[1]}(?![\w-])", "\n".join(rest)):
            kept = rest
    return "\n".join(kept) + "\n"


def plain_text(name: str, lines: int = LINES) -> str:
    """A demonstration site of at most so many lines with bare values only, one a line, and without its floor plan.

    Members of lists that nothing else names go, from the longest list first, then what stands last.
    """
    data = _bare(read_file(shipped.sites() / f"{name}.yaml").data)
    for held in ("assumed", "exceptions", "accepted_alternatives"):
        data.pop(held, None)
    data["survey"].pop("not_reached", None)
    while (text := yaml.safe_dump(data, sort_keys=False, allow_unicode=True)).count("\n") > lines:
        loose = [
            (len(members), held, number)
            for held, members in data.items()
            if isinstance(members, list)
            for number, member in enumerate(members)
            if isinstance(member, dict) and len(re.findall(rf"(?<![\w-]){member.get('id')}(?![\w-])", text)) == 1
        ]
        if loose:
            _, held, number = max(loose)
            del data[held][number]
        else:
            data.popitem()
    return text


def _bare(node: Any) -> Any:
    if isinstance(node, dict):
        single = "value" in node and "evidence" in node
        return _bare(node["value"]) if single else {k: _bare(v) for k, v in node.items() if k not in LEFT_OUT}
    return [_bare(member) for member in node] if isinstance(node, list) else node


@dataclass
class Bench:
    """One site against the rulesets that come with the program."""

    text: str

    @cached_property
    def document(self) -> Document:
        """The file read."""
        return read_text(self.text, FILE)

    @cached_property
    def site(self) -> Site:
        """The site built."""
        return read_site(self.document)

    @cached_property
    def result(self) -> Result:
        """The findings."""
        return self.checked(self.site)

    def __post_init__(self) -> None:
        self._folder = tempfile.TemporaryDirectory()
        self.plans, self.results = (Path(self._folder.name) / name for name in ("plans", "results"))
        self.rulebook = read_rulesets(shipped.rulesets())
        region = self.rulebook.held_region(str(facts(self.site).site["region"]))
        self.in_force = self.rulebook.in_force(region, DAY)
        self.compiled = self.functions()
        self.known = facts(self.site, kept=self.plans)
        self.kept = Results(self.results, Asked("rulesets", (), None, DAY, None))
        self.kept.keep(self.text.encode(), FILE, self.judge_whole(self.site))
        assert self.held() == self.result

    def functions(self) -> dict[str, Compiled]:
        """The rules in force made ready, all of them, whether a site needs them or not."""
        made = compile_rules(rule for rule, _ in self.in_force)
        for each in made.values():
            _ = each.when, each.require, each.reads
        return made

    def checked(self, site: Site) -> Result:
        """All findings of a site."""
        return self.judge_whole(site).result

    def judge_whole(self, site: Site) -> Judged:
        """The same with what its findings rest on."""
        return judged(
            site, self.rulebook, region=None, as_of=DAY, program_version="bench", kept=self.plans, before=None
        )

    def judged(self, known: Facts) -> int:
        """Every rule on every subject for every authority that asks; how many judgements that were."""
        count = 0
        for rule, asks in self.in_force:
            for thing in subjects_of(known, rule.each).things:
                for asked in asks:
                    limits = {name: limit.value for name, limit in asked.limit.items()}
                    tables = {name: table.called() for name, table in asked.tables.items()}
                    judge(self.compiled[rule.id], facts_for(rule, thing, known.site, limits, tables, DAY, due))
                    count += 1
        return count

    def whole(self) -> Result:
        """Text to findings."""
        return self.checked(read_site(read_text(self.text, FILE)))

    def held(self) -> Result | None:
        """Text to findings where the same text was judged before."""
        return self.kept.held(self.text.encode(), FILE)

    def draw(self, form: str) -> str:
        """The result in a format."""
        return FORMATS[form]([self.result], Drawing())


def stages(bench: Bench, rounds: int) -> dict[str, float]:
    """Milliseconds by stage: medians; what is lazy or nested is told apart by subtraction, round by round."""
    runs: dict[str, Callable[[], Any]] = {
        "read": lambda: read_text(bench.text, FILE),
        "schema gate": lambda: lets_pass(bench.document.data),
        "site": lambda: read_site(bench.document),
        "facts, judged": lambda: bench.judged(facts(bench.site, kept=bench.plans)),
        "judge": lambda: bench.judged(bench.known),
        "check": lambda: bench.checked(bench.site),
        "whole": bench.whole,
        "held": bench.held,
        "text": lambda: bench.draw("text"),
        "json": lambda: bench.draw("json"),
        "functions": bench.functions,
    }
    for run in runs.values():
        run()
    times = interleaved(runs, rounds)

    def milliseconds(one: str, *less: str) -> float:
        rows = zip(*(times[name] for name in (one, *less)), strict=True)
        return float(median(first - sum(rest) for first, *rest in rows) * 1e3)

    return {
        "read": milliseconds("read"),
        "schema gate": milliseconds("schema gate"),
        "build": milliseconds("site", "schema gate"),
        "facts and quantities": milliseconds("facts, judged", "judge"),
        "judge": milliseconds("judge"),
        "result": milliseconds("check", "facts, judged"),
        "whole": milliseconds("whole"),
        "held": milliseconds("held"),
        "text": milliseconds("text"),
        "json": milliseconds("json"),
        "functions": milliseconds("functions"),
    }


WORDS: Final = {
    "read": "read: text to values with positions",
    "schema gate": "schema gate",
    "build": "build: the model, references, checks of sense",
    "facts and quantities": "facts and quantities, computed on first use",
    "judge": "judge: evaluators, parts, governing part",
    "result": "result: evidence, working, weighing, models",
    "whole": "**text to findings**, measured as a whole",
    "held": "text to findings, where the same text was judged before",
    "text": "text report",
    "json": "JSON report",
    "functions": "functions of the rules in force, once a process",
}


def table(found: dict[str, dict[str, float]]) -> str:
    """Milliseconds and share of the whole, a column a site."""
    head = ["stage", *(f"{name}, {unit}" for name in found for unit in ("ms", "%"))]
    rows = []
    for stage, words in WORDS.items():
        cells = [words]
        for times in found.values():
            cells += [f"{times[stage]:.1f}", f"{times[stage] / times['whole'] * 100:.0f}"]
        rows.append(cells)
    return markdown(head, rows)


def profiled(bench: Bench, what: str, rounds: int, top: int) -> str:
    """The hot spots of one part, in a process that has done it before."""
    with tempfile.TemporaryDirectory() as folder:
        runs: dict[str, Callable[[], object]] = {
            "whole": bench.whole,
            "rulesets": lambda: read_rulesets(shipped.rulesets(), Path(folder)),
            "text": lambda: bench.draw("text"),
            "json": lambda: bench.draw("json"),
        }
        runs[what]()
        return hot_spots(runs[what], rounds, top)


def main() -> None:
    """Print the table or the hot spots."""
    words = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    words.add_argument("--rounds", type=int, default=15)
    words.add_argument("--profile", choices=["whole", "rulesets", "text", "json"])
    words.add_argument("--top", type=int, default=10)
    given = words.parse_args()
    gc.set_threshold(*PATIENCE)  # as the program sets it
    benches = {name: Bench(site_text(name)) for name in ("ridgeway-motorcycles", "harbour-lane-motors")}
    benches["ridgeway, bare values"] = Bench(plain_text("ridgeway-motorcycles"))
    if given.profile:
        for name, bench in benches.items():
            print(f"{name}, {given.profile}\n\n{profiled(bench, given.profile, given.rounds, given.top)}\n")
        return
    seconds = once(lambda: read_rulesets(shipped.rulesets()))
    for name, bench in benches.items():
        lines, findings = bench.text.count("\n"), len(bench.result.findings)
        judgements = bench.judged(bench.known)
        print(
            f"{name}: {lines} lines, {len(bench.in_force)} rules in force, {judgements} judgements, {findings} findings"
        )
    print(f"rulesets read: {seconds * 1e3:.0f} ms\n")
    print(table({name: stages(bench, given.rounds) for name, bench in benches.items()}))


if __name__ == "__main__":
    main()
