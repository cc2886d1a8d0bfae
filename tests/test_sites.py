"""The demonstration sites show what the program can say: every topic, every outcome, in words and not in paths."""

import datetime as dt
import re
from collections.abc import Iterable, Iterator
from functools import cache
from itertools import chain

import pytest

from checker import shipped
from checker.findings.check import check
from checker.findings.result import Result
from checker.quantities import facts
from checker.quantities.floor_faults import floor_faults
from checker.reading import read_file
from checker.report.blocks import content
from checker.report.content import Entry, Part, Section
from checker.report.sentences import say
from checker.rules import Rulebook, read_rulesets
from checker.site import LISTS, read_site

DAY = dt.date(2026, 11, 25)
SITES = sorted(path.stem for path in shipped.sites().glob("*.yaml"))
FINISHED = [name for name in SITES if name != "first-visit"]
"""The sites whose survey is done; the other is a first visit with almost nothing recorded."""
OUTCOMES = {"met", "not met", "undetermined"}
PATH = re.compile(rf"\b(?:{'|'.join(LISTS)})\[")
"""How a path to a thing begins. What lies within the thing, as walks[fe-1], is told with its place and its name."""


@cache
def rulebook() -> Rulebook:
    return read_rulesets(shipped.rulesets())


@cache
def result(name: str) -> Result:
    site = read_site(read_file(shipped.sites() / f"{name}.yaml"))
    return check(site, rulebook(), region=None, as_of=DAY, program_version="0")


REGIONS = {"us", "gb", "de"}
TOPICS = sorted({rule.topic for region in REGIONS for rule, _ in rulebook().in_force(region, DAY)})


def test_the_finished_sites_lie_in_these_regions() -> None:
    assert {result(name).region for name in FINISHED} == REGIONS


@pytest.mark.parametrize("topic", TOPICS)
def test_every_topic_shows_every_outcome(topic: str) -> None:
    """Not applicable is asked only of a topic of which some rule that is asked has a condition."""
    shown = [each for name in FINISHED for each in result(name).findings if each.topic == topic]
    conditional = any(rulebook().rules[each.rule].when is not None for each in shown)
    assert OUTCOMES | ({"not applicable"} if conditional else set()) <= {each.outcome for each in shown}


@pytest.mark.parametrize("name", SITES)
def test_no_rule_breaks_and_no_floor_plan_is_at_fault(name: str) -> None:
    assert result(name).summary.broken == 0
    assert list(floor_faults(facts(read_site(read_file(shipped.sites() / f"{name}.yaml"))).site)) == []


def entries(parts: Iterable[Part]) -> Iterator[Entry]:
    for part in parts:
        if isinstance(part, Section):
            yield from entries(part.parts)
        elif isinstance(part, Entry):
            yield part


@pytest.mark.parametrize("name", SITES)
def test_no_finding_speaks_in_paths(name: str) -> None:
    """Where to look names the field of the file, for whoever fills it in; all else is in words."""
    told = content(result(name), details=False)
    in_paths = {
        f"{entry.id}: {line}"
        for entry in entries(chain(told.head, told.sections))
        for line in (
            entry.heading,
            entry.title,
            *(line for row in entry.rows if row.label != say("label_not_seen") for line in (row.markdown, *row.lines)),
        )
        if PATH.search(line)
    }
    assert in_paths == set()
