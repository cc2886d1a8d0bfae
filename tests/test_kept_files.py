"""Files are written whole or not at all, and taken only where they are whole."""

import os
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

import checker
from checker.kept_files import (
    body_of,
    drop_older_half,
    drop_oldest,
    keep_body,
    last_written_first,
    modules_of,
    program,
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


@pytest.mark.parametrize("changed", ["a.py", "room/b.py", "room/new.py"])
def test_what_other_modules_made_is_told_apart(tmp_path: Path, changed: str) -> None:
    (tmp_path / "room").mkdir()
    for name in ("a.py", "room/b.py", "room/table.json"):
        (tmp_path / name).write_bytes(b"x")
    one = list(modules_of(str(tmp_path)))
    (tmp_path / "room" / "table.json").write_bytes(b"yy")
    assert list(modules_of(str(tmp_path))) == one
    (tmp_path / changed).write_bytes(b"yy")
    assert list(modules_of(str(tmp_path))) != one


@pytest.mark.parametrize("what", ["checker.kept_files.__version__", "sys.version", "checker.kept_files.modules_of"])
def test_a_program_of_another_version_or_other_modules_is_another(monkeypatch: pytest.MonkeyPatch, what: str) -> None:
    with monkeypatch.context() as patch:
        program.cache_clear()
        patch.setattr(what, (lambda _: ["other"]) if what.endswith("modules_of") else "other")
        other = program()
        program.cache_clear()
    assert program() != other


def test_every_module_of_the_program_counts() -> None:
    package = Path(checker.__file__).parent
    seen = [each.partition(":")[0] for each in modules_of(str(package))]
    assert sorted(seen) == sorted(path.name for path in package.rglob("*.py"))


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
