"""Faults of the language that were mended, one test each."""

import decimal
from decimal import Decimal
from pathlib import Path
from typing import Any

from checker.quantities import Missing
from checker.rules.compile import compile_tree
from checker.rules.parse import parse
from checker.units import GRID
from tests.rules.shelf import RIGHT, read
from tests.rules.world import facts


def needs(written: str, box: dict[str, Any], limit: dict[str, Any]) -> list[str]:
    gaps: list[Missing] = []
    with decimal.localcontext(GRID):
        compile_tree(parse(written))(facts(box, limit), gaps)
    return list(dict.fromkeys(need.path for gap in gaps for need in gap.needs))


def test_a_call_that_gives_nothing_is_named_beside_what_is_not_recorded() -> None:
    """The gap of a call with all its arguments was lost where another part of the same side had one."""
    given = {"b": Decimal(4)}, {"x": Decimal(1)}
    assert needs("box.a + box.reach(box.b) <= limit.x", *given) == ["box.a", "box.reach"]
    assert needs("sum([i.n for i in box.items]) + box.reach(box.b) <= limit.x", *given) == ["box.items", "box.reach"]


def test_a_call_without_a_row_does_not_break_the_day_it_is_due() -> None:
    """What stopped the reading of a period had no name any more when the other gaps had been looked for."""

    def no_row(_: str) -> Any:
        raise Missing("table.often", "outside range")

    names = {**facts({"colour": "red"}), "table": {"often": {"again": no_row}}}
    gaps: list[Missing] = []
    truth, _ = compile_tree(parse("due(box.tested_on, table.often.again(box.colour)) >= as_of"))(names, gaps)
    paths = dict.fromkeys(need.path for gap in gaps for need in gap.needs)
    assert (truth, list(paths)) == (None, ["box.tested_on", "table.often"])


def digest(folder: Path, tables: str) -> str:
    return (
        read(folder, {**RIGHT, "us/fire.yaml": tables + RIGHT["us/fire.yaml"][len("tables:\n") :]}).layers["us"].digest
    )


def test_tables_called_with_their_keys_in_another_order_have_another_digest(tmp_path: Path) -> None:
    """Two rulesets that judge otherwise had one digest: the order of a table's keys was lost."""
    table = (
        "tables:\n  - {id: area, keys: {KEYS}, columns: {walk: length}, rows: [{long: 2 m, wide: 3 m, walk: 1 m}]}\n"
    )
    one = digest(tmp_path / "one", table.replace("KEYS", "long: length, wide: length"))
    other = digest(tmp_path / "other", table.replace("KEYS", "wide: length, long: length"))
    assert one != other
