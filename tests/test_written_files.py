"""What stands in files that people write, and by what they are told apart."""

import os
from pathlib import Path

import pytest

from checker.written_files import LARGEST, digest_of, files_in, ordinary_content


def test_an_ordinary_file_is_read_whole(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_bytes(b"x" * LARGEST)
    assert ordinary_content(tmp_path / "a.yaml") == b"x" * LARGEST


def test_what_is_none_or_too_large_is_left_to_who_says_why(tmp_path: Path) -> None:
    (tmp_path / "large.yaml").write_bytes(b"x" * (LARGEST + 1))
    (tmp_path / "folder.yaml").mkdir()
    for name in ("large.yaml", "folder.yaml", "nowhere.yaml", "no\0name"):
        assert ordinary_content(tmp_path / name) is None


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_no_pipe_is_waited_on(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.yaml")
    assert ordinary_content(tmp_path / "pipe.yaml") is None
    (file,) = files_in([tmp_path]).values()
    assert (file.content, file.digest) == (None, "")


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
    before = digest_of(files_in([folder("one/rulesets", files)]).values())
    after = digest_of(files_in([folder("two/rulesets", other)]).values())
    assert (before == after) is (change == "nothing")
