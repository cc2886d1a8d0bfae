"""Where the cases of a rule stand beside its limits, and whether they decide by them."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import pytest

from checker.findings.prove import prove
from checker.keeping.comparisons import shown
from tests.findings.workshop import rule, rulebook, the_rule

Case = tuple[Mapping[str, object], str]


def lacking(folder: Path, each: str, require: str, cases: Sequence[Case], **more: Any) -> dict[str, set[str]]:
    """The places beside each limit where no case decides, by the measured side."""
    written = [{"given": dict(given), "outcome": outcome} for given, outcome in cases]
    held = rulebook(folder, [rule("r", each, require, cases=written, **more)], [])
    assert prove(held).failures == ()
    return {
        one.measured: {place for place in ("at", "under", "over") if not getattr(one, place)}
        for one in shown(the_rule(held))
    }


def amps(breaker: str, outcome: str, **more: object) -> Case:
    return {"limit.most": "20 A", "circuit.breaker": breaker, **more}, outcome


MOST = {"limit": {"most": "current"}}


@pytest.mark.parametrize(
    "cases, left",
    [
        ([amps("20 A", "met"), amps("19 A", "met"), amps("21 A", "not met")], set()),
        ([amps("20 A", "met"), amps("21 A", "not met")], {"under"}),
        ([amps("19 A", "met"), amps("21 A", "not met")], {"at"}),
        ([amps("20 A", "met"), amps("18 A", "met")], {"over"}),
        ([amps("18 A", "met"), amps("22 A", "not met"), amps("20000 mA", "met")], set()),
        ([amps("17 A", "met"), amps("23 A", "not met")], {"at", "under", "over"}),
        ([({"limit.most": "20 A"}, "undetermined")], {"at", "under", "over"}),
    ],
)
@pytest.mark.parametrize("require", ["circuit.breaker <= limit.most", "not (limit.most < circuit.breaker)"])
def test_cases_at_and_beside_a_limit(cases: Sequence[Case], left: set[str], require: str, tmp_path: Path) -> None:
    assert lacking(tmp_path, "circuit", require, cases, **MOST) == {"circuit.breaker": left}


def test_a_case_counts_only_where_the_comparison_decides(tmp_path: Path) -> None:
    require = "circuit.dedicated and circuit.breaker <= limit.most"
    undecided = [amps(size, "not met", **{"circuit.dedicated": False}) for size in ("19 A", "20 A", "21 A")]
    assert lacking(tmp_path / "a", "circuit", require, undecided, **MOST) == {
        "circuit.breaker": {"at", "under", "over"}
    }
    decided = [
        amps(size, outcome, **{"circuit.dedicated": True})
        for size, outcome in (("19 A", "met"), ("20 A", "met"), ("21 A", "not met"))
    ]
    assert lacking(tmp_path / "b", "circuit", require, undecided + decided, **MOST) == {"circuit.breaker": set()}


def test_the_limit_of_a_condition_counts_too(tmp_path: Path) -> None:
    cases = [
        amps("20 A", "met", **{"circuit.dedicated": True}),
        amps("19 A", "not applicable"),
        amps("21 A", "not met", **{"circuit.dedicated": False}),
    ]
    when = {"when": "circuit.breaker >= limit.most"}
    assert lacking(tmp_path, "circuit", "circuit.dedicated", cases, **MOST, **when) == {"circuit.breaker": set()}


def test_one_limit_written_twice_is_one_limit(tmp_path: Path) -> None:
    """A light unit may hang high and a heavy one may not: at the limit both comparisons turn together."""
    require = (
        "circuit.breaker <= limit.most and circuit.dedicated or limit.most < circuit.breaker and not circuit.dedicated"
    )
    cases = [
        amps(size, outcome, **{"circuit.dedicated": True})
        for size, outcome in (("19 A", "met"), ("20 A", "met"), ("21 A", "not met"))
    ]
    assert lacking(tmp_path, "circuit", require, cases, **MOST) == {"circuit.breaker": set()}


@pytest.mark.parametrize("beside, left", [([0, 2], set()), ([2], {"under"}), ([0, 3], {"over"})])
def test_of_plain_numbers_the_next_is_near(beside: list[int], left: set[str], tmp_path: Path) -> None:
    def counted(number: int) -> Case:
        return {"room.fans": [{"outdoors": True}] * number or "none"}, "met" if number >= 1 else "not met"

    found = lacking(
        tmp_path, "room", "count([f for f in room.fans]) >= 1", [counted(n) for n in (1, *beside)], limit={}
    )
    assert found == {"count([f for f in room.fans])": left}


def test_of_lengths_the_next_metre_is_not_near(tmp_path: Path) -> None:
    cases: list[Case] = [
        ({"limit.clear": "1 m", "dyno.clear_sides": size}, outcome)
        for size, outcome in (("1 m", "met"), ("2 m", "met"), ("0.95 m", "not met"))
    ]
    found = lacking(tmp_path, "dyno", "dyno.clear_sides >= limit.clear", cases, limit={"clear": "length"})
    assert found == {"dyno.clear_sides": {"over"}}


@pytest.mark.parametrize(
    "days, left",
    [
        (["2026-01-01", "2025-12-31", "2026-01-02"], set()),
        (["2026-01-01", "2025-12-20", "2026-02-01"], {"under", "over"}),
    ],
)
def test_of_days_a_week_is_near(days: list[str], left: set[str], tmp_path: Path) -> None:
    """The cases judge on 2026-01-01."""
    cases: list[Case] = [
        ({"extinguisher.serviced_on": f"{int(day[:4]) - 1}{day[4:]}"}, "met" if day >= "2026-01-01" else "not met")
        for day in days
    ]
    found = lacking(tmp_path, "extinguisher", "due(extinguisher.serviced_on, 12 months) >= as_of", cases, limit={})
    assert found == {"due(extinguisher.serviced_on, 12 months)": left}


@pytest.mark.parametrize("flow, left", [("1.05 m3/s", set()), ("2 m3/s", {"over"})])
def test_a_limit_asked_of_each_member_of_a_list(flow: str, left: set[str], tmp_path: Path) -> None:
    def fans(first: str, outcome: str) -> Case:
        return {"limit.least": "1 m3/s", "room.fans": [{"flow": first}, {"flow": "9 m3/s"}]}, outcome

    cases = [fans("1 m3/s", "met"), fans("0.95 m3/s", "not met"), fans(flow, "met")]
    require = "all([f.flow >= limit.least for f in room.fans])"
    assert lacking(tmp_path, "room", require, cases, limit={"least": "flow"}) == {"f.flow": left}


def test_a_quantity_asked_with_two_ratings_needs_no_case_that_tells_them_apart(tmp_path: Path) -> None:
    """A case gives one walk, whatever the rating, so that the nearer limit never decides alone."""
    require = (
        'hazard.walk_to_extinguisher("B", limit.small) <= limit.near'
        ' or hazard.walk_to_extinguisher("B", limit.large) <= limit.far'
    )
    kinds = {"small": "number", "large": "number", "near": "length", "far": "length"}
    limits = {"limit.small": 1, "limit.large": 2, "limit.near": "10 m", "limit.far": "20 m"}
    cases: list[Case] = [
        (limits | {"hazard.walk_to_extinguisher": walk}, outcome)
        for walk, outcome in (
            ("9.5 m", "met"),
            ("10 m", "met"),
            ("10.5 m", "met"),
            ("20 m", "met"),
            ("21 m", "not met"),
        )
    ]
    assert lacking(tmp_path, "hazard", require, cases, limit=kinds) == {
        'hazard.walk_to_extinguisher("B", limit.small)': set(),
        'hazard.walk_to_extinguisher("B", limit.large)': {"under"},
    }
