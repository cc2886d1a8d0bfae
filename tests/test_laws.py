"""Laws that hold for every site and every rule, tried on the demonstration sites with the rulesets that come along.

The sites hold thousands of recorded things. Of a site that holds many, some are drawn, the same in each run; with
CHECKER_LAWS=all every one is tried, which takes a quarter of an hour.
"""

import atexit
import copy
import datetime as dt
import json
import os
import random
import subprocess
import sys
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from pathlib import Path as Folder
from typing import Any, NamedTuple, TypeVar

import pytest

from checker import shipped
from checker.findings.check import check
from checker.findings.result import Finding
from checker.reading import Document, read_file
from checker.rules import Rulebook, read_rulesets
from checker.site import EVIDENCE, LISTS, read_site

DAY = dt.date(2026, 11, 25)
SITES = sorted(path.stem for path in shipped.sites().glob("*.yaml"))
FINISHED = ["harbour-lane-motors", "ridgeway-motorcycles", "werkstatt-ahornkamp"]
"""The sites whose survey is done; the other is a first visit with almost nothing recorded."""
DRAWN = 80
"""How many things of a site are tried."""
SETTLED = ("met", "not met", "not applicable")

Path = tuple[str | int, ...]
Data = dict[str, Any]

OF_THE_SURVEY = ("adopted", "assumed", "survey")
"""What stands under these says what was done, not what is there."""
REQUIRED = {"id", "code", "about", "why", "rating_system"}
"""Fields without which their part cannot be read; `to` of a walk is another."""
LIST_OF = {model.kind_of_thing: name for name, model in LISTS.items()}
"""The list that a field names a member of: a field is called as what it names; `to` names a room or an extinguisher."""


@cache
def rulebook() -> Rulebook:
    return read_rulesets(shipped.rulesets())


@cache
def kept() -> Folder:
    """Where answers about floor plans are kept from one judgement to the next: most leave the plan as it is."""
    keeper = tempfile.TemporaryDirectory()
    atexit.register(keeper.cleanup)
    return Folder(keeper.name)


@cache
def recorded(site: str) -> Data:
    data = read_file(shipped.sites() / f"{site}.yaml").data
    assert isinstance(data, dict)
    return data


def judged(data: Data, region: str) -> dict[str, Finding]:
    """The findings by id. Places in the file are left out, to be quick."""
    site = read_site(Document("site.json", data, "{}"))
    result = check(site, rulebook(), region=region, as_of=DAY, program_version="0", kept=kept())
    return {finding.id: finding for finding in result.findings}


@cache
def whole(site: str) -> dict[str, Finding]:
    return judged(recorded(site), recorded(site)["region"])


Each = TypeVar("Each")


def some(every: Iterable[Each], of: str) -> list[Each]:
    """Those that are tried."""
    found = list(every)
    if os.environ.get("CHECKER_LAWS") == "all" or len(found) <= DRAWN:
        return found
    return random.Random(of).sample(found, DRAWN)


# What can be left out of a site, and the site without it.


def is_value(node: Any) -> bool:
    """What one field holds: a bare value, one with its evidence, or why it was not reached."""
    if isinstance(node, list):
        return not (node and isinstance(node[0], dict))
    return not isinstance(node, dict) or "value" in node or isinstance(node.get("not_reached"), str)


def nodes(data: Any, path: Path = ()) -> Iterator[Path]:
    """Every field, group, list and list member that a site can do without.

    What was not reached stays, and the survey that says it: without it lists would count as whole.
    """
    for step, node in data.items() if isinstance(data, dict) else enumerate(data):
        here = (*path, step)
        if step in REQUIRED or here == ("survey", "not_reached") or (step == "to" and "walks" in path):
            continue
        if step == "value" and path[0] == "assumed":
            continue
        if here != ("survey",):
            yield here
        if not is_value(node):
            yield from nodes(node, here)


def without(data: Data, *paths: Path) -> Data:
    """The site with some nodes not recorded.

    A list is all there is: one that loses a member is said to be no longer whole. What named a lost thing goes as well.
    """
    left = copy.deepcopy(data)
    opened = []
    for path in sorted(paths, reverse=True):
        *way, last = path
        holder: Any = left
        for step in way:
            holder = holder[step]
        del holder[last]
        if isinstance(last, int) and path[0] not in OF_THE_SURVEY:
            opened.append(spelt(data, way))
    gone = things(data) - things(left)
    opened += unhooked(left, gone)
    let_go(left, set(on_the_floor(data)) - set(on_the_floor(left)))
    survey = left.get("survey") or {}
    for records in (left.get("assumed"), survey.get("not_reached")):
        if isinstance(records, list):
            records[:] = [each for each in records if there(left, each["about"])]
    still = [about for about in dict.fromkeys(opened) if there(left, about)]
    if still:
        survey["not_reached"] = [
            *(survey.get("not_reached") or []),
            *({"about": about, "why": "a member was taken out"} for about in still),
        ]
        left["survey"] = survey
    return left


def spelt(data: Any, path: list[str | int]) -> str:
    said = ""
    for step in path:
        data = data[step]
        said += f"[{data['id']}]" if isinstance(step, int) else f".{step}" if said else str(step)
    return said


def there(data: Any, about: str) -> bool:
    """Whether the members that a path names are in the site."""
    for step in about.split("."):
        name, _, which = step.rstrip("]").partition("[")
        if which and which != "*":
            members = data.get(name) or []
            data = next((each for each in members if each["id"] == which), None)
            if data is None:
                return False
        elif which == "*":
            return isinstance(data.get(name), list)
        else:
            data = data.get(name) or {}
    return True


def things(data: Data) -> set[tuple[str, str]]:
    """List and id of all that another thing may name."""
    lists = LIST_OF.values()
    return {(name, each["id"]) for name in lists for each in listed(data, name)}


def unhooked(left: Data, gone: set[tuple[str, str]]) -> Iterator[str]:
    """Take out every field that names what is gone, and every walk to it; give the lists that are no longer whole."""
    for each in members(left):
        for field, its_list in LIST_OF.items():
            if (its_list, bare(each.get(field))) in gone:
                del each[field]
        for door in listed(each, "doors"):
            if ("rooms", bare(door.get("to"))) in gone:
                del door["to"]
        walks = listed(each, "walks")
        kept = [walk for walk in walks if ("extinguishers", bare(walk["to"])) not in gone]
        if len(kept) < len(walks):
            each["walks"] = kept
            yield f"hazards[{each['id']}].walks"


def on_the_floor(data: Data) -> Iterator[str]:
    """Ids of all that a gap may lie beside."""
    yield from (each["id"] for each in listed(data, "dynos"))
    for room in listed(data, "rooms"):
        yield from (each["id"] for name in ("obstacles", "partitions", "doors") for each in listed(room, name))


def let_go(left: Data, gone: set[str]) -> None:
    """Take out the ends of gaps at things that are gone."""
    gaps = [
        *listed(left, "closing_gaps"),
        *(each for room in listed(left, "rooms") for each in listed(room, "floor_gaps")),
    ]
    for gap in gaps:
        for end in ("one", "other"):
            if bare(gap.get(end)) in gone:
                del gap[end]


def members(data: Data) -> Iterator[Data]:
    for name, node in data.items():
        if name not in OF_THE_SURVEY and isinstance(node, list):
            yield from node


def listed(thing: Data, name: str) -> list[Data]:
    """A list within a thing; empty where it is recorded as none, or not at all."""
    found = thing.get(name)
    return found if isinstance(found, list) else []


def bare(field: Any) -> Any:
    return field.get("value") if isinstance(field, dict) else field


# Silence.


class Shown(NamedTuple):
    """What the laws look at of a finding."""

    outcome: str
    working: tuple[str, ...]
    assumed: bool


def shown(findings: Mapping[str, Finding]) -> dict[str, Shown]:
    return {
        name: Shown(
            finding.outcome,
            tuple(f"{step.quantity} of {step.subject}: {step.formula}" for step in finding.working),
            any(used.evidence == "assumed" for used in finding.how),
        )
        for name, finding in findings.items()
    }


def broken(less: Mapping[str, Shown], more: Mapping[str, Shown]) -> list[str]:
    """What was settled with less recorded and came out otherwise with more.

    Only where the new value took the place of a computed or an assumed one may it change what was settled.
    """
    found = []
    for name, bare in less.items():
        full = more.get(name)
        outcome = "not there" if full is None else full.outcome
        if bare.outcome in SETTLED and outcome != bare.outcome:
            gave_way = full is not None and (
                (bare.working and bare.working != full.working) or (bare.assumed and not full.assumed)
            )
            if not gave_way:
                found.append(f"{name} was {bare.outcome}, with more recorded it is {outcome}")
    return found


@pytest.mark.parametrize("site", SITES)
def test_silence_never_passes(site: str) -> None:
    """Leaving out one thing never turns a finding into met, nor adds one that is; and recording a thing where nothing
    spoke changes no finding that was met, not met or not applicable. Tried with nodes of the site.
    """
    data, region, full = recorded(site), recorded(site)["region"], shown(whole(site))
    wrong = {path: broken(shown(judged(without(data, path), region)), full) for path in some(nodes(data), site)}
    assert {path: found for path, found in wrong.items() if found} == {}


@pytest.mark.parametrize("site", FINISHED)
@pytest.mark.parametrize("share", [0.02, 0.1, 0.3, 0.6])
def test_silence_never_passes_in_a_file_with_many_gaps(site: str, share: float) -> None:
    """The same law between two files that lack much, of which one has one thing more."""
    data, region, drawn = recorded(site), recorded(site)["region"], random.Random(f"{site} {share}")
    every = list(nodes(data))
    wrong: dict[Path, list[str]] = {}
    for _ in range(6):
        left_out = [path for path in every if drawn.random() < share]
        more = drawn.choice(left_out)
        less = without(data, *left_out)
        fuller = without(data, *(path for path in left_out if path != more))
        wrong[more] = broken(shown(judged(less, region)), shown(judged(fuller, region)))
    assert {path: found for path, found in wrong.items() if found} == {}


# Evidence.


def strengthened(node: Any, word: str) -> Any:
    """A part of a site with each value that carries weaker evidence now resting on `word`."""
    if isinstance(node, list):
        return [strengthened(each, word) for each in node]
    if not isinstance(node, dict):
        return node
    if "value" in node:
        weaker = EVIDENCE.index(node.get("evidence", EVIDENCE[0])) < EVIDENCE.index(word)
        return node | {"evidence": word} if weaker else node
    return {name: strengthened(each, word) for name, each in node.items()}


def stronger(data: Data) -> Iterator[tuple[str, Data]]:
    """The site with the evidence of one thing strengthened, of everything, and of all bare values."""
    for word in ("paper", "tested"):
        for name, node in data.items():
            if name in OF_THE_SURVEY or not isinstance(node, list):
                continue
            yield f"{name}, {word}", data | {name: strengthened(node, word)}
            for number, member in enumerate(node):
                one = [*node[:number], strengthened(member, word), *node[number + 1 :]]
                yield f"{name}[{member['id']}], {word}", data | {name: one}
        everything = {name: node if name in OF_THE_SURVEY else strengthened(node, word) for name, node in data.items()}
        yield f"everything, {word}", everything
        survey = data.get("survey", {})
        if EVIDENCE.index(survey.get("evidence", "told")) < EVIDENCE.index(word):
            yield f"what is bare, {word}", data | {"survey": survey | {"evidence": word}}


@pytest.mark.parametrize("site", FINISHED)
def test_stronger_evidence_never_makes_what_was_met_unknown(site: str) -> None:
    data, region, full = recorded(site), recorded(site)["region"], whole(site)
    wrong: dict[str, list[str]] = {}
    for what, stronger_data in some(stronger(data), site):
        after = judged(stronger_data, region)
        unknown = [name for name, was in full.items() if was.outcome == "met" and after[name].outcome == "undetermined"]
        wrong |= {what: unknown} if unknown else {}
    assert wrong == {}


# Sources and bytes.


@pytest.mark.parametrize("site", FINISHED)
def test_every_finding_names_where_its_rule_comes_from(site: str) -> None:
    for finding in whole(site).values():
        assert [asked.governs for asked in finding.provisions] == [True] + [False] * (len(finding.provisions) - 1)
        assert finding.source == finding.provisions[0].source
        for asked in finding.provisions:
            if asked.source.ref is None:
                assert asked.source.citation == asked.source.status == "common practice", finding.id
            else:
                assert asked.source.status != "common practice", finding.id
                assert asked.source.citation.strip(), finding.id
            assert asked.source.clause == "" or asked.source.status != "memory", finding.id


def test_same_input_same_bytes() -> None:
    """The order in which Python keeps its sets and the run itself leave no trace in what is written."""
    sites = [str(shipped.sites() / f"{site}.yaml") for site in SITES]
    command = [sys.executable, "-m", "checker", "check", *sites, "--as-of", DAY.isoformat(), "--format", "json"]
    written = []
    for seed in ("1", "4242"):
        done = subprocess.run(command, env=os.environ | {"PYTHONHASHSEED": seed}, capture_output=True, check=False)
        assert done.returncode == 1, done.stderr.decode()
        written.append(done.stdout)
    first, second = written
    assert first == second
    results = [json.loads(line) for line in first.splitlines()]
    assert [result["site"]["id"] for result in results] == [recorded(site)["id"] for site in SITES]
    assert [len(result["findings"]) for result in results] == [len(whole(site)) for site in SITES]
