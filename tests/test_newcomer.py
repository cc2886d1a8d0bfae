"""The wheel, installed into an environment of its own and used from an empty folder, brings all that it needs."""

import json
import os
import subprocess
import sys
import sysconfig
import venv
from collections.abc import Callable
from pathlib import Path

import pytest

from checker import __version__

ROOT = Path(__file__).resolve().parents[1]
SITES = sorted(path.name for path in (ROOT / "sites").glob("*.yaml"))

Run = Callable[..., "subprocess.CompletedProcess[str]"]


def _run(words: list[str | Path], cwd: Path) -> "subprocess.CompletedProcess[str]":
    """A run that sees nothing of the checkout: no paths and no settings from outside."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "VIRTUAL_ENV"))}
    return subprocess.run(
        words, cwd=cwd, env=kept | {"PYTHONUTF8": "1"}, capture_output=True, encoding="utf-8", timeout=120
    )


@pytest.fixture(scope="module")
def scripts(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of programs of a fresh environment that holds the wheel, and borrows only the libraries it needs."""
    folder = tmp_path_factory.mktemp("newcomer")
    built = _run(
        [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", folder / "dist", ROOT], folder
    )
    assert built.returncode == 0, built.stdout + built.stderr
    (wheel,) = (folder / "dist").glob("*.whl")

    venv.create(folder / "env", with_pip=False)
    home = sysconfig.get_path("scripts", "venv", {"base": str(folder / "env")})
    python = Path(home) / Path(sys.executable).name
    offline = ["--no-deps", "--no-index", "--disable-pip-version-check"]
    installed = _run([sys.executable, "-m", "pip", "--python", python, "install", *offline, wheel], folder)
    assert installed.returncode == 0, installed.stdout + installed.stderr

    # Borrowed last, so that pip sees nothing of them. What the environment itself holds comes first when it imports.
    asked = _run([python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))"], folder)
    libraries = sorted({sysconfig.get_path("purelib"), sysconfig.get_path("platlib")})
    borrowed = Path(asked.stdout.strip()) / "borrowed.pth"
    borrowed.write_text("\n".join(libraries) + "\n", encoding="utf-8")
    return Path(home)


@pytest.fixture
def checker(scripts: Path, tmp_path: Path) -> Run:
    """The installed command, run from an empty folder."""
    return lambda *words: _run([scripts / "checker", *words], tmp_path)


@pytest.fixture
def python(scripts: Path, tmp_path: Path) -> Run:
    """Python of the fresh environment, run from an empty folder."""
    return lambda *words: _run([scripts / Path(sys.executable).name, *words], tmp_path)


def test_the_package_and_its_data_come_from_the_wheel(scripts: Path, python: Run) -> None:
    told = python("-c", "from checker import shipped as s; print(s.__file__, s.rulesets(), s.sites(), sep='\\n')")
    assert told.stderr == ""
    environment = scripts.parent.resolve()
    assert [Path(line).resolve().is_relative_to(environment) for line in told.stdout.splitlines()] == [True] * 3


@pytest.mark.parametrize("name", SITES)
def test_a_demonstration_site_is_judged_by_name(name: str, checker: Run) -> None:
    judged = checker("check", name, "--as-of", "2026-11-25", "--format", "json")
    assert (judged.returncode, judged.stderr) == (1, "")
    result = json.loads(judged.stdout)
    assert result["as_of"] == "2026-11-25"
    assert result["summary"]["not_met"] + result["summary"]["undetermined"] > 0


def test_the_text_report_says_as_much_as_from_the_checkout(checker: Run, tmp_path: Path) -> None:
    words = ("check", SITES[0], "--as-of", "2026-11-25")
    installed = checker(*words)
    here = subprocess.run(
        [sys.executable, "-m", "checker", *words],
        cwd=tmp_path,
        env=os.environ | {"PYTHONPATH": str(ROOT), "PYTHONUTF8": "1"},
        capture_output=True,
        encoding="utf-8",
        timeout=60,
    )
    assert _without_places(installed.stdout) == _without_places(here.stdout) != []


def _without_places(report: str) -> list[str]:
    """The words of a report but for where its file lies."""
    kept, dropping = [], False
    for line in report.splitlines():
        dropping = line.startswith("   File ") or (dropping and line.startswith(" " * 14))
        if not dropping:
            kept.append(line)
    return kept


def test_every_rule_is_proved(checker: Run) -> None:
    proved = checker("rules", "prove")
    assert (proved.returncode, proved.stderr) == (0, "")
    cases, rules = (int(word) for word in proved.stdout.split() if word.isdecimal())
    assert cases >= 3 * rules > 0


def test_the_schema_is_the_shipped_one(checker: Run) -> None:
    shown = checker("schema", "site")
    assert (shown.returncode, shown.stderr) == (0, "")
    shipped = (ROOT / "checker" / "site" / "site.schema.json").read_text(encoding="utf-8")
    assert json.loads(shown.stdout) == json.loads(shipped)


def test_the_module_tells_its_version(python: Run) -> None:
    told = python("-m", "checker", "--version")
    assert (told.returncode, told.stderr) == (0, "")
    assert told.stdout.split()[-1] == __version__


def test_nothing_is_left_in_the_folder_of_work(checker: Run, tmp_path: Path) -> None:
    checker("check", SITES[0])
    checker("rules", "list")
    assert list(tmp_path.iterdir()) == []
