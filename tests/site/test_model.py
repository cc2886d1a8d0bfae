"""What was written and what it means: silence, none, not reached, evidence, assumptions."""

import datetime
from decimal import Decimal

import pytest

from checker import units
from checker.reading import Unreadable, read_text
from checker.reading.problems import Mark
from checker.site import LISTS, NEVER, NOTHING, THINGS, Entry, NotReached, Part, Site, fields_of, parts_of, read_site
from checker.site.fields import Scalar
from checker.site.measures import Measured
from checker.site.parts import Group, Many


def site_of(text: str) -> Site:
    return read_site(read_text(f"id: shop\n{text}", "shop.yaml"))


def every_part(model: type[Part] = Site) -> list[type[Part]]:
    inner = [field.part for field in fields_of(model).values() if field.part]
    return [model, *(part for within in inner for part in every_part(within))]


@pytest.mark.parametrize("text", ["", "fans:\n", "fans: null\n", "fans: ~\n"])
def test_silence_is_not_recorded(text: str) -> None:
    assert site_of(text).fans is None


@pytest.mark.parametrize("says", ["none", "[]", "no", "false"])
def test_a_list_of_none_is_recorded_and_empty(says: str) -> None:
    assert site_of(f"fans: {says}\n").fans == ()


@pytest.mark.parametrize("says", ["none", "[]", "no", "false"])
def test_a_part_of_which_there_is_none(says: str) -> None:
    dynos = site_of(f"dynos: [{{id: d, capture: {says}}}]\n").dynos
    assert isinstance(dynos, tuple)
    assert dynos[0].capture is NOTHING


def test_what_was_not_reached_says_why() -> None:
    site = site_of(
        "fans: {not_reached: roof}\ndynos: [{id: d, rollers: {not_reached: covered}, run_down: {not_reached: shut}}]\n"
    )
    assert site.fans == NotReached("roof")
    assert isinstance(site.dynos, tuple)
    assert site.dynos[0].rollers == NotReached("covered")
    assert site.dynos[0].run_down == NotReached("shut")


def test_an_entry_keeps_its_evidence() -> None:
    text = (
        "rooms:\n  - id: cell\n    height: {value: 12 ft, evidence: measured, plus_minus: 2 in, instrument: tape,"
        " on: 2026-11-03, by: A. Surveyor, note: at the door, photo: p1.jpg}\n"
    )
    rooms = site_of(text).rooms
    assert isinstance(rooms, tuple)
    assert rooms[0].height == Entry(
        value=Decimal("3.6576"),
        written="12 ft",
        evidence="measured",
        plus_minus=Decimal("0.0508"),
        instrument="tape",
        on=datetime.date(2026, 11, 3),
        by="A. Surveyor",
        note="at the door",
        photo="p1.jpg",
    )


@pytest.mark.parametrize(
    ("where", "says", "value", "written"),
    [
        ("circuits: [{id: c, conductor: X}]", "8AWG", "8 AWG", "8AWG"),
        ("circuits: [{id: c, conductor: X}]", "2/0 AWG", "2/0 AWG", "2/0 AWG"),
        ("circuits: [{id: c, conductor: X}]", "10 mm²", "10 mm2", "10 mm²"),
        ("circuits: [{id: c, conductor: X}]", "2.5 mm2", "2.5 mm2", "2.5 mm2"),
        ("circuits: [{id: c, phases: X}]", "3", Decimal(3), "3"),
        ("circuits: [{id: c, dedicated: X}]", "no", False, "no"),
        ("panels: [{id: c, inspected_on: X}]", "never", NEVER, "never"),
        ("panels: [{id: c, inspected_on: X}]", "2026-11-03", datetime.date(2026, 11, 3), "2026-11-03"),
        ("fuels: [{id: c, at: X}]", "[1 m, -2 m]", (Decimal(1), Decimal(-2)), "1 m, -2 m"),
        ("rooms: [{id: c, kind: X}]", "plant room", "plant room", "plant room"),
    ],
)
def test_a_bare_value_is_read(where: str, says: str, value: object, written: str) -> None:
    site = site_of(where.replace("X", says) + "\n")
    *_, last = parts_of(site)
    entries = [entry for name in fields_of(type(last.part)) if isinstance(entry := getattr(last.part, name), Entry)]
    assert entries == [Entry(value, written)]  # type: ignore[arg-type]


def test_the_uncertainty_of_a_temperature_is_a_difference() -> None:
    rooms = site_of("rooms: [{id: c, readings: {temperature: {value: 68 °F, plus_minus: 9 °F}}}]\n").rooms
    assert isinstance(rooms, tuple)
    assert rooms[0].readings.temperature.plus_minus == Decimal(5)


ASSUMED = """\
assumed:
  - {about: "rooms[*].doors[*].locked", value: no, why: open in working hours}
  - {about: employer, value: yes, why: wages on the wall}
rooms:
  - id: cell
    doors: [{id: d1}, {id: d2, locked: yes}, {id: d3, locked: {not_reached: behind a car}}]
  - id: store
"""


def test_an_assumption_fills_only_what_is_absent_and_says_what_it_is() -> None:
    site = site_of(ASSUMED)
    assert isinstance(site.rooms, tuple)
    cell, store = site.rooms
    assert [door.locked for door in cell.doors] == [
        Entry(False, "no", evidence="assumed", note="open in working hours"),
        Entry(True, "yes"),
        NotReached("behind a car"),
    ]
    assert store.doors is None
    assert site.employer == Entry(True, "yes", evidence="assumed", note="wages on the wall")


def test_an_assumption_leaves_the_document_as_it_was() -> None:
    document = read_text(f"id: shop\n{ASSUMED}", "shop.yaml")
    read_site(document)
    assert "employer" not in document.data


def test_the_place_of_every_part_is_where_the_file_has_it() -> None:
    site = site_of(ASSUMED)
    doors = [located for located in parts_of(site) if located.kind == "door"]
    assert [located.path for located in doors] == [("rooms", 0, "doors", place) for place in range(3)]
    assert site.document.mark((*doors[1].path, "locked")) == Mark(7, 40)


def test_no_field_has_a_value_of_its_own() -> None:
    """Silence never passes: what was not written is None in every model."""
    for model in every_part():
        for name in model.declared:
            assert not hasattr(model, name), f"{model.__name__}.{name}"


def test_every_field_is_described_and_its_examples_can_be_read() -> None:
    for model in every_part():
        assert model.__doc__, model
        for field in fields_of(model).values():
            assert field.description.endswith("."), f"{model.__name__}.{field.name}"
            if isinstance(field.marker, Scalar):
                for example in field.examples:
                    field.marker.read(example)
            assert field.examples or not isinstance(field.marker, Measured), f"{model.__name__}.{field.name}"


def test_kinds_of_quantity_are_those_of_the_units() -> None:
    used = {
        field.marker.kind
        for model in every_part()
        for field in fields_of(model).values()
        if isinstance(field.marker, Measured)
    }
    assert used <= set(units.KINDS)


def test_every_list_of_things_is_named_once() -> None:
    lists = {name: field.part for name, field in fields_of(Site).items() if isinstance(field.marker, Many)}
    assert {name: part for name, part in lists.items() if part and hasattr(part, "kind_of_thing")} == dict(LISTS)
    assert set(THINGS) == {
        "site",
        "door",
        "obstacle",
        "partition",
        "clear_zone",
        "floor_gap",
        *(model.kind_of_thing for model in LISTS.values()),
    }


def test_groups_and_lists_say_what_they_hold() -> None:
    for model in every_part():
        for field in fields_of(model).values():
            assert (field.part is not None) == isinstance(field.marker, Group | Many)


def test_every_one_of_three_thousand_mistakes_is_told() -> None:
    rooms = "".join(f"  - {{id: r{number}, height: {number}}}\n" for number in range(3000))
    with pytest.raises(Unreadable) as caught:
        site_of(f"rooms:\n{rooms}")
    assert [problem.line for problem in caught.value.problems] == list(range(3, 3003))


def test_two_corners_of_an_outline_are_those_of_a_rectangle() -> None:
    site = site_of("rooms:\n  - {id: cell, outline: [[1 m, 2 m], [4 m, 6 m]]}\n")
    assert isinstance(site.rooms, tuple)
    outline = site.rooms[0].outline
    assert isinstance(outline, Entry)
    assert outline.value == tuple((Decimal(x), Decimal(y)) for x, y in ((1, 2), (4, 2), (4, 6), (1, 6)))
