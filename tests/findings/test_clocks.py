"""The clocks of an extinguisher in one finding: which work starts which anew, what is asked, which of them governs.

What starts a clock anew is 29 CFR 1910.157(e)(4), (f)(2) and Table L-1 for `us`. For the other regions it is as their
rulesets say; the worked dates are own arithmetic, done apart from the program.
"""

import datetime as dt
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checker import shipped
from checker.findings.check import check
from checker.findings.margin import either, shown
from checker.findings.result import Finding, Part
from checker.reading import read_text
from checker.report.clocks import clock_lines
from checker.report.words import country_of
from checker.rules import Rulebook, read_rulesets
from checker.site import read_site
from tests.findings.workshop import judgement, rule, the_rule
from tests.findings.workshop import rulebook as book

RULE = "fire.extinguisher-clocks"
DAY = dt.date(2026, 11, 25)
WORKS = ("looked_at_on", "serviced_on", "made_on", "extended_service_on", "recharged_on", "pressure_tested_on")
POWDER = {"agent": "powder", "propellant": "stored pressure", "shell": "steel", "refillable": "yes"}
STAINLESS = POWDER | {"agent": "foam", "shell": "stainless steel"}
DISPOSABLE = POWDER | {"refillable": "no"}
CARTRIDGE = POWDER | {"propellant": "cartridge"}
GAS = POWDER | {"agent": "carbon dioxide", "propellant": "its own vapour"}
OF_THE_INSIDE = {"made_on", "extended_service_on", "recharged_on", "pressure_tested_on"}
OF_THE_SHELL = {"made_on", "pressure_tested_on"}
US = {"look": {"looked_at_on"}, "service": {"serviced_on"}}
US_REFILLABLE = US | {"opening": OF_THE_INSIDE, "shell_test": OF_THE_SHELL}
GB = US | {"life": {"made_on"}}
CANADA = {"service": {"serviced_on"}, "opening": OF_THE_INSIDE, "shell_test": OF_THE_SHELL}
EXTENDED = {"extended_service": {"made_on", "extended_service_on"}}
ASKED = [
    ("us", POWDER, US_REFILLABLE),
    ("us", CARTRIDGE, US | {"shell_test": OF_THE_SHELL}),
    ("us", STAINLESS, US_REFILLABLE | {"stainless_test": OF_THE_SHELL}),
    ("us", DISPOSABLE, US | {"disposable_life": {"made_on"}}),
    ("us", GAS, US_REFILLABLE),
    ("gb", POWDER, GB | EXTENDED),
    ("gb", GAS, GB | {"overhaul": OF_THE_SHELL}),
    ("gb", POWDER | {"agent": "clean agent"}, GB),
    ("de", POWDER, {"service": {"serviced_on"}} | EXTENDED),
    ("de", GAS, {"service": {"serviced_on"}, "overhaul": OF_THE_SHELL}),
    ("de", POWDER | {"agent": "class D powder"}, {"service": {"serviced_on"}}),
    ("au", POWDER, {"service": {"serviced_on"}, "opening": OF_THE_INSIDE, "shell_test": OF_THE_SHELL}),
    ("ca", POWDER, CANADA),
    ("ca", DISPOSABLE, {"service": {"serviced_on"}, "disposable_life": {"made_on"}}),
    ("ca-on", POWDER, CANADA | {"look": {"looked_at_on"}}),
    ("ca-on", DISPOSABLE, US | {"disposable_life": {"made_on"}}),
]
"""By region and kind of unit: the clocks that run, and the work that starts each anew."""
NAMES = [f"{region} {unit['agent']} {unit['shell']} refillable {unit['refillable']}" for region, unit, _ in ASKED]
LONG_AGO = dict.fromkeys(WORKS, "never") | {"made_on": "1990-01-01"}
LATELY = "2026-11-20"


@cache
def rulebook() -> Rulebook:
    return read_rulesets(shipped.rulesets())


def judged(region: str, unit: dict[str, str], day: dt.date = DAY) -> Finding:
    fields = ", ".join(f"{name}: {value}" for name, value in unit.items())
    site = read_site(read_text(f"id: clocks\nextinguishers: [{{id: e1, {fields}}}]\n", "clocks.yaml"))
    result = check(site, rulebook(), region=region, as_of=day, program_version="0.0")
    (finding,) = [each for each in result.findings if each.rule == RULE]
    return finding


def clocks(finding: Finding) -> dict[str, list[Part]]:
    """The parts of each clock that runs, whoever asks it."""
    found: dict[str, list[Part]] = {}
    for part in (*finding.parts, *(part for asked in finding.provisions for part in asked.parts)):
        if part.clock:
            found.setdefault(part.clock.name, []).append(part)
    return {name: parts for name, parts in found.items() if any(part.either != "aside" for part in parts)}


def in_time(finding: Finding) -> set[str]:
    return {name for name, parts in clocks(finding).items() if any(part.holds for part in parts)}


@pytest.mark.parametrize("region, unit, asked", ASKED, ids=NAMES)
def test_each_work_starts_its_own_clocks_and_no_other(
    region: str, unit: dict[str, str], asked: dict[str, set[str]]
) -> None:
    assert in_time(judged(region, unit | LONG_AGO)) == set()
    for work in WORKS:
        started = {name for name, works in asked.items() if work in works}
        assert in_time(judged(region, unit | LONG_AGO | {work: LATELY})) == started, work


@pytest.mark.parametrize("region, unit, asked", ASKED, ids=NAMES)
def test_what_is_not_asked_is_not_told_and_all_else_is(
    region: str, unit: dict[str, str], asked: dict[str, set[str]]
) -> None:
    finding = judged(region, unit | LONG_AGO)
    assert set(clocks(finding)) == set(asked)
    assert finding.outcome == "not met"
    told = "\n".join(clock_lines(finding, country_of(region)))
    assert "9999" not in told
    assert "not asked" not in told
    assert all(f"{name.replace('_', ' ')}: " in told for name in asked if len(asked) > 1)


@pytest.mark.parametrize("region, unit, asked", ASKED, ids=NAMES)
def test_a_clock_whose_days_are_not_recorded_leaves_it_undetermined(
    region: str, unit: dict[str, str], asked: dict[str, set[str]]
) -> None:
    whole = unit | dict.fromkeys(WORKS, LATELY)
    assert judged(region, whole).outcome == "met"
    for name, works in asked.items():
        finding = judged(region, {field: value for field, value in whole.items() if field not in works})
        assert finding.outcome == "undetermined", name
        assert works <= {need.path.rpartition(".")[2] for need in finding.needs}, name


def test_what_nobody_asks_need_not_be_recorded() -> None:
    assert judged("gb", {"agent": "clean agent", **dict.fromkeys(WORKS[:3], LATELY)}).outcome == "met"
    assert judged("us", {"refillable": "no", **dict.fromkeys(WORKS[:3], LATELY)}).outcome == "met"
    assert judged("us", {"refillable": "no", **dict.fromkeys(WORKS[:2], LATELY)}).outcome == "undetermined"


@pytest.mark.parametrize("region, day, outcome", [("us", "2025-11-24", "not met"), ("us", LATELY, "undetermined")])
def test_an_overdue_clock_outweighs_one_that_is_not_known(region: str, day: str, outcome: str) -> None:
    assert judged(region, {"looked_at_on": LATELY, "serviced_on": day}).outcome == outcome


@pytest.mark.parametrize("agent", ["lithium battery agent", "wet chemical"])
def test_a_kind_of_unit_without_a_row_is_outside_the_range(agent: str) -> None:
    """Table L-1 of 29 CFR 1910.157 names neither."""
    finding = judged("us", POWDER | {"agent": agent} | dict.fromkeys(WORKS, LATELY))
    assert (finding.outcome, finding.because) == ("undetermined", "outside range")


@pytest.mark.parametrize(
    ("recharged", "day", "opening", "shell"),
    [
        ("never", "2026-04-10", "2020-05-31 False", "2026-05-31 True"),
        ("never", "2026-06-01", "2020-05-31 False", "2026-05-31 False"),
        ("2021-03-31", "2026-04-10", "2027-03-31 True", "2026-05-31 True"),
        ("2021-03-31", "2027-03-31", "2027-03-31 True", "2026-05-31 False"),
        ("2021-03-31", "2027-04-01", "2027-03-31 False", "2026-05-31 False"),
    ],
)
def test_a_recharge_starts_the_clock_of_the_inside_and_not_that_of_the_shell(
    recharged: str, day: str, opening: str, shell: str
) -> None:
    """29 CFR 1910.157(e)(4), (f)(2): powder in steel made in May 2014, opened after 6 years, tested after 12."""
    on = dt.date.fromisoformat(day)
    unit = POWDER | LONG_AGO | {"made_on": "2014-05-31", "recharged_on": recharged}
    finding = judged("us", unit | dict.fromkeys(WORKS[:2], day), on)
    assert finding.outcome == ("met" if opening.endswith("True") and shell.endswith("True") else "not met")
    for name, told in (("opening", opening), ("shell_test", shell)):
        (lead,) = [part for part in clocks(finding)[name] if part.clock and part.clock.leads]
        assert lead.measured is not None
        assert f"{lead.measured.value} {lead.holds}" == told
    assert finding.margin is not None
    earliest = min(opening[:10], shell[:10], (on + dt.timedelta(days=28)).isoformat())
    if finding.outcome == "not met":
        assert finding.measured is not None
        assert finding.measured.value == earliest
        assert finding.margin.value == (dt.date.fromisoformat(earliest) - on).days * 86400


def plus(day: dt.date, years: int = 0, months: int = 0) -> dt.date:
    """Some years or months later; the days drawn below are the first to the 28th, so that each month has them."""
    count = day.year * 12 + day.month - 1 + 12 * years + months
    return dt.date(count // 12, count % 12 + 1, day.day)


DAYS = st.builds(dt.date, st.integers(2000, 2026), st.integers(1, 10), st.integers(1, 28))


@settings(max_examples=60)
@given(st.fixed_dictionaries(dict.fromkeys(("looked_at_on", "serviced_on", "made_on", "extended_service_on"), DAYS)))
def test_the_earliest_day_due_governs(done: dict[str, dt.date]) -> None:
    """The four clocks of a foam unit by BS 5306-3 as `gb` holds it (secondary): 1 month, 1, 5 and 20 years."""
    finding = judged("gb", {"agent": "foam"} | {name: day.isoformat() for name, day in done.items()})
    days = {
        "look": plus(done["looked_at_on"], months=1),
        "service": plus(done["serviced_on"], 1),
        "extended_service": max(plus(done["made_on"], 5), plus(done["extended_service_on"], 5)),
        "life": plus(done["made_on"], 20),
    }
    earliest = min(days.values())
    (governs,) = [part for part in finding.parts if part.governs]
    assert governs.clock is not None
    assert days[governs.clock.name] == earliest
    assert finding.outcome == ("met" if earliest >= DAY else "not met")
    assert finding.margin is not None
    assert finding.margin.value == (earliest - DAY).days * 86400
    told = clock_lines(finding, "metric")
    assert f"due {earliest.isoformat()}" in told[0]
    assert len(told) == len(days)


def test_it_says_what_is_overdue_what_comes_next_and_what_is_not_known() -> None:
    unit = POWDER | {"looked_at_on": "2026-09-28", "serviced_on": "2026-02-11", "made_on": "2014-05-01"}
    unit |= {"extended_service_on": "never", "pressure_tested_on": "2021-03-01"}
    assert clock_lines(judged("us", unit), "us") == (
        "look: due 2026-10-28 (looked at on 2026-09-28 + 1 month); 28 days overdue; this one decides",
        "service: due 2027-02-11 (serviced on 2026-02-11 + 1 year); 78 days to spare",
        "opening: due 2027-03-01 (pressure tested on 2021-03-01 + 6 years); 96 days to spare",
        "shell test: due 2033-03-01 (pressure tested on 2021-03-01 + 12 years); 2288 days to spare",
    )
    del unit["looked_at_on"], unit["pressure_tested_on"]
    assert clock_lines(judged("us", unit), "us") == (
        "opening: due 2020-05-01 (made on 2014-05-01 + 6 years); 2399 days overdue; "
        "not known, and may put it off: recharged on, pressure tested on",
        "shell test: due 2026-05-01 (made on 2014-05-01 + 12 years); 208 days overdue; "
        "not known, and may put it off: pressure tested on",
        "service: due 2027-02-11 (serviced on 2026-02-11 + 1 year); 78 days to spare",
        "look: not known (looked at on; 1 month asked); this one decides",
    )


def test_clocks_of_another_authority_stand_in_the_same_finding() -> None:
    """In `de` guidance asks the service, workplace law the rest; the worse governs and both are cited."""
    unit = POWDER | {"serviced_on": "2024-10-14", "made_on": "2020-06-01"}
    finding = judged("de", unit | {"extended_service_on": "never"})
    assert [(each.authority, each.outcome, each.governs) for each in finding.provisions] == [
        ("workplace law", "not met", True),
        ("guidance", "not met", False),
    ]
    assert clock_lines(finding, "metric") == (
        "extended service: due 2025-06-01 (made on 2020-06-01 + 5 years); 542 days overdue; this one decides",
        "service: due 2026-10-14 (serviced on 2024-10-14 + 2 years); 42 days overdue; asked by guidance",
    )


WAYS = "circuit.dedicated or due(circuit.rcd.tried_on, limit.every) >= as_of and circuit.breaker <= limit.most"


@pytest.mark.parametrize(
    ("require", "recorded", "told"),
    [
        (WAYS, {"dedicated": True, "tried_on": LATELY, "breaker": "16 A"}, ["counts", "aside", "aside"]),
        (WAYS, {"dedicated": False, "tried_on": LATELY, "breaker": "16 A"}, ["aside", "counts", "counts"]),
        (WAYS, {"dedicated": False, "tried_on": "never", "breaker": "16 A"}, ["aside", "counts", "counts"]),
        (WAYS, {"tried_on": "never", "breaker": "16 A"}, ["counts", "counts", "counts"]),
        (WAYS, {"dedicated": False, "breaker": "16 A"}, ["aside", "counts", "counts"]),
        (f"not ({WAYS})", {"dedicated": False, "tried_on": "never", "breaker": "16 A"}, ["", "counts", "aside"]),
    ],
)
def test_of_several_ways_one_counts(require: str, recorded: dict[str, object], told: list[str], tmp_path: Path) -> None:
    assert list(ways(tmp_path, require, recorded, "12 months")[0]) == told


@pytest.mark.parametrize(
    ("require", "told"),
    [
        (WAYS, [True, False, True]),
        ("circuit.dedicated or due(circuit.rcd.tried_on, limit.every) >= as_of", [False, False]),
        ("circuit.dedicated and due(circuit.rcd.tried_on, limit.every) >= as_of", [True, False]),
        ("not (circuit.dedicated and due(circuit.rcd.tried_on, limit.every) < as_of)", [False, False]),
        ("not (circuit.dedicated or due(circuit.rcd.tried_on, limit.every) < as_of)", [True, False]),
        ("circuit.dedicated or due(circuit.rcd.tried_on, limit.every) < as_of", [True, True]),
    ],
)
def test_what_hangs_on_nothing_is_not_told(require: str, told: list[bool], tmp_path: Path) -> None:
    """A day on which nothing falls due lies before none: the last asks for what it can never have, and says so."""
    for recorded in ({"dedicated": False, "breaker": "16 A"}, {"dedicated": True, "breaker": "16 A"}):
        assert list(ways(tmp_path, require, recorded, "not asked")[1]) == told


def ways(
    folder: Path, require: str, recorded: dict[str, object], every: str
) -> tuple[tuple[str, ...], tuple[bool, ...]]:
    """Of each part whether it counts, and whether it is told."""
    limits = {"every": "period", "most": "current"}
    held = book(folder, [rule("r", "circuit", require, limit=limits)], [])
    given = {"limit.every": every, "limit.most": "20 A"}
    named = {"tried_on": "circuit.rcd.tried_on"}
    given |= {named.get(name, f"circuit.{name}"): value for name, value in recorded.items()}  # type: ignore[misc]
    tree, parts = the_rule(held).require_tree, judgement(held, given).parts
    return either(tree, parts), shown(tree, parts)
