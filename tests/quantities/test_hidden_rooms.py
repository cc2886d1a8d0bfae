"""Rooms of a storey that nobody could look into: walks elsewhere are told where they cannot matter."""

import copy
from decimal import Decimal
from math import hypot
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checker.quantities import Missing, Reading, facts
from checker.site import Site

HIDDEN = ("doors", "obstacles", "partitions")
DOORS: list[dict[str, Any]] = [
    {"id": "to-left", "to": "left", "at": ["2 m", "6 m"], "width": "1 m", "locked": False, "swing": "out"},
    {"id": "to-right", "to": "right", "at": ["9 m", "6 m"], "width": "1.2 m", "locked": False, "swing": "in"},
    {"id": "out", "to": "outside", "at": ["5 m", "10 m"], "width": "1 m", "locked": False, "way_out": True},
]
SITE: dict[str, Any] = {
    "id": "shop",
    "rooms": [
        {
            "id": "left",
            "outline": [["0 m", "0 m"], ["6 m", "6 m"]],
            "obstacles": [{"id": "lift", "outline": [["2 m", "2 m"], ["4.5 m", "4 m"]]}],
            "partitions": [],
            "doors": [
                {"id": "between", "to": "right", "at": ["6 m", "1 m"], "width": "1 m", "locked": False,
                 "swing": "sliding"},
            ],
        },
        {
            "id": "right",
            "outline": [["6 m", "0 m"], ["12 m", "6 m"]],
            "obstacles": [],
            "partitions": [{"id": "screen", "line": [["8 m", "0 m"], ["8 m", "4 m"]]}],
            "doors": [
                {
                    "id": "exit", "to": "outside", "at": ["12 m", "3 m"], "width": "1 m", "locked": False,
                    "way_out": True, "swing": "roller",
                },
            ],
        },
        {"id": "store", "outline": [["0 m", "6 m"], ["12 m", "10 m"]], "obstacles": [], "partitions": [], "doors": []},
    ],
    "dynos": [],
    "hazards": [{"id": "fuel", "room": "left", "at": ["1 m", "5 m"]}],
    "extinguishers": [
        {"id": "near", "room": "right", "at": ["12 m", "5.5 m"], "rating": "4-A:40-B:C", "rating_system": "UL 711"},
        {"id": "inside", "room": "store", "at": ["12 m", "8 m"], "rating": "4-A:40-B:C", "rating_system": "UL 711"},
    ],
}  # fmt: skip
B10 = ("B", Decimal(10))
ASKED: tuple[tuple[str, str, tuple[Any, ...]], ...] = (
    ("hazard", "walk_to_extinguisher", B10),
    ("hazard", "walk_to_exit", ()),
    ("room", "farthest_from_extinguisher", B10),
    ("room", "farthest_from_exit", ()),
    ("room", "farthest_from_exit_unfurnished", ()),
    ("room", "farthest_from_door", ()),
    ("room", "aisle_width", ()),
)


def values(document: dict[str, Any], reading: Reading) -> dict[str, Decimal]:
    """What is told of the room on the left and of the hazard in it."""
    known, found = facts(Site.of(document), reading), {}
    for kind, name, args in ASKED:
        try:
            fact = known.things(kind)[0][name]
            found[name] = fact(*args) if args else fact
        except Missing:
            continue
    return found


def shop(doors: list[dict[str, Any]], obstacles: list[list[list[str]]], gone: set[str]) -> dict[str, Any]:
    document = copy.deepcopy(SITE)
    store = document["rooms"][2]
    store["doors"] = doors
    store["obstacles"] = [{"id": f"o{n}", "outline": outline} for n, outline in enumerate(obstacles)]
    for name in gone:
        del store[name]
    return document


@st.composite
def rectangles(draw: st.DrawFn) -> list[list[str]]:
    x, y = draw(st.integers(1, 100)) / 10, draw(st.integers(65, 85)) / 10
    return [[f"{x} m", f"{y} m"], [f"{x + draw(st.integers(3, 15)) / 10} m", f"{y + draw(st.integers(3, 12)) / 10} m"]]


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.sampled_from(DOORS), unique_by=lambda door: door["id"]),
    st.lists(rectangles(), max_size=2),
    st.sets(st.sampled_from(HIDDEN), min_size=1),
)
def test_whatever_a_hidden_room_turns_out_to_hold_lies_between_the_two_readings(
    doors: list[dict[str, Any]], obstacles: list[list[list[str]]], gone: set[str]
) -> None:
    hidden = shop(doors, obstacles, gone)
    truth = values(shop(doors, obstacles, set()), "recorded")
    most, least = values(hidden, "longest"), values(hidden, "shortest")
    for name, value in truth.items():
        low, high = (most, least) if name == "aisle_width" else (least, most)
        assert low.get(name, value) <= value + Decimal("0.001"), name
        assert value <= high.get(name, value) + Decimal("0.001"), name


def test_walks_that_lead_elsewhere_are_told_with_the_store_locked() -> None:
    """Nobody walks through it at the longest; at the shortest it is open, and so is a wall's thickness about it."""
    locked = shop([], [], set(HIDDEN))
    assert not values(locked, "recorded")
    most, least = values(locked, "longest"), values(locked, "shortest")
    assert most["walk_to_exit"] == values(shop([], [], set()), "recorded")["walk_to_exit"]
    assert least["walk_to_exit"] == 0, "an exit may be in the store, and the store may be open on the left"
    assert float(least["walk_to_extinguisher"]) == pytest.approx(hypot(11, 0.5), abs=1e-3)
    assert most["walk_to_extinguisher"] > 12


def test_a_door_that_a_room_without_an_outline_has_into_a_drawn_one_is_a_way_there_may_be() -> None:
    document = shop([], [], set())
    del document["rooms"][2]["outline"]
    document["extinguishers"].pop()
    assert "walk_to_exit" in values(document, "recorded")
    document["rooms"][2]["doors"] = DOORS[:1]
    assert "walk_to_exit" not in values(document, "recorded")
    assert "walk_to_exit" not in values(document, "shortest")
