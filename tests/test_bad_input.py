"""What a stranger may hand to the program: a plain message that says where and what, exit code 2, and no harm done.

Every fault is a file under tests/bad: a site file beside what is told of it, or the files of a folder of rulesets that
differ from the good ones. What a file in a repository cannot show well (bytes, sizes) is made here.
"""

import json
import os
import re
import shutil
import subprocess
import sys
import time
import unicodedata
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

from checker.cli import main

ROOT = Path(__file__).resolve().parents[1]
BAD = Path(__file__).with_name("bad")
SITES = sorted(path.name for path in (BAD / "sites").glob("*") if path.with_name(f"{path.name}.told").exists())
RULESETS = sorted(path.name for path in (BAD / "rulesets").iterdir() if (path / "told").exists())
SOON = 1.0
"""Seconds within which anything is refused."""


class Answer(NamedTuple):
    """What a run of the command gave. Its seconds are those of the processor, whatever else the machine does."""

    code: int
    out: str
    err: str
    seconds: float


Run = Callable[..., Answer]


@pytest.fixture
def checker(capsys: pytest.CaptureFixture[str]) -> Run:
    """The command in this process."""

    def run(*words: str) -> Answer:
        begun = time.process_time()
        with pytest.raises(SystemExit) as ended:
            main([*words], prog_name="checker")
        seconds = time.process_time() - begun
        assert isinstance(ended.value.code, int)
        return Answer(ended.value.code, *capsys.readouterr(), seconds)

    return run


def from_outside(*words: str, cwd: Path) -> Answer:
    """The command in a process of its own, as from a shell. On Windows nobody counts the seconds of other processes."""
    before = os.times()
    run = subprocess.run(
        [sys.executable, "-m", "checker", *words],
        cwd=cwd,
        env=os.environ | {"PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8"},
        capture_output=True,
        encoding="utf-8",
        timeout=20,
    )
    after = os.times()
    seconds = after.children_user + after.children_system - before.children_user - before.children_system
    return Answer(run.returncode, run.stdout, run.stderr, seconds)


def told(err: str) -> str:
    """What stands on the error stream, without a library's own words."""
    return re.sub(r"\(the parser: .*\)", "(the parser: …)", err)


def assert_refused(answer: Answer) -> None:
    assert (answer.code, answer.out) == (2, "")
    assert answer.err.startswith("checker: ")
    assert "Traceback" not in answer.err
    assert "fault of the program" not in answer.err
    assert answer.seconds < SOON


# Site files


@pytest.mark.parametrize("name", SITES)
def test_a_bad_site_file_is_refused_with_place_and_remedy(
    name: str, checker: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(BAD / "sites")
    answer = checker("check", name)
    assert_refused(answer)
    assert told(answer.err) == Path(f"{name}.told").read_text(encoding="utf-8")
    assert not Path("harm").exists()


def test_without_its_fault_the_same_site_is_read(checker: Run) -> None:
    answer = checker("check", str(BAD / "sites" / "good.yaml"))
    assert (answer.code, answer.err) == (1, "")


def test_every_site_file_has_its_words() -> None:
    files = {path.name for path in (BAD / "sites").iterdir() if path.suffix != ".told"}
    assert files == {*SITES, "good.yaml"}


def test_ten_mistakes_are_told_at_once(checker: Run) -> None:
    answer = checker("check", str(BAD / "sites" / "ten-mistakes.yaml"))
    assert answer.err.count("  Found ") == 10


SITE = "id: shop\nregion: us\n"
_HA = "".join(f"{'abcdefghi'[n]}: &{'bcdefghij'[n]} [{', '.join([f'*{chr(97 + n)}'] * 9)}]\n" for n in range(9))
MADE: dict[str, tuple[str, bytes, str]] = {
    "a picture": (
        "shop.yaml",
        b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00\x00\x01\x00\x00\x00\x01\x08\x02\x00\x00\x00",
        "shop.yaml:1:1: this is not UTF-8 text.\n  Found the byte 0x89; write the file as UTF-8",
    ),
    "a text with a zero byte": (
        "shop.yaml",
        b"id: shop\nname: a\x00b\n",
        "shop.yaml:2:8: this character does not belong in a text.\n  Found U+0000; write the text without it",
    ),
    "UTF-16": (
        "shop.yaml",
        SITE.encode("utf-16"),
        "shop.yaml:1:1: this is not UTF-8 text.\n  Found the byte 0xff; write the file as UTF-8",
    ),
    "UTF-16 without its mark": (
        "shop.yaml",
        SITE.encode("utf-16-be"),
        "shop.yaml:1:1: this character does not belong in a text.\n  Found U+0000; write the text without it",
    ),
    "Latin-1": (
        "shop.yaml",
        "id: shop\nname: Rollers, 20 °C\n".encode("latin-1"),
        "shop.yaml:2:19: this is not UTF-8 text.\n  Found the byte 0xb0; write the file as UTF-8",
    ),
    "more than a megabyte": (
        "shop.yaml",
        SITE.encode() + b"# far too much\n" * 70_000,
        "shop.yaml:1:1: a file holds at most 1000000 bytes.\n  Found a larger one; write several files",
    ),
    "more than a megabyte of JSON": (
        "shop.json",
        b'{"id": "shop", "name": "' + b"x" * 1_000_000 + b'"}',
        "shop.json:1:1: a file holds at most 1000000 bytes.\n  Found a larger one; write several files",
    ),
    "YAML 10,000 lists deep": (
        "shop.yaml",
        b"id: shop\nrooms:\n  " + b"- " * 10_000 + b"cell\n",
        f"shop.yaml:3:101: rooms{'[0]' * 38}…: a file is at most 50 levels deep.\n"
        "  Found a deeper one; write fewer levels",
    ),
    "YAML 10,000 keys deep": (
        "shop.yaml",
        b"id: shop\nrooms: " + b"{a: " * 10_000 + b"}" * 10_000,
        f"shop.yaml:2:204: rooms{'.a' * 49}: a file is at most 50 levels deep.\n"
        "  Found a deeper one; write fewer levels",
    ),
    "JSON 10,000 levels deep": (
        "shop.json",
        b'{"rooms": ' + b"[" * 10_000 + b"]" * 10_000 + b"}",
        "shop.json:1:60: a file is at most 50 levels deep.\n  Found a deeper one; write fewer levels",
    ),
    "a number of 100,000 digits": (
        "shop.json",
        b'{"id": "shop", "name": ' + b"9" * 100_000 + b"}",
        f"shop.json:1:24: name: a number takes at most 60 characters.\n  Found {'9' * 59}…; write a shorter one",
    ),
    "a key of 100,000 letters": (
        "shop.yaml",
        SITE.encode() + b"k" * 1000 + b": 1\n",
        f"shop.yaml:3:1: {'k' * 119}…: a key takes at most 200 characters.\n  Found {'k' * 59}…; write a word",
    ),
}


@pytest.mark.parametrize("name, content, says", MADE.values(), ids=list(MADE))
def test_what_is_no_readable_text_is_refused(name: str, content: bytes, says: str, tmp_path: Path) -> None:
    (tmp_path / name).write_bytes(content)
    answer = from_outside("check", name, cwd=tmp_path)
    assert_refused(answer)
    assert answer.err.replace("checker: ", "") == says + "\n"


@pytest.mark.parametrize(
    "content",
    [
        pytest.param(SITE + "fans: " + "[" * 10_000 + "]" * 10_000, id="10,000 brackets"),
        pytest.param("a: &a [ha]\n" + _HA, id="repeats of repeats, nine deep"),
        pytest.param(SITE + "fans: [" + "*a, " * 20_000 + "]\n", id="20,000 repeats"),
        pytest.param(SITE + "fans:\n" + "  - {id: x, flow: .nan}\n" * 20_000, id="20,000 numbers that are none"),
        pytest.param(SITE + "".join(f"k{n}: 1\nk{n}: 1\n" for n in range(20_000)), id="20,000 repeated keys"),
        pytest.param(SITE + "fans: [" + "1, " * 300_000 + "]\n", id="300,000 values"),
    ],
)
def test_a_flood_is_cut_off(content: str, tmp_path: Path) -> None:
    (tmp_path / "flood.yaml").write_text(content, encoding="utf-8")
    answer = from_outside("check", "flood.yaml", cwd=tmp_path)
    assert_refused(answer)
    assert answer.err.count("\n") < 250


@pytest.mark.parametrize("where, says", [
    ("nowhere.yaml", "nowhere.yaml:1:1: there is no such file.\n  Write the name of a file that is there"),
    ("folder", "folder:1:1: this is a folder.\n  Write the name of a file"),
    ("no\x1b[2J\u202ewhere", "no\\x1b[2J\\u202ewhere:1:1: there is no such file.\n"
     "  Write the name of a file that is there"),
])  # fmt: skip
def test_what_is_no_file_is_refused(where: str, says: str, tmp_path: Path) -> None:
    (tmp_path / "folder").mkdir()
    answer = from_outside("check", where, cwd=tmp_path)
    assert_refused(answer)
    assert answer.err.replace("checker: ", "") == says + "\n"


def test_a_bad_file_does_not_silence_a_good_one(checker: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(BAD / "sites")
    alone = checker("check", "good.yaml", "--as-of", "2026-11-25")
    both = checker("check", "decimal-comma.yaml", "good.yaml", "--as-of", "2026-11-25")
    assert (both.code, both.out) == (2, alone.out)
    assert told(both.err) == Path("decimal-comma.yaml.told").read_text(encoding="utf-8")


# Rulesets


@pytest.fixture
def rulesets(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[[str], None]:
    """Puts the good rulesets, with one fault, where the test runs."""
    monkeypatch.chdir(tmp_path)

    def put(fault: str) -> None:
        shutil.copytree(BAD / "rulesets" / "good", "rulesets")
        shutil.copytree(BAD / "rulesets" / fault, "rulesets", dirs_exist_ok=True)

    return put


@pytest.mark.parametrize("name", RULESETS)
def test_bad_rulesets_are_refused_with_place_and_remedy(
    name: str, checker: Run, rulesets: Callable[[str], None]
) -> None:
    rulesets(name)
    answer = checker("rules", "prove", "--rulesets", "rulesets")
    assert_refused(answer)
    assert answer.err.replace(os.sep, "/") == Path("rulesets/told").read_text(encoding="utf-8")
    assert not Path("harm").exists()


@pytest.mark.parametrize(
    "words",
    [("check", "shop"), ("rules", "list"), ("rules", "show", "clearances.beside"), ("rules", "prove")],
    ids=" ".join,
)
def test_every_command_refuses_them(words: tuple[str, ...], checker: Run, rulesets: Callable[[str], None]) -> None:
    rulesets("provision-for-no-rule")
    Path("shop.yaml").write_text(SITE, encoding="utf-8")
    answer = checker(*words, "--rulesets", "rulesets")
    assert_refused(answer)
    assert answer.err.replace(os.sep, "/") == Path("rulesets/told").read_text(encoding="utf-8")


def test_without_their_fault_the_same_rulesets_are_proved(checker: Run) -> None:
    answer = checker("rules", "prove", "--rulesets", str(BAD / "rulesets" / "good"))
    assert (answer.code, answer.err) == (0, "")
    assert answer.out.startswith("1 cases of 1 rules proved")


def test_every_folder_of_rulesets_has_its_words() -> None:
    assert {path.name for path in (BAD / "rulesets").iterdir()} == {*RULESETS, "good"}


@pytest.mark.parametrize(
    "name", ["regular-expression-between-words", "power-without-end", "shift-without-end", "alias-bomb"]
)
def test_rulesets_that_would_run_for_ever_are_refused_soon(
    name: str, tmp_path: Path, rulesets: Callable[[str], None]
) -> None:
    rulesets(name)
    assert_refused(from_outside("rules", "prove", "--rulesets", "rulesets", cwd=tmp_path))


@pytest.mark.parametrize("where, says", [
    ("nowhere", "nowhere/sources.yaml:1:1: there is no such file.\n  Write the name of a file that is there"),
    ("empty", "empty/sources.yaml:1:1: there is no such file.\n  Write the name of a file that is there"),
])  # fmt: skip
def test_a_folder_without_rulesets_is_refused(
    where: str, says: str, checker: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("empty").mkdir()
    answer = checker("rules", "list", "--rulesets", where)
    assert_refused(answer)
    assert answer.err.replace("checker: ", "").replace(os.sep, "/") == says + "\n"


# Names that would command whatever shows them


def columns(line: str) -> int:
    wide = sum(unicodedata.east_asian_width(character) in "WF" for character in line)
    return len(line) + wide - sum(unicodedata.category(character) in ("Mn", "Me") for character in line)


def commands(text: str) -> set[str]:
    """Characters that a terminal or a reader obeys instead of showing; ends of lines are none."""
    return {character for character in text if unicodedata.category(character)[0] == "C" and character != "\n"}


@pytest.fixture
def hostile(tmp_path: Path) -> str:
    """A site file whose names hold commands, one of them longer than any line."""
    text = (BAD / "hostile-names.yaml").read_text(encoding="utf-8")
    site = tmp_path / "hostile.yaml"
    site.write_text(text.replace("LONG", "x" * 3000 + "\\u202E" + "汉" * 3000), encoding="utf-8")
    return str(site)


@pytest.mark.parametrize("details", [(), ("--details",)], ids=["short", "whole"])
def test_a_text_report_shows_hostile_names_and_obeys_none(details: tuple[str, ...], hostile: str, checker: Run) -> None:
    answer = checker("check", hostile, *details)
    assert (answer.code, answer.err) == (1, "")
    assert commands(answer.out) == set()
    assert [line for line in answer.out.splitlines() if columns(line) > 80] == []
    assert {"=cmd('harm')", "<U+202E>", "<U+2066>", "<U+200F>", "<U+E000>", "x" * 70} <= set(
        re.findall(r"=cmd\('harm'\)|<U\+\w+>|x{70}", answer.out)
    )


def test_json_holds_hostile_names_and_obeys_none(hostile: str, checker: Run) -> None:
    answer = checker("check", hostile, "--format", "json")
    assert (answer.code, answer.err) == (1, "")
    assert commands(answer.out) & set("\x1b\x7f\x9b\u202a\u202e\u2066\u200f") == set()
    held = json.loads(answer.out)
    assert held["site"]["name"] == "=cmd('harm')"
    assert "\u202e" in held["site"]["address"]


@pytest.mark.parametrize("words", [("rules", "list"), ("rules", "show", "clearances.beside")], ids=" ".join)
def test_rules_with_hostile_words_are_shown_and_not_obeyed(
    words: tuple[str, ...], checker: Run, rulesets: Callable[[str], None]
) -> None:
    rulesets("good")
    topic = Path("rulesets/common/clearances.yaml")
    held = topic.read_text(encoding="utf-8")
    topic.write_text(held.replace("There is room", '"\\u202EThere\\u2066 is').replace("machine\n", 'machine"\n', 1),
                     encoding="utf-8")  # fmt: skip
    answer = checker(*words, "--rulesets", "rulesets")
    assert (answer.code, answer.err) == (0, "")
    assert "<U+202E>There<U+2066> is" in answer.out
    assert commands(answer.out) == set()


def test_a_hostile_region_is_shown_and_not_obeyed(checker: Run) -> None:
    answer = checker("check", str(BAD / "sites" / "good.yaml"), "--region", "\x1b[2J\u202eus")
    assert "<U+001B>[2J<U+202E>us is not held" in answer.out
    assert commands(answer.out + answer.err) == set()


# Where the report is written


GOOD = str(BAD / "sites" / "good.yaml")


def test_a_report_in_a_file_is_the_report(checker: Run, tmp_path: Path) -> None:
    shown = checker("check", GOOD, "--as-of", "2026-11-25")
    written = checker("check", GOOD, "--as-of", "2026-11-25", "-o", str(tmp_path / "report.txt"))
    assert (written.code, written.out, written.err) == (shown.code, "", "")
    assert (tmp_path / "report.txt").read_bytes() == shown.out.encode()
    assert [path.name for path in tmp_path.iterdir()] == ["report.txt"]


def test_no_folder_is_made_up_for_a_report(checker: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    answer = checker("check", GOOD, "-o", "nowhere/report.txt")
    assert_refused(answer)
    where = Path("nowhere", "report.txt")
    assert answer.err == f"checker: {where}: there is no folder nowhere; make it first, or name another\n"
    assert list(tmp_path.iterdir()) == []


def test_a_folder_is_no_place_for_a_report(checker: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("folder").mkdir()
    answer = checker("check", GOOD, "-o", "folder")
    assert_refused(answer)
    assert answer.err == "checker: folder: is no file to write to; name one\n"
    assert [path.name for path in tmp_path.rglob("*")] == ["folder"]


def test_a_run_that_fails_keeps_the_report_that_was_there(checker: Run, tmp_path: Path) -> None:
    report = tmp_path / "report.txt"
    report.write_text("of last year\n", encoding="utf-8")
    assert_refused(checker("check", str(BAD / "sites" / "decimal-comma.yaml"), "-o", str(report)))
    assert report.read_text(encoding="utf-8") == "of last year\n"


def test_a_report_that_cannot_be_written_whole_leaves_the_old_one(
    checker: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    report = tmp_path / "report.txt"
    report.write_text("of last year\n", encoding="utf-8")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    answer = checker("check", GOOD, "-o", str(report))
    assert_refused(answer)
    assert "No space left on device" in answer.err
    assert [path.name for path in tmp_path.iterdir()] == ["report.txt"]
    assert report.read_text(encoding="utf-8") == "of last year\n"
