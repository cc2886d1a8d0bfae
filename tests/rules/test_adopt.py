"""After a change only the files that changed are read, and what comes out is what reading all of them gives."""

import json
import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from random import Random
from typing import Any

import pytest
from msgspec.json import encode

from checker import shipped
from checker.reading import Document, Problem, Unreadable, read_file
from checker.rules import Rulebook, cache, read_rulesets
from checker.rules import opened as opened_files
from tests.rules.shelf import RIGHT, write

ROOT = Path(__file__).parents[2]
COMMON, US, SOURCES, US_LAYER = "common/fire.yaml", "us/fire.yaml", "sources.yaml", "us/layer.yaml"
BEGIN = "rules:\n"
ROW = "      - {level: light, walk: 50 ft}\n"


@pytest.fixture
def rulesets(tmp_path: Path) -> Path:
    """Those that are right, and a layer of a house that comes before them."""
    above = 'name: above\ntitle: Above\nversion: "1.0"\nauthorities: [house]\n'
    return write(tmp_path / "rulesets", {**RIGHT, "above/layer.yaml": above})


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The ruleset files that were read, by folder and name."""
    found: list[str] = []
    real = opened_files.read_text

    def noting(text: bytes, file: str) -> Document:
        found.append("/".join(Path(file).parts[-2:]))
        return real(text, file)

    monkeypatch.setattr(opened_files, "read_text", noting)
    return found


def change(file: Path, was: str, now: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert text.count(was) >= 1, was
    file.write_text(text.replace(was, now, 1), encoding="utf-8", newline="\n")


def outcome(folder: Path, kept: Path | None) -> tuple[object, ...] | list[Problem]:
    """Everything that is held, in its order, or everything that is wrong."""
    try:
        book = read_rulesets(folder, kept)
    except Unreadable as error:
        return list(error.problems)
    return said(book)


def said(book: Rulebook) -> tuple[object, ...]:
    mappings = (book.layers, book.rules, book.sources)
    shapes = [list(rule.tables) for rule in book.rules.values()]
    return *(list(each.items()) for each in mappings), book.all_provisions, shapes


HARMLESS = [
    pytest.param(US, "walk: 50 ft, rating: 1", "walk: 51 ft, rating: 1", [US], id="a limit"),
    pytest.param(US, "{level: light, walk: 50 ft}", "{level: light, walk: 51 ft}", [US], id="a cell"),
    pytest.param(US, "tables:\n", "# a remark\ntables:\n", [US], id="lines further down"),
    pytest.param(COMMON, "title: A shorter walk", "title: A short walk", [COMMON], id="a title"),
    pytest.param(COMMON, 'fire_class == "B"', 'fire_class == "A"', [COMMON], id="an expression"),
    pytest.param(COMMON, BEGIN, f"# a remark\n{BEGIN}", [COMMON], id="rules further down"),
    pytest.param(US_LAYER, "title: Made-up law", "title: Law", [US_LAYER], id="the title of a layer"),
    pytest.param(US_LAYER, "law, fire", "law, house, fire", [US_LAYER], id="one more authority"),
    pytest.param(SOURCES, "designation: Code 7", "designation: Code 8", ["rulesets/sources.yaml"], id="a source"),
    pytest.param(SOURCES, "sources:\n", "# on top\nsources:\n", ["rulesets/sources.yaml"], id="sources further down"),
]


RESTING = [
    pytest.param(COMMON, "walk: length, rating: number", "rating: number, walk: length", [COMMON], id="another order"),
    pytest.param(COMMON, "keys: {level: word}", "keys: {level: word }", [COMMON], id="another spelling"),
    pytest.param(US, "id: by-width", "id: by-breadth", [US], id="a table nobody uses"),
]
"""What provisions in other files rest on, and ask as before."""


@pytest.mark.parametrize("file, was, now, read", [*HARMLESS, *RESTING])
def test_only_the_file_that_changed_is_read(
    rulesets: Path, tmp_path: Path, opened: list[str], file: str, was: str, now: str, read: list[str]
) -> None:
    read_rulesets(rulesets, tmp_path / "cache")
    change(rulesets / file, was, now)
    opened.clear()
    found = outcome(rulesets, tmp_path / "cache")
    assert opened == read
    assert found == outcome(rulesets, None)
    opened.clear()
    assert outcome(rulesets, tmp_path / "cache") == found, "kept in its turn"
    assert opened == []


def test_a_provision_is_read_anew_where_its_rule_asks_another_kind(
    rulesets: Path, tmp_path: Path, opened: list[str]
) -> None:
    read_rulesets(rulesets, tmp_path / "cache")
    change(rulesets / COMMON, "rating: number}", "rating: ratio}")
    change(rulesets / COMMON, 'walk_to_extinguisher("B", limit.rating)', 'walk_to_extinguisher("B", 1 * limit.rating)')
    opened.clear()
    found = outcome(rulesets, tmp_path / "cache")
    assert sorted(opened) == [COMMON, US]
    assert found == outcome(rulesets, None)
    kinds = {each.limit["rating"].kind for each in read_rulesets(rulesets).all_provisions if each.limit}
    assert kinds == {"ratio"}


def test_a_provision_gets_the_nearer_table_that_a_new_file_holds(rulesets: Path, tmp_path: Path) -> None:
    change(rulesets / US, "  - id: near\n    keys: {level: word}\n    columns: {walk: length}\n    rows:\n" + ROW
           + "      - {level: ordinary, walk: 40 ft}\n", "")  # fmt: skip
    table = (
        "tables:\n  - {id: near, keys: {level: word}, columns: {walk: length}, rows: [{level: light, walk: 9 ft}]}\n"
    )
    (rulesets / "common" / "near.yaml").write_text(table, encoding="utf-8")
    read_rulesets(rulesets, tmp_path / "cache")
    (rulesets / "us" / "near.yaml").write_text(table.replace("9 ft", "7 ft"), encoding="utf-8")
    found = outcome(rulesets, tmp_path / "cache")
    assert found == outcome(rulesets, None)
    assert "7 ft" in str(found)


def test_a_provision_gets_the_table_as_another_file_now_has_it(
    rulesets: Path, tmp_path: Path, opened: list[str]
) -> None:
    tables = RIGHT[US][: RIGHT[US].index("provisions:")]
    write(rulesets, {"us/tables.yaml": tables, US: RIGHT[US].removeprefix(tables)})
    read_rulesets(rulesets, tmp_path / "cache")
    for was, now in (("walk: 40 ft", "walk: 30 ft"), ("walk: 30 ft", "walk: 20 ft")):
        change(rulesets / "us/tables.yaml", was, now)
        opened.clear()
        found = outcome(rulesets, tmp_path / "cache")
        assert opened == ["us/tables.yaml", US]
        assert found == outcome(rulesets, None)
        assert now.partition(": ")[2] in str(found)


def test_tables_are_known_as_long_as_their_file_does_not_change(
    rulesets: Path, tmp_path: Path, opened: list[str]
) -> None:
    read_rulesets(rulesets, tmp_path / "cache")
    for title in ("One", "Another", "A third"):
        file = rulesets / COMMON
        file.write_text(re.sub("title: .* within reach", f"title: {title} within reach", RIGHT[COMMON]), "utf-8")
        opened.clear()
        read_rulesets(rulesets, tmp_path / "cache")
        assert opened == [COMMON]


def test_a_provision_gets_the_table_of_the_layer_its_own_now_stands_on(rulesets: Path, tmp_path: Path) -> None:
    rows = "keys: {level: word}, columns: {walk: length}, rows: [{level: light, walk: LENGTH}]"
    table = f"tables:\n  - {{id: near, {rows}}}\n"
    tables = RIGHT[US][: RIGHT[US].index("provisions:")]
    write(rulesets, {
        "common/tables.yaml": table.replace("LENGTH", "9 ft"),
        "above/tables.yaml": table.replace("LENGTH", "7 ft"),
        US: RIGHT[US].removeprefix(tables),
    })  # fmt: skip
    read_rulesets(rulesets, tmp_path / "cache")
    change(rulesets / US_LAYER, "extends: common", "extends: above")
    found = outcome(rulesets, tmp_path / "cache")
    assert found == outcome(rulesets, None)
    (asked,) = [each for each in read_rulesets(rulesets, tmp_path / "cache").all_provisions if each.tables]
    assert asked.tables["near"].layer == "above"


def test_keys_in_another_order_make_another_table_of_a_provision(rulesets: Path, tmp_path: Path) -> None:
    two = (("(hazard.level)", "(hazard.level, hazard.fire_class)"), ("{level: word}", "{level: word, kind: word}"))
    for was, now in two:
        change(rulesets / COMMON, was, now)
    change(rulesets / US, "{level: word}", "{level: word, kind: word}")
    for level in ("light", "ordinary"):
        change(rulesets / US, f"level: {level},", f"level: {level}, kind: A,")
    assert not isinstance(outcome(rulesets, tmp_path / "cache"), list)
    change(rulesets / COMMON, "{level: word, kind: word}", "{kind: word, level: word}")
    change(rulesets / COMMON, "(hazard.level, hazard.fire_class)", "(hazard.fire_class, hazard.level)")
    told = outcome(rulesets, tmp_path / "cache")
    assert told == outcome(rulesets, None)
    assert isinstance(told, list)
    assert [each.says for each in told] == ["the table has another shape"]


WRONG_ELSEWHERE = [
    pytest.param(COMMON, "id: fire.walk\n", "id: fire.other\n", US, "there is no such rule", id="a rule is renamed"),
    pytest.param(
        COMMON, "{walk: length, rating: number}", "{walk: length, rating: number, more: number}", US,
        "fire.walk needs a limit", id="a rule wants more",
    ),
    pytest.param(COMMON, "keys: {level: word}", "keys: {grade: word}", US, "has another shape", id="another key"),
    pytest.param(SOURCES, "id: code-7", "id: code-9", US, "there is no such source", id="a source is renamed"),
    pytest.param(US_LAYER, "workplace law, fire code", "fire code", US, "does not speak", id="an authority is gone"),
    pytest.param("common/layer.yaml", "name: common", "name: commons", US_LAYER, "not held", id="a layer is renamed"),
    pytest.param(
        "common/layer.yaml", 'version: "1.0"', 'version: "1.0"\nextends: us', "common/layer.yaml", "in a circle",
        id="a circle",
    ),
    pytest.param(
        "us/again.yaml", "", "provisions:\n" + RIGHT[US][RIGHT[US].index("  - rule: fire.walk\n") :], US,
        "already speaks on these days", id="a file says it again",
    ),
    pytest.param(
        "above/fire.yaml", "", RIGHT[COMMON][: RIGHT[COMMON].index("  - id: fire.walk-by")], COMMON, "stands already",
        id="a rule twice",
    ),
    pytest.param(
        "us/again.yaml", "", RIGHT[US][: RIGHT[US].index("  - id: by-width")], US, "stands twice", id="a table twice"
    ),
    pytest.param("us/sources.yaml", "", RIGHT[SOURCES], "us/sources.yaml", "stands twice", id="a source twice"),
]  # fmt: skip


@pytest.mark.parametrize("file, was, now, blamed, says", WRONG_ELSEWHERE)
def test_what_is_wrong_in_a_file_that_did_not_change_is_told_at_its_line(
    rulesets: Path, tmp_path: Path, file: str, was: str, now: str, blamed: str, says: str
) -> None:
    read_rulesets(rulesets, tmp_path / "cache")
    if was:
        change(rulesets / file, was, now)
    else:
        write(rulesets, {file: now})
    told = outcome(rulesets, tmp_path / "cache")
    assert told == outcome(rulesets, None)
    assert isinstance(told, list)
    assert rulesets / blamed in [Path(each.file) for each in told if says in each.says and each.line > 1]


def test_a_change_and_the_way_back_need_no_reading(rulesets: Path, tmp_path: Path, opened: list[str]) -> None:
    first = outcome(rulesets, tmp_path / "cache")
    change(rulesets / US, "walk: 50 ft, rating: 1", "walk: 51 ft, rating: 1")
    second = outcome(rulesets, tmp_path / "cache")
    opened.clear()
    for _ in range(2):
        change(rulesets / US, "walk: 51 ft, rating: 1", "walk: 50 ft, rating: 1")
        assert outcome(rulesets, tmp_path / "cache") == first
        change(rulesets / US, "walk: 50 ft, rating: 1", "walk: 51 ft, rating: 1")
        assert outcome(rulesets, tmp_path / "cache") == second
    assert opened == []
    assert first != second


def _other_version(kept: Path) -> None:
    kept.rename(kept.with_name(re.sub("rulebook-[0-9a-f]+-", f"rulebook-{'0' * 16}-", kept.name)))


def _damaged(kept: Path) -> None:
    kept.write_bytes(kept.read_bytes()[:-1] + b" ")


def _other_shape(kept: Path) -> None:
    """Whole, but of files nothing is known that could be used."""
    book, _, *cases = (cache.body_of(kept, cache.LARGEST) or b"").split(b"\n")
    cache.keep_body(kept, b"\n".join([book, encode({"rulesets/us/fire.yaml": [1, 2, 3]}), *cases]))


@pytest.mark.parametrize("spoil", [_other_version, _damaged, _other_shape])
def test_what_cannot_be_trusted_spares_no_reading(
    rulesets: Path, tmp_path: Path, opened: list[str], spoil: Callable[[Path], None]
) -> None:
    read_rulesets(rulesets, tmp_path / "cache")
    (kept,) = (tmp_path / "cache").iterdir()
    spoil(kept)
    change(rulesets / US, "walk: 50 ft, rating: 1", "walk: 51 ft, rating: 1")
    opened.clear()
    found = outcome(rulesets, tmp_path / "cache")
    assert sorted(opened) == sorted(
        ["rulesets/sources.yaml", "above/layer.yaml", "common/layer.yaml", COMMON, US_LAYER, US]
    )
    assert found == outcome(rulesets, None)


def test_after_a_change_of_a_limit_neither_a_parser_nor_models_are_imported(rulesets: Path, tmp_path: Path) -> None:
    read_rulesets(rulesets, tmp_path / "cache")
    change(rulesets / US, "walk: 50 ft, rating: 1", "walk: 51 ft, rating: 1")
    program = (
        "import sys; from pathlib import Path; from checker.rules import read_rulesets\n"
        "read_rulesets(*map(Path, sys.argv[1:]))\n"
        "print('yaml' in sys.modules, {'rule_engine', 'pydantic', 'jsonschema'} & set(sys.modules))"
    )
    run = subprocess.run(
        [sys.executable, "-c", program, str(rulesets), str(tmp_path / "cache")],
        cwd=ROOT, capture_output=True, text=True, encoding="utf-8", check=True,
    )  # fmt: skip
    assert run.stdout.strip() == "True set()"


def test_two_folders_of_one_name_do_not_pass_for_each_other(rulesets: Path, tmp_path: Path) -> None:
    read_rulesets(rulesets, tmp_path / "cache")
    other = write(tmp_path / "elsewhere" / "rulesets", {**RIGHT, US: RIGHT[US].replace("40 ft", "30 ft")})
    assert outcome(other, tmp_path / "cache") == outcome(other, None)
    assert outcome(rulesets, tmp_path / "cache") == outcome(rulesets, None)


def test_layers_beside_that_share_their_names_are_read_each_by_itself(rulesets: Path, tmp_path: Path) -> None:
    layer = 'name: house\ntitle: House\nversion: "1.0"\nauthorities: [house]\n'
    asks = (
        "provisions:\n  - {rule: fire.walk, authority: house, limit: {walk: 9 m, rating: 1}, source: common practice}\n"
    )
    one = write(tmp_path / "a" / "house", {"layer.yaml": layer, "fire.yaml": asks})
    other = write(tmp_path / "b" / "house", {"layer.yaml": layer, "fire.yaml": "rules: []\n"})
    for beside in [(one,), (one, other), (other,), (other, one), (one,), (other,)]:
        (rulesets / "common" / "notes.yaml").write_text(f"rules: [] # {beside}\n", encoding="utf-8")
        with_kept = read_rulesets(rulesets, tmp_path / "cache", beside)
        assert said(with_kept) == said(read_rulesets(rulesets, None, beside))


def test_programs_that_read_at_once_all_read_the_same(rulesets: Path, tmp_path: Path) -> None:
    read_rulesets(rulesets, tmp_path / "cache")
    change(rulesets / US, "walk: 50 ft, rating: 1", "walk: 51 ft, rating: 1")
    with ThreadPoolExecutor(8) as pool:
        found = list(pool.map(lambda _: outcome(rulesets, tmp_path / "cache"), range(24)))
    expected = outcome(rulesets, None)
    assert all(each == expected for each in found)
    assert all(cache.held(file) is not None for file in (tmp_path / "cache").iterdir())


ODD: list[Any] = [
    None, True, 3, 1.5, "", [], {}, "x", "common practice", "not asked", "FILL_X", ["a"], {"a": 1}, "fire.walk", "us",
    "2026-12-31", "common", "house", "fire code", "act-1", "code-7", "near", "by-width", "length", "word", "number",
]  # fmt: skip


def _spots(data: Any) -> Iterator[tuple[Any, Any]]:
    """Each list and each mapping in a tree, with each of its keys."""
    for key, value in list(data.items() if isinstance(data, dict) else enumerate(data)):
        yield data, key
        if isinstance(value, dict | list):
            yield from _spots(value)


def _spoil(data: Any, random: Random) -> None:
    within, key = random.choice(list(_spots(data)))
    match random.randrange(6):
        case 0:
            del within[key]
        case 1 if isinstance(within, list):
            within.append(random.choice(within))
        case 2 if isinstance(within, dict):
            within[random.choice(["extra", "walk", "rating", "from", "until", "extends"])] = random.choice(ODD)
        case 3 if isinstance(within, dict):
            items = random.sample(list(within.items()), len(within))
            within.clear()
            within.update(items)
        case _:
            within[key] = random.choice(ODD)


APART = {
    "common/fire.yaml": RIGHT[COMMON][: RIGHT[COMMON].index("provisions:")],
    "common/asked.yaml": RIGHT[COMMON][RIGHT[COMMON].index("provisions:") :],
    "us/tables.yaml": RIGHT[US][: RIGHT[US].index("provisions:")],
    "us/fire.yaml": RIGHT[US][RIGHT[US].index("provisions:") :],
    "house/layer.yaml": 'name: house\ntitle: House\nversion: "1.0"\nauthorities: [house]\n',
    "house/sources.yaml": "sources:\n  - {id: own, kind: own standard, designation: Own, title: Our own}\n",
    "house/asked.yaml": "provisions:\n  - rule: fire.walk\n    authority: house\n    limit: {walk: 3 m, rating: 2}\n"
    "    source: {ref: own, status: memory}\n",
}


@pytest.mark.parametrize("seed", range(150))
def test_whatever_changes_the_same_is_held_or_wrong_as_when_all_is_read(seed: int, tmp_path: Path) -> None:
    random, folder = Random(seed), write(tmp_path / "rulesets", {**RIGHT, **APART})
    read_rulesets(folder, tmp_path / "cache")
    for _ in range(random.choice([1, 1, 2, 3])):
        file = random.choice(sorted(folder.rglob("*.yaml")))
        data = read_file(file).data
        _spoil(data, random)
        file.write_text(json.dumps(data, indent=1) if data else "{}", encoding="utf-8")
    assert outcome(folder, tmp_path / "cache") == outcome(folder, None)


def _remark(lines: list[str], random: Random) -> None:
    lines.insert(0, "# a remark\n")


def _without_a_line(lines: list[str], random: Random) -> None:
    del lines[random.randrange(len(lines))]


def _other_number(lines: list[str], random: Random) -> None:
    at = random.choice([n for n, line in enumerate(lines) if re.search("[0-9]", line)] or [0])
    lines[at] = re.sub("[0-9]", lambda found: str((int(found[0]) + 1) % 10), lines[at], count=1)


def _other_word(lines: list[str], random: Random) -> None:
    at = random.randrange(len(lines))
    lines[at] = re.sub("[a-z]{4,}", lambda found: found[0][:-1], lines[at], count=1)


@pytest.mark.parametrize("seed", range(3))
def test_the_shipped_rulesets_after_any_change_are_what_reading_all_gives(seed: int, tmp_path: Path) -> None:
    """Right or wrong, and with what was wrong once mended again."""
    random = Random(seed)
    folder = tmp_path / "rulesets"
    for file in shipped.rulesets().rglob("*.yaml"):
        write(folder, {file.relative_to(shipped.rulesets()).as_posix(): file.read_text(encoding="utf-8")})
    read_rulesets(folder, tmp_path / "cache")
    files = sorted(folder.rglob("*.yaml"))
    held = 0
    for spoil in (_remark, _other_number, _without_a_line, _other_word, _other_number):
        file = random.choice(files)
        before = file.read_text(encoding="utf-8")
        lines = before.splitlines(keepends=True)
        spoil(lines, random)
        file.write_text("".join(lines), encoding="utf-8", newline="\n")
        found = outcome(folder, tmp_path / "cache")
        assert found == outcome(folder, None), (file, spoil)
        if isinstance(found, list):
            file.write_text(before, encoding="utf-8", newline="\n")
        else:
            held += 1
    assert held
