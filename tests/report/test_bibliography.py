"""What rests on each source, as a person reads it."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from checker import shipped
from checker.cli import main
from checker.keeping.sources import sources_of
from checker.report.bibliography import sources
from checker.rules import read_rulesets
from checker.vocabulary import Status
from tests.keeping.test_sources import MEMORY, UNUSED
from tests.rules.shelf import read, spoilt

WHOLE = """\
Provisions, by how their values are known: 2 verified, 0 secondary, 1 memory, 1
common practice.

Sources, and what rests on each: 2
----------------------------------

Act 1: An act that we made up
   law, ref act-1
   - fire.walk, workplace law (us)
     rating 1, walk 50 ft; (d)(4); read in the source itself;
     rulesets/us/fire.yaml, line 15
   - fire.walk, workplace law (us)
     rating 1, walk 40 ft; (d)(4); read in the source itself;
     rulesets/us/fire.yaml, line 20

Code 7 (2024): A code that we made up
   code, ref code-7
   - fire.walk-by-level, fire code (us)
     table near; from memory, to be confirmed; rulesets/us/fire.yaml, line 25

Common practice, which names no source: 1
-----------------------------------------
   - fire.walk, good practice (common)
     rating 1, walk 15 m; rulesets/common/fire.yaml, line 27

"""
UNUSED_TOLD = """\

Sources on which nothing rests: 1
---------------------------------

Act 2: Nobody uses it
   law, ref act-2
   Stands in  rulesets/us/sources.yaml, line 2
"""


def test_everything(tmp_path: Path) -> None:
    text = sources(sources_of(read(tmp_path / "rulesets", {**spoilt(MEMORY), **UNUSED})))
    assert text.startswith(WHOLE)
    assert text.endswith(UNUSED_TOLD)
    work = text[len(WHOLE) : -len(UNUSED_TOLD)]
    assert work.startswith("From memory, to be confirmed: ")
    assert "\nCode 7 (2024): A code that we made up\n   code, ref code-7\n   - fire.walk-by-level" in work
    assert "\nFormula: circuit.conductor_area\n" in work


def test_a_clause_that_is_remembered_is_told_only_to_who_looks_it_up(tmp_path: Path) -> None:
    change = (MEMORY[0], MEMORY[1], MEMORY[2].replace("status", 'clause: "906.3", status'))
    book = read(tmp_path / "rulesets", spoilt(change))
    assert "906.3" not in sources(sources_of(book))
    work = " ".join(sources(sources_of(book, "memory"), "memory").split())
    assert "table near; look first at 906.3, as far as is remembered; from memory, to be confirmed" in work


HEADINGS = ("Sources, and what rests on each", "Common practice", "From memory, to be confirmed", "Sources on which")


@pytest.mark.parametrize(
    "status, shown",
    [(None, 4), ("verified", 1), ("secondary", 1), ("memory", 1), ("common practice", 1)],
)
def test_one_status_shows_only_its_own_lists(status: Status | None, shown: int) -> None:
    text = sources(sources_of(read_rulesets(shipped.rulesets()), status), status)
    assert sum(f"\n{heading}" in f"\n{text}" for heading in HEADINGS) == shown
    assert max(map(len, text.splitlines())) <= 80


def test_the_command(tmp_path: Path) -> None:
    read(tmp_path / "rulesets", spoilt(MEMORY))
    done = CliRunner().invoke(
        main, ["rules", "sources", "--status", "memory", "--rulesets", str(tmp_path / "rulesets")]
    )
    assert done.exit_code == 0
    assert done.stdout.startswith("From memory, to be confirmed: ")
    assert "fire.walk-by-level, fire code (us)" in done.stdout
