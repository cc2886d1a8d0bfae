import datetime
from collections.abc import Callable
from decimal import Decimal

import pytest

from checker.quantities import Broken, Facts, Missing, Need, OpenList, Thing

FactsOf = Callable[[str], Facts]

SHOP = """
    name: Lane Workshop
    survey:
      on: 2026-11-03
      not_reached:
        - {about: "rooms[store]", why: locked}
        - {about: "dynos[d2].rollers", why: vehicle parked on it}
        - {about: detectors, why: ceiling too high}
    rooms:
      - {id: cell, name: Dyno cell, height: 12 ft, doors: [{id: front, width: 36 in, locked: no}]}
      - {id: store}
      - {id: shop, height: {not_reached: stock piled up}, doors: none, obstacles: [{id: lift}]}
    dynos:
      - id: d1
        name: Dyno 1
        room: cell
        installed_on: 2024-05-01
        capture:
          flow: 600 cfm
          couplings_tight: {value: yes, on: 2026-10-01}
          interlock_proved: no
          examined_on: never
        emergency_stop: none
        anchors: {not_reached: under the plinth}
      - {id: d2, room: cell, rollers: {width: 24 in}}
    fans: none
    extinguishers: [{id: fe-1, room: cell}, {id: fe-2}]
    accessories: [{id: clamp, dyno: d1}]
    detectors: [{id: det, room: cell}]
    hazards: [{id: bench, room: cell, walks: [{to: fe-1, distance: 30 ft}]}]
"""


@pytest.fixture(scope="module")
def shop(facts_of: FactsOf) -> Facts:
    return facts_of(SHOP)


def by_id(shop: Facts, kind: str, id_: str) -> Thing:
    return next(thing for thing in shop.things(kind) if thing.id == id_)


def needs_of(read: Callable[[], object]) -> tuple[Need, ...]:
    with pytest.raises(Missing) as caught:
        read()
    return caught.value.needs


@pytest.mark.parametrize(
    "kind, id_, steps, value",
    [
        ("room", "cell", ["height"], Decimal("3.6576")),
        ("room", "cell", ["name"], "Dyno cell"),
        ("dyno", "d1", ["installed_on"], datetime.date(2024, 5, 1)),
        ("dyno", "d1", ["capture", "examined_on"], datetime.date.min),
        ("dyno", "d1", ["capture", "couplings_tight"], True),
        ("dyno", "d1", ["capture", "couplings_tight_on"], datetime.date(2026, 10, 1)),
        ("dyno", "d1", ["capture", "interlock_proved_on"], datetime.date(2026, 11, 3)),
        ("dyno", "d1", ["has_capture"], True),
        ("dyno", "d1", ["has_emergency_stop"], False),
        ("dyno", "d1", ["room", "height"], Decimal("3.6576")),
        ("dyno", "d1", ["site", "name"], "Lane Workshop"),
        ("door", "front", ["room", "name"], "Dyno cell"),
        ("door", "front", ["locked"], False),
        ("room", "cell", ["fans"], ()),
        ("room", "shop", ["doors"], ()),
        ("room", "cell", ["exhaust_flow"], Decimal(0)),
    ],
)
def test_what_was_recorded(shop: Facts, kind: str, id_: str, steps: list[str], value: object) -> None:
    fact = by_id(shop, kind, id_)
    for step in steps:
        fact = fact[step]
    assert fact == value


@pytest.mark.parametrize(
    "kind, id_, steps, need",
    [
        ("dyno", "d1", ["run_down"], Need("dynos[d1].run_down", "not recorded")),
        ("dyno", "d1", ["capture", "bore"], Need("dynos[d1].capture.bore", "not recorded")),
        ("dyno", "d1", ["plate", "current"], Need("dynos[d1].plate.current", "not recorded")),
        ("dyno", "d1", ["has_plate"], Need("dynos[d1].plate", "not recorded")),
        ("dyno", "d1", ["circuit"], Need("dynos[d1].circuit", "not recorded")),
        ("dyno", "d1", ["has_anchors"], Need("dynos[d1].anchors", "not reached", "under the plinth")),
        ("dyno", "d1", ["anchors", "kind"], Need("dynos[d1].anchors.kind", "not reached", "under the plinth")),
        (
            "dyno",
            "d2",
            ["rollers", "diameter"],
            Need("dynos[d2].rollers.diameter", "not reached", "vehicle parked on it"),
        ),
        ("room", "store", ["height"], Need("rooms[store].height", "not reached", "locked")),
        ("room", "shop", ["height"], Need("rooms[shop].height", "not reached", "stock piled up")),
        ("room", "cell", ["fuels"], Need("fuels", "not recorded")),
        ("room", "cell", ["obstacles"], Need("rooms[cell].obstacles", "not recorded")),
        (
            "dyno",
            "d1",
            ["capture", "engine_stops_without_flow"],
            Need("dynos[d1].capture.engine_stops_without_flow", "not recorded"),
        ),
    ],
)
def test_what_is_missing(shop: Facts, kind: str, id_: str, steps: list[str], need: Need) -> None:
    *before, last = steps
    thing = by_id(shop, kind, id_)
    for step in before:
        thing = thing[step]
    assert needs_of(lambda: thing[last]) == (need,)
    assert needs_of(lambda: thing[last]) == (need,)


def test_what_was_not_reached_still_counts_where_something_was_written(shop: Facts) -> None:
    assert by_id(shop, "dyno", "d2")["rollers"]["width"] == Decimal("0.6096")


def test_an_attribute_of_nothing_breaks_the_rule(shop: Facts) -> None:
    with pytest.raises(Broken, match="a rule asks has_emergency_stop first"):
        by_id(shop, "dyno", "d1")["emergency_stop"]["latches"]


def test_a_name_that_no_kind_has_is_no_gap(shop: Facts) -> None:
    with pytest.raises(KeyError):
        by_id(shop, "dyno", "d1")["colour"]


def test_the_day_of_a_check_that_nothing_tells(facts_of: FactsOf) -> None:
    shop = facts_of("dynos: [{id: d1, capture: {couplings_tight: yes}}]")
    needs = needs_of(lambda: shop.things("dyno")[0]["capture"]["couplings_tight_on"])
    assert needs == (
        Need(
            "dynos[d1].capture.couplings_tight", "not recorded", "the day it was found is not recorded", ("survey.on",)
        ),
    )


@pytest.mark.parametrize(
    "room, name, members, because",
    [
        ("cell", "dynos", ["d1", "d2"], None),
        ("cell", "hazards", ["bench"], None),
        ("shop", "dynos", [], None),
        ("store", "dynos", [], Need("rooms[store].dynos", "not reached", "locked")),
        ("cell", "extinguishers", ["fe-1"], Need("extinguishers[fe-2].room", "not recorded")),
        ("shop", "extinguishers", [], Need("extinguishers[fe-2].room", "not recorded")),
        ("cell", "detectors", ["det"], Need("detectors", "not reached", "ceiling too high")),
    ],
)
def test_lists_of_what_stands_in_a_room(
    shop: Facts, room: str, name: str, members: list[str], because: Need | None
) -> None:
    found = by_id(shop, "room", room)[name]
    assert [thing.id for thing in found] == members
    assert (found.open_because if isinstance(found, OpenList) else None) == because


def test_lists_of_the_site(shop: Facts) -> None:
    assert shop.things("fan") == ()
    assert [dyno.id for dyno in shop.things("dyno")] == ["d1", "d2"]
    assert isinstance(shop.things("detector"), OpenList)
    assert shop.things("site") == (shop.site,)
    assert needs_of(lambda: shop.things("fuel")) == (Need("fuels", "not recorded"),)


def test_things_inside_other_things(shop: Facts) -> None:
    doors = shop.things("door")
    assert [door.path for door in doors] == ["rooms[cell].doors[front]"]
    assert isinstance(doors, OpenList)
    assert doors.open_because == Need("rooms[store].doors", "not reached", "locked")


def test_things_inside_things_of_which_none_tells(facts_of: FactsOf) -> None:
    shop = facts_of("rooms: [{id: a}, {id: b}]")
    assert [need.path for need in needs_of(lambda: shop.things("door"))] == ["rooms[a].doors", "rooms[b].doors"]


def test_a_group_is_no_subject(shop: Facts) -> None:
    with pytest.raises(KeyError):
        shop.things("dyno.capture")


def test_where_a_thing_stands(shop: Facts) -> None:
    capture = by_id(shop, "dyno", "d1")["capture"]
    assert (capture.kind, capture.path, capture.mark_path) == (
        "dyno.capture",
        "dynos[d1].capture",
        ("dynos", 0, "capture"),
    )
    assert (capture.id, capture.label) == ("d1", "Dyno 1 (d1)")
    walk = by_id(shop, "hazard", "bench")["walks"][0]
    assert (walk.path, walk.mark_path) == ("hazards[bench].walks[fe-1]", ("hazards", 0, "walks", 0))
    assert by_id(shop, "extinguisher", "fe-2").label == "fe-2"


def test_things_are_equal_only_to_themselves(shop: Facts) -> None:
    one, other = shop.things("extinguisher")
    assert one == by_id(shop, "extinguisher", "fe-1")
    assert one != other
    assert len({one, other}) == 2
    assert by_id(shop, "dyno", "d1")["room"] is by_id(shop, "room", "cell")
