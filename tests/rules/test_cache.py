"""A rulebook is kept by the bytes of its files and by the program; what is kept is taken only where it is whole."""

import hashlib
import json
import os
import subprocess
import sys
from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from checker.reading import Unreadable
from checker.rules import Rulebook, cache, opening, read_rulesets, shelf
from checker.rules.shelved import Shelved
from checker.rules.tree import MOST_NODES, Tree, well_formed
from checker.written_files import File, files_in
from tests.rules.shelf import RIGHT, write

ROOT = Path(__file__).parents[2]


@pytest.fixture
def rulesets(tmp_path: Path) -> Path:
    return write(tmp_path / "rulesets", RIGHT)


@pytest.fixture
def reads(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """The folders that were read because nothing kept is of just these files."""
    found: list[Path] = []
    real = shelf.shelved_from

    def noting(folder: Path, beside: tuple[Path, ...], files: Mapping[Path, File], before: Shelved) -> Shelved:
        found.append(folder)
        return real(folder, beside, files, before)

    monkeypatch.setattr(shelf, "shelved_from", noting)
    return found


def kept(folder: Path) -> Path:
    (file,) = folder.glob("rulebook-*.json")
    return file


def same(one: Rulebook, other: Rulebook) -> bool:
    return all(getattr(one, name) == getattr(other, name) for name in ("layers", "rules", "all_provisions", "sources"))


def test_the_second_time_no_ruleset_file_is_read(rulesets: Path, tmp_path: Path, reads: list[Path]) -> None:
    cold = read_rulesets(rulesets, tmp_path / "cache")
    warm = read_rulesets(rulesets, tmp_path / "cache")
    assert reads == [rulesets]
    assert same(cold, warm)


def test_the_shipped_rulebook_is_the_same_when_it_was_kept(tmp_path: Path) -> None:
    cold = read_rulesets(ROOT / "rulesets", tmp_path)
    assert same(cold, read_rulesets(ROOT / "rulesets", tmp_path))


@pytest.mark.parametrize("change", ["changed", "added", "renamed", "gone"])
def test_other_files_are_read_anew(rulesets: Path, tmp_path: Path, reads: list[Path], change: str) -> None:
    read_rulesets(rulesets, tmp_path / "cache")
    file = next(path for path in sorted(rulesets.glob("*/*.yaml")) if path.name not in ("layer.yaml", "sources.yaml"))
    match change:
        case "changed":
            file.write_text(file.read_text(encoding="utf-8") + "# changed\n", encoding="utf-8")
        case "added":
            file.with_name("other.yaml").write_text("rules: []\n", encoding="utf-8")
        case "renamed":
            (rulesets / "common" / "notes.yaml").write_text("rules: []\n", encoding="utf-8")
            read_rulesets(rulesets, tmp_path / "cache")
            (rulesets / "common" / "notes.yaml").rename(rulesets / "common" / "words.yaml")
        case "gone":
            (rulesets / "common" / "notes.yaml").write_text("rules: []\n", encoding="utf-8")
            read_rulesets(rulesets, tmp_path / "cache")
            file = rulesets / "common" / "notes.yaml"
            file.write_text("tables: []\n", encoding="utf-8")
    before = len(reads)
    read_rulesets(rulesets, tmp_path / "cache")
    assert len(reads) == before + 1


def test_another_program_takes_nothing(
    rulesets: Path, tmp_path: Path, reads: list[Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    read_rulesets(rulesets, tmp_path / "cache")
    monkeypatch.setattr(cache, "program", lambda: "another")
    read_rulesets(rulesets, tmp_path / "cache")
    assert len(reads) == 2


@pytest.fixture
def parses(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The expressions that were parsed."""
    from checker.rules import build

    found: list[str] = []
    real = build.parse

    def noting(text: str) -> Tree:
        found.append(text)
        return real(text)

    monkeypatch.setattr(build, "parse", noting)
    return found


@pytest.mark.parametrize(
    ("was", "now", "parsed"),
    [
        pytest.param("walk: 15 m", "walk: 16 m", [], id="a limit"),
        pytest.param("title: A shorter walk", "title: A short walk", [], id="words"),
        pytest.param('fire_class == "B"', 'fire_class == "A"', ['hazard.fire_class == "A"'], id="an expression"),
    ],
)
def test_only_expressions_that_are_new_are_parsed(
    rulesets: Path, tmp_path: Path, parses: list[str], was: str, now: str, parsed: list[str]
) -> None:
    read_rulesets(rulesets, tmp_path / "cache")
    file = rulesets / "common" / "fire.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace(was, now), encoding="utf-8")
    parses.clear()
    warm = read_rulesets(rulesets, tmp_path / "cache")
    assert parses == parsed
    assert same(warm, read_rulesets(rulesets))


def test_an_expression_that_was_parsed_is_checked_anew(rulesets: Path, tmp_path: Path, parses: list[str]) -> None:
    read_rulesets(rulesets, tmp_path / "cache")
    file = rulesets / "common" / "fire.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace("walk: length, rating", "walk: area, rating"), "utf-8")
    with pytest.raises(Unreadable, match="length"):
        read_rulesets(rulesets, tmp_path / "cache")


def signed(body: str) -> bytes:
    return f"{hashlib.sha256(body.encode()).hexdigest()}\n{body}".encode()


@pytest.mark.parametrize(
    "damaged",
    [
        pytest.param(b"", id="empty"),
        pytest.param(b"\x00\xff\xfe", id="binary"),
        pytest.param(b"not a digest\n{}", id="another digest"),
        pytest.param(signed("{"), id="no JSON"),
        pytest.param(signed("[1, 2]"), id="too short"),
        pytest.param(signed("[" * 100_000), id="nested beyond reading"),
        pytest.param(signed("[{}, {}, [], {}\n{}"), id="cut short"),
        pytest.param(signed("[{}, {}, [], {}]"), id="nothing known of files"),
        pytest.param(signed('[{}, {"r": 3}, [], {}]\n{}\n[]'), id="no rule"),
        pytest.param(signed('[{}, {"r": []}, [], {}]\n{}\n[]'), id="bare"),
        pytest.param(signed('[{"us": ["us", "", null, "1.0", [], [], ""]}, {}, [], {}]\n{}'), id="no place"),
        pytest.param(signed("[{}, {}, [], {}]\n{}\n[]"), id="cases of no rule"),
    ],
)
def test_a_damaged_file_is_passed_over(rulesets: Path, tmp_path: Path, reads: list[Path], damaged: bytes) -> None:
    cold = read_rulesets(rulesets, tmp_path / "cache")
    kept(tmp_path / "cache").write_bytes(damaged)
    assert same(cold, read_rulesets(rulesets, tmp_path / "cache"))
    assert len(reads) == 2


@pytest.mark.parametrize("tree", ['["exec", "import os"]', '["cmp", "ge", ["name", "a"]]', '["num", "1; import os"]'])
def test_what_is_no_tree_is_not_taken(rulesets: Path, tmp_path: Path, reads: list[Path], tree: str) -> None:
    cold = read_rulesets(rulesets, tmp_path / "cache")
    body = kept(tmp_path / "cache").read_text(encoding="utf-8").partition("\n")[2]
    own = json.dumps(next(iter(cold.rules.values())).require_tree, separators=(",", ":"))
    assert own in body
    kept(tmp_path / "cache").write_bytes(signed(body.replace(own, tree)))
    assert same(cold, read_rulesets(rulesets, tmp_path / "cache"))
    assert len(reads) == 2


def test_a_file_cut_short_is_passed_over_and_written_anew(rulesets: Path, tmp_path: Path) -> None:
    read_rulesets(rulesets, tmp_path / "cache")
    file = kept(tmp_path / "cache")
    whole = file.read_bytes()
    file.write_bytes(whole[:-5])
    read_rulesets(rulesets, tmp_path / "cache")
    assert file.read_bytes() == whole


def test_a_folder_that_cannot_be_made_is_left_alone(rulesets: Path, tmp_path: Path) -> None:
    in_the_way = tmp_path / "cache"
    in_the_way.write_text("a file", encoding="utf-8")
    assert read_rulesets(rulesets, in_the_way / "below").rules
    assert in_the_way.read_text(encoding="utf-8") == "a file"


def test_many_writers_leave_one_whole_file(rulesets: Path, tmp_path: Path) -> None:
    book = read_rulesets(rulesets)
    file = cache.file_for(files_in((rulesets,)).values(), tmp_path / "cache")
    with ThreadPoolExecutor(8) as pool:
        list(pool.map(lambda _: cache.keep(file, Shelved(book, {})), range(40)))
    assert list((tmp_path / "cache").iterdir()) == [file]
    again = cache.held(file)
    assert again is not None
    assert same(book, again)


def test_only_so_many_files_are_kept(rulesets: Path, tmp_path: Path) -> None:
    for number in range(cache.MOST_KEPT + 3):
        (rulesets / "common" / "notes.yaml").write_text(f"rules: [] # {number}\n", encoding="utf-8")
        opening.read_rulesets(rulesets, tmp_path / "cache")
    assert len(list((tmp_path / "cache").iterdir())) == cache.MOST_KEPT


@pytest.mark.parametrize(
    "tree, right",
    [
        (["num", "1.25"], True),
        (["num", "1e3"], True),
        (["num", "nan"], False),
        (["name", 3], False),
        (["in", ["name", "a"], []], False),
        (["all", "d", ["name", "a"], None, ["name", "d"]], True),
        (["all", "d", ["name", "a"], None], False),
        (["call", ["name", "f"], [["num", "1"]]], True),
        (None, False),
        ({}, False),
    ],
)
def test_shape(tree: Tree, right: bool) -> None:
    assert well_formed(tree, MOST_NODES) is right


def test_a_tree_beyond_all_measure_is_none() -> None:
    tree: Tree = ["name", "a"]
    for _ in range(MOST_NODES):
        tree = ["not", tree]
    assert not well_formed(tree, MOST_NODES)


SLOW_TO_IMPORT = ("rule_engine", "jsonschema", "pint", "shapely", "numpy", "hypothesis")


def test_a_warm_start_imports_no_parser(tmp_path: Path) -> None:
    program = (
        "import sys; from checker.cli import main\n"
        "try: main(['check', 'sites/ridgeway-motorcycles.yaml'])\n"
        "except SystemExit: pass\n"
        f"print([name for name in {SLOW_TO_IMPORT} if name in sys.modules], file=sys.stderr)"
    )
    found = []
    for _ in range(2):
        environment = {
            **os.environ,
            "XDG_CACHE_HOME": str(tmp_path),
            "LOCALAPPDATA": str(tmp_path),
            "HOME": str(tmp_path),
        }
        for file in tmp_path.rglob("result-*"):  # the site is judged anew, by the rulebook that was kept
            file.unlink()
        run = subprocess.run(
            [sys.executable, "-c", program], cwd=ROOT, env=environment, capture_output=True, text=True, encoding="utf-8"
        )
        found.append(run.stderr.strip())
    assert found == ["['rule_engine', 'shapely', 'numpy']", "[]"]
