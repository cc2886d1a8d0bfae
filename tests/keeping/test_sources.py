"""Who uses which source with which status, by the files themselves."""

from pathlib import Path

import pytest

from checker import shipped
from checker.keeping.sources import sources_of
from checker.quantities import catalogue
from checker.rules import read_rulesets
from tests.rules.shelf import RIGHT, read, spoilt

FIRE, US = "common/fire.yaml", "us/fire.yaml"
UNUSED = {"us/sources.yaml": "sources:\n  - {id: act-2, kind: law, designation: Act 2, title: Nobody uses it}\n"}
MEMORY = (US, 'ref: code-7, clause: "906.3", status: secondary, read_in: state text', "ref: code-7, status: memory")


def test_each_source_with_what_rests_on_it(tmp_path: Path) -> None:
    found = sources_of(read(tmp_path / "rulesets", {**RIGHT, **UNUSED}))
    assert [(each.source.id, [one.rule for one in each.provisions]) for each in found.used] == [
        ("act-1", ["fire.walk", "fire.walk"]),
        ("code-7", ["fire.walk-by-level"]),
    ]
    assert [str(one.from_) for one in found.used[0].provisions] == ["None", "2027-01-01"]
    assert [(one.rule, one.layer) for one in found.common_practice] == [("fire.walk", "common")]
    assert [each.id for each in found.unused] == ["act-2"]
    assert found.to_confirm == ()
    assert found.by_status == {"verified": 2, "secondary": 1, "memory": 0, "common practice": 1}


def test_what_is_from_memory_is_a_list_of_its_own_with_the_formulas(tmp_path: Path) -> None:
    book = read(tmp_path / "rulesets", spoilt(MEMORY))
    for found in (sources_of(book), sources_of(book, "memory")):
        assert [one.rule for one in found.to_confirm] == ["fire.walk-by-level"]
        remembered = [each.name for each in catalogue() if each.status == "memory"]
        assert [each.name for each in found.formulas_to_confirm] == remembered != []


@pytest.mark.parametrize(
    "status, used, practice",
    [("verified", ["act-1"], 0), ("secondary", ["code-7"], 0), ("memory", [], 0), ("common practice", [], 1)],
)
def test_one_status_leaves_out_all_else(tmp_path: Path, status: str, used: list[str], practice: int) -> None:
    found = sources_of(read(tmp_path / "rulesets"), status)  # type: ignore[arg-type]
    assert [each.source.id for each in found.used] == used
    assert len(found.common_practice) == practice
    assert found.unused == ()
    if status != "memory":
        assert found.formulas_to_confirm == ()


def test_every_shipped_provision_stands_in_one_place() -> None:
    book = read_rulesets(shipped.rulesets())
    found = sources_of(book)
    told = [one for each in found.used for one in each.provisions] + list(found.common_practice)
    assert sorted(map(id, told)) == sorted(map(id, book.all_provisions))
    assert sum(found.by_status.values()) == len(book.all_provisions)
