"""A remedy names a place on a wall; a unit that hangs there mends the finding."""

import datetime as dt
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from checker import shipped
from checker.answers.remedies import with_remedies
from checker.findings.check import check
from checker.findings.result import Finding
from checker.reading import Document
from checker.rules import Rulebook, read_rulesets
from checker.site import read_site

DAY = dt.date(2026, 11, 25)
ANYWHERE = "fire.class-a-walk-from-anywhere"
WALK = "fire.class-b-walk"
"""At most 10 m in Great Britain (BS 5306-8, secondary)."""


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return read_rulesets(shipped.rulesets())


def shop(length: float, width: float, blocks: list[list[float]], unit: list[float], hazard: list[float]) -> Any:
    return {
        "id": "shop",
        "region": "gb",
        "rooms": [
            {
                "id": "cell",
                "outline": [["0 m", "0 m"], [f"{length} m", f"{width} m"]],
                "obstacles": [
                    {"id": f"block-{number}", "outline": [[f"{x} m", f"{y} m"], [f"{x + w} m", f"{y + d} m"]]}
                    for number, (x, y, w, d) in enumerate(blocks)
                ],
                "partitions": "none",
                "doors": [{"id": "gate", "to": "outside", "at": ["0 m", "1 m"], "width": "1 m", "locked": False}],
            }
        ],
        "dynos": "none",
        "extinguishers": [fire_extinguisher("fe-1", unit)],
        "hazards": [{"id": "bench", "room": "cell", "at": [f"{v} m" for v in hazard], "fire_class": "B"}],
    }


def fire_extinguisher(name: str, at: Any) -> Any:
    return {"id": name, "room": "cell", "at": [f"{v} m" for v in at], "rating": "21A 34B", "rating_system": "EN 3"}


def judged(data: Any, rulebook: Rulebook, rule: str = WALK) -> Finding:
    site = read_site(Document("shop.json", data, "{}"))
    result = with_remedies(site, check(site, rulebook, region=None, as_of=DAY, program_version="0"))
    return next(finding for finding in result.findings if finding.rule == rule)


def test_a_rack_in_the_way_makes_the_walk_too_long_and_the_remedy_says_where_a_unit_helps(rulebook: Rulebook) -> None:
    data = shop(30, 20, [[10, 0, 1, 17]], [30, 5], [1, 1])
    finding = judged(data, rulebook)
    assert finding.outcome == "not met"
    assert finding.remedy is not None
    assert finding.remedy.place is not None
    x, y = finding.remedy.place
    assert min(x, y, 30 - x, 20 - y) == pytest.approx(0, abs=1e-6) or x == pytest.approx(10, abs=0.02), "on a wall"


def test_what_is_met_needs_no_remedy(rulebook: Rulebook) -> None:
    finding = judged(shop(12, 9, [], [0, 4], [8, 1]), rulebook)
    assert (finding.outcome, finding.remedy) == ("met", None)


def in_germany(length: float, width: float, unit: list[float]) -> Any:
    """A hall in which no floor may be more than 20 m on foot from a unit (ASR A2.2, secondary)."""
    data = shop(length, width, [[length / 3, 0, 1, width * 0.8]], unit, [1, 1])
    data["region"] = "de"
    data["rooms"][0] |= {"storey": "ground floor", "kind": "workshop"}
    return data


@pytest.mark.parametrize(("length", "width"), [(24, 10), (30, 12), (26, 16), (33, 9)])
def test_a_unit_at_the_place_suggested_brings_all_floor_within_reach(
    rulebook: Rulebook, length: float, width: float
) -> None:
    data = in_germany(length, width, [0, 0.5])
    finding = judged(data, rulebook, ANYWHERE)
    assert finding.outcome == "not met"
    remedy = finding.remedy
    assert remedy is not None
    assert remedy.beyond_area is not None
    assert remedy.beyond_share is not None
    assert 0 < float(remedy.beyond_area.value) < length * width
    assert float(remedy.beyond_share.value) == pytest.approx(
        float(remedy.beyond_area.value) / (length * width - 0.8 * width), abs=0.01
    )
    assert remedy.contour, "the line at the limit is there to be drawn"
    assert remedy.place is not None
    data["extinguishers"].append(fire_extinguisher("fe-2", remedy.place))
    assert judged(data, rulebook, ANYWHERE).outcome == "met"


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    length=st.integers(12, 40),
    width=st.integers(8, 25),
    blocks=st.lists(
        st.tuples(st.floats(0.1, 0.8), st.floats(0, 0.7), st.floats(0.02, 0.2), st.floats(0.1, 0.8)), max_size=3
    ),
    hazard=st.tuples(st.floats(0.05, 0.95), st.floats(0.05, 0.95)),
)
def test_a_unit_at_the_place_suggested_mends_the_finding(
    rulebook: Rulebook, length: int, width: int, blocks: list[tuple[float, ...]], hazard: tuple[float, float]
) -> None:
    placed = [
        [round(x * length, 2), round(y * width, 2), round(min(w, 1 - x) * length, 2), round(min(d, 1 - y) * width, 2)]
        for x, y, w, d in blocks
    ]
    at = [round(hazard[0] * length, 2), round(hazard[1] * width, 2)]
    assume(all(not (x <= at[0] <= x + w and y <= at[1] <= y + d) for x, y, w, d in placed))
    assume(all(min(w, d) > 0.05 for _, _, w, d in placed))
    data = shop(length, width, placed, [0, 0.5], at)
    finding = judged(data, rulebook)
    assume(finding.outcome == "not met" and finding.remedy is not None and finding.remedy.place is not None)
    assert finding.remedy is not None
    data["extinguishers"].append(fire_extinguisher("fe-2", finding.remedy.place))
    mended = judged(data, rulebook)
    assert mended.outcome == "met"
    assert finding.remedy.walk_then is not None
    assert mended.measured is not None
    assert float(mended.measured.value) <= float(finding.remedy.walk_then.value) + 1e-6


@pytest.mark.parametrize(("length", "rack", "serves"), [(44, 24, True), (50, 22, False)])
def test_beside_a_room_that_nobody_looked_into_no_door_is_counted_on(
    length: int, rack: int, serves: bool, rulebook: Rulebook
) -> None:
    """A rack leaves 1 m to pass below it; above it the way might lead through a store along the whole hall.

    In the hall of 50 m a unit would serve both ends only if the store were open to it.
    """
    data = in_germany(length, 10, [0, 5])
    data["rooms"][0]["obstacles"] = [{"id": "rack", "outline": [[f"{rack} m", "1 m"], [f"{rack + 1} m", "10 m"]]}]
    data["rooms"].append(
        {"id": "store", "storey": "ground floor", "outline": [["0 m", "10 m"], [f"{length} m", "14 m"]]}
    )
    site = read_site(Document("shop.json", data, "{}"))
    result = with_remedies(site, check(site, rulebook, region=None, as_of=DAY, program_version="0"))
    finding = next(each for each in result.findings if each.rule == ANYWHERE and each.subject.id == "cell")
    assert (finding.outcome, finding.taken) == ("not met", "shortest")
    assert finding.remedy is not None
    assert (finding.remedy.place is not None) == serves
