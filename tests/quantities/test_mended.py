"""Faults of the facts that were mended, one test each."""

from decimal import Decimal

import pytest

from checker.quantities import Missing, facts
from checker.reading import read_text
from checker.site import read_site


def test_a_walk_whose_end_was_not_reached_is_a_gap() -> None:
    """It broke the rule that asked for the walk: what was not reached has no value to name the walk by."""
    written = """
        id: shop
        extinguishers: [{id: near, rating: "4-A:40-B:C", rating_system: UL 711}]
        hazards: [{id: bench, walks: [{to: {not_reached: behind the lift}, distance: 3 m}]}]
    """
    (bench,) = facts(read_site(read_text(written, "shop.yaml"))).things("hazard")
    with pytest.raises(Missing) as missing:
        bench["walk_to_extinguisher"]("B", 10)
    assert [(need.path, need.because, need.why) for need in missing.value.needs] == [
        ("hazards[bench].walks[0].to", "not reached", "behind the lift")
    ]


def test_a_list_of_what_was_recorded_as_none_is_a_gap() -> None:
    """It broke the check of the site: a formula reads the further actuators of a stop that is not there."""
    written = """
        id: shop
        rooms: [{id: cell, outline: [[0 m, 0 m], [6 m, 4 m]]}]
        dynos: [{id: d1, room: cell, operator_place: [1 m, 1 m], walk_to_emergency_stop: 2 m, emergency_stop: none}]
    """
    known = facts(read_site(read_text(written, "shop.yaml")))
    assert known.notices == ()
    assert known.things("dyno")[0]["walk_to_emergency_stop"] == 2


@pytest.mark.parametrize(
    ("sound", "wanted"),
    [
        ("yes", 2 * 6000 * 0.8),
        ("no", 1 * 6000 * 0.8),
        ("", None),
    ],
)
def test_a_strap_that_is_not_sound_holds_nothing(sound: str, wanted: float | None) -> None:
    """Every strap counted, cut or not; whether one is sound has to be known before it counts or is left out."""
    taped = "pulls: rearward, floor_point: eye, working_load_limit: 6 kN, rise: 0.6 m, along: 0.8 m, across: 0 m"
    written = f"""
        id: shop
        dynos: [{{id: d1}}]
        floor_points: [{{id: eye, rated_load: 9 kN}}]
        recorded_runs: [{{id: hardest, dyno: d1, vehicle_mass: 1000 kg}}]
        straps:
          - {{id: left, dyno: d1, {taped}, sound: yes}}
          - {{id: right, dyno: d1, {taped}, sound: {sound}}}
          - {{id: aside, dyno: d1, pulls: sideways, sound: no}}
    """
    (run,) = facts(read_site(read_text(written, "shop.yaml"))).things("run")
    if wanted is None:
        with pytest.raises(Missing) as missing:
            run["strap_capacity"]
        assert [need.path for need in missing.value.needs] == ["straps[right].sound"]
    else:
        assert float(run["strap_capacity"]) == pytest.approx(wanted)


def test_without_a_sound_strap_nothing_is_held() -> None:
    """It broke the rule that asked: there is no smallest of no straps."""
    written = """
        id: shop
        dynos: [{id: d1}]
        recorded_runs: [{id: hardest, dyno: d1, vehicle_mass: 1000 kg}]
        straps: [{id: left, dyno: d1, pulls: rearward, sound: no}]
    """
    (run,) = facts(read_site(read_text(written, "shop.yaml"))).things("run")
    assert (run["strap_capacity"], run["strap_share_of_weight"](Decimal("0.5"))) == (0, 0)
