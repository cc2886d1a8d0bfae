import pytest

from checker.quantities import kinds

SUBJECTS = [
    *(
        "site",
        "room",
        "door",
        "dyno",
        "fan",
        "detector",
        "extinguisher",
        "hazard",
        "fuel",
        "supply",
        "circuit",
        "panel",
    ),
    *("air_system", "accessory", "charging_place"),
    *(
        "insulated_panel",
        "fire_opening",
        "emergency_light",
        "impairment",
        "paper",
        "worker",
        "first_aid_kit",
        "eyewash",
    ),
    "past_event",
]


@pytest.mark.parametrize("kind", SUBJECTS)
def test_every_subject_is_a_kind_and_knows_its_site(kind: str) -> None:
    assert kinds()[kind]["site"].thing == "site"


@pytest.mark.parametrize(
    "kind, name, type_, detail",
    [
        ("room", "height", "number", "length"),
        ("room", "air_changes", "number", "air_changes"),
        ("room", "fans", "list", "fan"),
        ("room", "doors", "list", "door"),
        ("room", "readings", "thing", "room.readings"),
        ("room", "has_readings", "answer", None),
        ("room.readings", "co_8h", "number", "concentration"),
        ("door", "room", "thing", "room"),
        ("door", "has_exit_sign", "answer", None),
        ("room", "emergency_lights", "list", "emergency_light"),
        ("site", "building", "thing", "site.building"),
        ("site.fire_alarm", "noticed_everywhere_on", "date", None),
        ("worker.noise", "spells", "list", "worker.noise.noisespell"),
        ("worker.noise", "daily_level", "number", "sound_level"),
        ("door", "to", "text", None),
        ("dyno", "room", "thing", "room"),
        ("dyno", "accessories", "list", "accessory"),
        ("dyno", "circuit", "thing", "circuit"),
        ("dyno.capture", "interlock_proved", "answer", None),
        ("dyno.capture", "interlock_proved_on", "date", None),
        ("dyno.capture", "duct_velocity", "number", "speed"),
        ("dyno.anchors", "count", "number", "count"),
        ("circuit", "conductor", "text", None),
        ("hazard.walk", "distance", "number", "length"),
        ("site", "rooms", "list", "room"),
        ("site", "region", "text", None),
        ("hazard", "walk_to_extinguisher", "function", "length"),
    ],
)
def test_names_and_their_types(kind: str, name: str, type_: str, detail: str | None) -> None:
    attribute = kinds()[kind][name]
    assert attribute.type == type_
    assert (attribute.thing if type_ in ("thing", "list") else attribute.quantity_kind) == detail


def test_words_of_a_closed_choice() -> None:
    assert kinds()["fan"]["moves"].choices == frozenset({"out of the room", "into the room", "around the room"})


@pytest.mark.parametrize("name", ["id", "was", "note", "outline"])
def test_what_rules_do_not_see(name: str) -> None:
    assert name not in kinds()["room"]


def test_groups_may_be_none_and_things_may_not() -> None:
    assert kinds()["dyno"]["capture"].maybe_none
    assert not kinds()["dyno"]["room"].maybe_none


def test_functions_say_what_they_take_and_give() -> None:
    walk = kinds()["hazard"]["walk_to_extinguisher"]
    assert walk.arguments is not None
    assert [(each.name, each.kind, each.choices) for each in walk.arguments] == [
        ("fire_class", "word", frozenset("AB")),
        ("rating", "number", None),
    ]
    assert walk.returns == "number"
    assert kinds()["hazard"]["has_extinguisher"].returns == "answer"


def test_every_thing_named_is_a_kind() -> None:
    named = {attribute.thing for kind in kinds().values() for attribute in kind.values() if attribute.thing}
    assert named <= set(kinds())
