"""What in a plan cannot be so is named with its place, all at once."""

import pytest
from msgspec.structs import replace

from checker.plan import (
    Door,
    Fault,
    Obstacle,
    Plan,
    Point,
    Room,
    Thing,
    Wall,
    Zone,
    faults_of,
    rectangle,
)
from tests.plan.plans import hall

CELL = Room("cell", rectangle((0, 0), 10, 8))
STORE = Room("store", rectangle((10.2, 0), 5, 8))
SOUND = Plan(
    (CELL, STORE),
    (Obstacle("bench", rectangle((2, 0), 2, 0.8)),),
    (Wall("screen", ((5, 8), (5, 5))),),
    (
        Door("inner", "cell", "store", (10.1, 4), 0.9, None),
        Door("gate", "cell", "outside", (0, 4), 3.0, False),
        Door("hatch", "cell", "cell", (5, 6), 0.8, False),
    ),
    (Zone("panel", rectangle((8, 7), 1, 1)),),
    (Thing("fe-1", (0, 1)), Thing("fe-2", (3, 0.8)), Thing("hazard", (12, 4))),
)


def test_a_sound_plan_has_no_fault_and_what_is_unknown_is_none() -> None:
    assert faults_of(SOUND) == ()


@pytest.mark.parametrize(
    "plan, thing, place, says",
    [
        (Plan(()), "", None, "The plan has no room"),
        (replace(SOUND, rooms=(CELL, STORE, CELL)), "room cell", None, "Two of the same kind have this id"),
        (hall(20_000, 5), "room room", None, "A corner lies more than 10 km from the frame's origin"),
        (hall(float("nan"), 5), "room room", None, "A corner lies more than 10 km from the frame's origin"),
        (
            Plan((Room("r", ((0, 0), (4, 4), (4, 0), (0, 4))),)),
            "room r",
            (2, 2),
            "The outline crosses or touches itself",
        ),
        (Plan((Room("r", ((0, 0), (4, 0), (2, 0.00001))),)), "room r", (0, 0), "The outline has no area"),
        (Plan((Room("r", ((0, 0), (4, 0))),)), "room r", (0, 0), "It has fewer than 3 corners"),
        (replace(SOUND, walls=(Wall("w", ((1, 1), (1, 1))),)), "wall w", (1, 1), "It has fewer than 2 corners"),
        (replace(SOUND, walls=(Wall("w", ((30, 1), (31, 1))),), doors=()), "wall w", (30, 1), "It stands in no room"),
        (
            replace(SOUND, obstacles=(Obstacle("o", rectangle((20, 20), 1, 1)),)),
            "obstacle o",
            (20, 20),
            "It stands in no room",
        ),
        (replace(SOUND, zones=(Zone("z", rectangle((20, 20), 1, 1)),)), "zone z", (20, 20), "It lies in no room"),
        (
            replace(SOUND, doors=(Door("d", "cell", "store", (5, 4), 0.9),)),
            "door d",
            (5, 4),
            "It is in no wall between room cell and room store",
        ),
        (
            replace(SOUND, doors=(Door("d", "cell", "outside", (5, 4), 0.9),), things=()),
            "door d",
            (5, 4),
            "It is in no wall of room cell",
        ),
        (
            replace(SOUND, doors=(Door("d", "cell", "loft", (0, 4), 0.9),)),
            "door d",
            (0, 4),
            "There is no room loft in the plan",
        ),
        (
            replace(SOUND, doors=(Door("d", "cell", "outside", (0, 4), -1),), things=()),
            "door d",
            (0, 4),
            "Its width is not above 0",
        ),
        (
            replace(SOUND, things=(Thing("t", (3, 0.4)),)),
            "thing t",
            (3, 0.4),
            "It is inside obstacle bench",
        ),
        (replace(SOUND, things=(Thing("t", (-1, 1)),)), "thing t", (-1, 1), "It is outside all rooms"),
        (
            replace(SOUND, things=(Thing("t", (5, 7)),)),
            "thing t",
            (5, 7),
            "It is on the middle of a thin wall: move it to the side that it is on",
        ),
        (
            replace(SOUND, doors=SOUND.doors[1:], things=(Thing("t", (12, 4)),)),
            "thing t",
            (12, 4),
            "No way leads to it",
        ),
    ],
)
def test_a_fault_is_named(plan: Plan, thing: str, place: Point | None, says: str) -> None:
    assert faults_of(plan) == (Fault(thing, place, says),)


def test_rooms_that_overlap_are_named_with_how_far() -> None:
    rooms = (CELL, Room("store", rectangle((9, 0), 5, 8)))
    (found,) = faults_of(Plan(rooms))
    assert (found.thing, found.says) == ("room cell", "It overlaps room store by 8 m²")
    assert found.place is not None
    assert 9 < found.place[0] < 10


def test_an_obstacle_through_a_wall_is_named_where_it_is_outside() -> None:
    (found,) = faults_of(replace(SOUND, obstacles=(Obstacle("o", rectangle((-1, 2), 2, 1)),), doors=(), things=()))
    assert (found.thing, found.says) == ("obstacle o", "It reaches through a wall of its room")
    assert found.place is not None
    assert found.place[0] < 0


def test_all_faults_are_told_at_once() -> None:
    plan = replace(
        SOUND,
        obstacles=(*SOUND.obstacles, Obstacle("o", rectangle((20, 20), 1, 1))),
        doors=(*SOUND.doors, Door("d", "cell", "store", (5, 4), 0.9), Door("e", "attic", "outside", (0, 4), 0.9)),
        things=(*SOUND.things, Thing("t", (3, 0.4)), Thing("u", (40, 0))),
    )
    assert [each.thing for each in faults_of(plan)] == ["obstacle o", "door d", "door e", "thing t", "thing u"]


def test_several_outlines_at_fault_are_told_at_once() -> None:
    plan = Plan(
        (Room("a", ((0, 0), (4, 4), (4, 0), (0, 4))), Room("b", ((0, 0), (1, 1)))),
        (Obstacle("c", ((0, 0), (1, 0), (2, 0))),),
    )
    assert [each.thing for each in faults_of(plan)] == ["room a", "room b", "obstacle c"]
