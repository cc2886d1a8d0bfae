from collections.abc import Callable
from decimal import Decimal

import pytest

from checker.quantities import Facts, Missing, Need, Thing, evidence_of, working_of
from checker.units import on_grid, read

FactsOf = Callable[[str], Facts]

ROOM = """
    rooms:
      - {id: cell, outline: [[0 ft, 0 ft], [30 ft, 0 ft], [30 ft, 20 ft], [0 ft, 20 ft]], height: 10 ft}
    fans:
      - {id: out, room: cell, moves: out of the room, flow: 3000 cfm}
      - {id: in, room: cell, moves: into the room, flow: 1000 cfm}
      - {id: stir, room: cell, moves: around the room}
"""


def room_of(facts_of: FactsOf, text: str) -> Thing:
    return facts_of(text).things("room")[0]


def needs_of(read: Callable[[], object]) -> tuple[Need, ...]:
    with pytest.raises(Missing) as caught:
        read()
    return caught.value.needs


@pytest.mark.parametrize(
    "name, value",
    [
        ("floor_area", Decimal("55.7418240")),
        ("volume", Decimal("169.901080")),
        ("exhaust_flow", Decimal("1.41584233")),
        ("supply_flow", Decimal("0.471947443")),
        ("through_flow", Decimal("1.41584233")),
        ("air_changes", Decimal("0.00833333333")),
    ],
)
def test_quantities_of_a_room(facts_of: FactsOf, name: str, value: Decimal) -> None:
    assert room_of(facts_of, ROOM)[name] == value


def test_a_chain_of_formulas_rounds_once(facts_of: FactsOf) -> None:
    """3000 cfm through 6000 ft3 are half a change a minute, to the last digit a limit has."""
    limit = read("0.5 /min", "air_changes").value
    assert isinstance(limit, Decimal)
    assert room_of(facts_of, ROOM)["air_changes"] == on_grid(limit)


def test_every_missing_input_is_named_at_once(facts_of: FactsOf) -> None:
    room = room_of(
        facts_of, "rooms: [{id: cell}]\nfans: [{id: out, room: cell}, {id: in, room: cell, moves: into the room}]"
    )
    assert [need.path for need in needs_of(lambda: room["air_changes"])] == [
        "fans[out].moves",
        "fans[in].flow",
        "rooms[cell].outline",
        "rooms[cell].height",
    ]


def test_what_would_do_instead(facts_of: FactsOf) -> None:
    room = room_of(facts_of, "rooms: [{id: cell, length: 5 m}]")
    assert needs_of(lambda: room["floor_area"]) == (
        Need("rooms[cell].outline", "not recorded", "", ("rooms[cell].width", "rooms[cell].floor_area")),
    )


def test_the_second_way_steps_in(facts_of: FactsOf) -> None:
    room = room_of(facts_of, "rooms: [{id: cell, length: 5 m, width: 4 m}]")
    assert room["floor_area"] == 20
    assert [step.formula for step in working_of(room, "floor_area")] == ["length × width"]


def test_an_open_list_leaves_a_sum_open(facts_of: FactsOf) -> None:
    room = room_of(facts_of, ROOM.replace("{id: stir, room: cell,", "{id: stir,"))
    assert needs_of(lambda: room["exhaust_flow"]) == (Need("fans[stir].room", "not recorded"),)


@pytest.mark.parametrize(
    "written, area, evidence",
    [
        ("{value: 50 m2, evidence: measured}", Decimal(50), ["measured"]),
        ("{value: 50 m2, evidence: tested}", Decimal(50), ["tested"]),
        ("{value: 50 m2, evidence: paper}", Decimal(50), ["paper"]),
        ("{value: 50 m2, evidence: seen}", Decimal("55.7418240"), ["told"]),
        ("{value: 50 m2, evidence: assumed}", Decimal("55.7418240"), ["told"]),
        ("50 m2", Decimal("55.7418240"), ["told"]),
    ],
)
def test_recorded_and_computable(facts_of: FactsOf, written: str, area: Decimal, evidence: list[str]) -> None:
    room = room_of(facts_of, ROOM.replace("height:", f"floor_area: {written}, height:"))
    assert room["floor_area"] == area
    assert [used.evidence for used in evidence_of(room, "floor_area")] == evidence


def test_weak_evidence_counts_where_nothing_can_be_computed(facts_of: FactsOf) -> None:
    room = room_of(facts_of, "rooms: [{id: cell, floor_area: 50 m2, height: 3 m}]")
    assert room["volume"] == 150
    assert [step.quantity for step in working_of(room, "volume")] == ["room.volume"]
    assert [used.path for used in evidence_of(room, "volume")] == ["rooms[cell].floor_area", "rooms[cell].height"]


def test_the_surveys_own_evidence_weighs_bare_values(facts_of: FactsOf) -> None:
    text = "survey: {evidence: measured}\n" + "rooms: [{id: cell, floor_area: 50 m2, length: 10 m, width: 6 m}]"
    assert room_of(facts_of, text)["floor_area"] == 50


@pytest.mark.parametrize(
    "room, says",
    [
        (
            "floor_area: 50 m2, length: 10 m, width: 6 m",
            "floor area is taken as 60 m2 (from length × width); the site also gives 50 m2 (recorded, told)",
        ),
        (
            "floor_area: {value: 50 m2, evidence: measured}, length: 10 m, width: 6 m",
            "floor area is taken as 50 m2 (recorded, measured); the site also gives 60 m2 (from length × width)",
        ),
        ("floor_area: 60.5 m2, length: 10 m, width: 6 m", None),
        ("floor_area: 60 m2", None),
    ],
)
def test_a_notice_gives_both_where_they_differ(facts_of: FactsOf, room: str, says: str | None) -> None:
    notices = facts_of(f"rooms: [{{id: cell, {room}}}]").notices
    assert [(notice.path, notice.says) for notice in notices] == ([("rooms[cell].floor_area", says)] if says else [])


def test_numbers_outside_a_formulas_range(facts_of: FactsOf) -> None:
    circuit = facts_of(
        """
        circuits:
          - {id: feed, nominal_voltage: 240 V, phases: 2, length: 150 ft, conductor: 10 AWG, conductor_material: copper,
             continuous_load: 20 A, other_load: 4 A}
        """
    ).things("circuit")[0]
    assert needs_of(lambda: circuit["voltage_drop"]) == (
        Need("circuits[feed].phases", "outside range", "circuit.voltage_drop holds for phases 1 or 3"),
    )


def test_a_room_without_a_fan_has_no_steady_state(facts_of: FactsOf) -> None:
    dyno = facts_of("rooms: [{id: cell}]\nfans: none\ndynos: [{id: d1, room: cell, highest_power: 100 kW}]").things(
        "dyno"
    )[0]
    needs = needs_of(lambda: dyno["co_in_room"](Decimal("0.1"), Decimal("0.05")))
    assert needs == (Need("rooms[cell].exhaust_flow", "outside range", "dyno.co_in_room holds for flow above 0 m3/s"),)


def test_an_argument_outside_the_range(facts_of: FactsOf) -> None:
    room = room_of(facts_of, "rooms: [{id: cell, readings: {noise_level: 95 dB(A), noise_hours: 4 h}}]")
    assert room["noise_dose"](Decimal(90), Decimal(5)) == 1
    needs = needs_of(lambda: room["noise_dose"](Decimal(90), Decimal(0)))
    assert [(need.path, need.because) for need in needs] == [("rooms[cell].noise_dose", "outside range")]


def test_a_formula_that_refuses(facts_of: FactsOf) -> None:
    accessory = facts_of(
        """
        air_systems: [{id: air, pipe_length: 100 ft, pipe_bore: 6 mm, receiver_pressure: 100 psi}]
        accessories: [{id: gun, air_system: air, flow: 100 cfm}]
        """
    ).things("accessory")[0]
    (need,) = needs_of(lambda: accessory["line_drop"])
    assert (need.path, need.because) == ("accessories[gun].flow", "outside range")
    assert need.why == "the fall comes to more than a tenth of the absolute pressure, where the form fails"


def test_working_can_be_followed_by_hand(facts_of: FactsOf) -> None:
    room = room_of(facts_of, ROOM)
    steps = working_of(room, "air_changes")
    assert [step.quantity for step in steps] == [
        "room.exhaust_flow",
        "room.supply_flow",
        "room.through_flow",
        "room.floor_area",
        "room.volume",
        "room.air_changes",
    ]
    volume = steps[4]
    assert volume.inputs == (
        ("area", Decimal("55.7418240"), "area", ""),
        ("height", Decimal("3.048"), "length", "10 ft"),
    )
    assert (volume.value, volume.kind, volume.unit, volume.path) == (
        Decimal("169.901080"),
        "volume",
        "m3",
        "rooms[cell]",
    )
    assert volume.formula == "floor area × height"
    assert steps[0].inputs == (("flows of out", Decimal("1.41584233"), "flow", "3000 cfm"),)


def test_arguments_stand_in_the_working(facts_of: FactsOf) -> None:
    dyno = facts_of("dynos: [{id: d1, run_down: 20 s}]").things("dyno")[0]
    speed, allowance = Decimal("1.6"), Decimal("0.85")
    assert dyno["separation"](speed, allowance) == Decimal("32.85")
    (step,) = working_of(dyno, "separation", (speed, allowance))
    assert step.inputs == (
        ("run down", Decimal(20), "duration", "20 s"),
        ("approach speed", speed, "speed", ""),
        ("allowance", allowance, "length", ""),
    )


def test_nothing_is_worked_out_for_what_was_recorded(facts_of: FactsOf) -> None:
    room = room_of(facts_of, ROOM)
    assert working_of(room, "height") == ()
    (used,) = evidence_of(room, "height")
    assert (used.path, used.evidence, used.written, used.kind) == ("rooms[cell].height", "told", "10 ft", "length")


def test_evidence_is_that_of_every_input(facts_of: FactsOf) -> None:
    room = room_of(
        facts_of, ROOM.replace("flow: 3000 cfm", "flow: {value: 3000 cfm, evidence: measured, by: A. Tester}")
    )
    used = {each.path: (each.evidence, each.by) for each in evidence_of(room, "air_changes")}
    assert used == {
        "fans[out].flow": ("measured", "A. Tester"),
        "fans[out].moves": ("told", None),
        "fans[in].moves": ("told", None),
        "fans[stir].moves": ("told", None),
        "fans[in].flow": ("told", None),
        "rooms[cell].outline": ("told", None),
        "rooms[cell].height": ("told", None),
    }


def test_evidence_of_the_day_of_a_check(facts_of: FactsOf) -> None:
    dyno = facts_of("dynos: [{id: d1, capture: {couplings_tight: {value: yes, on: 2026-10-01}}}]").things("dyno")[0]
    (used,) = evidence_of(dyno["capture"], "couplings_tight_on")
    assert used.path == "dynos[d1].capture.couplings_tight"
