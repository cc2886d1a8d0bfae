"""What is imported when the program starts, and which room may import which."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]


@pytest.fixture(scope="module")
def imported_at_start() -> set[str]:
    """Names of all modules that `import checker.cli` brings in, read off Python's own log of imports."""
    run = subprocess.run(
        [sys.executable, "-X", "importtime", "-c", "import checker.cli"],
        cwd=ROOT,
        check=True,
        capture_output=True,
        text=True,
    )
    return {line.rpartition("|")[2].strip() for line in run.stderr.splitlines()}


def test_the_log_of_imports_is_read_rightly(imported_at_start: set[str]) -> None:
    assert {"checker", "checker.cli", "click"} <= imported_at_start


@pytest.mark.parametrize("heavy", ["rule_engine", "jsonschema", "pint", "shapely", "numpy"])
def test_a_heavy_library_waits_until_it_is_used(heavy: str, imported_at_start: set[str]) -> None:
    assert heavy not in {name.partition(".")[0] for name in imported_at_start}


def test_rooms_import_one_way() -> None:
    """The contracts stand in pyproject.toml."""
    command = "from importlinter.cli import lint_imports_command; lint_imports_command()"
    run = subprocess.run(
        [sys.executable, "-c", command, "--no-logo"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        encoding="utf-8",
    )
    assert run.returncode == 0, run.stdout + run.stderr
