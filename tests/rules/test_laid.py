"""Layers of a house, an insurer, a landlord or a maker: laid on any region, never a region of their own."""

import datetime as dt
from pathlib import Path

import pytest

from checker.findings.check import check
from checker.findings.result import Finding
from checker.reading import Unreadable, read_file
from checker.rules import Rulebook, read_rulesets
from checker.rules.rulebook import NoLayer
from checker.site import read_site
from tests.rules.shelf import RIGHT, write

ROOT = Path(__file__).parents[2]
DAY = dt.date(2026, 11, 25)
SET_POINT = "ventilation.co-set-point"


@pytest.fixture(scope="module")
def book() -> Rulebook:
    return read_rulesets(ROOT / "rulesets")


def asked(book: Rulebook, rule: str, region: str, *laid: str) -> dict[str, str]:
    return {each.authority: each.layer for each in book.with_layers(laid).provisions(rule, region, DAY)}


def finding(book: Rulebook, name: str, *laid: str) -> Finding:
    site = read_site(read_file(ROOT / "sites" / "ridgeway-motorcycles.yaml"))
    result = check(site, book.with_layers(laid), region="us", as_of=DAY, program_version="0")
    return next(each for each in result.findings if each.id.endswith(name))


def test_they_are_no_regions(book: Rulebook) -> None:
    assert [name for name in book.regions() if name.startswith("example")] == []
    assert book.held_region("example-house") == "common"


@pytest.mark.parametrize("region", ["us", "gb", "us-ca", "fr"])
def test_a_house_speaks_in_every_region(book: Rulebook, region: str) -> None:
    assert "house" in asked(book, SET_POINT, region, "example-house")
    assert "house" not in asked(book, SET_POINT, region)


def test_an_insurer_stands_beside_the_law(book: Rulebook) -> None:
    both = asked(book, "fire.class-b-walk", "us", "example-insurer")
    assert both == {"insurer": "example-insurer", "workplace law": "us"}


def test_a_rule_that_only_a_house_asks_is_in_force_where_it_is_laid(book: Rulebook) -> None:
    assert asked(book, "house.co-alarm-stops-engine", "gb") == {}
    assert asked(book, "house.co-alarm-stops-engine", "gb", "example-house") == {"house": "example-house"}


def test_a_manual_replaces_common_practice_both_ways(book: Rulebook) -> None:
    rule = "compressed-air.accessory-supply"
    assert asked(book, rule, "us") == {"good practice": "common"}
    assert asked(book, rule, "us", "example-manual") == {"maker": "example-manual"}


def test_the_strictest_governs_and_all_are_cited(book: Rulebook) -> None:
    found = finding(book, "fire.extinguisher-clocks/extinguisher:fe-1", "example-house")
    others = [("house", False), ("standard", False)]
    assert [(each.authority, each.governs) for each in found.provisions] == [("workplace law", True), *others]
    stricter = finding(book, "ventilation.co-set-point/detector:co-cell", "example-house")
    assert [each.authority for each in stricter.provisions if each.governs] == ["house"]


def test_a_layer_that_is_not_held(book: Rulebook) -> None:
    with pytest.raises(NoLayer, match="no layer us to lay on a region; held are example-house"):
        book.with_layers(("us",))


HOUSE = {
    "layer.yaml": 'name: our-house\ntitle: Our house\nversion: "1.0"\nauthorities: [house]\n',
    "sources.yaml": "sources:\n  - {id: ours, kind: own standard, designation: Ours, title: Our standard}\n",
    "fire.yaml": (
        "provisions:\n  - {rule: fire.walk, authority: house, limit: {walk: 5 m, rating: 21}, "
        "source: {ref: ours, status: verified}}\n"
    ),
}


def test_a_folder_beside_the_rulesets(tmp_path: Path) -> None:
    rulesets = write(tmp_path / "rulesets", RIGHT)
    ours = write(tmp_path / "our-house", HOUSE)
    book = read_rulesets(rulesets, tmp_path / "cache", (ours,)).with_layers(("our-house",))
    (own,) = [each for each in book.all_provisions if each.authority == "house"]
    assert own.location.file == "our-house/fire.yaml"
    again = read_rulesets(rulesets, tmp_path / "cache", (ours,))
    assert again.all_provisions == book.all_provisions


def test_a_house_cannot_change_the_words_of_a_rule(tmp_path: Path) -> None:
    rulesets = write(tmp_path / "rulesets", RIGHT)
    words = RIGHT["common/fire.yaml"].replace("An extinguisher within reach", "An extinguisher somewhere")
    ours = write(
        tmp_path / "our-house",
        {**HOUSE, "fire.yaml": words[: words.index("provisions:")] if "provisions:" in words else words},
    )
    with pytest.raises(Unreadable) as caught:
        read_rulesets(rulesets, None, (ours,))
    assert any(
        "this rule stands already in rulesets/common/fire.yaml" in problem.says for problem in caught.value.problems
    )


def test_a_house_cannot_speak_as_the_law(tmp_path: Path) -> None:
    rulesets = write(tmp_path / "rulesets", RIGHT)
    ours = write(
        tmp_path / "our-house",
        {**HOUSE, "fire.yaml": HOUSE["fire.yaml"].replace("authority: house", "authority: workplace law")},
    )
    with pytest.raises(Unreadable) as caught:
        read_rulesets(rulesets, None, (ours,))
    assert [problem.says for problem in caught.value.problems] == ["this authority does not speak in layer our-house"]


def test_what_is_replaced_can_be_shown(book: Rulebook) -> None:
    laid = book.with_layers(("example-manual",))
    rule = "compressed-air.accessory-supply"
    assert [(each.authority, each.layer) for each in laid.not_heard(rule, "us", DAY)] == [("good practice", "common")]
    assert book.not_heard(rule, "us", DAY) == ()


def test_a_layer_with_two_parents_is_refused(tmp_path: Path) -> None:
    files = {**RIGHT, "common/layer.yaml": RIGHT["common/layer.yaml"] + "extends: [one, other]\n"}
    with pytest.raises(Unreadable) as caught:
        read_rulesets(write(tmp_path / "rulesets", files))
    (problem,) = caught.value.problems
    assert (problem.says, problem.found, problem.wanted) == (
        "a layer stands on one other",
        "a list",
        "the name of one layer",
    )
