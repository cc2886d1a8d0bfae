"""Laws of facts, tried on one full site from which parts are taken away."""

import copy
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from checker.quantities import Facts, Missing, Thing, evidence_of, facts, working_of
from checker.quantities.registry import REGISTERED
from checker.site import Site

FULL: dict[str, Any] = {
    "id": "shop",
    "survey": {"on": "2026-11-03", "evidence": "measured"},
    "rooms": [
        {
            "id": "cell",
            "storey": "ground floor",
            "outline": [["0 m", "0 m"], ["9 m", "0 m"], ["9 m", "6 m"], ["0 m", "6 m"]],
            "length": "9.2 m",
            "width": "6.1 m",
            "height": "3.5 m",
            "floor_area": {"value": "55 m2", "evidence": "told"},
            "volume": {"value": "190 m3", "evidence": "drawing"},
            "readings": {"noise_level": "95 dB(A)", "noise_hours": "4 h"},
            "make_up": {"opening_area": "1 m2"},
            "suction": {"value": "9 Pa", "evidence": "told"},
            "doors": [
                {
                    "id": "side",
                    "to": "outside",
                    "at": ["9 m", "5 m"],
                    "width": "0.9 m",
                    "height": "2.1 m",
                    "locked": False,
                    "way_out": True,
                    "swing": "out",
                    "hinge": "left",
                },
                {
                    "id": "back",
                    "to": "outside",
                    "at": ["0 m", "5.5 m"],
                    "width": "0.8 m",
                    "locked": False,
                    "way_out": True,
                    "swing": "sliding",
                },
            ],
            "walls_solid": True,
            "obstacles": [{"id": "lift", "outline": [["6 m", "4 m"], ["8 m", "5 m"]]}],
            "partitions": [{"id": "screen", "line": [["0 m", "4 m"], ["2 m", "4 m"]], "solid": False}],
            "floor_gaps": [
                {"id": "past-the-screen", "one": "d1", "other": "screen", "people": "pass"},
                {
                    "id": "behind-the-lift",
                    "one": "wall",
                    "other": "lift",
                    "wall_at": ["9 m", "4.5 m"],
                    "people": "cannot get in",
                },
            ],
        },
        {
            "id": "shop",
            "storey": "upper floor",
            "length": "20 m",
            "width": "10 m",
            "height": "4 m",
            "floor_area": "210 m2",
        },
    ],
    "dynos": [
        {
            "id": "d1",
            "room": "cell",
            "at": ["3 m", "2 m"],
            "faces": ["4 m", "2 m"],
            "widest_vehicle": "1 m",
            "emergency_stop": {"at": ["2 m", "0 m"], "other_actuators": [{"at": ["5.5 m", "2 m"]}]},
            "operator_place": ["6 m", "2 m"],
            "isolation": {"at": ["8 m", "0 m"]},
            "walk_to_emergency_stop": {"value": "0.6 m", "evidence": "told"},
            "clear_sides": {"value": "0.8 m", "evidence": "told"},
            "footprint": [["2 m", "1 m"], ["5 m", "3 m"]],
            "highest_power": "150 kW",
            "engine_displacement": "2 L",
            "engine_speed": "6500 rpm",
            "exhaust_temperature": "400 °C",
            "run_down": "20 s",
            "rollers": {"diameter": "460 mm", "inertia": "12 kg m2", "top_speed": "200 km/h"},
            "capture": {"flow": "0.3 m3/s", "bore": "150 mm"},
            "anchors": {
                "kind": "bonded",
                "count": 4,
                "embedment": "100 mm",
                "spacing": "300 mm",
                "edge_distance": "120 mm",
                "concrete_strength": "25 MPa",
                "cracked": False,
            },
        }
    ],
    "fans": [
        {"id": "out", "room": "cell", "moves": "out of the room", "flow": "3000 cfm"},
        {"id": "in", "room": "cell", "moves": "into the room", "flow": "4000 cfm"},
        {"id": "stir", "room": "shop", "moves": "around the room", "flow": "9000 cfm"},
    ],
    "circuits": [
        {
            "id": "feed",
            "nominal_voltage": "240 V",
            "phases": 1,
            "length": "45 m",
            "conductor": "10 AWG",
            "conductor_material": "copper",
            "continuous_load": "20 A",
            "other_load": "4 A",
        }
    ],
    "extinguishers": [
        {
            "id": "near",
            "room": "cell",
            "at": ["0 m", "5 m"],
            "rating": "1-A:5-B:C",
            "rating_system": "UL 711",
            "agent": "powder",
        },
        {
            "id": "middle",
            "room": "cell",
            "at": ["9 m", "1 m"],
            "rating": "4-A:40-B:C",
            "rating_system": "UL 711",
            "agent": "powder",
        },
        {"id": "far", "room": "shop", "rating": "10-A:80-B:C", "rating_system": "UL 711", "agent": "powder"},
    ],
    "storeys": [{"id": "ground", "name": "ground floor"}],
    "fuels": [
        {
            "id": "cans",
            "room": "cell",
            "substance": "petrol",
            "volume": "20 L",
            "mass": {"value": "16 kg", "evidence": "told"},
        }
    ],
    "panels": [
        {
            "id": "board",
            "room": "cell",
            "at": ["9 m", "2 m"],
            "width": "0.6 m",
            "clear_depth": {"value": "1.2 m", "evidence": "told"},
            "clear_width": {"value": "0.8 m", "evidence": "told"},
        }
    ],
    "closing_gaps": [
        {
            "id": "under-the-lift",
            "dyno": "d1",
            "one": "lift",
            "other": "wall",
            "wall_at": ["9 m", "4.5 m"],
            "closes_by": "0.3 m",
            "least": {"value": "0.6 m", "evidence": "told"},
        }
    ],
    "guards": [{"id": "rail", "dyno": "d1", "kind": "barrier", "height": "1.5 m", "part_height": "0.4 m"}],
    "hazards": [
        {
            "id": "bench",
            "room": "cell",
            "at": ["1 m", "2 m"],
            "walks": [
                {"to": "near", "distance": "4 m"},
                {"to": "middle", "distance": "9 m"},
                {"to": "far", "distance": "20 m"},
            ],
        }
    ],
    "air_systems": [
        {
            "id": "air",
            "room": "shop",
            "receiver_pressure": "8 bar",
            "receiver_volume": "270 L",
            "max_working_pressure": "11 bar",
            "pipe_bore": "13 mm",
            "pipe_length": "15 m",
        }
    ],
    "accessories": [{"id": "clamp", "dyno": "d1", "air_system": "air", "flow": "5 cfm"}],
    "recorded_runs": [
        {
            "id": "full",
            "dyno": "d1",
            "vehicle_mass": "280 kg",
            "power_at_hardest_pull": "90 kW",
            "speed_at_hardest_pull": "140 km/h",
            "tractive_force": {"value": "2.2 kN", "evidence": "told"},
            "highest_power": "110 kW",
            "lasts": "12 s",
        }
    ],
    "floor_points": [{"id": "eye", "dyno": "d1", "rated_load": "9 kN"}],
    "straps": [
        {
            "id": "rear-left",
            "dyno": "d1",
            "pulls": "rearward",
            "sound": True,
            "floor_point": "eye",
            "working_load_limit": "10 kN",
            "rise": "0.5 m",
            "along": "0.7 m",
            "across": "0.2 m",
        },
        {
            "id": "front-left",
            "dyno": "d1",
            "pulls": "forward",
            "sound": True,
            "floor_point": "eye",
            "working_load_limit": "5 kN",
            "rise": "0.6 m",
            "along": "0.5 m",
            "across": "0.4 m",
        },
    ],
    "workers": [
        {
            "id": "operator",
            "noise": {
                "spells": [{"level": "104 dB(A)", "lasts": "1 h"}, {"level": "88 dB(A)", "lasts": "2 h"}],
                "level_c": "99 dB(C)",
                "protectors": {"snr": 28},
            },
        }
    ],
    "eyewashes": [
        {"id": "plumbed", "room": "cell", "at": ["9 m", "3 m"], "kind": "plumbed"},
        {"id": "bottle", "room": "cell", "at": ["4 m", "6 m"], "kind": "bottle"},
    ],
    "first_aid_kits": [
        {"id": "whole", "room": "cell", "at": ["9 m", "0 m"], "complete": True},
        {"id": "empty", "room": "cell", "at": ["0 m", "3 m"], "complete": False},
    ],
    "charging_places": [
        {
            "id": "bench",
            "room": "cell",
            "at": ["3 m", "6 m"],
            "cells": 6,
            "gassing_current": "5 A",
            "low_opening": "90 cm2",
            "high_opening": "100 cm2",
        },
    ],
}
ARGUMENTS: dict[str, tuple[Any, ...]] = {
    "room.air_space": (Decimal(3),),
    "room.exits_apart": (Decimal(1),),
    "room.farthest_from_exit_off_corners": (Decimal("0.3048"),),
    "room.occupants_by_area": (Decimal("9.290304"),),
    "room.noise_dose": (Decimal(90), Decimal(5)),
    "worker.noise.dose": (Decimal(80), Decimal(90), Decimal(5)),
    "room.temperature_rise": (Decimal("0.7"),),
    "dyno.co_in_room": (Decimal("0.01"), Decimal("0.06")),
    "dyno.separation": (Decimal("1.6"), Decimal("0.85")),
    "run.strap_share_of_weight": (Decimal("0.5"),),
    "run.room_warming": (Decimal("0.7"),),
    "circuit.design_load": (Decimal("1.25"),),
    "hazard.walk_to_extinguisher": ("B", Decimal(10)),
    "hazard.has_extinguisher": ("B", Decimal(10)),
    "hazard.has_lettered_extinguisher": ("C", "UL 711"),
    "hazard.walk_to_lettered_extinguisher": ("C", "UL 711"),
    "extinguisher.extinguishing_units": ("A",),
    "storey.class_a_counted": (Decimal(2), Decimal("7.5"), Decimal(1)),
    "storey.class_a_total": ("UL 711",),
    "storey.class_a_units": ("UL 711",),
    "storey.extinguishing_units": ("A and B", Decimal(6)),
    "storey.steps_above": (Decimal(30), Decimal(10)),
    "hazard.walk_to_rated_extinguisher": ("B", Decimal(10), "UL 711"),
    "room.farthest_from_extinguisher": ("B", Decimal(10)),
    "room.farthest_from_rated_extinguisher": ("B", Decimal(10), "UL 711"),
    "hazard.has_rated_extinguisher": ("B", Decimal(10), "UL 711"),
}
NEEDED = frozenset({"id", "to"})

Place = tuple[str | int, ...]
Value = tuple[Any, frozenset[str]]
"""A value, and the steps and entries it rests on."""


def places(node: Any, place: Place = ()) -> Iterator[Place]:
    """Every recorded field, group and list; not the members of lists, whose going says that they are not there."""
    if isinstance(node, dict):
        for key, below in node.items():
            if key in NEEDED or (not place and key == "id"):
                continue
            yield (*place, key)
            if not (isinstance(below, dict) and "value" in below):
                yield from places(below, (*place, key))
    elif isinstance(node, list) and node and isinstance(node[0], dict):
        for number, member in enumerate(node):
            yield from places(member, (*place, number))


def without(document: dict[str, Any], gone: Place) -> None:
    node: Any = document
    for step in gone[:-1]:
        node = node.get(step) if isinstance(node, dict) else node[step]
        if node is None:
            return
    node.pop(gone[-1], None)


def owners(kind: str, of: Facts) -> Iterator[Thing]:
    subject, _, group = kind.partition(".")
    try:
        members = of.things(subject)
    except Missing:
        return
    for member in members:
        yield member[group] if group else member


def values(document: dict[str, Any]) -> dict[tuple[str, str], Value]:
    """Every quantity of every thing that has a value."""
    of = facts(Site.of(document))
    found: dict[tuple[str, str], Value] = {}
    for known in REGISTERED.values():
        args = ARGUMENTS.get(known.name, ())
        assert bool(args) == bool(known.arguments), known.name
        for owner in owners(known.owner, of):
            try:
                value = owner[known.attribute](*args) if args else owner[known.attribute]
            except Missing:
                continue
            steps = {f"{step.path} {step.formula}" for step in working_of(owner, known.attribute, args)}
            used = {each.path for each in evidence_of(owner, known.attribute, args)}
            found[owner.path, known.name] = value, frozenset(steps | used)
    return found


WHOLE = values(FULL)
EVERYWHERE = sorted(places(FULL), key=str)


def test_the_full_site_gives_every_quantity() -> None:
    assert {name for _, name in WHOLE} == set(REGISTERED)


@settings(max_examples=250)
@given(st.sets(st.sampled_from(EVERYWHERE), min_size=1, max_size=4))
def test_silence_never_makes_another_number(gone: set[Place]) -> None:
    """What is taken away makes a quantity Missing or leaves it equal, unless another value spoke in its place."""
    document = copy.deepcopy(FULL)
    for place in sorted(gone, key=len, reverse=True):
        without(document, place)
    for key, (value, rests_on) in values(document).items():
        whole, rested_on = WHOLE[key]
        assert value == whole or rests_on - rested_on, (key, gone)


def test_each_single_silence() -> None:
    """The same law for every field by itself."""
    for place in EVERYWHERE:
        document = copy.deepcopy(FULL)
        without(document, place)
        for key, (value, rests_on) in values(document).items():
            whole, rested_on = WHOLE[key]
            assert value == whole or rests_on - rested_on, (key, place)


def test_a_quantity_that_lost_all_it_needs_is_missing() -> None:
    bare = {name: [{"id": member["id"]} for member in FULL[name]] for name in FULL if isinstance(FULL[name], list)}
    assert values({"id": "shop", **bare}) == {}


def test_facts_are_the_same_in_any_order_of_reading() -> None:
    """Reading everything backwards gives what reading it forwards gave."""
    of = facts(Site.of(FULL))
    for (path, name), (value, _) in reversed(WHOLE.items()):
        known = REGISTERED[name]
        args = ARGUMENTS.get(name, ())
        owner = next(each for each in owners(known.owner, of) if each.path == path)
        assert (owner[known.attribute](*args) if args else owner[known.attribute]) == value
