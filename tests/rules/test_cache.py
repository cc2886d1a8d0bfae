import json
import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from checker.rules import cache, read_rulesets
from checker.rules.cache import Trees, trees_for
from checker.rules.parse import MOST_NODES, parse
from checker.rules.tree import Tree, well_formed

ROOT = Path(__file__).parents[2]
TEXT = "room.height >= limit.height"


@pytest.fixture
def ruleset(tmp_path: Path) -> Path:
    path = tmp_path / "fire.yaml"
    path.write_text("rules: []\n", encoding="utf-8")
    return path


def kept(folder: Path) -> Path:
    (file,) = folder.glob("trees-*.json")
    return file


def warm(ruleset: Path, folder: Path) -> Trees:
    trees = trees_for([ruleset], folder)
    trees.tree(TEXT)
    trees.keep()
    return trees


def test_what_was_parsed_is_there_the_next_time(ruleset: Path, tmp_path: Path) -> None:
    assert warm(ruleset, tmp_path / "cache").parsed
    again = trees_for([ruleset], tmp_path / "cache")
    assert again.known == {TEXT: parse(TEXT)}
    assert again.tree(TEXT) == parse(TEXT)
    assert not again.parsed


def test_a_changed_ruleset_has_a_file_of_its_own(ruleset: Path, tmp_path: Path) -> None:
    warm(ruleset, tmp_path / "cache")
    ruleset.write_text("rules: [] # changed\n", encoding="utf-8")
    assert trees_for([ruleset], tmp_path / "cache").known == {}


def test_another_version_of_the_program_has_a_file_of_its_own(
    ruleset: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    warm(ruleset, tmp_path / "cache")
    monkeypatch.setattr(cache, "__version__", "0.0.0")
    assert trees_for([ruleset], tmp_path / "cache").known == {}


def signed(body: bytes) -> bytes:
    return cache._digest(body).encode() + b"\n" + body


@pytest.mark.parametrize(
    "damaged",
    [
        pytest.param(b"", id="empty"),
        pytest.param(b"\x00\xff\xfe", id="binary"),
        pytest.param(b"not a digest\n{}", id="another digest"),
        pytest.param(signed(b"{"), id="no JSON"),
        pytest.param(signed(b"[1, 2]"), id="no object"),
        pytest.param(signed(b"[" * 100_000), id="nested beyond reading"),
        pytest.param(signed(json.dumps({TEXT: ["exec", "import os"]}).encode()), id="no tree"),
        pytest.param(signed(json.dumps({TEXT: ["cmp", "ge", ["name", "a"]]}).encode()), id="a side short"),
        pytest.param(signed(json.dumps({TEXT: ["num", "1; import os"]}).encode()), id="no number"),
    ],
)
def test_a_damaged_file_is_passed_over(ruleset: Path, tmp_path: Path, damaged: bytes) -> None:
    warm(ruleset, tmp_path / "cache")
    kept(tmp_path / "cache").write_bytes(damaged)
    trees = trees_for([ruleset], tmp_path / "cache")
    assert trees.known == {}
    assert trees.tree(TEXT) == parse(TEXT)


def test_a_file_cut_short_is_passed_over_and_written_anew(ruleset: Path, tmp_path: Path) -> None:
    warm(ruleset, tmp_path / "cache")
    file = kept(tmp_path / "cache")
    whole = file.read_bytes()
    file.write_bytes(whole[:-5])
    assert warm(ruleset, tmp_path / "cache").parsed
    assert file.read_bytes() == whole


def test_a_folder_that_cannot_be_made_is_left_alone(ruleset: Path, tmp_path: Path) -> None:
    in_the_way = tmp_path / "cache"
    in_the_way.write_text("a file", encoding="utf-8")
    assert warm(ruleset, in_the_way / "below").parsed
    assert in_the_way.read_text(encoding="utf-8") == "a file"


def test_many_writers_leave_one_whole_file(ruleset: Path, tmp_path: Path) -> None:
    with ThreadPoolExecutor(8) as pool:
        list(pool.map(lambda _: warm(ruleset, tmp_path / "cache"), range(40)))
    assert [path.suffix for path in (tmp_path / "cache").iterdir()] == [".json"]
    assert trees_for([ruleset], tmp_path / "cache").known == {TEXT: parse(TEXT)}


def test_only_so_many_files_are_kept(ruleset: Path, tmp_path: Path) -> None:
    for number in range(cache.MOST_KEPT + 5):
        ruleset.write_text(f"rules: [] # {number}\n", encoding="utf-8")
        warm(ruleset, tmp_path / "cache")
    assert len(list((tmp_path / "cache").iterdir())) == cache.MOST_KEPT


def test_a_rulebook_is_the_same_from_cached_trees(tmp_path: Path) -> None:
    cold = read_rulesets(ROOT / "rulesets", tmp_path)
    again = read_rulesets(ROOT / "rulesets", tmp_path)
    assert cold.rules == again.rules


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
        run = subprocess.run(
            [sys.executable, "-c", program], cwd=ROOT, env=environment, capture_output=True, text=True, encoding="utf-8"
        )
        found.append(run.stderr.strip())
    assert found == ["['rule_engine']", "[]"]
