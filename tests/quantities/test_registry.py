import subprocess
import sys

import pytest

from checker.quantities import catalogue, kinds
from checker.quantities.registry import (
    REGISTERED,
    Argument,
    Bounds,
    RegistryError,
    above,
    among,
    between,
    other_way,
    quantity,
)
from checker.quantities.shapes import shapes
from checker.units import KINDS

PROMISED = {
    "accessory.line_drop": "pressure_difference",
    "air_system.pressure_volume": "energy",
    "charging_place.air_flow": "flow",
    "charging_place.hydrogen_flow": "flow",
    "charging_place.walk_to_eyewash": "length",
    "circuit.conductor_area": "area",
    "circuit.design_load": "current",
    "circuit.voltage_drop": "ratio",
    "door.opening_force": "force",
    "closing_gap.least": "length",
    "dyno.clear_sides": "length",
    "dyno.distance_to_disconnect": "length",
    "dyno.needed_in_line": "count",
    "dyno.walk_to_disconnect": "length",
    "dyno.walk_to_emergency_stop": "length",
    "guard.reach_over": "length",
    "guard.reach_over_low_risk": "length",
    "panel.clear_depth": "length",
    "panel.clear_width": "length",
    "room.air_space": "volume",
    "room.aisle_width": "length",
    "room.common_path": "length",
    "room.diagonal": "length",
    "room.exit_width_left": "length",
    "room.exits_apart": "length",
    "fuel.mass": "mass",
    "room.farthest_from_door": "length",
    "room.farthest_from_exit_off_corners": "length",
    "room.farthest_from_exit_unfurnished": "length",
    "room.occupants_by_area": "count",
    "dyno.anchors.breakout_aci": "force",
    "dyno.anchors.breakout_en": "force",
    "dyno.capture.duct_velocity": "speed",
    "dyno.anchors.edge_distance": "length",
    "dyno.anchors.spacing": "length",
    "dyno.co_in_room": "concentration",
    "dyno.exhaust_flow": "flow",
    "dyno.exhaust_flow_by_displacement": "flow",
    "dyno.rollers.energy": "energy",
    "dyno.separation": "length",
    "extinguisher.class_a_rating": "number",
    "extinguisher.extinguishing_units": "number",
    "extinguisher.safe_on_electrics": "answer",
    "hazard.has_lettered_extinguisher": "answer",
    "hazard.walk_to_lettered_extinguisher": "length",
    "room.liquid": "volume",
    "storey.class_a_counted": "number",
    "storey.class_a_total": "number",
    "storey.class_a_units": "count",
    "storey.extinguishing_units": "number",
    "storey.floor_area": "area",
    "storey.steps_above": "count",
    "extinguisher.class_b_rating": "number",
    "hazard.has_extinguisher": "answer",
    "hazard.has_rated_extinguisher": "answer",
    "hazard.walk_to_exit": "length",
    "hazard.walk_to_extinguisher": "length",
    "hazard.walk_to_rated_extinguisher": "length",
    "room.air_changes": "air_changes",
    "room.exhaust_flow": "flow",
    "room.floor_area": "area",
    "room.noise_dose": "ratio",
    "worker.noise.dose": "ratio",
    "worker.noise.daily_level": "sound_level",
    "worker.noise.level_at_ear": "sound_level",
    "room.suction": "pressure_difference",
    "room.supply_flow": "flow",
    "room.temperature_rise": "temperature_difference",
    "room.through_flow": "flow",
    "room.farthest_from_exit": "length",
    "room.farthest_from_extinguisher": "length",
    "room.farthest_from_rated_extinguisher": "length",
    "room.farthest_from_first_aid_kit": "length",
    "room.volume": "volume",
    "run.room_warming": "temperature_difference",
    "run.strap_capacity": "force",
    "run.strap_share_of_weight": "ratio",
    "run.tractive_force": "force",
    "strap.share_along": "ratio",
    "strap.share_down": "ratio",
    "strap.usable_load": "force",
}


def test_every_promised_quantity_is_there_and_gives_what_was_promised() -> None:
    assert {name: known.gives for name, known in REGISTERED.items()} == PROMISED


def test_a_name_is_taken_once() -> None:
    register = quantity(
        "room.volume", gives="volume", inputs={"h": "height"}, formula="h", source="none", status="definition"
    )
    with pytest.raises(RegistryError, match=r"room\.volume is registered twice; choose another name"):
        register(lambda h: h)


def test_a_second_way_needs_a_first() -> None:
    register = other_way("room.unheard_of", inputs={"h": "height"}, formula="h", source="none", status="definition")
    with pytest.raises(RegistryError, match=r"room\.unheard_of has no first way yet"):
        register(lambda h: h)


@pytest.mark.parametrize(
    "gives, arguments, says",
    [
        ("lenght", (), "'lenght', which is no kind of quantity"),
        ("length", (Argument("a", "speeed"),), "'speeed', which is no kind of quantity"),
        ("length", tuple(Argument(name, "number") for name in "abcd"), "takes 4 arguments; at most 3"),
    ],
)
def test_what_cannot_be_right_is_refused(gives: str, arguments: tuple[Argument, ...], says: str) -> None:
    register = quantity(
        "room.never",
        gives=gives,
        inputs={"h": "height"},
        formula="h",
        source="none",
        status="definition",
        arguments=arguments,
    )
    with pytest.raises(RegistryError, match=says):
        register(lambda h: h)
    assert "room.never" not in REGISTERED


@pytest.mark.parametrize(
    "bounds, words, held, not_held",
    [
        (above(0, "m"), "above 0 m", [1e-9, 5], [0, -1]),
        (between(0.04, 0.6, "m"), "from 0.04 m to 0.6 m", [0.04, 0.6], [0.039, 0.61]),
        (among(1, 3), "1 or 3", [1, 3], [2, 0]),
        (Bounds(high=5.0), "at most 5", [-1, 5], [5.1]),
    ],
)
def test_bounds(bounds: Bounds, words: str, held: list[float], not_held: list[float]) -> None:
    assert str(bounds) == words
    assert all(bounds.hold(number) for number in held)
    assert not any(bounds.hold(number) for number in not_held)


@pytest.mark.parametrize("line", catalogue(), ids=lambda line: f"{line.name} by {line.formula[:20]}")
def test_every_line_of_the_catalogue_can_stand_before_people(line: object) -> None:
    from checker.quantities import CatalogueLine

    assert isinstance(line, CatalogueLine)
    assert line.doc.endswith(".")
    assert line.formula
    assert line.source
    assert line.gives == "answer" or line.unit == KINDS[line.gives].si
    assert line.inputs


def test_every_input_is_something_its_thing_has() -> None:
    for known in REGISTERED.values():
        for way in known.ways:
            for label, path in way.inputs.items():
                kind = known.owner
                for step in path.steps[:-1]:
                    attribute = kinds()[kind][step.name]
                    assert (attribute.type == "list") == step.each, (known.name, label)
                    assert attribute.thing is not None
                    kind = attribute.thing
                    for field, held in step.where:
                        choices = kinds()[kind][field].choices
                        assert kinds()[kind][field].type == "answer" if choices is None else held in choices
                last = path.steps[-1].name
                if (kind, last) == ("room", "plan"):  # put together, and no fact that a rule may read
                    continue
                assert last in kinds()[kind] or shapes()[kind].fields[last].type == "place", (known.name, label)


def test_a_range_speaks_of_inputs_or_arguments() -> None:
    for known in REGISTERED.values():
        for way in known.ways:
            assert set(way.range) <= {*way.inputs, *(argument.name for argument in known.arguments)}


def test_registering_all_quantities_imports_nothing_heavy() -> None:
    code = "import checker.quantities, sys; print(*sorted({m.partition('.')[0] for m in sys.modules}))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert not {"numpy", "shapely", "pint", "rule_engine", "jsonschema"} & set(done.stdout.split())
