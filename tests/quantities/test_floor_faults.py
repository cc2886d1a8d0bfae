"""What a floor plan cannot be is told with thing and place, and the rest of the site is judged."""

import datetime as dt

import pytest

from checker import shipped
from checker.findings.check import check
from checker.quantities import Missing, facts
from checker.reading import read_text
from checker.rules import read_rulesets
from checker.site import read_site

SHOP = """\
id: shop
region: gb
rooms:
  - id: cell
    outline: [[0 m, 0 m], [12 m, 9 m]]
    obstacles: [{id: lift, outline: [[4 m, 0 m], [5 m, 8 m]]}]
    partitions: [{id: screen, line: [[8 m, 4 m], [9 m, 4 m]]}]
    doors: [{id: gate, to: outside, at: [12 m, 4 m], width: 3 m, locked: no}]
  - id: store
    outline: [[13 m, 0 m], [20 m, 9 m]]
    obstacles: none
    partitions: none
    doors: [{id: hatch, to: outside, at: [20 m, 4 m], width: 1 m, locked: no}]
dynos: none
extinguishers:
  - {id: fe-1, room: cell, at: [0 m, 4 m], rating: 34B, rating_system: EN 3, charged: yes}
"""


def faults(text: str) -> list[tuple[str, str]]:
    return [(notice.path, notice.says) for notice in facts(read_site(read_text(text, "shop.yaml"))).floor_faults]


def test_a_plan_that_can_be_so_has_none() -> None:
    assert faults(SHOP) == []


@pytest.mark.parametrize(
    ("was", "now", "path", "says"),
    [
        ("[[0 m, 0 m], [12 m, 9 m]]", "[[0 m, 0 m], [12 m, 9 m], [12 m, 0 m], [0 m, 9 m]]",
         "rooms[cell].outline", "crosses"),
        ("[[0 m, 0 m], [12 m, 9 m]]", "[[0 m, 0 m], [6 m, 0 m], [12 m, 0 m]]", "rooms[cell].outline", "touches itself"),
        ("[[13 m, 0 m], [20 m, 9 m]]", "[[11 m, 0 m], [20 m, 9 m]]", "rooms[cell].outline", "overlaps room store"),
        ("[[4 m, 0 m], [5 m, 8 m]]", "[[4 m, -5 m], [5 m, 8 m]]",
         "rooms[cell].obstacles[lift].outline", "through a wall"),
        ("[[4 m, 0 m], [5 m, 8 m]]", "[[40 m, 0 m], [50 m, 8 m]]",
         "rooms[cell].obstacles[lift].outline", "stands in no room"),
        ("[[8 m, 4 m], [9 m, 4 m]]", "[[80 m, 4 m], [90 m, 4 m]]",
         "rooms[cell].partitions[screen].line", "stands in no room"),
        ("at: [12 m, 4 m]", "at: [7 m, 4 m]", "rooms[cell].doors[gate].at", "in no wall of room cell"),
        ("at: [0 m, 4 m]", "at: [4.5 m, 4 m]", "extinguishers[fe-1].at", "inside obstacle lift"),
        ("at: [0 m, 4 m]", "at: [30 m, 4 m]", "extinguishers[fe-1].at", "outside"),
        ("[[4 m, 0 m], [5 m, 8 m]]", "[[4 m, 0 m], [5 m, 9 m]]", "extinguishers[fe-1].at", "No way leads to it"),
    ],
)  # fmt: skip
def test_what_cannot_be_so_is_named(was: str, now: str, path: str, says: str) -> None:
    assert was in SHOP
    found = faults(SHOP.replace(was, now, 1))
    assert any(path == at and says in told for at, told in found), found


def test_a_plan_with_a_fault_is_not_walked_and_the_other_storey_of_rules_goes_on() -> None:
    text = SHOP.replace("[[4 m, 0 m], [5 m, 8 m]]", "[[40 m, 0 m], [50 m, 8 m]]")
    cell = facts(read_site(read_text(text, "shop.yaml"))).things("room")[0]
    with pytest.raises(Missing, match="stands in no room") as raised:
        cell["farthest_from_exit"]
    assert raised.value.needs[0].path == "rooms[cell].obstacles[lift].outline"


def test_the_result_tells_it_as_a_notice_and_judges_the_rest() -> None:
    text = SHOP.replace("[[4 m, 0 m], [5 m, 8 m]]", "[[40 m, 0 m], [50 m, 8 m]]")
    site = read_site(read_text(text, "shop.yaml"))
    result = check(
        site, read_rulesets(shipped.rulesets()), region=None, as_of=dt.date(2026, 11, 25), program_version="0"
    )
    told = [notice for notice in result.notices if notice.kind == "floor plan"]
    assert [notice.about for notice in told] == ["rooms[cell].obstacles[lift].outline"]
    assert len(result.findings) > 50
    assert not any(finding.because == "rule broke" for finding in result.findings)
