"""The narrowest aisle of a room, and gaps that close, told from the floor plan and from what people said of gaps."""

import copy
from collections.abc import Iterator
from decimal import Decimal
from math import hypot
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checker.quantities import Drawn, Facts, Missing, Reading, facts, working_of
from checker.reading import read_text
from checker.site import Site, read_site

HALL = """\
id: shop
rooms:
  - id: hall
    outline: [[0 m, 0 m], [12 m, 9 m]]
    obstacles:
      - {id: lift, name: Lift, outline: [[5 m, 2 m], [8 m, 4 m]]}
      - {id: bench, name: Bench, outline: [[0 m, 4.7 m], [4 m, 5.3 m]]}
    partitions: [{id: screen, line: [[10 m, 0 m], [10 m, 3 m]]}]
    doors:
      - {id: side, to: outside, at: [2 m, 9 m], width: 0.9 m, locked: no, swing: in, hinge: left}
    floor_gaps:
      - {id: past-the-lift, one: rollers, other: lift, people: pass}
      - {id: behind, one: rollers, other: wall, wall_at: [0 m, 2 m], people: cannot get in}
dynos:
  - id: rollers
    name: Rollers
    room: hall
    footprint: [[0.4 m, 2 m], [4.4 m, 4 m]]
closing_gaps:
  - {id: at-the-lift, dyno: rollers, one: lift, other: rollers, closes_by: 0.15 m}
"""
"""0.6 m past the lift, 0.4 m behind the rollers, 0.7 m from the rollers to the bench."""


def known(text: str = HALL, reading: Reading = "recorded") -> Facts:
    return facts(read_site(read_text(text, "shop.yaml")), reading)


def width(text: str = HALL, reading: Reading = "recorded") -> Decimal:
    found = known(text, reading).things("room")[0]["aisle_width"]
    assert isinstance(found, Decimal)
    return found


def changed(before: str, after: str, text: str = HALL) -> str:
    assert before in text
    return text.replace(before, after)


def test_the_narrowest_gap_where_people_pass_is_drawn_and_names_both_things() -> None:
    room = known().things("room")[0]
    assert room["aisle_width"] == Decimal("0.6")
    drawn = working_of(room, "aisle_width")[-1].drawn
    assert isinstance(drawn, Drawn)
    assert (drawn.what, drawn.room, drawn.between) == ("gap", "hall", "Lift (lift) and Rollers (rollers)")
    (x1, y1), (x2, y2) = drawn.points
    assert hypot(x2 - x1, y2 - y1) == pytest.approx(0.6)


@pytest.mark.parametrize(
    ("before", "after", "wide"),
    [
        pytest.param("people: pass", "people: work there", "0.6", id="where people work"),
        pytest.param("one: rollers, other: lift", "one: lift, other: rollers", "0.6", id="either way round"),
        pytest.param("[[5 m, 2 m], [8 m, 4 m]]", "[[5.05 m, 2 m], [8 m, 4 m]]", "0.65", id="moved by 5 cm"),
        pytest.param("[[0.4 m, 2 m], [4.4 m, 4 m]]", "[[0 m, 2 m], [4.4 m, 4 m]]", "0.6", id="flush with the wall"),
        pytest.param("[[0 m, 4.7 m], [4 m, 5.3 m]]", "[[0 m, 4.1 m], [4 m, 5.3 m]]", "0.6", id="too narrow for a body"),
        pytest.param(
            "[[5 m, 2 m], [8 m, 4 m]]", "[[5.05 m, 2 m], [7.15 m, 2 m], [7.15 m, 4 m]]", "0.65", id="a corner"
        ),
        pytest.param("people: cannot get in", "people: pass", "0.4", id="the narrower of two ways"),
    ],
)
def test_the_width_to_the_millimetre(before: str, after: str, wide: str) -> None:
    assert float(width(changed(before, after))) == pytest.approx(float(wide), abs=1e-3)


@pytest.mark.parametrize(
    ("before", "after", "says"),
    [
        pytest.param(", people: cannot get in", "", "0.40 m between Rollers (rollers) and wall", id="nobody said who"),
        pytest.param(", wall_at: [0 m, 2 m]", "", "0.40 m between Rollers (rollers) and wall", id="nor which wall"),
        pytest.param("wall_at: [0 m, 2 m]", "wall_at: [2 m, 0 m]", "0.40 m between", id="another wall"),
        pytest.param(
            "one: rollers, other: lift, people: pass", "one: lift, other: bench", "0.60 m between", id="other"
        ),
        pytest.param("[10 m, 0 m], [10 m, 3 m]", "[8.5 m, 0 m], [8.5 m, 3 m]", "0.50 m between Lift", id="a screen"),
        pytest.param("[[0 m, 4.7 m], [4 m, 5.3 m]]", "[[0 m, 7.6 m], [4 m, 7.7 m]]", "the leaf of side", id="a leaf"),
    ],
)
def test_a_narrower_gap_of_which_nobody_said_who_gets_in_leaves_the_width_unknown(
    before: str, after: str, says: str
) -> None:
    with pytest.raises(Missing) as told:
        width(changed(before, after))
    assert told.value.path == "rooms[hall].floor_gaps"
    assert says in told.value.why


@pytest.mark.parametrize("gone", [", swing: in, hinge: left", ", hinge: left"])
def test_a_leaf_that_may_swing_nearer_is_asked_for(gone: str) -> None:
    near = changed("[[0 m, 4.7 m], [4 m, 5.3 m]]", "[[0 m, 7.6 m], [4 m, 7.7 m]]")
    said = changed(
        "    floor_gaps:\n", "    floor_gaps:\n      - {id: d, one: side, other: bench, people: pass}\n", near
    )
    assert width(said) == Decimal("0.4")
    with pytest.raises(Missing) as told:
        width(changed(gone, "", said))
    assert told.value.path.startswith("rooms[hall].doors[side]")
    assert width(changed(gone, "")) == Decimal("0.6"), "far from everything it changes nothing"


def test_nobody_passes_where_no_body_gets_through() -> None:
    text = changed("[[0.4 m, 2 m], [4.4 m, 4 m]]", "[[0.15 m, 2 m], [4.4 m, 4 m]]")
    assert width(text) == Decimal("0.6")
    with pytest.raises(Missing, match=r"where no body gets through: 0\.15 m between Rollers"):
        width(changed("people: cannot get in", "people: pass", text))


@pytest.mark.parametrize(
    "gone", [", outline: [[5 m, 2 m], [8 m, 4 m]]", "    footprint: [[0.4 m, 2 m], [4.4 m, 4 m]]\n", ", width: 0.9 m"]
)
def test_what_stands_nobody_knows_where_leaves_the_width_unknown(gone: str) -> None:
    with pytest.raises(Missing, match=r"not recorded"):
        width(changed(gone, ""))


def test_what_was_measured_beats_the_plan_and_the_plan_what_was_told() -> None:
    measured = "    aisle_width: {value: 0.55 m, evidence: measured}\n    obstacles:"
    assert width(changed("    obstacles:", measured)) == Decimal("0.55")
    told = measured.replace("measured", "told")
    assert width(changed("    obstacles:", told)) == Decimal("0.6")
    assert width(changed("    obstacles:", told).replace(", people: cannot get in", "")) == Decimal("0.55")


def test_a_room_in_which_nothing_stands_is_as_wide_as_is_looked() -> None:
    assert width("id: shop\nrooms: [{id: hall, outline: [[0 m, 0 m], [12 m, 9 m]], obstacles: none,"
                 " partitions: none, doors: none}]\ndynos: none\n") == 3  # fmt: skip


@pytest.mark.parametrize(
    ("before", "after", "least"),
    [
        pytest.param("id: shop", "id: shop", "0.45", id="less what the part moves by"),
        pytest.param("closes_by: 0.15 m", "closes_by: 0 m", "0.6", id="drawn at its farthest"),
        pytest.param("closes_by: 0.15 m", "closes_by: 0.7 m", "0", id="closes altogether"),
        pytest.param("other: rollers, closes_by", "other: screen, closes_by", "1.85", id="against a screen"),
        pytest.param(
            "other: rollers, closes_by", "other: wall, wall_at: [6 m, 0 m], closes_by", "1.85", id="against a wall"
        ),
    ],
)
def test_a_gap_that_closes(before: str, after: str, least: str) -> None:
    found = known(changed(before, after)).things("closing_gap")[0]
    assert float(found["least"]) == pytest.approx(float(least), abs=1e-3)
    assert working_of(found, "least")[-1].drawn is not None


@pytest.mark.parametrize(
    ("before", "after", "path"),
    [
        (", closes_by: 0.15 m", "", "closing_gaps[at-the-lift].closes_by"),
        ("other: rollers, closes_by", "other: wall, closes_by", "closing_gaps[at-the-lift].wall_at"),
        ("other: rollers, closes_by", "other: side, closes_by", "closing_gaps[at-the-lift].dyno"),
    ],
)
def test_what_a_gap_that_closes_lacks(before: str, after: str, path: str) -> None:
    with pytest.raises(Missing) as told:
        known(changed(before, after)).things("closing_gap")[0]["least"]
    assert told.value.path == path


WHOLE: dict[str, Any] = {
    "id": "shop",
    "rooms": [
        {
            "id": "hall",
            "outline": [["0 m", "0 m"], ["12 m", "9 m"]],
            "obstacles": [
                {"id": "lift", "outline": [["5 m", "2 m"], ["8 m", "4 m"]]},
                {"id": "bench", "outline": [["0 m", "4.7 m"], ["4 m", "5.3 m"]]},
                {"id": "rack", "outline": [["0 m", "7.6 m"], ["4 m", "7.7 m"]]},
            ],
            "partitions": [{"id": "screen", "line": [["8.5 m", "0 m"], ["8.5 m", "3 m"]]}],
            "doors": [
                {
                    "id": "side",
                    "to": "outside",
                    "at": ["2 m", "9 m"],
                    "width": "0.9 m",
                    "locked": False,
                    "swing": "in",
                    "hinge": "left",
                }
            ],
            "floor_gaps": [
                {"id": "a", "one": "rollers", "other": "lift", "people": "pass"},
                {"id": "b", "one": "rollers", "other": "wall", "wall_at": ["0 m", "2 m"], "people": "cannot get in"},
                {"id": "c", "one": "rollers", "other": "bench", "people": "work there"},
                {"id": "d", "one": "side", "other": "rack", "people": "pass"},
                {"id": "e", "one": "screen", "other": "lift", "people": "cannot get in"},
            ],
        }
    ],
    "dynos": [{"id": "rollers", "room": "hall", "footprint": [["0.4 m", "2 m"], ["4.4 m", "4 m"]]}],
}


def places(node: Any, place: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    for key, below in node.items() if isinstance(node, dict) else enumerate(node):
        if key != "id":
            if isinstance(node, dict):
                yield (*place, key)
            if isinstance(below, dict) or (isinstance(below, list) and below and isinstance(below[0], dict)):
                yield from places(below, (*place, key))


def without(gone: set[tuple[str | int, ...]]) -> dict[str, Any]:
    document = copy.deepcopy(WHOLE)
    for place in sorted(gone, key=len, reverse=True):
        node: Any = document
        for step in place[:-1]:
            node = node[step]
        node.pop(place[-1], None)
    return document


def bounds(document: dict[str, Any]) -> tuple[Decimal | None, Decimal | None]:
    """The width where all that is not known is against it, and where all is in its favour."""
    found = []
    for reading in ("longest", "shortest"):
        try:
            found.append(facts(Site.of(document), reading).things("room")[0]["aisle_width"])  # type: ignore[arg-type]
        except Missing:
            found.append(None)
    return found[0], found[1]


@settings(max_examples=150, deadline=None)
@given(st.sets(st.sampled_from(sorted(places(WHOLE), key=str)), max_size=5), st.data())
def test_whatever_is_recorded_beside_lies_between_the_two_readings(
    gone: set[tuple[str | int, ...]], data: st.DataObject
) -> None:
    """So that no outcome that stood in both readings changes where a value is recorded on which nothing spoke."""
    fewer = data.draw(st.sets(st.sampled_from(sorted(gone, key=str)))) if gone else set()
    (worst, best), (worse, better) = bounds(without(gone)), bounds(without(fewer))
    for low, value in ((worst, worse), (worst, better)):
        assert low is None or value is None or low <= value
    for value, high in ((worse, best), (better, best)):
        assert value is None or high is None or value <= high
    try:
        recorded = facts(Site.of(without(fewer))).things("room")[0]["aisle_width"]
    except Missing:
        return
    assert worse == recorded == better
