"""What a finding rests on, and what evidence is good for."""

from pathlib import Path
from typing import Any

import pytest

from checker.findings.evidence import WEAKEST_FIRST, weaker
from checker.findings.result import Finding, Result
from checker.site import EVIDENCE
from tests.findings.workshop import asks, judged, only, rule, rulebook

CHARGED = "extinguisher.charged and extinguisher.visible"


def result(folder: Path, site: str, require: str, each: str = "extinguisher", **more: Any) -> Result:
    limit, shape = more.pop("limit", {}), more.pop("kinds", {})
    held = rulebook(folder, [rule("r", each, require, limit=shape, **more)], [asks("r", limit=limit)])
    return judged(held, site)


def finding(folder: Path, site: str, require: str, each: str = "extinguisher", **more: Any) -> Finding:
    return only(result(folder, site, require, each, **more))


def extinguisher(charged: str, visible: str, survey: str = "") -> str:
    return f"{survey}\nextinguishers: [{{id: fe-1, charged: {charged}, visible: {visible}}}]"


def test_the_words_are_those_of_a_site_file() -> None:
    assert WEAKEST_FIRST == EVIDENCE
    assert [weaker(word, "seen") for word in WEAKEST_FIRST] == [True] * 5 + [False] * 4


SEEN, TOLD = "{value: yes, evidence: seen}", "{value: yes, evidence: told}"
SEEN_NO, TOLD_NO = SEEN.replace("yes", "no"), TOLD.replace("yes", "no")


@pytest.mark.parametrize(
    "charged, visible, survey, outcome, weak",
    [
        (SEEN, SEEN, "", "met", []),
        (SEEN, SEEN_NO, "", "not met", []),
        (SEEN, TOLD, "", "undetermined", ["visible"]),
        (TOLD, TOLD, "", "undetermined", ["charged", "visible"]),
        (TOLD_NO, SEEN, "", "undetermined", ["charged"]),
        (SEEN_NO, TOLD, "", "not met", []),
        (TOLD, SEEN_NO, "", "not met", []),
        ("yes", "yes", "", "undetermined", ["charged", "visible"]),
        ("yes", "yes", "survey: {evidence: seen}", "met", []),
        ("yes", "yes", "survey: {evidence: drawing}", "undetermined", ["charged", "visible"]),
        ("yes", "no", "survey: {evidence: measured}", "not met", []),
    ],
)
def test_evidence_weaker_than_the_rule_wants_settles_nothing(
    charged: str, visible: str, survey: str, outcome: str, weak: list[str], tmp_path: Path
) -> None:
    found = finding(tmp_path, extinguisher(charged, visible, survey), CHARGED, evidence="seen")
    assert found.outcome == outcome
    assert found.because == ("evidence too weak" if weak else None)
    assert [need.path for need in found.needs] == [f"extinguishers[fe-1].{name}" for name in weak]
    assert all(need.why.endswith("; seen is wanted") for need in found.needs)
    assert {used.name: used.value.value for used in found.how} == {
        "charged": "yes" in charged,
        "visible": "yes" in visible,
    }


def test_a_rule_that_wants_no_evidence_takes_what_was_told(tmp_path: Path) -> None:
    assert finding(tmp_path, extinguisher("yes", "yes"), CHARGED).outcome == "met"


def test_a_gap_is_said_before_weak_evidence(tmp_path: Path) -> None:
    site = "extinguishers: [{id: fe-1, charged: yes}]"
    found = finding(tmp_path, site, CHARGED, evidence="seen")
    assert (found.outcome, found.because) == ("undetermined", "not recorded")
    assert {(need.path, need.because) for need in found.needs} >= {("extinguishers[fe-1].visible", "not recorded")}


PAPER = "{value: 2026-06-01, evidence: paper, issuer: the fire equipment firm"
SERVICED = {
    "require": "due(extinguisher.serviced_on, limit.every) >= as_of",
    "kinds": {"every": "period"},
    "limit": {"every": "12 months"},
}


@pytest.mark.parametrize(
    "paper, outcome",
    [
        (PAPER + "}", "met"),
        (PAPER + ", result: satisfactory}", "met"),
        (PAPER + ", result: unsatisfactory}", "not met"),
        (PAPER.replace("2026", "2024") + ", result: satisfactory}", "not met"),
    ],
)
def test_a_paper_counts_with_its_result(paper: str, outcome: str, tmp_path: Path) -> None:
    found = finding(tmp_path, f"extinguishers: [{{id: fe-1, serviced_on: {paper}}}]", **SERVICED)  # type: ignore[arg-type]
    assert (found.outcome, found.because, found.needs) == (outcome, None, ())
    (used,) = found.how
    assert used.result == (paper.partition("result: ")[2].rstrip("}") or None)


def test_an_unsatisfactory_paper_fails_only_the_part_that_rests_on_it(tmp_path: Path) -> None:
    site = f"extinguishers: [{{id: fe-1, visible: yes, serviced_on: {PAPER}, result: unsatisfactory}}}}]"
    either = SERVICED | {"require": f"extinguisher.visible or {SERVICED['require']}"}
    found = finding(tmp_path, site, **either)  # type: ignore[arg-type]
    assert found.outcome == "met"
    assert [part.holds for part in found.parts] == [True, False]
    assert [part.governs for part in found.parts] == [True, False]


def test_an_unsatisfactory_paper_does_not_settle_what_is_unknown(tmp_path: Path) -> None:
    site = f"extinguishers: [{{id: fe-1, serviced_on: {PAPER}, result: unsatisfactory}}}}]"
    found = finding(tmp_path, site, "extinguisher.serviced_on >= extinguisher.extended_service_on")
    assert (found.outcome, found.because) == ("undetermined", "not recorded")


def test_photos_and_where_from_are_kept(tmp_path: Path) -> None:
    seen = "{value: yes, evidence: seen, on: 2026-11-03, by: surveyor, note: needle in the green, photo: fe-1.jpg}"
    found = finding(tmp_path, extinguisher(seen, "yes", "survey: {on: 2026-11-02}"), CHARGED)
    charged, visible = found.how
    assert found.photos == ("fe-1.jpg",)
    assert (charged.evidence, str(charged.on), charged.by, charged.note) == (
        "seen", "2026-11-03", "surveyor", "needle in the green",
    )  # fmt: skip
    assert (visible.evidence, str(visible.on), visible.photo) == ("told", "2026-11-02", None)
    assert charged.value.as_written == "yes"


ROOM = """
    rooms:
      - id: cell
        name: Cell
        floor_area: {area}
        height: {{value: 3 m, evidence: measured, plus_minus: 1 cm, instrument: tape}}
    fans:
      - {{id: out, room: cell, moves: out of the room, flow: {{value: 3600 m3/h, evidence: read}}}}
      - {{id: in, room: cell, moves: into the room, flow: {{value: 1 m3/s, evidence: estimated}}}}
"""
CHANGES: dict[str, Any] = {
    "require": "room.air_changes >= limit.rate",
    "each": "room",
    "kinds": {"rate": "air_changes"},
    "limit": {"rate": "60 /h"},
}


def test_a_computed_value_rests_on_all_that_went_into_it(tmp_path: Path) -> None:
    """Air changes of a room: the larger flow divided by the volume. 1 m3/s through 60 m3 is 60 an hour."""
    found = finding(tmp_path, ROOM.format(area="{value: 20 m2, evidence: drawing}"), **CHANGES)
    assert (found.outcome, found.margin and float(found.margin.value)) == ("met", 0.0)
    assert {(used.path, used.evidence) for used in found.how} >= {
        ("rooms[cell].floor_area", "drawing"),
        ("rooms[cell].height", "measured"),
        ("fans[out].flow", "read"),
        ("fans[in].flow", "estimated"),
    }
    height = next(used for used in found.how if used.name == "height")
    assert (height.instrument, height.plus_minus is not None) == ("tape", True)
    quantities = [step.quantity for step in found.working]
    assert quantities[-1] == "room.air_changes"
    assert quantities.index("room.volume") < quantities.index("room.air_changes")
    assert found.working[-1].result.value == found.measured.value if found.measured else False


@pytest.mark.parametrize(
    "area, weakest",
    [("{value: 20 m2, evidence: drawing}", "estimated"), ("{value: 20 m2, evidence: assumed}", "assumed")],
)
def test_what_is_met_is_counted_by_its_weakest_word(area: str, weakest: str, tmp_path: Path) -> None:
    assert result(tmp_path, ROOM.format(area=area), **CHANGES).summary.met_by_evidence == {weakest: 1}


def test_words_are_counted_strongest_first_and_only_for_what_is_met(tmp_path: Path) -> None:
    site = f"""
    extinguishers:
      - {{id: a, charged: {TOLD}, visible: {SEEN}}}
      - {{id: b, charged: {SEEN}, visible: {SEEN}}}
      - {{id: c, charged: {SEEN}, visible: {SEEN_NO}}}
      - {{id: d, charged: {SEEN}, visible: {SEEN}}}
    """
    counted = result(tmp_path, site, CHARGED).summary.met_by_evidence
    assert list(counted.items()) == [("seen", 2), ("told", 1)]


def test_what_rests_on_a_record_that_there_is_none_counts_as_told(tmp_path: Path) -> None:
    found = result(tmp_path, "dynos: [{id: d1, capture: none}]", "not dyno.has_capture", "dyno")
    assert (only(found).outcome, only(found).how) == ("met", ())
    assert found.summary.met_by_evidence == {"told": 1}


def test_what_is_assumed_shows_its_reason(tmp_path: Path) -> None:
    site = """
    extinguishers: [{id: fe-1, charged: yes}]
    assumed: [{about: "extinguishers[*].visible", value: yes, why: every wall was walked}]
    """
    taken = result(tmp_path, site, CHARGED)
    used = next(each for each in only(taken).how if each.name == "visible")
    assert (used.evidence, used.note) == ("assumed", "every wall was walked")
    assert taken.summary.met_by_evidence == {"assumed": 1}
    assert [(each.path, each.note) for each in taken.assumed] == [("extinguishers[*].visible", "every wall was walked")]


@pytest.mark.parametrize("first", ["walk", "lock"])
def test_a_value_is_shown_as_the_plan_s_only_where_the_finding_itself_reads_the_plan(
    first: str, tmp_path: Path
) -> None:
    """Whichever rule was judged first: a door's lock is read by one, and read off the plan by the other."""
    site = (
        "dynos: none\nrooms:\n  - {id: cell, outline: [[0 m, 0 m], [5 m, 4 m]], obstacles: none, partitions: none,\n"
        "     doors: [{id: d, to: outside, at: [5 m, 2 m], width: 1 m, locked: no, way_out: yes}]}\n"
    )
    names = {"walk": "a", "lock": "b"} if first == "walk" else {"walk": "b", "lock": "a"}
    held = rulebook(
        tmp_path,
        [
            rule(names["walk"], "room", "room.farthest_from_exit <= limit.walk", limit={"walk": "length"}),
            rule(names["lock"], "door", "not door.locked"),
        ],
        [asks(names["walk"], limit={"walk": "30 m"}), asks(names["lock"])],
    )
    shown = {
        found.rule.rpartition(".")[2]: {used.path: used.on_plan for used in found.how}
        for found in judged(held, site).findings
    }
    assert shown[names["lock"]] == {"rooms[cell].doors[d].locked": False}
    assert shown[names["walk"]]["rooms[cell].doors[d].locked"] is True
