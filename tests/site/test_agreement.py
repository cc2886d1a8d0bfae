"""The schema, read by two libraries, and the models agree on what a site file may be."""

import copy
import json
from typing import Any

import jsonschema
import jsonschema_rs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic_core import ValidationError

from checker.reading import Problem, Unreadable, read_text
from checker.site import Site, read_site
from checker.site.gate import FILE, shipped_schema
from checker.site.schema import as_text, site_schema
from checker.site.wording import flaws_in

WHOLE: dict[str, Any] = {
    "id": "shop",
    "name": "Shop",
    "region": "us-ca",
    "employer": True,
    "built_on": "1998-06-01",
    "altered_on": "never",
    "adopted": [{"code": "fire code", "edition": "2021", "said_by": {"not_reached": "office closed"}}],
    "survey": {
        "on": "2026-11-03",
        "until": None,
        "evidence": "seen",
        "instruments": ["tape", "gas meter"],
        "not_reached": [{"about": "rooms[store]", "why": "locked"}],
    },
    "assumed": [{"about": "rooms[*].doors[*].locked", "value": False, "why": "open in working hours"}],
    "rooms": [
        {
            "id": "cell",
            "kind": {"value": "running room", "evidence": "seen", "by": "owner", "on": "2026-11-03"},
            "outline": [["0 ft", "0 ft"], ["30 ft", "0 ft"], ["30 ft", "20 ft"], ["0 ft", "20 ft"]],
            "height": {"value": "12 ft", "evidence": "measured", "plus_minus": "2 in", "instrument": "tape"},
            "engines_run": True,
            "readings": {"noise_level": "96 dB(A)", "temperature": {"value": "31 °C", "plus_minus": "2 °C"}},
            "doors": [{"id": "d1", "to": "outside", "width": "36 in", "swing": "out"}],
            "obstacles": "none",
        },
        {"id": "store", "height": {"not_reached": "locked"}, "readings": {"not_reached": "locked"}, "doors": []},
    ],
    "dynos": [
        {
            "id": "d1",
            "room": "cell",
            "at": {"value": ["12 ft", "8 ft"], "evidence": "drawing", "plus_minus": "1 ft"},
            "plate": {"voltage": "240 V", "phases": 1},
            "capture": False,
            "absorber": None,
            "condition": {"battery_charged": {"value": True, "on": "2026-11-01"}},
        }
    ],
    "circuits": [{"id": "c1", "conductor": "8 AWG", "rcd": {"trips_at": "30 mA"}}],
    "extinguishers": [{"id": "fe-1", "rating": "4-A:80-B:C", "rating_system": "UL 711", "serviced_on": "never"}],
    "hazards": [{"id": "h1", "walks": [{"to": "fe-1", "distance": "49 ft"}]}],
    "fans": {"not_reached": "roof"},
    "fuels": None,
    "panels": False,
}

POOL = st.sampled_from(
    [
        None, True, False, 0, 1, 3, -1, 4.0, 2.5, 10**30, "", " ", "none", "never", "cell", "No Id", "seen", "told",
        "yes", "12 ft", "12ft", "-12 ft", "0 m", "5 ft 6 in", "1/2 in", "12 kg", "12", "3,7 m", "1 500 ft",
        "12 ft\n", "\n12 ft", "1e40 m", "2026-11-03", "2026-02-30", "2026-11-03\n", "2026-13-01", "1500-02-29",
        "8 AWG", "10 mm²", "us", "US", "rooms[*].height", "rooms[", "running room", "240 V", "35 ppm", "20 °C",
        "20 ℃", [], {}, [[]], ["12 ft", "3 ft"], ["a", ""], [["0 m", "0 m"], ["1 m", "0 m"], ["1 m", "1 m"]],
        [["0 m", "0 m"]], {"value": None}, {"value": "12 ft"}, {"value": "12 ft", "plus_minus": "1 kg"},
        {"value": True, "plus_minus": "1 in"}, {"evidence": "told"}, {"value": "seen", "evidence": "no"},
        {"not_reached": "why"}, {"not_reached": None}, {"id": "x"}, [{"id": "x"}],
        {"not_reached": "why", "value": "12 ft"}, [{"id": None}], [None], [{"to": "fe-1"}],
    ]
)  # fmt: skip
KEYS = st.sampled_from(
    ["id", "value", "not_reached", "plus_minus", "note", "was", "name", "height", "strange", "on", "evidence"]
)


def paths_in(tree: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    inner = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()
    return [path, *(found for key, value in inner for found in paths_in(value, (*path, key)))]


@st.composite
def spoilt(draw: st.DrawFn) -> Any:
    """The whole site with up to four things replaced, taken out or put in."""
    tree = copy.deepcopy(WHOLE)
    for _ in range(draw(st.integers(1, 4))):
        *way, key = draw(st.sampled_from(paths_in(tree)[1:] or [("id",)]))
        holder = tree
        for step in way:
            holder = holder[step]
        deed = draw(st.sampled_from(["replace", "remove", "add"]))
        if deed == "replace":
            holder[key] = copy.deepcopy(draw(POOL))
        elif deed == "remove":
            del holder[key]
        elif isinstance(holder, dict):
            holder[draw(KEYS)] = copy.deepcopy(draw(POOL))
        else:
            holder.append(copy.deepcopy(draw(POOL)))
    return tree


RUST = jsonschema_rs.Draft202012Validator(shipped_schema(), validate_formats=True)
PYTHON = jsonschema.Draft202012Validator(shipped_schema(), format_checker=jsonschema.FormatChecker(["date"]))


def builds(tree: Any) -> tuple[bool, list[Any]]:
    try:
        Site.of(tree)
    except ValidationError as problem:
        return False, problem.errors(include_url=False)
    return True, []


def test_the_committed_schema_is_the_one_the_models_give() -> None:
    assert as_text(shipped_schema()) == as_text(site_schema()), f"write {FILE} again: python -m checker.site.schema"


def test_the_schema_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(site_schema())


def test_the_whole_site_is_read() -> None:
    assert RUST.is_valid(WHOLE)
    assert PYTHON.is_valid(WHOLE)
    assert read_site(read_text(json.dumps(WHOLE), "shop.json")).id == "shop"


@settings(max_examples=250)
@given(spoilt())
def test_two_libraries_read_the_schema_alike(tree: Any) -> None:
    """What one validator refuses the other refuses, save that Python's $ lets a last line break pass."""
    if RUST.is_valid(tree):
        assert PYTHON.is_valid(tree)
        assert flaws_in(tree) == []
    else:
        assert flaws_in(tree)
        assert not PYTHON.is_valid(tree) or "\\n" in json.dumps(tree)


@settings(max_examples=250)
@given(spoilt())
def test_schema_and_models_agree(tree: Any) -> None:
    """What a model builds the schema allows, and the other way round, save for quantities that no pattern can judge."""
    built, errors = builds(tree)
    if built:
        assert RUST.is_valid(tree)
    elif RUST.is_valid(tree):
        assert errors
        assert all(is_quantity_refused(error) for error in errors)


def is_quantity_refused(error: Any) -> bool:
    """Whether checker.units refused a text that begins as a number and ends as a unit."""
    refusal = error.get("ctx", {}).get("error")
    return any(
        word in str(refusal)
        for word in ("that large or that small", "is a number with its unit", "An uncertainty", "stay below")
    )


@settings(max_examples=200)
@given(spoilt())
def test_a_file_is_read_or_every_problem_has_a_place(tree: Any) -> None:
    document = read_text(json.dumps(tree), "shop.json")
    site: Site | None = None
    problems: tuple[Problem, ...] = ()
    try:
        site = read_site(document)
    except Unreadable as refusal:
        problems = refusal.problems
    assert (site is None) == bool(problems)
    assert site is None or (RUST.is_valid(tree) and site.document is document)
    for problem in problems:
        assert problem.line >= 1
        assert problem.wanted
        assert "The schema of site files refuses this" not in problem.says


@pytest.mark.parametrize(
    "says", ["12 ft", "12ft", "5 ft 6 in", "1/2 in", "2 1/2 in", "12.5  mm", "12′", "-3 m", "3 metres", "1e3 mm"]
)
def test_the_schema_allows_every_way_to_write_a_length(says: str) -> None:
    assert RUST.is_valid({"id": "shop", "rooms": [{"id": "cell", "height": says}]})


@pytest.mark.parametrize("says", ["12", "12 kg", "ft", "12 soft", "twelve ft", "12 ft high", "about 12 ft"])
def test_the_schema_refuses_what_is_no_length(says: str) -> None:
    assert not RUST.is_valid({"id": "shop", "rooms": [{"id": "cell", "height": says}]})
