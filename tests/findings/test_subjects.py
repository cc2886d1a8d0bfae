"""What a rule is about, and what is said where a list is absent, empty, or not all there is."""

from pathlib import Path

import pytest

from checker.findings.result import Finding
from tests.findings.workshop import asks, judged, rule, rulebook

FAN = ("fan", "fan.outdoors")
DOOR = ("door", "not door.locked")


def findings(folder: Path, of: tuple[str, str], site: str) -> dict[str, Finding]:
    each, require = of
    held = rulebook(folder, [rule("r", each, require)], [asks("r")])
    return {finding.id: finding for finding in judged(held, site).findings}


@pytest.mark.parametrize(
    "of, site, said",
    [
        (FAN, "", {"site:dockside": "undetermined"}),
        (FAN, "fans:", {"site:dockside": "undetermined"}),
        (FAN, "fans: none", {"site:dockside": "not applicable"}),
        (FAN, "fans: []", {"site:dockside": "not applicable"}),
        (FAN, "fans: false", {"site:dockside": "not applicable"}),
        (FAN, "fans: {not_reached: the roof was wet}", {"site:dockside": "undetermined"}),
        (FAN, "fans: [{id: a, outdoors: yes}]", {"fan:a": "met"}),
        (FAN, "fans: [{id: a, outdoors: no}, {id: b}]", {"fan:a": "not met", "fan:b": "undetermined"}),
        (
            FAN,
            "survey: {not_reached: [{about: fans, why: the roof was wet}]}\nfans: [{id: a, outdoors: yes}]",
            {"fan:a": "met", "fan:*": "undetermined"},
        ),
        (
            FAN,
            "survey: {not_reached: [{about: fans, why: the roof was wet}]}\nfans: none",
            {"fan:*": "undetermined"},
        ),
        (DOOR, "", {"site:dockside": "undetermined"}),
        (DOOR, "rooms: none", {"site:dockside": "not applicable"}),
        (DOOR, "rooms: [{id: a}]", {"site:dockside": "undetermined"}),
        (DOOR, "rooms: [{id: a, doors: none}]", {"site:dockside": "not applicable"}),
        (DOOR, "rooms: [{id: a, doors: none}, {id: b}]", {"door:*": "undetermined"}),
        (
            DOOR,
            "rooms: [{id: a, doors: [{id: d1, locked: no}, {id: d2, locked: yes}]}, {id: b, doors: none}]",
            {"door:d1": "met", "door:d2": "not met"},
        ),
        (
            DOOR,
            "rooms: [{id: a, doors: [{id: d1, locked: no}]}, {id: b}]",
            {"door:d1": "met", "door:*": "undetermined"},
        ),
        (("site", "site.employer"), "employer: yes", {"site:dockside": "met"}),
        (("site", "site.employer"), "", {"site:dockside": "undetermined"}),
    ],
)
def test_each_thing_has_a_finding_and_so_has_what_may_be_there(
    of: tuple[str, str], site: str, said: dict[str, str], tmp_path: Path
) -> None:
    found = findings(tmp_path, of, site)
    assert {name.removeprefix("dockside/shop.r/"): each.outcome for name, each in found.items()} == said


@pytest.mark.parametrize(
    "site, because, path, why",
    [
        ("", "not recorded", "fans", ""),
        ("fans: {not_reached: the roof was wet}", "not reached", "fans", "the roof was wet"),
        ("survey: {not_reached: [{about: fans, why: it rained}]}", "not reached", "fans", "it rained"),
        ("survey: {not_reached: [{about: fans, why: it rained}]}\nfans: none", "not reached", "fans", "it rained"),
    ],
)
def test_a_list_that_is_not_there_is_what_is_needed(
    site: str, because: str, path: str, why: str, tmp_path: Path
) -> None:
    (found,) = findings(tmp_path, FAN, site).values()
    assert found.because == because
    assert [(need.path, need.because, need.why) for need in found.needs] == [(path, because, why)]
    assert found.subject.path == path
    assert found.limit is None
    assert found.how == ()


def test_of_no_thing_nothing_is_needed(tmp_path: Path) -> None:
    (found,) = findings(tmp_path, FAN, "fans: none").values()
    assert (found.because, found.needs, found.subject.path) == (None, (), "fans")


def test_the_place_leads_from_the_outside_to_the_thing(tmp_path: Path) -> None:
    site = """
    rooms: [{id: cell, name: Running room, doors: none}]
    fans: [{id: a, name: Wall fan, room: cell}, {id: b}]
    """
    places = {name: each.subject.place for name, each in findings(tmp_path, FAN, site).items()}
    assert places == {
        "dockside/shop.r/fan:a": ("Running room (cell)", "Wall fan (a)"),
        "dockside/shop.r/fan:b": ("b",),
    }


def test_a_thing_on_a_machine_is_found_by_way_of_the_machine(tmp_path: Path) -> None:
    site = """
    rooms: [{id: cell, name: Running room}]
    dynos: [{id: d1, name: Rollers, room: cell}]
    air_systems: [{id: comp, room: cell}]
    accessories: [{id: clamp, dyno: d1, air_system: comp, pressure: 7 bar}]
    """
    of = ("accessory", "accessory.flow >= accessory.flow")
    (found,) = findings(tmp_path, of, site).values()
    assert found.subject.place == ("Running room (cell)", "Rollers (d1)", "clamp")
    assert (found.subject.kind, found.subject.id, found.subject.path) == ("accessory", "clamp", "accessories[clamp]")


def test_a_door_is_found_in_its_room(tmp_path: Path) -> None:
    site = "rooms: [{id: cell, name: Running room, doors: [{id: d1, locked: no}]}]"
    (found,) = findings(tmp_path, DOOR, site).values()
    assert found.subject.place[0] == "Running room (cell)"
    assert found.location is not None
    assert (found.location.file, found.location.line) == ("dockside.yaml", 2)


def test_what_was_not_looked_at_is_named_in_words(tmp_path: Path) -> None:
    site = "survey: {not_reached: [{about: air_systems, why: locked}]}\nair_systems: [{id: comp, written_scheme: yes}]"
    found = findings(tmp_path, ("air_system", "air_system.written_scheme"), site)
    assert found["dockside/shop.r/air_system:*"].subject.label == "air systems not looked at"
