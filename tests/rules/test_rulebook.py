"""Which provisions are in force: the nearest layer within one authority, authorities side by side, days inclusive."""

import datetime as dt
from pathlib import Path

import pytest

from checker.rules.rulebook import NoRegion, Rulebook
from tests.rules.shelf import read

DAY = dt.date(2026, 11, 25)
LAYERS = {
    "common": (None, "[guidance, good practice]"),
    "us": ("common", "[workplace law, fire code, guidance, good practice]"),
    "us-ca": ("us", "[workplace law, good practice]"),
    "gb": ("common", "[workplace law]"),
}


def rule(name: str) -> str:
    return f"""\
  - id: fire.{name}
    title: A walk
    reason: Fire.
    each: hazard
    require: hazard.walk_to_extinguisher("B", 1) <= limit.walk
    limit: {{walk: length}}
    severity: minor
    acts: shop
    closes_with: a photo
    cases: [{{given: {{}}, outcome: undetermined}}]
"""


def provision(name: str, authority: str, walk: int, **days: str) -> str:
    source = "common practice" if authority in ("good practice", "guidance") else "{ref: act-1, status: memory}"
    written = "".join(f", {key.rstrip('_')}: {day}" for key, day in days.items())
    return f"  - {{rule: fire.{name}, authority: {authority}, limit: {{walk: {walk} m}}, source: {source}{written}}}\n"


NAMES = ("both", "dated", "practice", "federal", "nobody", "guided", "gap")
HELD = {
    "common": [
        provision("both", "good practice", 1),
        provision("practice", "good practice", 2),
        provision("guided", "good practice", 3),
        provision("guided", "guidance", 4),
        provision("dated", "good practice", 5),
        provision("gap", "good practice", 6),
    ],
    "us": [
        provision("both", "workplace law", 10),
        provision("both", "fire code", 11),
        provision("dated", "workplace law", 12, until="2026-11-24"),
        provision("dated", "workplace law", 13, from_="2026-11-26", until="2026-12-31"),
        provision("dated", "workplace law", 14, from_="2027-01-01"),
        provision("federal", "workplace law", 15),
        provision("practice", "good practice", 16),
        provision("gap", "workplace law", 17),
    ],
    "us-ca": [
        provision("both", "workplace law", 20),
        provision("gap", "workplace law", 21, from_="2026-11-25", until="2026-11-25"),
    ],
    "gb": [provision("both", "workplace law", 30)],
}


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    folder: Path = tmp_path_factory.mktemp("shelf") / "rulesets"
    files = {"sources.yaml": "sources: [{id: act-1, kind: law, designation: Act, title: An act}]\n"}
    for name, (parent, authorities) in LAYERS.items():
        extends = f"extends: {parent}\n" if parent else ""
        files[f"{name}/layer.yaml"] = f'name: {name}\ntitle: T\n{extends}version: "1.0"\nauthorities: {authorities}\n'
        rules = "rules:\n" + "".join(map(rule, NAMES)) if name == "common" else ""
        files[f"{name}/fire.yaml"] = f"{rules}provisions:\n{''.join(HELD[name])}"
    return read(folder, files)


def asked(book: Rulebook, name: str, region: str, day: dt.date = DAY) -> dict[str, tuple[str, str]]:
    """What is in force, by authority: (layer, limit as written)."""
    return {
        each.authority: (each.layer, each.limit["walk"].written)
        for each in book.provisions(f"fire.{name}", region, day)
    }


def test_the_nearest_layer_replaces_the_farther_within_one_authority_only(book: Rulebook) -> None:
    assert asked(book, "both", "us") == {"fire code": ("us", "11 m"), "workplace law": ("us", "10 m")}
    assert asked(book, "both", "us-ca") == {"fire code": ("us", "11 m"), "workplace law": ("us-ca", "20 m")}
    assert asked(book, "both", "gb") == {"workplace law": ("gb", "30 m")}


def test_good_practice_speaks_only_where_no_other_does(book: Rulebook) -> None:
    assert asked(book, "both", "common") == {"good practice": ("common", "1 m")}
    assert asked(book, "practice", "gb") == {"good practice": ("common", "2 m")}
    assert asked(book, "practice", "us-ca") == {"good practice": ("us", "16 m")}
    assert asked(book, "guided", "us") == {"guidance": ("common", "4 m")}
    assert asked(book, "federal", "gb") == {}
    assert asked(book, "nobody", "us-ca") == {}


DATES = [
    ("2026-11-23", {"workplace law": ("us", "12 m")}),
    ("2026-11-24", {"workplace law": ("us", "12 m")}),
    ("2026-11-25", {"good practice": ("common", "5 m")}),
    ("2026-11-26", {"workplace law": ("us", "13 m")}),
    ("2026-12-31", {"workplace law": ("us", "13 m")}),
    ("2027-01-01", {"workplace law": ("us", "14 m")}),
    ("9999-12-31", {"workplace law": ("us", "14 m")}),
    ("0001-01-01", {"workplace law": ("us", "12 m")}),
]


@pytest.mark.parametrize("day, in_force", DATES)
def test_both_days_of_a_provision_belong_to_it(book: Rulebook, day: str, in_force: dict[str, tuple[str, str]]) -> None:
    assert asked(book, "dated", "us", dt.date.fromisoformat(day)) == in_force


@pytest.mark.parametrize("day, layer", [("2026-11-24", "us"), ("2026-11-25", "us-ca"), ("2026-11-26", "us")])
def test_a_nearer_layer_that_is_silent_on_a_day_replaces_nothing(book: Rulebook, day: str, layer: str) -> None:
    (spoken,) = asked(book, "gap", "us-ca", dt.date.fromisoformat(day)).values()
    assert spoken[0] == layer


REGIONS = [
    ("us", "us"), ("us-ca", "us-ca"), ("us-ca-oakland", "us-ca"), ("us-wa", "us"), ("gb-sct", "gb"), ("gb", "gb"),
    ("fr", "common"), ("de-by", "common"), ("usa", "common"), ("common", "common"),
]  # fmt: skip


@pytest.mark.parametrize("region, held", REGIONS)
def test_a_region_falls_back_to_the_nearest_that_is_held(book: Rulebook, region: str, held: str) -> None:
    assert book.held_region(region) == held
    assert book.provisions("fire.both", region, DAY) == book.provisions("fire.both", held, DAY)


@pytest.mark.parametrize("region", [None, ""])
def test_no_region_is_an_error_that_lists_those_held(book: Rulebook, region: str | None) -> None:
    with pytest.raises(NoRegion, match=r"^no region given; held are common, gb, us, us-ca$") as error:
        book.held_region(region)
    assert error.value.held == book.regions() == ("common", "gb", "us", "us-ca")


def test_a_chain_runs_from_the_nearest_to_the_one_all_extend(book: Rulebook) -> None:
    assert [layer.name for layer in book.chain("us-ca")] == ["us-ca", "us", "common"]
    assert [layer.name for layer in book.chain("common")] == ["common"]


def test_in_force_are_the_rules_that_someone_asks_for_in_the_order_of_ids(book: Rulebook) -> None:
    assert [rule.id for rule, _ in book.in_force("us", DAY)] == [
        "fire.both", "fire.dated", "fire.federal", "fire.gap", "fire.guided", "fire.practice",
    ]  # fmt: skip
    assert [rule.id for rule, _ in book.in_force("gb", DAY)] == [
        "fire.both", "fire.dated", "fire.gap", "fire.guided", "fire.practice",
    ]  # fmt: skip
    assert book.in_force("us", DAY)[0] == (book.rules["fire.both"], book.provisions("fire.both", "us", DAY))
