"""The law of silence where floor plans speak: recording one thing more never turns what was settled before."""

import copy
import datetime as dt
from collections import Counter
from random import Random
from typing import Any

import pytest

from checker import shipped
from checker.findings.check import check
from checker.quantities.registry import on_the_plan
from checker.reading import Document
from checker.rules import Rulebook, read_rulesets
from checker.rules.tree import walk
from checker.site import read_site

DAY = dt.date(2026, 11, 25)
SITES = 60
SETTLED = ("met", "not met")
Data = dict[str, Any]
Way = tuple[str | int, ...]


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return read_rulesets(shipped.rulesets())


@pytest.fixture(scope="module")
def measured(rulebook: Rulebook) -> frozenset[str]:
    """The rules that ask for something measured on a floor plan."""
    return frozenset(
        rule.id
        for rule in rulebook.rules.values()
        if any(node[0] == "get" and node[2] in on_the_plan() for node in walk(rule.require_tree))
    )


def metres(*numbers: float) -> list[str]:
    return [f"{number:.2f} m" for number in numbers]


def shop(random: Random) -> Data:
    """Two rooms side by side, doors, blocks to walk round, units and hazards; all recorded."""
    length, width, beside = random.uniform(8, 30), random.uniform(6, 20), random.uniform(4, 20)
    middle = random.uniform(1.5, width - 1.5)

    def block(name: str, left: float, right: float) -> Data:
        x, y = random.uniform(left + 1, right - 3), random.uniform(0.5, width - 3)
        return {"id": name, "outline": [metres(x, y), metres(x + random.uniform(0.5, 2), y + random.uniform(0.5, 2.4))]}

    def door(name: str, to: str, x: float) -> Data:
        return {"id": name, "to": to, "at": metres(x, middle), "width": "1.2 m", "locked": random.random() < 0.2}

    def unit(number: int) -> Data:
        room, x = random.choice((("cell", 0.0), ("shop", length + beside)))
        rating = random.choice(("21A 113B C", "13A 34B C"))
        at = metres(x, random.choice((0.2, width - 0.2)))
        return {"id": f"fe-{number}", "room": room, "at": at, "rating": rating, "rating_system": "EN 3"}

    return {
        "id": "shop",
        "employer": True,
        "rooms": [
            {
                "id": "cell",
                "outline": [metres(0, 0), metres(length, width)],
                "obstacles": [block("lift", 0, length)],
                "partitions": "none",
                "doors": [door("through", "shop", length), door("gate", "outside", 0)],
            },
            {
                "id": "shop",
                "outline": [metres(length, 0), metres(length + beside, width)],
                "obstacles": "none",
                "partitions": "none",
                "doors": [door("back", "outside", length + beside)],
            },
        ],
        "dynos": "none",
        "extinguishers": [unit(number) for number in range(random.choice((1, 2)))],
        "hazards": [
            {"id": "bench", "room": "cell", "at": metres(0.5, 0.3), "fire_class": "B", "level": "ordinary"},
            {"id": "rags", "room": "shop", "at": metres(length + 0.5, width - 0.3), "fire_class": "B"},
        ],
    }


def gaps(data: Any, way: Way = ()) -> list[Way]:
    """Every field of a plan that a surveyor may leave out; what a thing is called and where it belongs stays."""
    if isinstance(data, list):
        return [gap for n, each in enumerate(data) if isinstance(each, dict) for gap in gaps(each, (*way, n))]
    found = []
    for name, value in data.items():
        if name not in ("id", "rating_system", "rooms", "outline" if len(way) == 2 else ""):
            found.append((*way, name))
        if isinstance(value, list):
            found += gaps(value, (*way, name))
    return found


def without(data: Data, ways: list[Way]) -> Data:
    left = copy.deepcopy(data)
    for *way, last in sorted(ways, key=len, reverse=True):
        holder: Any = left
        for step in way:
            holder = holder[step]
        if last == "rating":
            holder.pop("rating_system", None)
        holder.pop(last, None)
    return left


def settled(data: Data, region: str, rulebook: Rulebook, measured: frozenset[str]) -> dict[str, tuple[str, str]]:
    site = read_site(Document("site.json", data, "{}"))
    found = check(site, rulebook, region=region, as_of=DAY, program_version="0").findings
    assert not [finding.fault for finding in found if finding.fault]
    return {f.id: (f.outcome, f.taken) for f in found if f.rule in measured and f.outcome in SETTLED}


@pytest.mark.parametrize("seed", range(4))
def test_one_thing_more_on_the_plan_turns_nothing_that_was_settled(
    rulebook: Rulebook, measured: frozenset[str], seed: int
) -> None:
    random, told = Random(seed), Counter[tuple[str, str]]()
    for _ in range(SITES):
        data, region = shop(random), random.choice(("gb", "us", "de"))
        every = [way for way in gaps(data) if way != ("rooms",)]
        left_out = [way for way in every if random.random() < 0.05] or [random.choice(every)]
        less = settled(without(data, left_out), region, rulebook, measured)
        told.update(less.values())
        one = random.choice(left_out)
        more = settled(without(data, [way for way in left_out if way != one]), region, rulebook, measured)
        whole = settled(data, region, rulebook, measured)
        for fuller in (more, whole):
            turned = {name: (was, fuller.get(name)) for name, was in less.items() if fuller.get(name, was)[0] != was[0]}
            assert turned == {}, (left_out, data)
            assert less.keys() <= fuller.keys(), (left_out, less.keys() - fuller.keys(), data)
    print(told)
    assert sum(told.values()) >= SITES / 6
    assert any(taken for _, taken in told), "no outcome hung on a reading of the plan"
