"""The rulesets and sites that come with the program are found from a checkout and from a wheel."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from checker import shipped

ROOT = Path(__file__).resolve().parents[1]


def _build(out: Path, *what: str) -> Path:
    """The wheel that the build front end makes in `out`; without `what`, by way of the sdist."""
    subprocess.run(
        [sys.executable, "-m", "build", "--no-isolation", *what, "--outdir", out, ROOT],
        check=True,
        capture_output=True,
    )
    (wheel,) = out.glob("*.whl")
    return wheel


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return _build(tmp_path_factory.mktemp("tree"), "--wheel")


def _contents(wheel: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(wheel) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


@pytest.mark.parametrize("name", ["rulesets", "sites"])
def test_a_checkout_uses_its_own_folders(name: str) -> None:
    folder = getattr(shipped, name)()
    assert folder == ROOT / name
    assert folder.is_dir()


@pytest.mark.parametrize("name", ["rulesets", "sites"])
def test_a_wheel_carries_the_same_files(name: str, wheel: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(tmp_path)
    answer = subprocess.run(
        [sys.executable, "-c", f"from checker import shipped; print(shipped.{name}())"],
        cwd=tmp_path,
        env=os.environ | {"PYTHONPATH": str(tmp_path)},
        check=True,
        capture_output=True,
        text=True,
    )
    folder = Path(answer.stdout.strip())
    assert folder == tmp_path.resolve() / "checker" / "_data" / name
    assert _files(folder) == _files(ROOT / name) != {}


def _files(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_the_sdist_builds_the_same_wheel(wheel: Path, tmp_path: Path) -> None:
    assert _contents(_build(tmp_path)) == _contents(wheel)


def test_the_wheel_says_that_it_is_typed(wheel: Path) -> None:
    assert "checker/py.typed" in _contents(wheel)
