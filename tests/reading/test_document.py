"""Documents: places, paths in words, lines; problems as people see them; files on disk."""

import pickle
import subprocess
import sys
from pathlib import Path

import pytest

from checker.reading import Mark, Problem, Unreadable, read_file, read_text, spell

YAML = """\
region: us
rooms:
- id: cell
  height: 12 ft
  doors: [{id: d1, width: 36 in}, {width: 30 in}]
- height: ~
"""
JSON = """{"region": "us",
 "rooms": [{"id": "cell",
  "height": "12 ft"}]}"""


@pytest.mark.parametrize(
    "path, value, key",
    [
        ((), (1, 1), (1, 1)),
        (("region",), (1, 9), (1, 1)),
        (("rooms",), (3, 1), (2, 1)),
        (("rooms", 0), (3, 3), (3, 3)),
        (("rooms", 0, "height"), (4, 11), (4, 3)),
        (("rooms", 0, "doors", 1, "width"), (5, 43), (5, 36)),
        (("rooms", 1, "height"), (6, 11), (6, 3)),
        (("rooms", 0, "width"), (3, 3), (3, 3)),
        (("rooms", 0, "height", "value"), (4, 11), (4, 11)),
        (("rooms", 7, "height"), (3, 1), (3, 1)),
        (("rooms", -1), (3, 1), (3, 1)),
        (("rooms", "id"), (3, 1), (3, 1)),
        ((0,), (1, 1), (1, 1)),
    ],
)
def test_a_path_has_a_place_and_a_missing_one_its_parents(
    path: tuple[str | int, ...],
    value: tuple[int, int],
    key: tuple[int, int],
) -> None:
    document = read_text(YAML, "site.yaml")
    assert (document.mark(path), document.key_mark(path)) == (Mark(*value), Mark(*key))


def test_json_has_places_too() -> None:
    document = read_text(JSON, "site.json")
    assert document.mark(("rooms", 0, "height")) == Mark(3, 13)
    assert document.key_mark(("rooms", 0, "height")) == Mark(3, 3)
    assert document.place(("rooms", 0, "height")) == "rooms[cell].height"


@pytest.mark.parametrize(
    "path, words, named",
    [
        ((), "", ""),
        (("rooms", 0, "height"), "rooms[0].height", "rooms[cell].height"),
        (("rooms", 0, "doors", 0, "width"), "rooms[0].doors[0].width", "rooms[cell].doors[d1].width"),
        (("rooms", 0, "doors", 1, "width"), "rooms[0].doors[1].width", "rooms[cell].doors[1].width"),
        (("rooms", 1), "rooms[1]", "rooms[1]"),
        (("rooms", 9, "height"), "rooms[9].height", "rooms[9].height"),
        (("given", "limit.walk"), 'given["limit.walk"]', 'given["limit.walk"]'),
        (("plus_minus", "a-b", "3"), 'plus_minus.a-b["3"]', 'plus_minus.a-b["3"]'),
        ((2, 'say "x"'), '[2]["say \\"x\\""]', '[2]["say \\"x\\""]'),
    ],
)
def test_a_path_is_spelt_as_people_write_it(path: tuple[str | int, ...], words: str, named: str) -> None:
    assert (spell(path), read_text(YAML, "site.yaml").place(path)) == (words, named)


def test_an_id_that_could_be_taken_for_a_position_is_not_used() -> None:
    document = read_text('rooms: [{id: "1"}, {id: 2a}, {id: "x\\n"}, {id: [a]}]', "site.yaml")
    assert [document.place(("rooms", n)) for n in range(4)] == ["rooms[0]", "rooms[2a]", "rooms[2]", "rooms[3]"]


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_count_the_same_whatever_ends_them(end: str) -> None:
    for text, file in ((YAML, "site.yaml"), (JSON, "site.json")):
        document = read_text(text.replace("\n", end), file)
        line = document.mark(("rooms", 0, "height")).line
        assert "height" in document.source_line(line)
    assert (document.source_line(1), document.source_line(0), document.source_line(99)) == ('{"region": "us",', "", "")


def test_a_document_can_be_sent_to_another_process() -> None:
    for text, file in ((YAML, "site.yaml"), (JSON, "site.json")):
        document = pickle.loads(pickle.dumps(read_text(text, file)))
        assert document == read_text(text, file)
        assert document.mark(("rooms", 0)).line in {2, 3}


@pytest.mark.parametrize(
    "problem, text",
    [
        (
            Problem("s.yaml", 12, 11, "rooms[cell].height", "3.7", "3.7 m or 3.7 ft", "a length needs its unit"),
            "s.yaml:12:11: rooms[cell].height: a length needs its unit.\n  Found 3.7; write 3.7 m or 3.7 ft",
        ),
        (
            Problem("s.yaml", 1, 1, "", "", "its keys and values", "the file says nothing"),
            "s.yaml:1:1: the file says nothing.\n  Write its keys and values",
        ),
        (Problem("s.json", 1, 6, "", "x", "", "this is not JSON"), "s.json:1:6: this is not JSON.\n  Found x"),
        (Problem("s", 1, 1, "", "", "", "there is no such file"), "s:1:1: there is no such file."),
        (
            Problem("a\nb", 1, 1, 'x["\\x1b"]\x1b', "\x1b[2J\u202e" + "x" * 80, "a\nb", "no\r"),
            'a\\nb:1:1: x["\\x1b"]\\x1b: no\\r.\n  Found \\x1b[2J\\u202e' + "x" * 46 + "…; write a\\nb",
        ),
    ],
)
def test_a_problem_reads_as_place_fault_and_remedy(problem: Problem, text: str) -> None:
    assert str(problem) == text


def test_problems_stand_in_the_order_of_their_places() -> None:
    spots = [("b", 1, 1), ("a", 10, 2), ("a", 9, 3), ("a", 9, 1)]
    refusal = Unreadable(Problem(file, line, column, "", "", "", "wrong") for file, line, column in spots)
    assert [(p.file, p.line, p.column) for p in refusal.problems] == sorted(spots)
    assert str(refusal).splitlines() == ["a:9:1: wrong.", "a:9:3: wrong.", "a:10:2: wrong.", "b:1:1: wrong."]


def test_a_file_is_read_under_the_name_it_was_given(tmp_path: Path) -> None:
    for name, text in (("site.yaml", YAML), ("site.json", JSON)):
        path = tmp_path / name
        path.write_bytes(text.encode("utf-8"))
        assert read_file(path) == read_text(text, str(path)) == read_file(str(path))


@pytest.mark.parametrize(
    "name, says, wanted",
    [
        ("missing.yaml", "there is no such file", "the name of a file that is there"),
        ("folder", "this is a folder", "the name of a file"),
        ("large.yaml", "a file holds at most 1000000 bytes", "several files"),
    ],
)
def test_a_file_that_cannot_be_read_is_a_problem_like_others(tmp_path: Path, name: str, says: str, wanted: str) -> None:
    (tmp_path / "folder").mkdir()
    (tmp_path / "large.yaml").write_bytes(b"#" * 1_000_001)
    with pytest.raises(Unreadable) as refusal:
        read_file(tmp_path / name)
    (problem,) = refusal.value.problems
    assert (problem.file, problem.says, problem.wanted) == (str(tmp_path / name), says, wanted)


def test_a_name_no_file_can_have_is_a_problem_like_others() -> None:
    with pytest.raises(Unreadable) as refusal:
        read_file("a\0b.yaml")
    assert str(refusal.value).startswith("a\\x00b.yaml:1:1: the file cannot be opened (")


def test_the_reader_imports_yaml_only_when_it_reads_yaml() -> None:
    code = "from checker.reading import read_text; import sys; read_text('[1]', 'a.json'); print('yaml' in sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert run.stdout.strip() == "False"
