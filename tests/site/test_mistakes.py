"""What people get wrong in a site file, and the exact words they are told."""

from pathlib import Path

import pytest

from checker.reading import Unreadable, read_text
from checker.site import Site, read_site


def site_of(text: str) -> Site:
    return read_site(read_text(text, "shop.yaml"))


def problems_of(text: str) -> list[str]:
    with pytest.raises(Unreadable) as caught:
        site_of(text)
    return [str(problem) for problem in caught.value.problems]


CASES = Path(__file__).with_name("mistakes.txt").read_text(encoding="utf-8").split("====\n")[1:]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.partition("----\n")[2].partition(" ")[0] or case)
def test_one_mistake_is_told_in_these_words(case: str) -> None:
    text, told = case.split("----\n")
    assert problems_of(text) == [f"shop.yaml:{told.rstrip()}"]


TEN = """\
id: shop
regoin: us
employer: maybe
rooms:
  - id: cell
    height: 3,7 m
    width: 12
    kind: runing room
    outline: [[0 m, 0 m], [9 m, 0 m], [9 m, 6 m], [0 m, 6 m]]
  - name: store
dynos:
  - id: d1
    room: cell
    at: [20 m]
    circuit: feed
extinguishers:
  - {id: fe-1, rating: 2-A}
  - {id: fe-1, serviced_on: 2026-02-30}
"""


def test_ten_different_mistakes_are_told_at_once_in_the_order_of_their_places() -> None:
    with pytest.raises(Unreadable) as caught:
        site_of(TEN)
    assert [(problem.line, problem.column, problem.path, problem.says) for problem in caught.value.problems] == [
        (2, 1, "regoin", "There is no such field under site"),
        (3, 11, "employer", "This is a question of yes or no"),
        (6, 13, "rooms[cell].height", "A decimal comma is not read"),
        (7, 12, "rooms[cell].width", "A length needs its unit"),
        (8, 11, "rooms[cell].kind", "This is not one of the words for it"),
        (10, 5, "rooms[1]", "Every thing has an id"),
        (14, 9, "dynos[d1].at", "A point is a pair of lengths, x and y"),
        (15, 14, "dynos[d1].circuit", "No circuit in this file has this id"),
        (17, 24, "extinguishers[fe-1].rating", "A rating means nothing without the system it belongs to"),
        (18, 10, "extinguishers[fe-1].id", "Another extinguisher has this id, on line 17"),
        (18, 29, "extinguishers[fe-1].serviced_on", "The calendar has no such day"),
    ]


def test_a_list_that_was_refused_does_not_make_every_reference_to_it_a_second_mistake() -> None:
    found = problems_of("id: shop\nrooms: cell\ndynos: [{id: d1, room: cell}]\n")
    told = 'Found "cell"; write its members, each beginning with -, or none'
    assert found == [f"shop.yaml:2:8: rooms: rooms is a list.\n  {told}"]


def test_a_mistake_in_json_has_its_place_too() -> None:
    text = '{"id": "shop",\n "rooms": [{"id": "cell", "height": 12}]}'
    with pytest.raises(Unreadable) as caught:
        read_site(read_text(text, "shop.json"))
    assert [(it.line, it.column, it.path) for it in caught.value.problems] == [(2, 37, "rooms[cell].height")]
