"""What is told of each kind of change, and laws: what is called harmless changes no outcome, at no drawn edition."""

import datetime as dt
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any, cast

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from checker import shipped
from checker.findings.check import check
from checker.keeping.changes import Change, Diff
from checker.keeping.diff import diff
from checker.reading import read_file
from checker.report.changes import changes as drawn
from checker.rules import Rulebook, read_rulesets
from checker.rules.model import Provision
from checker.site import Site, read_site
from tests.findings.workshop import Part, asks, rule, rulebook

MOST: Part = {"require": "circuit.breaker <= limit.most", "limit": {"most": "current"}}
LAW: Part = {"authority": "workplace law", "source": "act"}
TURNED = {"tightened": "relaxed", "relaxed": "tightened", "added": "withdrawn", "withdrawn": "added"}


def one(require: str = "", **changed: Any) -> Part:
    return rule("r", "circuit", **{**MOST, **({"require": require} if require else {}), **changed})


def most(value: str, **more: Any) -> Part:
    return asks("r", limit={"most": value}, **more)


def found(folder: Path, old: Any, new: Any) -> Diff:
    """What changed between two pairs of (rules, provisions)."""
    return diff(*(rulebook(folder / name, *pair) for name, pair in (("old", old), ("new", new))))


def told(folder: Path, old: Any, new: Any) -> list[tuple[str, str, str, str, int]]:
    return [(each.how, each.what, each.before, each.after, each.part) for each in found(folder, old, new).changes]


@pytest.mark.parametrize(
    "old, new, expected",
    [
        pytest.param([most("20 A")], [most("16 A")], [("tightened", "limit", "20 A", "16 A", 1)], id="a limit lowered"),
        pytest.param([most("20 A")], [most("25 A")], [("relaxed", "limit", "20 A", "25 A", 1)], id="a limit raised"),
        pytest.param([most("20 A")], [most("20000 mA")], [("words", "limit", "20 A", "20000 mA", 2)], id="other unit"),
        pytest.param([], [most("20 A")], [("added", "provision", "", "most 20 A", 1)], id="a provision added"),
        pytest.param([most("20 A")], [], [("withdrawn", "provision", "most 20 A", "", 1)], id="a provision withdrawn"),
        pytest.param(
            [most("20 A", until="2027-12-31")],
            [most("20 A", until="2026-12-31")],
            [("relaxed", "until", "2027-12-31", "2026-12-31", 1)],
            id="an earlier end",
        ),
        pytest.param(
            [most("20 A")],
            [most("20 A", until="2026-12-31"), most("16 A", **{"from": "2027-01-01"})],
            [("tightened", "until", "", "2026-12-31", 1), ("tightened", "edition", "most 20 A", "most 16 A", 1)],
            id="an edition that asks more",
        ),
        pytest.param(
            [most("20 A")],
            [most("20 A", until="2026-12-31"), most("20 A", source="norm", **{"from": "2027-01-01"})],
            [("changed", "until", "", "2026-12-31", 2), ("sources", "edition", "most 20 A", "most 20 A", 2)],
            id="an edition that asks the same",
        ),
        pytest.param(
            [most("20 A", **LAW)],
            [most("20 A", **LAW), most("16 A")],
            [("added", "provision", "", "most 16 A", 2)],
            id="good practice beside a law is not heard",
        ),
        pytest.param(
            [most("16 A")],
            [most("16 A"), most("20 A", **LAW)],
            [("relaxed", "provision", "", "most 20 A", 1)],
            id="a law silences good practice that asked more",
        ),
        pytest.param(
            [most("20 A")],
            [most("20 A"), most("16 A", **LAW)],
            [("added", "provision", "", "most 16 A", 1)],
            id="a law silences good practice that asked less",
        ),
        pytest.param(
            [most("20 A", **LAW), most("16 A", authority="standard", source="norm")],
            [most("20 A", **LAW), most("16 A", authority="standard", source="norm", **{"from": "2027-01-01"})],
            [("relaxed", "from", "", "2027-01-01", 1)],
            id="the stricter begins later",
        ),
        pytest.param(
            [most("20 A", **LAW), most("16 A", authority="standard", source="norm", **{"from": "2028-01-01"})],
            [most("20 A", **LAW), most("16 A", authority="standard", source="norm", **{"from": "2027-01-01"})],
            [("tightened", "from", "2028-01-01", "2027-01-01", 1)],
            id="the stricter begins earlier",
        ),
        pytest.param(
            [most("20 A", **LAW), most("25 A", authority="standard", source="norm")],
            [most("20 A", **LAW), most("25 A", authority="standard", source="norm", **{"from": "2027-01-01"})],
            [("changed", "from", "", "2027-01-01", 1)],
            id="the laxer begins later, beside one that governs",
        ),
        pytest.param(
            [most("16 A"), most("20 A", **LAW)],
            [most("16 A"), most("20 A", **LAW, **{"from": "2027-01-01"})],
            [("tightened", "from", "", "2027-01-01", 1)],
            id="the laxer that silences begins later",
        ),
        pytest.param(
            [most("16 A", **LAW)],
            [most("16 A", **LAW), most("16 A", authority="fire code", source="fire-code")],
            [("added", "provision", "", "most 16 A", 2)],
            id="another authority asks the same",
        ),
        pytest.param(
            [most("20 A", source={"ref": "act", "clause": "1", "status": "memory"})],
            [most("20 A", source={"ref": "norm", "clause": "2", "status": "verified", "read_in": "TS", "note": "So."})],
            [
                ("words", "note", "", "So.", 2),
                ("sources", "source", "Workshop Act, 1999", "Norm 7, 2020, 2", 2),
                ("sources", "status", "memory", "verified (TS)", 2),
            ],
            id="another source",
        ),
        pytest.param(
            [most("20 A")], [most("20 A", judges="existing")], [("changed", "judges", "operation", "existing", 1)],
            id="what it judges",
        ),
    ],
)  # fmt: skip
def test_a_change_of_what_is_asked(old: list[Part], new: list[Part], expected: list[Any], tmp_path: Path) -> None:
    assert told(tmp_path, ([one()], old), ([one()], new)) == expected


@pytest.mark.parametrize(
    "changed, expected",
    [
        ({"severity": "minor"}, ("relaxed", "severity", "major", "minor", 1)),
        ({"severity": "critical", "meanwhile": "Stop."}, ("tightened", "severity", "major", "critical", 1)),
        ({"evidence": "seen"}, ("tightened", "evidence", "", "seen", 1)),
        ({"title": "Another title"}, ("words", "field", "Something is asked", "Another title", 2)),
        ({"advice": "Do it. Soon."}, ("words", "field", "", "Do it. … Soon.", 2)),
        ({"acts": "electrician"}, ("words", "field", "shop", "electrician", 2)),
        ({"require": "limit.most >= circuit.breaker"},
         ("words", "form", "circuit.breaker <= limit.most", "limit.most >= circuit.breaker", 2)),
        ({"require": "not circuit.breaker > limit.most"},
         ("words", "form", "circuit.breaker <= limit.most", "not circuit.breaker > limit.most", 2)),
        ({"require": "circuit.breaker < limit.most"},
         ("changed", "expression", "circuit.breaker <= limit.most", "circuit.breaker < limit.most", 1)),
        ({"when": "circuit.dedicated"}, ("changed", "expression", "", "circuit.dedicated", 1)),
    ],
)  # fmt: skip
def test_a_change_of_the_rule_itself(changed: Part, expected: tuple[Any, ...], tmp_path: Path) -> None:
    assert expected in told(tmp_path, ([one()], [most("20 A")]), ([one(**changed)], [most("20 A")]))


def test_where_nobody_asks_a_rule_no_site_gets_another_outcome_by_it(tmp_path: Path) -> None:
    (change,) = found(tmp_path, ([one()], []), ([one(require="circuit.breaker < limit.most")], [])).changes
    assert (change.what, change.part) == ("expression", 2)


GIVEN = {"limit.most": "20 A", "circuit.breaker": "20 A"}


@pytest.mark.parametrize(
    "old, new, how, moves",
    [
        ("circuit.breaker <= limit.most", "circuit.breaker < limit.most", "tightened", [(1, True, "met", "not met")]),
        ("circuit.breaker < limit.most", "circuit.breaker <= limit.most", "relaxed", [(1, True, "not met", "met")]),
    ],
)
def test_the_cases_of_both_editions_show_which_way_an_expression_went(
    old: str, new: str, how: str, moves: list[Any], tmp_path: Path
) -> None:
    def with_case(require: str, outcome: str) -> Part:
        return one(require, cases=[{"given": GIVEN, "outcome": outcome}])

    rules = [with_case(old, moves[0][2])], [with_case(new, moves[0][3])]
    by_what = {
        each.what: each for each in found(tmp_path, (rules[0], [most("20 A")]), (rules[1], [most("20 A")])).changes
    }
    change = by_what["expression"]
    assert change.how == how
    assert change.trial is not None
    assert [(each.case_number, each.of_old, each.before, each.after) for each in change.trial.otherwise] == moves
    assert (by_what["case"].before, by_what["case"].after) == moves[0][2:]


def test_a_case_of_the_new_edition_is_tried_by_the_old_one(tmp_path: Path) -> None:
    new = one("circuit.breaker < limit.most", cases=[{"given": GIVEN, "outcome": "not met"}])
    change = next(each for each in found(tmp_path, ([one()], [most("20 A")]), ([new], [most("20 A")])).changes
                  if each.what == "expression")  # fmt: skip
    assert change.how == "tightened"
    assert change.trial is not None
    assert [(each.of_old, each.before, each.after) for each in change.trial.otherwise] == [(False, "met", "not met")]


def test_a_rule_that_was_called_otherwise_is_the_same_rule(tmp_path: Path) -> None:
    new = one() | {"id": "shop.renamed", "was": "shop.r"}
    asked = most("20 A") | {"rule": "shop.renamed"}
    assert told(tmp_path, ([one()], [most("20 A")]), ([new], [asked])) == [
        ("words", "name", "shop.r", "shop.renamed", 2)
    ]


def test_rules_that_became_one_are_withdrawn_and_say_where_they_went(tmp_path: Path) -> None:
    other = one() | {"id": "shop.s"}
    old = [one(), other], [most("20 A"), most("16 A") | {"rule": "shop.s"}]
    new = one() | {"id": "shop.whole", "was": ["shop.r", "shop.s"]}
    seen = found(tmp_path, old, ([new], [most("20 A") | {"rule": "shop.whole"}]))
    merged = [(each.about, each.before, each.after, each.part) for each in seen.changes if each.what == "merged"]
    assert merged == [("shop.whole", each, "shop.whole", 2) for each in ("shop.r", "shop.s")]
    whole = {(each.how, each.about) for each in seen.changes if each.what == "rule"}
    assert whole == {("withdrawn", "shop.r"), ("withdrawn", "shop.s"), ("added", "shop.whole")}
    assert {each.before for each in seen.changes if each.how == "withdrawn" and each.what == "provision"} <= {
        "most 20 A",
        "most 16 A",
    }


def test_a_rule_that_stays_beside_the_one_it_became_part_of_is_itself(tmp_path: Path) -> None:
    new = one() | {"id": "shop.whole", "was": "shop.r"}
    seen = found(tmp_path, ([one()], [most("20 A")]), ([one(), new], [most("20 A")]))
    assert [(each.how, each.what, each.about) for each in seen.changes] == [("added", "rule not asked", "shop.whole")]


def test_a_nearer_layer_that_asks_more(tmp_path: Path) -> None:
    old = {"common": [most("20 A")], "us": []}
    new = {"common": [most("20 A")], "us": [most("16 A")]}
    (change,) = found(tmp_path, ([one()], old), ([one()], new)).changes
    assert (change.how, change.what, change.layer, change.name) == ("tightened", "nearer", "us", "common")
    (back,) = found(tmp_path / "back", ([one()], new), ([one()], old)).changes
    assert (back.how, back.what, back.before, back.after) == ("relaxed", "farther", "most 16 A", "most 20 A")


@pytest.mark.parametrize(
    "near, how, before, after",
    [
        (most("16 A"), "tightened", "most 20 A", "most 16 A"),
        (most("25 A"), "relaxed", "most 20 A", "most 25 A"),
        (most("20 A", source="norm"), "sources", "most 20 A", "most 20 A"),
    ],
)
def test_a_new_layer_is_held_against_what_the_same_authority_asks_above(
    near: Part, how: str, before: str, after: str, tmp_path: Path
) -> None:
    """Though the whole layer is new, its provisions replace what stood in the layer that it extends."""
    found_ = found(tmp_path, ([one()], [most("20 A")]), ([one()], {"common": [most("20 A")], "us": [near]}))
    (change,) = (each for each in found_.changes if each.about)
    assert (change.how, change.what, change.name, change.before, change.after) == (
        how,
        "nearer",
        "common",
        before,
        after,
    )
    page = " ".join(drawn(found_, "old", "new").split())
    asked, replaced = (said.replace("most", "at most") for said in (after, before))
    assert f"asks {asked} here" in page
    assert ("the same as in layer common" if before == after else f"in place of {replaced} in layer common") in page


def test_of_several_limits_those_that_stay_are_not_repeated(tmp_path: Path) -> None:
    held = one("circuit.breaker <= limit.most and circuit.length <= limit.far",
               limit={"most": "current", "far": "length"})  # fmt: skip
    far, near = (asks("r", limit={"most": value, "far": "5 m"}) for value in ("20 A", "16 A"))
    (change,) = found(
        tmp_path, ([held], {"common": [far], "us": []}), ([held], {"common": [far], "us": [near]})
    ).changes
    assert (change.how, change.before, change.after) == ("tightened", "most 20 A", "most 16 A")


def test_where_the_way_is_not_to_be_told_both_values_stand(tmp_path: Path) -> None:
    held = one("circuit.breaker == limit.most")
    old, new = {"common": [most("20 A")], "us": []}, {"common": [most("20 A")], "us": [most("16 A")]}
    found_ = found(tmp_path, ([held], old), ([held], new))
    assert [(each.how, each.before, each.after) for each in found_.changes] == [("changed", "most 20 A", "most 16 A")]
    assert "Changed; which way cannot be told" in drawn(found_, "old", "new")


REMEMBERED = {"ref": "act", "clause": "7", "status": "memory"}


@pytest.mark.parametrize(
    "source, told, not_told",
    [
        (REMEMBERED, "Source Workshop Act, 1999; from memory, to be confirmed", "1999, 7"),
        (REMEMBERED | {"status": "verified"}, "Source Workshop Act, 1999, 7; read in the source itself", "confirmed"),
        (REMEMBERED | {"status": "secondary"}, "1999, 7; read in another's account of it", "confirmed"),
        ("common practice", "Source common practice", "confirmed"),
    ],
)
@pytest.mark.parametrize("before", [[], [most("20 A")]])
def test_a_value_is_told_with_its_source_and_how_it_is_known(
    source: Part | str, told: str, not_told: str, before: list[Part], tmp_path: Path
) -> None:
    page = drawn(found(tmp_path, ([one()], before), ([one()], [most("16 A", source=source)])), "old", "new")
    of_value = " ".join(page.partition("Sources, and how")[0].split())
    assert told in of_value
    assert not_told not in of_value


def test_another_clause_from_memory_is_told_without_its_letters(tmp_path: Path) -> None:
    old, new = (most("20 A", source=REMEMBERED | {"clause": clause}) for clause in ("7", "8"))
    found_ = found(tmp_path, ([one()], [old]), ([one()], [new]))
    assert [(each.how, each.what, each.before) for each in found_.changes] == [
        ("sources", "clause", "Workshop Act, 1999")
    ]
    assert "another clause of Workshop Act, 1999, remembered only" in " ".join(drawn(found_, "old", "new").split())


def test_a_new_rule_is_told_with_what_it_asks_of_what_and_never_as_asking_nothing(tmp_path: Path) -> None:
    held = one(when="circuit.dedicated", severity="minor", acts="electrician")
    page = drawn(found(tmp_path, ([], []), ([held], [most("20 A")])), "old", "new")
    told = " ".join(page.split())
    assert "Severity minor, for the electrician Each circuit When circuit.dedicated Requires circuit.breaker" in told
    assert "no site is asked" not in told
    assert "Nobody asks it" not in told
    back = drawn(found(tmp_path / "back", ([held], [most("20 A")]), ([], [])), "old", "new")
    assert "no site is asked" not in " ".join(back.split())


def test_a_new_rule_that_nobody_asks_says_so(tmp_path: Path) -> None:
    found_ = found(tmp_path, ([], []), ([one()], []))
    assert [(each.how, each.what, each.part) for each in found_.changes] == [("added", "rule not asked", 2)]
    assert "Nobody asks it, so it is in force nowhere" in " ".join(drawn(found_, "old", "new").split())


CODE: Part = {"authority": "fire code", "source": "fire-code"}


def page(folder: Path, old: Any, new: Any) -> str:
    """What is drawn, on one line."""
    return " ".join(drawn(found(folder, ([one()], old), ([one()], new)), "old", "new").split())


@pytest.mark.parametrize(
    "limit, told",
    [
        ("16 A", "most 16 A beside 20 A, stricter"),
        ("25 A", "most 25 A beside 20 A, laxer; 20 A governs"),
        ("20 A", "most 20 A in both"),
    ],
)
def test_what_others_ask_stands_beside_what_came_limit_by_limit(limit: str, told: str, tmp_path: Path) -> None:
    law, code = most("20 A", **LAW), most(limit, **CODE)
    new = {"common": [law], "us": [code], "gb": []}
    (change,) = found(tmp_path / "a", ([one()], [law]), ([one()], new)).changes[2:]
    assert [(each.provision.authority, each.provision.layer) for each in change.beside] == [("workplace law", "common")]
    assert change.silenced == ()
    assert f"Also asked by workplace law (common): at most 20 A - {told}" in page(tmp_path / "b", [law], new)


@pytest.mark.parametrize(
    "limit, how, told",
    [
        ("20 A", "relaxed", "most 20 A in place of 16 A, laxer"),
        ("10 A", "added", "most 10 A in place of 16 A, stricter"),
        ("16 A", "added", "most 16 A in both"),
    ],
)
def test_what_is_silenced_is_compared_limit_by_limit(limit: str, how: str, told: str, tmp_path: Path) -> None:
    old, new = {"common": [most("16 A")]}, {"common": [most("16 A"), most(limit, **LAW)]}
    found_ = found(tmp_path, ([one()], old), ([one()], new))
    (change,) = found_.changes
    assert (change.how, change.beside) == (how, ())
    assert [each.provision.authority for each in change.silenced] == ["good practice"]
    assert f"Silences good practice (common): at most 16 A - {told}" in " ".join(drawn(found_, "old", "new").split())


def test_all_that_is_silenced_is_named(tmp_path: Path) -> None:
    """A law for all regions silences what each of them advises; what was silent before is not told again."""
    advised = {"common": [most("16 A")], "gb": [most("12 A")], "us": [most("10 A")]}
    silent = {"common": [most("16 A"), most("25 A", **CODE)], "gb": [most("12 A")], "us": [most("10 A")]}
    law = most("20 A", **LAW)
    for number, (old, names) in enumerate([(advised, ["common", "gb", "us"]), (silent, [])]):
        new = {**old, "common": [*old["common"], law]}
        (change,) = found(tmp_path / str(number), ([one()], old), ([one()], new)).changes
        assert [each.provision.layer for each in change.silenced] == names


def test_good_practice_is_heard_again_where_what_silenced_it_went(tmp_path: Path) -> None:
    old = [most("16 A"), most("20 A", **LAW)]
    (change,) = found(tmp_path / "a", ([one()], old), ([one()], old[:1])).changes
    assert change.how == "tightened"
    told = page(tmp_path / "b", old, old[:1])
    assert "Heard again: good practice (common): at most 16 A - most 16 A in place of 20 A, stricter" in told


def test_two_that_come_at_once_both_silence(tmp_path: Path) -> None:
    old = [most("16 A")]
    both = found(tmp_path, ([one()], old), ([one()], [*old, most("20 A", **LAW), most("12 A", **CODE)])).changes
    assert [(each.authority, [one.provision.authority for one in each.silenced]) for each in both] == [
        ("fire code", ["good practice"]),
        ("workplace law", ["good practice"]),
    ]


FROM: Part = {"from": "2027-01-01"}


@pytest.mark.parametrize(
    "old, new, told",
    [
        ([], [most("20 A", **FROM)], "In force from 1 January 2027 Until then nobody asks it"),
        ([], [most("20 A", until="2027-03-31")], "In force until 31 March 2027 After that nobody asks it"),
        (
            [most("20 A", **LAW)],
            [most("20 A", **LAW), most("16 A", **CODE, **FROM)],
            "In force from 1 January 2027 Until then workplace law (common) without it",
        ),
        (
            [most("16 A")],
            [most("16 A"), most("20 A", **LAW, **FROM)],
            "In force from 1 January 2027 Until then good practice (common): at most 16 A Silences good practice",
        ),
        ([most("20 A", **FROM)], [most("16 A", **FROM)], "asks at most 16 A, before 20 A"),
        ([most("20 A", **FROM)], [most("16 A", **FROM)], "In force from 1 January 2027 Until then nobody asks it"),
        (
            [most("20 A", **FROM)],
            [most("20 A", **{"from": "2027-02-01"})],
            "Relaxed - shop.r: good practice asks it from 1 February 2027, before from 1 January 2027",
        ),
        (
            [most("20 A", until="2026-12-31")],
            [most("20 A", until="2026-12-31"), most("16 A", **FROM)],
            "good practice asks at most 16 A from 1 January 2027; until then at most 20 A",
        ),
        ([most("20 A", **FROM)], [], "Source common practice In force from 1 January 2027"),
    ],
)
def test_days_are_told_in_words_with_what_stands_until_then(
    old: list[Part], new: list[Part], told: str, tmp_path: Path
) -> None:
    assert told in page(tmp_path, old, new)


def test_a_nearer_one_that_begins_later_is_told_with_its_day(tmp_path: Path) -> None:
    far = most("20 A", **LAW)
    told = page(tmp_path, {"common": [far], "us": []}, {"common": [far], "us": [most("16 A", **LAW, **FROM)]})
    assert "workplace law asks at most 16 A here, in place of at most 20 A in layer common" in told
    assert "In force from 1 January 2027 Until then workplace law (common): at most 20 A" in told


def test_a_note_on_a_value_stands_with_it(tmp_path: Path) -> None:
    law = most("20 A", authority="workplace law", source={"ref": "act", "status": "verified", "note": "It says 20."})
    assert "read in the source itself Note It says 20." in page(tmp_path / "a", [], [law])
    told = page(tmp_path / "b", [law], [law, most("16 A", **CODE)])
    assert "Also asked by workplace law (common): at most 20 A Note It says 20. - most 16 A" in told


def test_a_limit_that_no_comparison_bounds_is_told_as_it_is(tmp_path: Path) -> None:
    held = one("circuit.length * limit.factor <= circuit.length and circuit.breaker <= limit.walk",
               limit={"factor": "number", "walk": "current"})  # fmt: skip
    asked = asks("r", limit={"factor": 2, "walk": "20 A"})
    told = drawn(found(tmp_path, ([held], []), ([held], [asked])), "old", "new")
    assert "asks factor 2, walk at most 20 A" in told


def test_the_content_comes_first_and_what_stays_is_one_line_at_the_end(tmp_path: Path) -> None:
    layers = {"common": [most("20 A")], "gb": [], "us": []}
    page = drawn(found(tmp_path, ([one()], layers), ([one()], layers | {"us": [most("16 A")]})), "old", "new")
    assert page.splitlines()[2] == "us: Layer us"
    assert page.index("Tightened") < page.index("Versions")
    assert page.endswith("Nothing changed in common, gb.\n")
    assert page.count("othing changed") == 1


def test_a_row_of_a_table_goes_its_way(tmp_path: Path) -> None:
    require = "circuit.breaker <= table.t.most(circuit.length)"
    shape = {"keys": {"run": "length"}, "columns": {"most": "current"}}
    held = one(require, limit={}, table={"t": shape})
    given = asks("r", table={"t": "rows"})
    rows = [{"run": {"to": "5 m"}, "most": "20 A"}, {"run": {"over": "5 m"}, "most": "16 A"}]
    alone = [{"id": "rows", **shape, "rows": [{"run": "3 m", "most": "20 A"}, rows[1]]}]
    tables = [{"id": "rows", **shape, "rows": rows}]
    less = [{"id": "rows", **shape, "rows": [rows[0] | {"most": "10 A"}, rows[1]]}]
    fewer = [{"id": "rows", **shape, "rows": rows[:1]}]
    books = [rulebook(tmp_path / str(n), [held], [given], each) for n, each in enumerate((tables, less, fewer, alone))]
    (lowered,) = diff(books[0], books[1]).changes
    assert (lowered.how, lowered.what, lowered.name) == ("tightened", "row", "rows (run <= 5 m)")
    assert (lowered.before, lowered.after, lowered.part) == ("most 20 A", "most 10 A", 1)
    (gone,) = diff(books[0], books[2]).changes
    assert (gone.how, gone.name, gone.before) == ("withdrawn", "rows (run > 5 m)", "most 16 A")
    named = {change.name for change in diff(books[0], books[3]).changes}
    assert named == {"rows (run <= 5 m)", "rows (run 3 m)"}


@pytest.mark.parametrize(
    "version, limit, title, enough, least",
    [
        ("2.0", "16 A", "Layer common", True, "2.0"),
        ("1.9", "16 A", "Layer common", False, "2.0"),
        ("1.1", "20 A", "Another title", True, "1.1"),
        ("1.0", "20 A", "Another title", False, "1.1"),
        ("1.0", "20 A", "Layer common", True, "1.0"),
        ("0.9", "20 A", "Layer common", False, "1.0"),
        ("3.0", "20 A", "Layer common", True, "1.0"),
    ],
)
def test_the_part_of_the_version_that_must_rise(
    version: str, limit: str, title: str, enough: bool, least: str, tmp_path: Path
) -> None:
    old = rulebook(tmp_path / "old", [one()], [most("20 A")])
    new = rulebook(tmp_path / "new", [one()], [most(limit)], version=version, title=title)
    (found,) = diff(old, new).versions
    assert (found.enough, found.least) == (enough, least)


SHIPPED = read_rulesets(shipped.rulesets())
DAY = dt.date(2026, 11, 25)


@cache
def sites() -> tuple[Site, ...]:
    return tuple(read_site(read_file(path)) for path in sorted(shipped.sites().glob("*.yaml")))


def outcomes(book: Rulebook) -> list[tuple[str, str]]:
    """Every finding of every demonstration site with its outcome."""
    results = (check(site, book, region=None, as_of=DAY, program_version="0") for site in sites())
    return sorted((each.id, each.outcome) for result in results for each in result.findings)


UNCHANGED = outcomes(SHIPPED)


def edition(**changed: Any) -> Rulebook:
    return replace(SHIPPED, **changed)


def other_limit(number: int, factor: Decimal) -> Rulebook:
    """The shipped rulebook with the limits of one provision scaled."""
    held = list(SHIPPED.all_provisions)
    scaled = {
        name: replace(limit, value=limit.value * factor, written=f"{limit.written} times {factor}")
        for name, limit in held[number].limit.items()
        if isinstance(limit.value, Decimal)
    }
    held[number] = replace(held[number], limit={**held[number].limit, **scaled})
    return edition(all_provisions=tuple(held))


def without(number: int) -> Rulebook:
    """The shipped rulebook with one provision less."""
    held = list(SHIPPED.all_provisions)
    del held[number]
    return edition(all_provisions=tuple(held))


def moved(number: int, until: dt.date) -> Rulebook:
    """The shipped rulebook with one provision that ends."""
    held = list(SHIPPED.all_provisions)
    held[number] = replace(held[number], until=until)
    return edition(all_provisions=tuple(held))


def again(number: int, layer: str) -> Rulebook:
    """The shipped rulebook with one provision said again in another layer, where its authority says nothing yet."""
    held: Provision = replace(SHIPPED.all_provisions[number], layer=layer)
    if any((each.rule, each.authority, each.layer) == (held.rule, held.authority, layer)
           for each in SHIPPED.all_provisions):  # fmt: skip
        return edition()
    return edition(all_provisions=(*SHIPPED.all_provisions, held))


NUMBERS = st.integers(0, len(SHIPPED.all_provisions) - 1)
FACTORS = st.sampled_from([Decimal("0.2"), Decimal("0.9"), Decimal("1.5"), Decimal(9)])
LAST_DAYS = st.sampled_from([DAY, DAY - dt.timedelta(1), dt.date(2030, 1, 1)])
EDITIONS = st.one_of(
    st.tuples(st.just(other_limit), NUMBERS, FACTORS),
    st.tuples(st.just(without), NUMBERS),
    st.tuples(st.just(moved), NUMBERS, LAST_DAYS),
    st.tuples(st.just(again), NUMBERS, st.sampled_from(["us", "gb", "common"])),
)
"""How an edition is made of the shipped one."""


def made(recipe: tuple[Any, ...]) -> Rulebook:
    make, *arguments = recipe
    return cast(Rulebook, make(*arguments))


@settings(max_examples=40)
@given(EDITIONS)
def test_where_an_outcome_moves_a_version_has_to_rise_in_its_first_part(recipe: tuple[Any, ...]) -> None:
    """The checker itself is the oracle: what is told to be words or sources only changes no finding."""
    new = made(recipe)
    found = diff(SHIPPED, new)
    if outcomes(new) != UNCHANGED:
        assert any(version.rises == 1 and not version.enough for version in found.versions)


@settings(max_examples=20)
@given(EDITIONS)
def test_the_way_back_is_the_way_there_turned_round(recipe: tuple[Any, ...]) -> None:
    new = made(recipe)
    there, back = diff(SHIPPED, new), diff(new, SHIPPED)
    assert sorted(_turned(each) for each in there.changes) == sorted(_said(each) for each in back.changes)
    assert [each.rises for each in there.versions] == [each.rises for each in back.versions]


TWINS = {"nearer": "farther", "farther": "nearer"}


def _said(change: Change) -> tuple[str, ...]:
    return change.how, change.what, change.layer, change.about, change.name, change.before, change.after


def _turned(change: Change) -> tuple[str, ...]:
    how, what = TURNED.get(change.how, change.how), TWINS.get(change.what, change.what)
    return how, what, change.layer, change.about, change.name, change.after, change.before


@settings(max_examples=20)
@given(EDITIONS)
def test_every_change_has_words_within_the_page(recipe: tuple[Any, ...]) -> None:
    page = drawn(diff(SHIPPED, made(recipe)), "old", "new")
    assert all(len(line) <= 80 for line in page.splitlines())
    assert "{" not in page


def test_the_same_is_no_change() -> None:
    found = diff(SHIPPED, read_rulesets(shipped.rulesets()))
    assert found.changes == ()
    assert all(version.enough and version.rises == 0 for version in found.versions)
    assert "nothing changed" in drawn(found, "old", "new")


def test_the_drawn_editions_do_move_outcomes() -> None:
    """The law above is tried by editions that do something, and by some that do nothing."""
    drawn_ones = [made(recipe) for number in range(0, 60, 12) for recipe in ((without, number), (again, number, "us"))]
    moved_by = [outcomes(each) != UNCHANGED for each in drawn_ones]
    assert any(moved_by)
    assert not all(moved_by)
