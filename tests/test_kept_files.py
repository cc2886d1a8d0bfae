"""Files are written whole or not at all, and taken only where they are whole."""

import os
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from checker.kept_files import (
    body_of,
    digest_of_files,
    drop_older_half,
    drop_oldest,
    keep_body,
    last_written_first,
    modules_in,
    write_whole,
)


@pytest.mark.parametrize("body", [b"", b"one line", b"two\nlines\n", bytes(range(256))])
def test_what_was_kept_comes_back(body: bytes, tmp_path: Path) -> None:
    keep_body(tmp_path / "new" / "answer", body)
    assert body_of(tmp_path / "new" / "answer", 1000) == body
    assert [path.name for path in (tmp_path / "new").iterdir()] == ["answer"]


@pytest.mark.parametrize("spoilt", [b"", b"no digest", b"\xff\xfe\n\xff", b"0" * 64 + b"\nbody"])
def test_what_is_not_whole_is_not_taken(spoilt: bytes, tmp_path: Path) -> None:
    (tmp_path / "answer").write_bytes(spoilt)
    assert body_of(tmp_path / "answer", 1000) is None


def test_a_file_cut_short_or_too_large_or_not_there_is_not_taken(tmp_path: Path) -> None:
    file = tmp_path / "answer"
    keep_body(file, b"x" * 100)
    assert body_of(file, 100) is None
    file.write_bytes(file.read_bytes()[:-1])
    assert body_of(file, 1000) is None
    assert body_of(tmp_path / "other", 1000) is None


def test_a_file_that_cannot_be_written_stays_what_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "report"
    file.write_bytes(b"before")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    with pytest.raises(OSError, match="No space"):
        write_whole(file, b"after")
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == {"report": b"before"}
    keep_body(file, b"after")
    assert file.read_bytes() == b"before"


def test_many_writers_leave_one_whole_file(tmp_path: Path) -> None:
    file = tmp_path / "answer"
    bodies = [bytes([number]) * 50_000 for number in range(40)]
    with ThreadPoolExecutor(8) as pool:
        list(pool.map(lambda body: keep_body(file, body), bodies))
    assert body_of(file, 100_000) in bodies
    assert list(tmp_path.iterdir()) == [file]


def test_the_last_written_stay(tmp_path: Path) -> None:
    files = [tmp_path / f"{number}" for number in range(5)]
    for number, file in enumerate(files):
        file.write_bytes(b"")
        os.utime(file, (number, number))
    assert last_written_first(files) == files[::-1]
    drop_oldest(files, 2)
    assert sorted(tmp_path.iterdir()) == files[3:]


def test_modules_are_told_apart_by_their_size_and_time(tmp_path: Path) -> None:
    (tmp_path / "a.py").write_bytes(b"x")
    os.utime(tmp_path / "a.py", (1, 1))
    one = modules_in(tmp_path)
    os.utime(tmp_path / "a.py", (2, 2))
    assert one
    assert modules_in(tmp_path) != one
    assert modules_in(tmp_path / "nowhere") == ""


@pytest.mark.skipif(os.name == "nt", reason="folders of Windows have no such mode")
def test_what_is_kept_is_for_its_owner_alone(tmp_path: Path) -> None:
    keep_body(tmp_path / "results" / "one", b"the name of a site")
    assert (tmp_path / "results").stat().st_mode & 0o077 == 0


def test_the_older_half_goes_once_there_are_too_many(tmp_path: Path) -> None:
    for number in range(5):
        (tmp_path / f"result-{number}").write_bytes(b"")
        os.utime(tmp_path / f"result-{number}", (number, number))
    drop_older_half(tmp_path, "result-*", 5)
    assert len(list(tmp_path.iterdir())) == 5
    drop_older_half(tmp_path, "result-*", 4)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["result-3", "result-4"]


@pytest.mark.parametrize("change", ["content", "name", "folder", "one more", "one less", "nothing"])
def test_the_digest_of_files_tells_all_that_they_hold_and_where(tmp_path: Path, change: str) -> None:
    def folder(name: str, files: dict[str, str]) -> Path:
        for file, text in files.items():
            path = tmp_path / change / name / file
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text)
        return tmp_path / change / name

    files = {"us/layer.yaml": "a", "us/fire.yaml": "b", "us/notes.txt": "not asked about"}
    other = {
        "content": {**files, "us/fire.yaml": "c"},
        "name": {"us/layer.yaml": "a", "us/noise.yaml": "b"},
        "folder": {"gb/layer.yaml": "a", "us/fire.yaml": "b"},
        "one more": {**files, "gb/layer.yaml": ""},
        "one less": {"us/layer.yaml": "a"},
        "nothing": {**files, "us/notes.txt": "changed"},
    }[change]
    before = digest_of_files([folder("one/rulesets", files)], "**/*.yaml")
    after = digest_of_files([folder("two/rulesets", other)], "**/*.yaml")
    assert (before == after) is (change == "nothing")
