"""The parts of a rule in words, and which of them say something of what came out."""

import pytest

from checker.findings.result import Finding, Part, Value
from checker.report.part_words import is_there, part_name
from checker.report.parts import not_there, part_lines
from checker.vocabulary import Outcome
from tests.report.samples import COMMON, finding, provision, subject


@pytest.mark.parametrize(
    "text, words",
    [
        ("dyno.capture.flow >= limit.flow", "capture flow"),
        ("not room.exhaust_recirculated", "exhaust recirculated"),
        ("limit.share * dyno.rollers.top_speed <= dyno.emergency_stop.proved_from", "emergency stop proved from"),
        ('hazard.walk_to_extinguisher("B", limit.rating) <= limit.walk', "walk to extinguisher"),
        ("due(panel.inspected_on, limit.every) >= as_of", "due, counted from inspected on"),
        ("due(lamp.tried_on, limit.short) >= as_of", "due (short), counted from tried on"),
        ("due(extinguisher.made_on, table.tests.shell(extinguisher.agent)) >= as_of",
         "due (shell), counted from made on"),
        ('count([s for s in dyno.straps if s.end == "front"]) >= limit.front', "number of straps (end front)"),
        ("count([d for d in room.doors if d.way_out and d.opens_at_once and not d.locked]) >= 2",
         "number of doors (way out, opens at once, not locked)"),
        ('any([p.kind in ["lease", "landlord\'s consent"] and p.covers_rollers for p in site.papers])',
         "any of papers: kind lease or landlord's consent, covers rollers"),
        ('sum([f.volume for f in room.fuels if f.container != "vehicle tank"]) <= limit.most',
         "sum of volume, fuels (container not vehicle tank)"),
        ("all([s.level <= limit.ceiling for s in worker.noise.spells])",
         "all of noise spells: level at most ceiling"),
        ("any([w.first_aid_until >= as_of for w in site.workers])",
         "any of workers: first aid until at least today"),
        ("accessory.line_drop / accessory.air_system.receiver_pressure < limit.share",
         "line drop ÷ air system receiver pressure"),
        ('hazard.walk_to_rated("B", table.b.near(hazard.level), "UL 711") <= table.b.walk(hazard.level)',
         "walk to rated"),
        ('fuel.container in ["drum", "can"]', "container"),
    ],
)  # fmt: skip
def test_what_a_part_is_about(text: str, words: str) -> None:
    assert part_name(text) == words


@pytest.mark.parametrize(
    "text, thing",
    [("dyno.has_capture", "capture"), ("site.has_fire_alarm", "fire alarm"), ("dyno.capture.connected", None),
     ("dyno.plate.has_hash == 2", None)],
)  # fmt: skip
def test_a_part_that_only_asks_whether_there_is_one(text: str, thing: str | None) -> None:
    assert is_there(text) == thing


def answered(text: str, yes: bool | None, holds: bool | None, governs: bool = False) -> Part:
    measured = None if yes is None else Value(value=yes, unit="", kind="answer")
    return Part(text=text, holds=holds, measured=measured, governs=governs)


def compared(text: str, operator: str, measured: str | None, limit: str, holds: bool | None) -> Part:
    found = None if measured is None else Value(value=measured, unit="", kind="word")
    return Part(
        text=text, holds=holds, operator=operator, measured=found, limit=Value(value=limit, unit="", kind="word")
    )


CONNECTED = answered("dyno.capture.connected", False, False, governs=True)
OUTDOORS = answered("dyno.capture.discharges_outdoors", True, True)


@pytest.mark.parametrize(
    "outcome, parts, lines",
    [
        pytest.param(
            "not met",
            (answered("dyno.has_capture", True, True), CONNECTED, OUTDOORS),
            ("capture connected: no; not as asked; this one decides", "capture discharges outdoors: yes; as asked"),
            id="that there is one says nothing beside its parts",
        ),
        pytest.param(
            "not met",
            (answered("dyno.has_capture", False, False), answered("dyno.capture.connected", None, None), OUTDOORS),
            ("capture: none; not as asked", "capture discharges outdoors: yes; as asked"),
            id="nothing is asked of one that is not there",
        ),
        pytest.param(
            "met",
            (OUTDOORS, CONNECTED, answered("dyno.drive_guarded", True, True), answered("dyno.bonded", None, None)),
            ("capture discharges outdoors: yes; as asked", "drive guarded: yes; as asked"),
            id="ways not taken",
        ),
        pytest.param(
            "not met",
            (
                compared('store.charged == "not here"', "eq", "with any charger", "not here", False),
                compared('store.charged == "with its own"', "eq", "with any charger", "with its own", False),
                answered("store.charging_watched", False, False),
            ),
            ("charged: with any charger; not here or with its own asked", "charging watched: no; not as asked"),
            id="words any of which would do",
        ),
        pytest.param(
            "not met",
            (
                compared('r.pull_taken_by != "nothing"', "ne", "nothing", "nothing", False),
                compared('r.free_wheels != "free"', "ne", None, "free", None),
                compared('r.floor == "flat"', "eq", "flat", "flat", True),
            ),
            ("pull taken by: nothing; not as asked", "floor: flat; as asked", "not known besides: free wheels"),
            id="words",
        ),
        pytest.param(
            "undetermined",
            (answered("line.people_stay", True, None), CONNECTED, answered("line.people_pass", None, None)),
            ("people stay: yes; known too weakly to settle it", "people pass: not known"),
            id="recorded and too weak",
        ),
        pytest.param("not met", (CONNECTED,), (), id="one is told elsewhere"),
    ],
)  # fmt: skip
def test_the_parts_that_say_something(outcome: Outcome, parts: tuple[Part, ...], lines: tuple[str, ...]) -> None:
    assert part_lines(found(outcome, parts), "metric") == lines


def test_what_was_recorded_as_none() -> None:
    parts = (answered("site.has_fire_alarm", False, False), answered("site.has_plan", True, True))
    assert list(not_there(found("not met", parts))) == ["fire alarm"]


def found(outcome: Outcome, parts: tuple[Part, ...]) -> Finding:
    about = subject("dyno", "d1", "Roller machine (d1)", "Cell (cell)")
    asked = [provision(COMMON, "good practice", outcome)]
    more = {"title": "Something", "reason": "A reason.", "severity": "major", "parts": parts}
    return finding("shop", "exhaust.rule", about, outcome, asked, **more)
