"""What another edition does at sites: the same as judging each site twice by hand, with the change it comes from."""

import datetime as dt
import shutil
import time
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from msgspec.structs import replace

from checker import cli, shipped
from checker.findings.check import check
from checker.keeping.impact import Impact, Move, impact, sites_below
from checker.reading import read_text
from checker.report.impact import impact as drawn
from checker.rules import Rulebook, read_rulesets
from checker.site import Site, read_site
from tests.findings.workshop import Part, asks, rule, rulebook

DAY = dt.date(2026, 11, 25)
MOST: Part = {"require": "circuit.breaker <= limit.most", "limit": {"most": "current"}}
UNIT = "id: unit\nregion: gb\ncircuits:\n  - {id: a, breaker: 18 A}\n  - {id: b, breaker: 30 A}\n  - {id: c}\n"


def one(**changed: Any) -> Part:
    return rule("r", "circuit", **{**MOST, **changed})


def most(value: str, **more: Any) -> Part:
    return asks("r", limit={"most": value}, **more)


def site(text: str = UNIT) -> Site:
    return read_site(read_text(text, "unit.yaml"))


def found(old: Rulebook, new: Rulebook, *sites: Site) -> Impact:
    return impact(sites or (site(),), old, new, as_of=DAY)


def moves(folder: Path, old: Any, new: Any) -> tuple[Move, ...]:
    """What moves at one site from one pair of (rules, provisions) to another."""
    (judged,) = found(rulebook(folder / "old", *old), rulebook(folder / "new", *new)).judged
    return judged.moves


def told(found: tuple[Move, ...]) -> list[tuple[str, str, str]]:
    return [(move.subject, move.before, move.after) for move in found]


@pytest.mark.parametrize(
    "old, new, expected, why",
    [
        ([most("20 A")], [most("16 A")], [("circuit a", "met", "not met")], ["limit"]),
        ([most("16 A")], [most("20 A")], [("circuit a", "not met", "met")], ["limit"]),
        ([most("20 A")], [most("40 A")], [("circuit b", "not met", "met")], ["limit"]),
        ([most("20 A")], [most("20 A", source="act", authority="workplace law")], [], []),
        (
            [most("20 A")],
            [],
            [
                ("circuit b", "not met", "not asked"),
                ("circuit c", "undetermined", "not asked"),
                ("circuit a", "met", "not asked"),
            ],
            ["provision"],
        ),
        (
            [most("20 A")],
            [most("20 A"), most("16 A", source="act", authority="workplace law")],
            [("circuit a", "met", "not met")],
            ["provision"],
        ),
        (
            [most("20 A")],
            [most("20 A", until="2026-06-30"), most("16 A", **{"from": "2026-07-01"})],
            [("circuit a", "met", "not met")],
            ["edition", "until"],
        ),
        ([most("20 A")], [most("20 A", until="2026-12-31"), most("16 A", **{"from": "2027-01-01"})], [], []),
    ],
)
def test_a_finding_that_comes_out_otherwise_names_the_change(
    old: list[Part], new: list[Part], expected: list[Any], why: list[str], tmp_path: Path
) -> None:
    got = moves(tmp_path, ([one()], old), ([one()], new))
    assert told(got) == expected
    assert all(sorted(change.what for change in move.why) == why for move in got)


def test_a_change_of_the_rule_is_the_reason(tmp_path: Path) -> None:
    (move,) = moves(
        tmp_path, ([one()], [most("18 A")]), ([one(require="circuit.breaker < limit.most")], [most("18 A")])
    )
    assert (move.subject, [change.what for change in move.why]) == ("circuit a", ["expression"])


def test_what_is_asked_elsewhere_is_no_reason(tmp_path: Path) -> None:
    """Both layers change; only the layer that spoke at this site is named."""
    old = {"common": [most("20 A")], "us": [most("20 A")]}
    new = {"common": [most("16 A")], "us": [most("10 A")]}
    (move,) = moves(tmp_path, ([one()], old), ([one()], new))
    assert [(change.layer, change.after) for change in move.why] == [("common", "16 A")]


def shifts(folder: Path, old: Any, new: Any) -> list[tuple[str, str, str, str]]:
    """What shifts at one site: subject, outcome, the governing limit before and now."""
    (judged,) = found(rulebook(folder / "old", *old), rulebook(folder / "new", *new)).judged
    return [
        (one.subject, one.outcome, *(str(dict(side.limits)["most"].as_written) for side in (one.before, one.after)))
        for one in judged.shifts
    ]


@pytest.mark.parametrize(
    "new, expected",
    [
        ([most("19 A")], [("circuit a", "met"), ("circuit b", "not met"), ("circuit c", "undetermined")]),
        ([most("16 A")], [("circuit b", "not met"), ("circuit c", "undetermined")]),
        ([most("20000 mA")], []),
        ([most("20 A", source="act", authority="workplace law")], []),
        ([most("20 A"), most("19 A", source="act", authority="workplace law")],
         [("circuit a", "met"), ("circuit b", "not met"), ("circuit c", "undetermined")]),
        ([], []),
    ],
)  # fmt: skip
def test_what_keeps_its_outcome_by_another_limit_is_listed_apart(
    new: list[Part], expected: list[tuple[str, str]], tmp_path: Path
) -> None:
    written = new[-1]["limit"]["most"] if new else ""
    assert shifts(tmp_path, ([one()], [most("20 A")]), ([one()], new)) == [
        (*each, "20 A", written) for each in expected
    ]


def test_another_margin_by_the_same_limit_is_a_shift_too(tmp_path: Path) -> None:
    old, new = ([one(require=f"circuit.breaker * {times} <= limit.most")] for times in (1, "1.1"))
    (judged,) = found(*(rulebook(tmp_path / name, rules, [most("20 A")]) for name, rules in (("a", old), ("b", new))))\
        .judged  # fmt: skip
    assert [(one.subject, one.why[0].what) for one in judged.shifts] == [
        ("circuit a", "expression"), ("circuit b", "expression"),
    ]  # fmt: skip
    margins = [(one.before.margin, one.after.margin) for one in judged.shifts]
    assert [tuple(each and each.value for each in both) for both in margins] == [
        (Decimal(2), Decimal("0.2")), (Decimal(-10), Decimal(-13)),
    ]  # fmt: skip


TWO: Part = {
    "require": "circuit.breaker <= limit.most and circuit.other_load <= limit.load",
    "limit": {"most": "current", "load": "current"},
}
LOADED = "id: unit\nname: The unit\nregion: gb\ncircuits:\n  - {id: a, breaker: 30 A, other_load: 30 A}\n"


def page(*books: Rulebook, sites: str = UNIT, region: str | None = None) -> str:
    """What is drawn of the change, on one line."""
    got = impact([site(sites)], *books, as_of=DAY, region=region)
    return " ".join(drawn(got, "old", "new", DAY).split())


def test_the_margins_of_two_limits_never_stand_beside_each_other(tmp_path: Path) -> None:
    """5 A over one limit is no less than 20 A over the other: where another part decides, that is said."""
    old, new = (
        rulebook(tmp_path / name, [one(**TWO)], [asks("r", limit=limit)])
        for name, limit in (("a", {"most": "10 A", "load": "25 A"}), ("b", {"most": "25 A", "load": "10 A"}))
    )
    told = page(old, new, sites=LOADED)
    assert "now other load decides, 20 A too much" in told
    assert "too much, before" not in told
    same = rulebook(tmp_path / "c", [one(**TWO)], [asks("r", limit={"most": "5 A", "load": "25 A"})])
    assert "25 A too much, before 20 A too much" in page(old, same, sites=LOADED)


LAW: Part = {"authority": "workplace law", "source": "act"}


@pytest.mark.parametrize(
    "old, new, told",
    [
        ([], [most("20 A", **{"from": "2027-01-01"})], [("workplace law", True, "2027-01-01")]),
        ([most("20 A", **{"from": "2027-01-01"})], [], [("workplace law", True, "2027-01-01")]),
        ([most("20 A", **{"from": "2027-01-01"})], [most("16 A", **{"from": "2027-01-01"})],
         [("workplace law", True, "2027-01-01")]),
        ([], [most("20 A", until="2026-11-24")], [("workplace law", False, "2026-11-24")]),
        ([], [most("20 A", until="2026-11-25")], []),
        ([most("20 A")], [most("20 A", **{"from": "2027-01-01"})], []),
        ([most("20 A", until="2026-12-31")],
         [most("20 A", until="2026-12-31"), most("16 A", **{"from": "2027-01-01"})],
         [("workplace law", True, "2027-01-01")]),
    ],
)  # fmt: skip
def test_what_is_not_in_force_on_the_day_is_named_with_its_day(
    old: list[Part], new: list[Part], told: list[Any], tmp_path: Path
) -> None:
    books = [rulebook(tmp_path / name, [one()], [each | {"authority": "workplace law",
             "source": {"ref": "act", "status": "verified"}} for each in asked])
             for name, asked in (("old", old), ("new", new))]  # fmt: skip
    got = found(*books).not_shown
    assert [(each.authority, each.begins, str(each.day)) for each in got] == told
    for each in got:
        word = "begins" if each.begins else "ended"
        line = f"shop.r: what workplace law (common) ask{'s' if each.begins else 'ed'} {word} {each.day}, so it is "
        assert f"{line}not shown today; try --as-of {each.day}." in page(*books)


def test_what_is_asked_now_where_it_does_not_apply_is_only_counted(tmp_path: Path) -> None:
    text = UNIT.replace("breaker: 18 A", "breaker: 18 A, connection: socket")
    text = text.replace("breaker: 30 A", "breaker: 30 A, connection: hard-wired")
    held = one(when='circuit.connection == "socket"')
    nobody, law = (rulebook(tmp_path / str(n), [held], asked) for n, asked in enumerate(([], [most("20 A")])))
    for books in ((nobody, law), (law, nobody)):
        (judged,) = found(*books, site(text)).judged
        assert ("circuit b", judged.idle) not in [(move.subject, 1) for move in judged.moves]
        assert {move.subject for move in judged.moves} == {"circuit a", "circuit c"}
        assert judged.idle == 1
        assert "of what the rule does not apply to: 1. These are only counted." in page(*books, sites=text)


def test_by_which_layers_it_was_judged_before_is_said_where_they_are_others(tmp_path: Path) -> None:
    """A new region stands on what its layer says, whatever its code begins with."""
    layers = {"common": [most("20 A")], "gb": [most("19 A")]}
    old = rulebook(tmp_path / "old", [one()], layers)
    new = rulebook(tmp_path / "new", [one()], layers | {"gb-xq": [most("16 A")]})
    told = page(old, new, region="gb-xq")
    assert "Before, judged by common; now by gb-xq, common." in told
    assert "was met, is not met: 1" in told
    assert "Before, judged by" not in page(old, new)


def test_nothing_is_named_twice_in_a_line(tmp_path: Path) -> None:
    old, new = (rulebook(tmp_path / each, [one()], [most(each)]) for each in ("20 A", "16 A"))
    told = page(old, new, sites=UNIT.replace("id: unit", "id: unit\nname: The unit"))
    assert "Why Tightened in common: good practice asks at most 16 A, before 20 A Was" in told
    assert "- shop.r: a" in told
    bare = page(old, rulebook(tmp_path / "none", [one()], []), sites="id: unit\nname: The unit\nregion: gb\n")
    assert "- shop.r: the site as a whole" in bare
    assert "The unit (unit)" not in bare


@pytest.mark.parametrize(
    "region, without", [(None, ("gb-sct",)), ("gb-sct", ()), ("gb", ())],
)  # fmt: skip
def test_a_region_of_no_site_is_named_unless_one_was_chosen(
    region: str | None, without: tuple[str, ...], tmp_path: Path
) -> None:
    layers = {"common": [most("20 A")], "gb": [], "gb-sct": []}
    old, new = (rulebook(tmp_path / name, [one()], layers | {"gb-sct": asked})
                for name, asked in (("old", []), ("new", [most("16 A")])))  # fmt: skip
    got = impact([site()], old, new, as_of=DAY, region=region)
    assert (got.regions_without_site, got.not_laid) == (without, ())


def test_a_layer_for_any_region_that_was_not_laid_on_is_named() -> None:
    held = [replace(each, until=dt.date(2020, 1, 1)) if each.layer == "example-house" else each
            for each in SHIPPED.all_provisions]  # fmt: skip
    less = replace(SHIPPED, all_provisions=tuple(held))
    got = found(less, SHIPPED, *shipped_sites())
    assert (got.regions_without_site, got.not_laid) == ((), ("example-house",))
    assert found(less.with_layers(("example-house",)), SHIPPED.with_layers(("example-house",))).not_laid == ()


def test_a_rule_with_another_name_is_the_same_finding(tmp_path: Path) -> None:
    new = [one() | {"id": "shop.renamed", "was": "shop.r"}], [most("16 A") | {"rule": "shop.renamed"}]
    assert told(moves(tmp_path, ([one()], [most("20 A")]), new)) == [("circuit a", "met", "not met")]


def test_a_rule_that_breaks_is_told_apart_from_what_is_not_known(tmp_path: Path) -> None:
    broken = one(require="circuit.breaker / (limit.most - limit.most) <= 1")
    assert ("circuit a", "met", "rule broke") in told(
        moves(tmp_path, ([one()], [most("20 A")]), ([broken], [most("20 A")]))
    )


def test_laying_a_layer_on_is_told_by_who_asks_now(tmp_path: Path) -> None:
    held = rulebook(tmp_path, [one()], [most("20 A")])
    house = replace(held.layers["common"], name="ours", authorities=("house",), extends=None)
    lower = replace(held.all_provisions[0].limit["most"], value=Decimal(10), written="10 A")
    asked = replace(held.all_provisions[0], layer="ours", authority="house", limit={"most": lower})
    both = replace(held, layers={**held.layers, "ours": house}, all_provisions=(*held.all_provisions, asked))
    (judged,) = found(both, both.with_layers(("ours",))).judged
    (move,) = judged.moves
    assert (move.subject, move.after, move.why) == ("circuit a", "not met", ())
    assert (move.asked_now, move.asked_no_more) == ((("house", "ours"),), (("good practice", "common"),))


def test_a_site_without_region_is_not_judged_and_the_others_are(tmp_path: Path) -> None:
    old, new = (rulebook(tmp_path / each, [one()], [most(each)]) for each in ("20 A", "16 A"))
    got = found(old, new, site("id: nowhere\n"), site())
    assert [(each.site, len(each.moves)) for each in got.judged] == [("unit", 1)]
    assert [each.problems for each in got.not_judged] == [()]


SHIPPED = read_rulesets(shipped.rulesets())


@cache
def shipped_sites() -> tuple[Site, ...]:
    return sites_below(shipped.sites())[0]


def outcomes(book: Rulebook, of: Site) -> dict[tuple[str, str, str], str]:
    made = check(of, book, region=None, as_of=DAY, program_version="0")
    return {(each.rule, each.subject.kind, each.subject.id): each.outcome for each in made.findings}


@pytest.mark.parametrize("number", range(0, len(SHIPPED.all_provisions), 7))
def test_what_moves_is_what_judging_twice_shows(number: int) -> None:
    """The shipped rulesets without one provision, at the demonstration sites."""
    held = SHIPPED.all_provisions
    less = replace(SHIPPED, all_provisions=(*held[:number], *held[number + 1 :]))
    got = found(SHIPPED, less, *shipped_sites())
    for of, judged in zip(sorted(shipped_sites(), key=lambda each: each.document.file), got.judged, strict=True):
        before, after = outcomes(SHIPPED, of), outcomes(less, of)
        moved = {about for about in before | after if before.get(about) != after.get(about)}
        idle = {each for each in moved if {before.get(each), after.get(each)} == {None, "not applicable"}}
        assert judged.idle == len(idle)
        moved -= idle
        assert {(each.rule, *each.subject.split(" ", 1)) for each in judged.moves} == moved
        assert all(each.why and each.why[0].about == held[number].rule for each in judged.moves)


def many(folder: Path, count: int) -> Path:
    """So many sites: the demonstration sites again and again under other names."""
    folder.mkdir()
    texts = [(shipped.sites() / f"{name}.yaml").read_text(encoding="utf-8")
             for name in ("ridgeway-motorcycles", "harbour-lane-motors")]  # fmt: skip
    for number in range(count):
        text = texts[number % 2].replace("\nid: ", f"\nid: unit-{number}-", 1)
        (folder / f"{number:03}.yaml").write_text(text, encoding="utf-8")
    return folder


def run(*arguments: object) -> tuple[int, str]:
    done = CliRunner().invoke(cli.main, [*map(str, arguments), "--as-of=2026-11-25"], prog_name="checker")
    return done.exit_code, done.output


@pytest.fixture
def stricter(tmp_path: Path) -> Path:
    """The shipped rulesets, where one walk in the United States may be 20 ft and no more."""
    folder = Path(shutil.copytree(shipped.rulesets(), tmp_path / "stricter"))
    path = folder / "us" / "fire.yaml"
    text = path.read_text(encoding="utf-8")
    start = text.index("- rule: fire.class-a-walk\n")
    path.write_text(text[:start] + text[start:].replace("walk: 75 ft", "walk: 20 ft", 1), encoding="utf-8")
    return folder


def test_ten_sites_a_second_are_judged_by_both_editions(stricter: Path, tmp_path: Path) -> None:
    folder = many(tmp_path / "sites", 100)
    began = time.process_time()
    code, page = run("rules", "impact", stricter, "--sites", folder)
    assert time.process_time() - began < 10
    assert code == 0
    assert "Sites: 50 of 100." in page
    assert page.count("- fire.class-a-walk:") == 50


def test_the_page_says_what_at_which_site_and_why(stricter: Path) -> None:
    code, page = run("rules", "impact", stricter, "--sites", shipped.sites())
    assert code == 0
    assert "was met, is not met: 1" in page
    assert "Tightened in us: workplace law asks walk at most 20 ft, before 75 ft" in " ".join(page.split())
    assert "- fire.class-a-walk: Workshop (workshop), Tires and cardboard (tire-rack)" in page
    assert all(len(line) <= 80 for line in page.splitlines())


def test_the_page_tells_apart_what_stays_as_it_is_by_another_limit(stricter: Path) -> None:
    told = " ".join(run("rules", "impact", stricter, "--sites", shipped.sites())[1].split())
    sum_line, _, listed = told.partition("The same outcome, by another limit or with another margin:")
    assert "Findings that keep their outcome by another limit or with another margin: " in sum_line
    assert "No site lies in" not in sum_line
    assert "as before; asked walk 20 ft, before walk 75 ft (" in listed


def test_the_page_says_where_to_look_for_a_region_of_no_site(tmp_path: Path) -> None:
    folder = Path(shutil.copytree(shipped.rulesets(), tmp_path / "rulesets"))
    (folder / "gb-sct").mkdir()
    layer = 'name: gb-sct\ntitle: A part\nextends: gb\nversion: "1.0"\nauthorities: [good practice, standard]\n'
    (folder / "gb-sct" / "layer.yaml").write_text(layer, encoding="utf-8")
    asked = "provisions:\n  - {rule: fire.class-b-walk, authority: standard, limit: {walk: 8 m, rating: 1}, source: "
    (folder / "gb-sct" / "fire.yaml").write_text(f"{asked}{{ref: bs-5306-8, status: memory}}}}\n", encoding="utf-8")
    told = " ".join(run("rules", "impact", folder, "--sites", shipped.sites())[1].split())
    assert "No site lies in gb-sct, so what changes there shows nowhere: try --region gb-sct." in told
    told = " ".join(run("rules", "impact", folder, "--sites", shipped.sites(), "--region", "gb-sct")[1].split())
    assert "asked walk 8 m, before walk 10 m" in told
    assert "in place of walk at most 10 m in layer gb; from memory, to be confirmed" in told
    assert "No site lies in" not in told


def test_what_cannot_be_judged_is_a_line_and_not_the_end(stricter: Path, tmp_path: Path) -> None:
    folder = many(tmp_path / "sites", 2)
    (folder / "torn.yaml").write_text("id: torn\nregion: us\nrooms: [\n", encoding="utf-8")
    (folder / "below").mkdir()
    (folder / "below" / "nowhere.json").write_text('{"id": "nowhere"}', encoding="utf-8")
    (folder / "letter.txt").write_text("no site at all", encoding="utf-8")
    code, page = run("rules", "impact", stricter, "--sites", folder)
    assert code == 2
    assert "Sites: 1 of 2." in page
    _, _, refused = page.partition("Not judged: 2")
    assert "torn.yaml:4:1:" in "".join(refused.split())
    assert "names no region" in " ".join(refused.split())
    assert "letter" not in page


def test_a_layer_in_a_folder_of_its_own_is_laid_on_the_new_edition(tmp_path: Path) -> None:
    """What it would cost a shop to follow a house standard that nobody has yet."""
    ours = Path(shutil.copytree(shipped.rulesets() / "example-house", tmp_path / "ours"))
    for name, old, new in (("layer.yaml", "name: example-house", "name: ours"), ("sources.yaml", "millrace", "our")):
        path = ours / name
        path.write_text(path.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")
    for path in ours.glob("*.yaml"):
        text = path.read_text(encoding="utf-8").replace("ref: millrace", "ref: our")
        path.write_text(text.replace("house.co-alarm-stops-engine", "house.our-alarm"), encoding="utf-8")
    code, page = run("rules", "impact", shipped.rulesets(), "--sites", shipped.sites(), "--with", ours)
    assert code == 0
    assert "was not asked, is " in page
    assert "house.our-alarm: major, for the electrician" in page


@pytest.mark.parametrize("sites", ["none", "empty"])
def test_a_folder_without_a_site_is_refused(sites: str, stricter: Path, tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    code, page = run("rules", "impact", stricter, "--sites", tmp_path / sites)
    assert (code, "no site file in this folder" in page) == (2, True)
