"""A folder of rulesets as read: every fault told with its place, all at once; the same book from the same content."""

import datetime as dt
import os
from collections.abc import Iterator
from decimal import Decimal
from itertools import permutations
from pathlib import Path

import pytest
import yaml

from checker.reading import Unreadable
from checker.rules import read_rulesets
from checker.rules.tree import text
from tests.rules.shelf import RIGHT, problems, read, spoilt, told, write

COMMON, US = "common/fire.yaml", "us/fire.yaml"
COMMON_LAYER, US_LAYER, SOURCES = "common/layer.yaml", "us/layer.yaml", "sources.yaml"
Change = tuple[str, str, str]
OPEN = "this is still to be filled in"
FAULTS = yaml.safe_load(Path(__file__).with_name("bad").joinpath("faults.yaml").read_text(encoding="utf-8"))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "rulesets"


@pytest.mark.parametrize("case", FAULTS, ids=[case["name"] for case in FAULTS])
def test_a_fault_is_told_with_its_place_and_nothing_that_only_follows_from_it(
    folder: Path, case: dict[str, list[dict[str, str]]]
) -> None:
    files = spoilt(*((each["file"], each["old"], each["new"]) for each in case["change"]))
    assert [
        {"at": f"{file}:{line}:{column}", "says": says, "found": found, "write": wanted}
        for file, line, column, says, found, wanted in told(folder, files)
    ] == case["told"]


def test_what_is_right_can_be_read(folder: Path) -> None:
    book = read(folder)
    assert list(book.layers) == ["common", "us"]
    assert list(book.rules) == ["fire.walk", "fire.walk-by-level"]
    rule = book.rules["fire.walk"]
    assert (rule.layer, rule.topic, rule.location.line, rule.location.column) == ("common", "fire", 2, 5)
    assert text(rule.require_tree) == rule.require
    assert [(each.rule, each.layer, each.authority) for each in book.all_provisions] == [
        ("fire.walk", "common", "good practice"),
        ("fire.walk", "us", "workplace law"),
        ("fire.walk", "us", "workplace law"),
        ("fire.walk-by-level", "us", "fire code"),
    ]
    common, first, second, level = book.all_provisions
    assert (common.limit["walk"].value, common.limit["walk"].written) == (Decimal(15), "15 m")
    assert first.limit["walk"].value == Decimal("15.24")  # 50 × 0.3048 m, exact by the definition of the foot
    assert (first.from_, first.until, second.from_) == (None, dt.date(2026, 12, 31), dt.date(2027, 1, 1))
    assert (common.source.source, common.source.status) == (None, "common practice")
    assert level.source.source is not None
    assert (level.source.source.designation, level.source.clause, level.source.read_in) == (
        "Code 7",
        "906.3",
        "state text",
    )
    assert level.tables["near"].find(("ordinary",)).written == {"walk": "40 ft"}
    assert [each.topic for each in book.layers["us"].not_held] == ["noise"]


def test_the_bibliography_is_held_with_the_place_of_each_entry_used_or_not(folder: Path) -> None:
    files = {
        **RIGHT,
        "us/sources.yaml": "sources:\n  - {id: act-2, kind: law, designation: Act 2, title: Nobody uses it}\n",
    }
    held = {name: (source.location.file, source.location.line) for name, source in read(folder, files).sources.items()}
    assert held == {
        "act-1": ("rulesets/sources.yaml", 2),
        "code-7": ("rulesets/sources.yaml", 3),
        "act-2": ("rulesets/us/sources.yaml", 2),
    }


def test_what_a_template_left_open_is_named_place_by_place_with_what_belongs_there(folder: Path) -> None:
    files = spoilt(
        (COMMON, "title: An extinguisher within reach", "title: FILL_TITLE"),
        (COMMON, "{hazard.fire_class: A}", "{hazard.FILL_NAME: FILL_AT}"),
        (COMMON, "severity: major", "severity: FILL_SEVERITY"),
        (US_LAYER, "workplace law, fire code", "FILL_AUTHORITY"),
    )
    assert [(at, says, found, wanted) for at, _, _, says, found, wanted in told(folder, files)] == [
        (COMMON, OPEN, "FILL_TITLE", "one sentence: what is asked"),
        (COMMON, OPEN, "FILL_SEVERITY", "what can come of it, to people first, then to property"),
        (COMMON, OPEN, "hazard.FILL_NAME", "what is recorded, by name; what is not given is not recorded"),
        (COMMON, OPEN, "FILL_AT", "what is recorded, by name; what is not given is not recorded"),
        (US_LAYER, OPEN, "FILL_AUTHORITY", "who speaks in this layer"),
    ]


def test_beside_what_is_left_open_the_other_faults_are_told(folder: Path) -> None:
    files = spoilt(
        (COMMON, "title: An extinguisher within reach", "title: FILL_TITLE"),
        (COMMON, "acts: shop\n    closes_with: a photo\n    cases", "acts: shopp\n    closes_with: a photo\n    cases"),
    )
    assert [says for *_, says, _, _ in told(folder, files)] == [OPEN, "this word is not one of those held"]


def test_all_faults_of_all_files_are_told_at_once_in_the_order_of_their_places(folder: Path) -> None:
    files = spoilt(
        (SOURCES, "id: code-7", "id: Code 7"),
        (COMMON, 'when: hazard.fire_class == "B"', 'when: hazard.fire_clas == "B" or 3'),
        (COMMON, "    meanwhile: Keep an extinguisher at hand.\n", ""),
        (US_LAYER, "extends: common", "extends: comon"),
        (US, "{level: ordinary, walk: 40 ft}", "{level: ordinary, walk: 40 psi}"),
        (US, "until: 2026-12-31", "until: 2026-02-30"),
        (US, "authority: fire code", "authority: building code"),
    )
    assert [(file, line, says) for file, line, _, says, _, _ in told(folder, files)] == [
        (COMMON, 6, "a hazard has no such field"),
        (COMMON, 6, "`and`, `or` and `not` join answers"),
        (COMMON, 14, "a critical rule says what to do tonight"),
        (SOURCES, 3, "this has another form"),
        (US, 7, '"psi" is a unit of gauge pressure, not of length'),
        (US, 18, "there is no such day in the calendar"),
        (US, 26, "this authority does not speak in layer us"),
        (US_LAYER, 3, "this layer extends one that is not held"),
    ]


def test_a_problem_prints_with_file_line_and_column(folder: Path) -> None:
    (problem,) = problems(folder, spoilt((US, "ref: code-7", "ref: code-8")))
    assert str(problem) == (
        f"{folder / 'us' / 'fire.yaml'}:28:19: provisions[2].source.ref: there is no such source.\n"
        "  Found code-8; write code-7"
    )


def test_a_folder_without_layers_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Unreadable) as refused:
        read_rulesets(write(tmp_path, {"sources.yaml": "sources: []\n"}))
    assert [(each.says, each.wanted) for each in refused.value.problems] == [("no layer is held", "LAYER/layer.yaml")]


def test_a_bibliography_that_cannot_be_read_is_told_once(folder: Path) -> None:
    files = {name: content for name, content in RIGHT.items() if name != SOURCES}
    assert told(folder, files) == [(SOURCES, 1, 1, "there is no such file", "", "the name of a file that is there")]


HOSTILE = [
    ("a circle of repeats", "rules: &a [*a]\n"),
    ("a type by name", "rules: !!python/object/apply:os.system [echo]\n"),
    ("many levels", "rules: " + "[" * 60 + "]" * 60 + "\n"),
    ("no text", "\x00\x01"),
    ("a list", "- 1\n- 2\n"),
    ("a word", "rules\n"),
    ("nothing", ""),
    ("code as a rule", "rules:\n  - {id: fire.x, require: \"__import__('os').system('echo')\"}\n"),
    ("too large", "# " + "x" * 1_000_001),
]


@pytest.mark.parametrize("name, content", HOSTILE, ids=[name for name, _ in HOSTILE])
def test_a_hostile_file_is_refused_and_silences_no_other(folder: Path, name: str, content: str) -> None:
    files = {**spoilt((US, "ref: code-7", "ref: code-8")), "us/other.yaml": content}
    wrong = told(folder, files)
    assert {file for file, *_ in wrong} == {"us/other.yaml", US}
    assert ("us/fire.yaml", 28, 19, "there is no such source", "code-8", "code-7") in wrong


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names here")
@pytest.mark.parametrize("kept", [False, True])
def test_what_is_no_ordinary_file_is_told_and_not_waited_for(folder: Path, tmp_path: Path, kept: bool) -> None:
    write(folder)
    os.mkfifo(folder / "us" / "pipe.yaml")
    with pytest.raises(Unreadable) as refused:
        read_rulesets(folder, tmp_path / "cache" if kept else None)
    assert [(Path(each.file).name, each.says) for each in refused.value.problems] == [
        ("pipe.yaml", "this is no ordinary file")
    ]


# --- the same from the same


def test_the_order_in_which_files_are_found_changes_nothing(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    plain = read(folder)
    glob = Path.glob

    def backwards(path: Path, pattern: str) -> Iterator[Path]:
        return iter(sorted(glob(path, pattern), reverse=True))

    monkeypatch.setattr(Path, "glob", backwards)
    assert read_rulesets(folder) == plain
    for number, order in enumerate(list(permutations(RIGHT))[::17]):
        again = read(tmp_path / str(number) / "rulesets", {name: RIGHT[name] for name in order})
        assert again == plain
        assert list(again.rules) == list(plain.rules)


def test_a_rulebook_names_no_folder_of_the_machine(tmp_path: Path) -> None:
    one, other = read(tmp_path / "one" / "rulesets"), read(tmp_path / "other" / "rulesets")
    assert one == other
    assert one.rules["fire.walk"].location.file == "rulesets/common/fire.yaml"


def digests(folder: Path, *changes: Change) -> dict[str, str]:
    return {name: layer.digest for name, layer in read(folder, spoilt(*changes)).layers.items()}


@pytest.mark.parametrize(
    "change, moved",
    [
        ((US, "tables:\n", "# a remark\ntables:\n\n"), set()),
        ((US, "  - id: near\n    keys: {level: word}\n", "  - keys: {level: word}\n    id: near\n"), set()),
        ((US, 'clause: "906.3"', "clause: '906.3'"), set()),
        ((US, "walk: 40 ft, rating: 1", "walk: 41 ft, rating: 1"), {"us"}),
        ((US_LAYER, "title: Made-up law", "title: Other law"), {"us"}),
        ((COMMON, "reason: A fire grows fast.", "reason: It grows."), {"common"}),
        ((COMMON_LAYER, 'version: "1.0"', 'version: "1.1"'), {"common"}),
    ],
)  # fmt: skip
def test_a_digest_changes_with_the_content_of_its_own_layer_alone(
    tmp_path: Path, change: Change, moved: set[str]
) -> None:
    before, after = digests(tmp_path / "before"), digests(tmp_path / "after", change)
    assert {name for name in before if before[name] != after[name]} == moved
    assert all(len(digest) == 64 for digest in after.values())
