"""The shipped rulesets, with their files found and their entries standing in any order, are the same rulesets."""

import datetime as dt
import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import pytest
from msgspec.structs import replace

from checker import shipped
from checker.findings.check import check
from checker.findings.result import Location
from checker.reading import read_file
from checker.rules import Rulebook, read_rulesets
from checker.rules.model import Place, SourceUse
from checker.site import Site, read_site

NOWHERE, UNPLACED = Place("", 0, 0), Location(file="", line=0, column=0)
DAYS = [dt.date(1990, 1, 1), dt.date(2026, 11, 25), dt.date(2100, 1, 1)]
SEEDS = range(4)


@cache
def plain() -> Rulebook:
    return read_rulesets(shipped.rulesets())


def shuffled(folder: Path, random: Random) -> Path:
    """A copy of the rulesets: files written in any order, entries, fields and rows in any order."""
    files = sorted(shipped.rulesets().rglob("*.yaml"))
    random.shuffle(files)
    for file in files:
        data = reordered(read_file(file).data, random)
        path = folder / file.relative_to(shipped.rulesets())
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(json.dumps(data, ensure_ascii=False, indent=1), encoding="utf-8")
    return folder


def reordered(data: Any, random: Random, name: str = "") -> Any:
    """The same content. The keys of a table stay in their order, which is that of its calls, and so do other lists."""
    if isinstance(data, dict):
        items = [(each, reordered(value, random, each)) for each, value in data.items()]
        return dict(items if name == "keys" else random.sample(items, len(items)))
    if isinstance(data, list):
        members = [reordered(each, random) for each in data]
        return random.sample(members, len(members)) if name in ("rules", "tables", "provisions", "sources") else members
    return data


def _anywhere(use: SourceUse) -> SourceUse:
    """A source without its place in the bibliography."""
    return use if use.source is None else replace(use, source=replace(use.source, location=NOWHERE))


def in_force(book: Rulebook, region: str, day: dt.date) -> list[Any]:
    """Rules and what is asked of each, wherever they stand in their files."""
    return [
        (
            replace(rule, location=NOWHERE, cases=()),
            {(case.outcome, case.as_of, json.dumps(dict(case.given), sort_keys=True)) for case in rule.cases},
            [replace(asked, location=NOWHERE, source=_anywhere(asked.source)) for asked in asks],
        )
        for rule, asks in book.in_force(region, day)
    ]


def written(site: Site, book: Rulebook, day: dt.date) -> str:
    """The result in full, without the places of provisions in their files."""
    result = check(site, book, region=None, as_of=day, program_version="0")
    nowhere = [
        replace(finding, provisions=tuple(replace(asked, location=UNPLACED) for asked in finding.provisions))
        for finding in result.findings
    ]
    return str(replace(result, findings=tuple(nowhere)))


@pytest.fixture
def any_order(monkeypatch: pytest.MonkeyPatch) -> None:
    """Folders tell of their files in any order."""
    glob, random = Path.glob, Random("folders")

    def found(path: Path, pattern: str) -> Iterator[Path]:
        files = list(glob(path, pattern))
        random.shuffle(files)
        return iter(files)

    monkeypatch.setattr(Path, "glob", found)


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.usefixtures("any_order")
def test_the_same_is_in_force_whatever_the_order(seed: int, tmp_path: Path) -> None:
    book = read_rulesets(shuffled(tmp_path / "rulesets", Random(seed)))
    assert [rule.location.line for rule in book.rules.values()] != [
        each.location.line for each in plain().rules.values()
    ]
    for region in (*plain().regions(), "us-ca", "gb-sct", "nowhere"):
        for day in DAYS:
            expected = in_force(plain(), region, day)
            assert expected
            assert in_force(book, region, day) == expected, (region, day)
    assert {name: layer.digest for name, layer in book.layers.items()} == {
        name: layer.digest for name, layer in plain().layers.items()
    }


@pytest.mark.usefixtures("any_order")
def test_a_site_gets_the_same_result_whatever_the_order(tmp_path: Path) -> None:
    book = read_rulesets(shuffled(tmp_path / "rulesets", Random("site")))
    for path in sorted(shipped.sites().glob("*.yaml")):
        site = read_site(read_file(path))
        for day in DAYS[1:]:
            assert written(site, book, day) == written(site, plain(), day)
