"""What is wrong with rulesets that can be read: each flaw found where it is, and nothing found in what is right."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, get_args

import pytest

from checker import shipped
from checker.keeping.flaws import REMARKS, Flaw, Kind
from checker.keeping.lint import lint
from checker.keeping.unused import table_places
from checker.reading import Unreadable
from checker.report.lint import lint as drawn
from checker.report.sentences import SENTENCES
from checker.rules import read_rulesets
from tests.findings.workshop import Part, asks, rule, rulebook
from tests.rules import shelf

MOST: Part = {"require": "circuit.breaker <= limit.most", "limit": {"most": "current"}}
VALUES = {"current": "20 A", "length": "1 m", "number": 1, "flow": "1 m3/s", "area": "1 m2"}
"""A limit of each kind that a test declares."""


def flaws(
    folder: Path,
    rules: Sequence[Part],
    provisions: Sequence[Part] | Mapping[str, Sequence[Part]],
    tables: Sequence[Part] = (),
) -> list[Flaw]:
    """What is found, apart from the sources of the workshop that a test does not name."""
    held = rulebook(folder, rules, provisions, tables)
    return [flaw for flaw in lint(held, table_places(folder)) if flaw.kind != "source not used"]


def of_expressions(folder: Path, each: str, require: str, **more: Any) -> list[tuple[Kind, Mapping[str, str]]]:
    """The flaws in the expressions of a rule; of its cases nothing is said."""
    limits = {name: VALUES[kind] for name, kind in more.get("limit", {}).items()}
    tables = more.pop("tables", [])
    given = asks("r", limit=limits, table={each["id"]: each["id"] for each in tables})
    found = flaws(folder, [rule("r", each, require, **more)], [given], tables)
    return [(flaw.kind, flaw.fields) for flaw in found if not flaw.kind.startswith("no case")]


def one(**changed: Any) -> Part:
    """A rule in which nothing is wrong, with changes."""
    return rule("r", "circuit", **{**MOST, "when": "circuit.dedicated", "cases": cases(), **changed})


def cases(*left_out: str) -> list[Part]:
    """Cases that show every outcome and the limit from both sides; outcomes left out."""
    found = [
        ("20 A", True, "met"), ("19 A", True, "met"), ("21 A", True, "not met"),
        (None, True, "undetermined"), ("21 A", False, "not applicable"),
    ]  # fmt: skip
    return [
        {
            "given": {"limit.most": "20 A", "circuit.dedicated": dedicated}
            | ({"circuit.breaker": size} if size else {}),
            "outcome": outcome,
        }
        for size, dedicated, outcome in found
        if outcome not in left_out
    ]


def asked(**more: Any) -> Part:
    return asks("r", limit={"most": "20 A"}, **more)


def test_nothing_is_wrong_with_what_is_right(tmp_path: Path) -> None:
    assert flaws(tmp_path, [one()], [asked()]) == []


@pytest.mark.parametrize(
    "changed, kind",
    [
        ({"reason": "   "}, "reason is blank"),
        ({"title": "Something is asked", "reason": "something is asked."}, "reason is the title"),
        ({"severity": "critical", "meanwhile": " "}, "meanwhile is blank"),
        ({"cases": cases("not applicable")}, "no case not applicable"),
        ({"cases": cases("undetermined")}, "no case undetermined"),
    ],
)
def test_a_rule_without_its_words_or_an_outcome(changed: Part, kind: Kind, tmp_path: Path) -> None:
    (flaw,) = flaws(tmp_path, [one(**changed)], [asked()])
    assert (flaw.kind, flaw.about) == (kind, "shop.r")


@pytest.mark.parametrize("outcome, beside", [("met", {"at", "under"}), ("not met", {"over"})])
def test_without_an_outcome_its_side_of_the_limit_lacks_too(outcome: str, beside: set[str], tmp_path: Path) -> None:
    found = {flaw.kind for flaw in flaws(tmp_path, [one(cases=cases(outcome))], [asked()])}
    assert found == {f"no case {outcome}", *(f"no case {place}" for place in beside)}


def test_a_rule_without_a_condition_always_applies(tmp_path: Path) -> None:
    assert flaws(tmp_path, [one(when=None, cases=cases("not applicable"))], [asked()]) == []


@pytest.mark.parametrize("key", ["reason", "cases"])
@pytest.mark.parametrize("emptied", [True, False])
def test_a_rule_without_reason_or_case_is_not_read_at_all(key: str, emptied: bool, tmp_path: Path) -> None:
    spoilt = one(**{key: [] if key == "cases" else ""})
    if not emptied:
        del spoilt[key]
    with pytest.raises(Unreadable):
        rulebook(tmp_path, [spoilt], [asked()])


def test_a_critical_rule_that_says_nothing_for_tonight_is_not_read_at_all(tmp_path: Path) -> None:
    with pytest.raises(Unreadable, match="meanwhile"):
        rulebook(tmp_path, [one(severity="critical")], [asked()])


def test_a_word_that_a_field_cannot_hold_is_not_read_at_all(tmp_path: Path) -> None:
    with pytest.raises(Unreadable, match="never holds this word"):
        rulebook(tmp_path, [rule("r", "room", 'room.kind == "kitchen sink"')], [asks("r")])


BOTH = 'circuit.dedicated and circuit.connection == "socket" and not circuit.phases == 3'


def not_applicable(**given: Any) -> Part:
    return {"given": {f"circuit.{name}": value for name, value in given.items()}, "outcome": "not applicable"}


@pytest.mark.parametrize(
    "tried, lacking",
    [
        ([{"dedicated": False}, {"connection": "hard-wired"}, {"phases": 3}], []),
        ([{"dedicated": False, "connection": "socket", "phases": 1}], ['circuit.connection == "socket"', "phases"]),
        ([{"dedicated": False, "connection": "hard-wired"}, {"phases": 3}],
         ["circuit.dedicated", 'circuit.connection == "socket"']),
        ([{"phases": 3}], ["circuit.dedicated", 'circuit.connection == "socket"']),
        ([], []),
    ],
)  # fmt: skip
def test_each_part_of_a_condition_has_a_case_in_which_it_alone_fails(
    tried: list[Part], lacking: list[str], tmp_path: Path
) -> None:
    """Where no case at all shows that the rule does not apply, that is said, and nothing of parts."""
    holds = {"circuit.connection": "socket", "circuit.phases": 1}
    held = [each | {"given": each["given"] | holds} for each in cases("not applicable")]
    found = flaws(tmp_path, [one(when=BOTH, cases=[*held, *(not_applicable(**each) for each in tried)])], [asked()])
    expected = ["not circuit.phases == 3" if part == "phases" else part for part in lacking]
    assert [flaw.fields["part"] for flaw in found if flaw.kind == "no case for a part"] == expected
    assert [flaw.kind for flaw in found if flaw.kind != "no case for a part"] == (
        [] if tried else ["no case not applicable"]
    )


def test_a_guard_alone_keeps_the_part_behind_it_from_being_asked(tmp_path: Path) -> None:
    when = "circuit.has_rcd and circuit.rcd.trips_at <= 1 * limit.most"
    holds = {"circuit.rcd.trips_at": "30 mA"}
    held = [each | {"given": each["given"] | holds} for each in cases("not applicable")]
    lacking = [not_applicable(**{"rcd.trips_at": "30 A"}) | {}, not_applicable(rcd="none")]
    lacking[0]["given"]["limit.most"] = "20 A"
    found = flaws(tmp_path, [one(when=when, cases=[*held, *lacking])], [asked()])
    assert [flaw.kind for flaw in found if flaw.kind == "no case for a part"] == []


@pytest.mark.parametrize(
    "law, norm, governs",
    [
        ("20 A", "16 A", ("workplace law", "16 A of standard")),
        ("16 A", "20 A", ("standard", "16 A of workplace law")),
        ("20 A", "20 A", None),
    ],
)
def test_what_is_laxer_than_another_is_a_remark(
    law: str, norm: str, governs: tuple[str, str] | None, tmp_path: Path
) -> None:
    provisions = [
        asks("r", "workplace law", "act", limit={"most": law}),
        asks("r", "standard", "norm", limit={"most": norm}),
    ]
    found = flaws(tmp_path, [one()], provisions)
    assert [(flaw.kind, flaw.remark, flaw.fields["authority"], flaw.fields["governs"]) for flaw in found] == (
        [("laxer than another", True, *governs)] if governs else []
    )
    told = " ".join(drawn(found, 1).split())
    assert told.startswith("Nothing to mend. Rules read: 1.")
    assert ("the stricter governs: 16 A of" in told) == bool(governs)
    assert ("Right:" in told) is False


def test_what_is_never_in_force_together_is_not_compared(tmp_path: Path) -> None:
    law = asks("r", "workplace law", "act", limit={"most": "20 A"}) | {"until": "2026-12-31"}
    norm = asks("r", "standard", "norm", limit={"most": "16 A"}) | {"from": "2027-01-01"}
    assert flaws(tmp_path / "a", [one()], [law, norm]) == []
    assert flaws(tmp_path / "b", [one()], {"us": [law], "gb": [norm | {"from": "2020-01-01"}]}) == []
    near, far = {"us": [asks("r", "workplace law", "act", limit={"most": "20 A"})]}, {"common": [norm]}
    assert [flaw.kind for flaw in flaws(tmp_path / "c", [one()], {**near, **far})] == ["laxer than another"]


SIZE = {"keys": {"kind": "word"}, "columns": {"near": "length", "far": "length"}}


def size(*kinds: str) -> Part:
    rows = [{"kind": kind, "near": "1 m", "far": "2 m"} for kind in kinds]
    return {"id": "size", **SIZE, "rows": rows}


@pytest.mark.parametrize(
    "require, more, found",
    [
        ("circuit.breaker <= limit.most", {"limit": {"most": "current"}}, []),
        ("circuit.dedicated", {"limit": {"n": "number"}}, [("limit not read", {"limit": "n", "kind": "number"})]),
        ("circuit.dedicated", {"when": "circuit.breaker <= limit.most", "limit": {"most": "current"}}, []),
        (
            "any([f.flow >= limit.least for f in site.fans])",
            {"limit": {"least": "flow", "most": "flow"}},
            [("limit not read", {"limit": "most", "kind": "flow"})],
        ),
        (
            "circuit.dedicated",
            {"table": {"size": SIZE}, "tables": [size("socket")]},
            [("table not read", {"table": "size"})],
        ),
        (
            "circuit.length <= table.size.far(circuit.connection)",
            {"table": {"size": SIZE}, "tables": [size("socket")]},
            [("column not read", {"table": "size", "column": "near"})],
        ),
    ],
)  # fmt: skip
def test_what_a_rule_declares_it_reads(require: str, more: Part, found: list[Any], tmp_path: Path) -> None:
    assert of_expressions(tmp_path, "circuit", require, **more) == found


@pytest.mark.parametrize(
    "each, require, kinds",
    [
        ("fan", "fan.moves == fan.room.kind", ["never equal"]),
        ("site", "any([f.moves != f.room.kind for f in site.fans])", ["never equal"]),
        ("circuit", "circuit.conductor_material == circuit.connection", ["never equal"]),
        ("dyno", "any([f.room.kind == dyno.room.kind for f in site.fans])", []),
        ("room", "room.air_changes == limit.n * room.air_changes", ["hardly ever equal"]),
        ("room", "limit.area != room.floor_area", ["hardly ever equal"]),
        ("hazard", 'hazard.walk_to_extinguisher("B", limit.n) == limit.area', ["hardly ever equal"]),
        ("room", "sum([f.flow for f in room.fans]) == limit.flow", ["hardly ever equal"]),
        ("circuit", "2 * circuit.breaker == limit.most", ["hardly ever equal"]),
        ("circuit", "circuit.nominal_voltage == circuit.supply.voltage", []),
        ("circuit", "circuit.phases == limit.n", []),
        ("room", "count([f for f in room.fans]) == 2", []),
        ("room", "room.air_changes >= limit.n * room.air_changes", []),
    ],
)
def test_what_is_never_equal(each: str, require: str, kinds: list[str], tmp_path: Path) -> None:
    named = {"n": "number", "area": "area", "flow": "flow", "most": "current"}
    if each == "hazard":
        named["area"] = "length"
    limit = {name: kind for name, kind in named.items() if f"limit.{name}" in require}
    assert [kind for kind, _ in of_expressions(tmp_path, each, require, limit=limit)] == kinds


@pytest.mark.parametrize(
    "when, require, kind",
    [
        ('room.kind == "office" and room.kind == "store"', "room.engines_run", "never applies"),
        ('not (room.kind != "office" or room.kind != "store")', "room.engines_run", "never applies"),
        ("room.engines_run", "room.repairs_vehicles and not room.engines_run", "never met"),
        (None, "room.engines_run and not room.engines_run", "never met"),
        ("room.engines_run", "room.engines_run or room.repairs_vehicles", "never fails"),
        (None, "room.floor_area >= room.floor_area", "never fails"),
        ('room.kind in ["office", "store"]', 'room.kind == "office"', None),
        (None, "room.engines_run", None),
    ],
)
def test_what_can_never_come_out(when: str | None, require: str, kind: Kind | None, tmp_path: Path) -> None:
    found = of_expressions(tmp_path, "room", require, **({"when": when} if when else {}))
    assert [flaw for flaw, _ in found] == ([kind] if kind else [])


def test_a_rule_that_nobody_asks(tmp_path: Path) -> None:
    found = flaws(tmp_path, [one(), one() | {"id": "shop.q"}], [asked()])
    assert [(flaw.kind, flaw.about) for flaw in found] == [("nobody asks", "shop.q")]


def spans(*days: tuple[str | None, str | None], layer: str = "us", **more: Any) -> dict[str, list[Part]]:
    """Provisions of one authority in one layer, each with its own limit, from and until days."""
    return {
        layer: [
            asks("r", "fire code", "fire-code", limit={"most": f"{20 + number} A"}, **more)
            | ({"from": first} if first else {})
            | ({"until": last} if last else {})
            for number, (first, last) in enumerate(days)
        ]
    }


@pytest.mark.parametrize(
    "days, between",
    [
        ([(None, "2026-12-31"), ("2027-01-01", None)], []),
        ([(None, "2026-12-31"), ("2027-01-02", None)], [("2027-01-01", "2027-01-01")]),
        ([("2027-03-01", None), (None, "2026-12-31")], [("2027-01-01", "2027-02-28")]),
        ([(None, "2025-12-31"), ("2026-02-01", "2026-06-30"), ("2026-07-02", None)],
         [("2026-01-01", "2026-01-31"), ("2026-07-01", "2026-07-01")]),
        ([("2026-01-01", "2026-12-31")], []),
    ],
)  # fmt: skip
def test_days_between_two_editions(
    days: list[tuple[str | None, str | None]], between: list[tuple[str, str]], tmp_path: Path
) -> None:
    found = flaws(tmp_path, [one()], spans(*days))
    assert [(flaw.kind, flaw.fields["first"], flaw.fields["last"]) for flaw in found] == [
        ("days between", *each) for each in between
    ]


def test_editions_of_two_authorities_or_layers_follow_nothing(tmp_path: Path) -> None:
    later = asks("r", "building code", "fire-code", limit={"most": "21 A"}) | {"from": "2028-01-01"}
    provisions = spans((None, "2026-12-31")) | {"gb": [later]}
    assert flaws(tmp_path, [one()], provisions) == []


NEARER = asks("r", "fire code", "fire-code", limit={"most": "20 A"})


@pytest.mark.parametrize(
    "changed, says_the_same",
    [
        ({}, True),
        ({"limit": {"most": "20000 mA"}}, True),
        ({"from": "2026-01-01", "until": "2026-12-31"}, True),
        ({"limit": {"most": "19 A"}}, False),
        ({"source": {"ref": "norm", "status": "verified"}}, False),
        ({"source": {"ref": "fire-code", "status": "verified", "clause": "7"}}, False),
        ({"judges": "new work"}, False),
        ({"authority": "building code"}, False),
    ],
)
def test_an_override_that_changes_nothing(changed: Part, says_the_same: bool, tmp_path: Path) -> None:
    found = flaws(tmp_path, [one()], {"common": [NEARER], "us": [NEARER | changed]})
    assert [(flaw.kind, flaw.location.file.endswith("us/shop.yaml")) for flaw in found] == [
        ("changes nothing", True)
    ] * says_the_same


def test_an_override_for_longer_than_what_it_overrides_changes_something(tmp_path: Path) -> None:
    ends = NEARER | {"until": "2026-12-31"}
    assert flaws(tmp_path, [one()], {"common": [ends], "us": [NEARER]}) == []


def test_good_practice_of_a_layer_where_law_always_speaks_is_never_heard(tmp_path: Path) -> None:
    law = asks("r", "workplace law", "act", limit={"most": "20 A"})
    (flaw,) = flaws(tmp_path / "a", [one()], {"us": [law, asked()]})
    assert (flaw.kind, dict(flaw.fields)) == ("never heard", {"authority": "good practice", "layer": "us"})
    assert flaws(tmp_path / "b", [one()], {"us": [law | {"from": "2027-01-01"}, asked()]}) == []
    assert flaws(tmp_path / "c", [one()], {"us": [law], "common": [asked()]}) == []


def test_a_layer_that_lies_on_any_region_is_heard() -> None:
    book = read_rulesets(shipped.rulesets())
    assert any(layer.lies_on_any_region for layer in book.layers.values())
    assert [flaw for flaw in lint(book, table_places(shipped.rulesets())) if flaw.kind == "never heard"] == []


CLASS_B = 'hazard.walk_to_extinguisher("B", 1) <= table.size.far(hazard.level)'


@pytest.mark.parametrize("levels, lost", [(["light", "extra"], []), (["light", "heavy"], ["heavy"])])
def test_a_row_that_no_rule_can_ask_for(levels: list[str], lost: list[str], tmp_path: Path) -> None:
    shape = {"keys": {"kind": "word"}, "columns": {"far": "length"}}
    table = {"id": "size", **shape, "rows": [{"kind": level, "far": "1 m"} for level in levels]}
    found = of_expressions(tmp_path, "hazard", CLASS_B, table={"size": shape}, tables=[table])
    assert [(kind, fields["word"], fields["words"]) for kind, fields in found] == [
        ("row not found", word, "extra, light, ordinary") for word in lost
    ]


def test_a_table_may_have_columns_for_another_rule_and_none_for_no_rule(tmp_path: Path) -> None:
    shape = {"keys": {"level": "word"}, "columns": {"far": "length"}}
    wide = {"far": "length", "wide": "length"}
    rows = [{"level": level, "far": "1 m", "wide": "2 m"} for level in ("light", "ordinary", "extra")]
    table = {"id": "size", **shape, "columns": wide, "rows": rows}
    found = of_expressions(tmp_path, "hazard", CLASS_B, table={"size": shape}, tables=[table])
    assert [(kind, dict(fields)) for kind, fields in found] == [("column not used", {"column": "wide"})]


def test_sources_and_tables_that_nothing_uses_stand_where_they_stand(tmp_path: Path) -> None:
    book = shelf.read(tmp_path)
    unused = [
        (flaw.kind, flaw.about, flaw.location.file.split("/", 1)[1], flaw.location.line)
        for flaw in lint(book, table_places(tmp_path))
    ]
    line = shelf.RIGHT["us/fire.yaml"][: shelf.RIGHT["us/fire.yaml"].index("- id: by-width")].count("\n") + 1
    assert [each for each in unused if each[0].endswith("used")] == [
        ("table not used", "by-width", "us/fire.yaml", line)
    ]
    files = shelf.spoilt(("us/fire.yaml", "{ref: code-7", "{ref: act-1"))
    found = lint(shelf.read(tmp_path, files), table_places(tmp_path))
    assert [(flaw.about, flaw.location.line) for flaw in found if flaw.kind == "source not used"] == [("code-7", 3)]


def test_flaws_stand_in_the_order_of_files_and_lines() -> None:
    found = lint(read_rulesets(shipped.rulesets()), table_places(shipped.rulesets()))
    places = [(flaw.location.file, flaw.location.line) for flaw in found]
    assert places == sorted(places)


def test_every_kind_of_flaw_has_its_words_and_no_others_have() -> None:
    for word in ("lint", "right"):
        said = {key.removeprefix(f"{word} ") for key in SENTENCES if key.startswith(f"{word} ")}
        assert said == set(get_args(Kind)) - (REMARKS if word == "right" else set())


def test_a_flaw_says_where_which_rule_what_and_what_would_be_right(tmp_path: Path) -> None:
    found = flaws(tmp_path / "rulesets", [one(cases=cases("not applicable"))], [asked()])
    line = found[0].location.line
    assert (
        drawn(found, 1)
        == f"""\
rulesets/common/shop.yaml:{line}: shop.r
   - No case shows where it does not apply.
     Right: a case in which this is recorded and does not hold:
            circuit.dedicated

To mend: 1. Rules read: 1.
"""
    )


def test_a_rule_is_named_once_for_all_that_is_wrong_with_it(tmp_path: Path) -> None:
    found = flaws(tmp_path, [one(cases=cases("met"))], [asked()])
    told = drawn(found, 1)
    assert (told.count("shop.r"), told.count("   - ")) == (1, 3)
    assert told.endswith("To mend: 3. Rules read: 1.\n")


def test_while_a_case_fails_nothing_is_said_of_those_that_lack(tmp_path: Path) -> None:
    """A case on the wrong side of a limit makes all it tries look untried: that is told once, with what to do."""
    wrong = [one | {"outcome": "met"} if one["outcome"] == "not met" else one for one in cases("undetermined")]
    found = flaws(tmp_path, [one(cases=wrong, reason=" ")], [asked()])
    assert [(flaw.kind, dict(flaw.fields)) for flaw in found] == [
        ("reason is blank", {}), ("cases fail", {"count": "1", "cases": "4"}),
    ]  # fmt: skip
    assert "Right: `checker rules prove` first" in " ".join(drawn(found, 1).split())


def test_nothing_is_wrong_with_the_rulesets_that_come_along() -> None:
    found = lint(read_rulesets(shipped.rulesets()), table_places(shipped.rulesets()))
    assert [flaw for flaw in found if not flaw.remark] == []
