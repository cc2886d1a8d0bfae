"""Every limit is entered twice, by two hands: in rulesets/ and in values.csv, which was written from the sources
without looking at rulesets/. README.md here says what a row holds. Neither file is right by itself.
"""

import contextlib
import csv
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest

from checker import shipped
from checker.rules import Rulebook, read_rulesets
from checker.rules.model import Provision
from checker.rules.tables import Band, Key
from checker.units import GRID, UnitProblem, read, unit_of

VALUES = Path(__file__).with_name("values.csv")
COLUMNS = ["rule", "layer", "authority", "limit", "value", "unit", "source", "clause", "status"]
SHORT = {
    "regulation": "reg",
    "reg": "reg",
    "schedule": "sched",
    "appendix": "app",
    "app": "app",
    "clauses": "",
    "footnote": "note",
}
"""How parts of a text are abbreviated in a clause."""
WEAKEST_FIRST = ("common practice", "memory", "secondary", "verified")


class Asks(NamedTuple):
    """What one provision is known by."""

    rule: str
    layer: str
    authority: str


class Cell(NamedTuple):
    """A limit, or the cell of a table; all empty for a provision that gives no number."""

    name: str
    keys: tuple[Key, ...] = ()
    column: str = ""


@dataclass(frozen=True)
class Written:
    """A value as one of the two hands wrote it: the number and its unit."""

    value: object
    unit: str | None


class Row(NamedTuple):
    """One line of values.csv."""

    number: int
    cell: Cell
    written: str
    source: str
    clause: str
    status: str


@cache
def rulebook() -> Rulebook:
    return read_rulesets(shipped.rulesets())


@cache
def provisions() -> dict[Asks, Provision]:
    held: dict[Asks, list[Provision]] = {}
    for provision in rulebook().all_provisions:
        if (
            not rulebook().layers[provision.layer].lies_on_any_region
        ):  # example layers are invented, with nothing outside
            held.setdefault(Asks(provision.rule, provision.layer, provision.authority), []).append(provision)
    return {asks: alone for asks, (alone, *others) in held.items() if not others} | {
        asks._replace(authority=f"{asks.authority} from {each.from_ or 'the beginning'}"): each
        for asks, editions in held.items()
        if len(editions) > 1
        for each in editions
    }


@cache
def rows() -> dict[Asks, list[Row]]:
    grouped: dict[Asks, list[Row]] = {}
    with VALUES.open(encoding="utf-8", newline="") as file:
        for number, line in enumerate(csv.DictReader(file, strict=True), 2):
            assert list(line) == COLUMNS, f"line {number} has other columns than the first line names"
            assert None not in line.values(), f"line {number} has too few columns"
            asks = Asks(line["rule"], line["layer"], line["authority"])
            written = f"{line['value']} {line['unit']}".strip()
            row = Row(number, cell(line["limit"]), written, line["source"], line["clause"], line["status"])
            grouped.setdefault(asks, []).append(row)
    return grouped


def cell(limit: str) -> Cell:
    """`walk`, or `class_b[light].walk_near`, or `working_space[live parts|over 150 V to 600 V].depth`."""
    table = re.fullmatch(r"(\w+)\[(.+)\]\.(\w+)", limit)
    return Cell(table[1], tuple(map(key, table[2].split("|"))), table[3]) if table else Cell(limit)


def key(text: str) -> Key:
    """A word, or a band of numbers."""
    band = re.fullmatch(r"(?:(from|over) (\d\S*(?: [^\d]\S*)?))?(?: ?(to|below) (\d\S*(?: [^\d]\S*)?))?", text)
    if not text or band is None:
        return text
    low, high = (None if end is None else si(end) for end in (band[2], band[4]))
    return Band(low, high, holds_low=band[1] != "over", holds_high=band[3] != "below")


def si(text: str) -> Decimal:
    """The SI number of a quantity, whatever its kind."""
    for kind in ("voltage", "length", "area", "number", "speed", "mass", "volume", "duration"):
        with contextlib.suppress(UnitProblem):
            return GRID.plus(read(text, kind).number)
    raise AssertionError(f"{text!r} is the end of no band")


def cells_of(provision: Provision) -> dict[Cell, tuple[str, str]]:
    """What a provision gives: kind and value as written, by cell.

    What is not asked stands in no source, so that no second hand can have it: a row for it is one too many.
    """
    found = {Cell(name): (limit.kind, limit.written) for name, limit in provision.limit.items()}
    for name, table in provision.tables.items():
        for row in table.rows:
            for column, kind in table.columns.items():
                found[Cell(name, row.keys, column)] = (kind, row.written[column])
    found = {cell: given for cell, given in found.items() if given != ("period", "not asked")}
    return found or {Cell(""): ("", "")}


def each_pair() -> Iterator[tuple[Asks, Provision, list[Row]]]:
    for asks, provision in provisions().items():
        if asks in rows():
            yield asks, provision, rows()[asks]


def written(text: str, kind: str) -> Written:
    """Number and unit; months for a period, which either hand may write in years."""
    try:
        value = read(text, kind).value
    except UnitProblem as problem:
        pytest.fail(f"{text!r} is no {kind}: {problem}")
    return Written(value, None if kind == "period" else unit_of(text, kind))


def differences(found: Iterable[tuple[object, object, object]]) -> list[str]:
    return [f"{where}: rulesets {mine!r}, values.csv {other!r}" for where, mine, other in found if mine != other]


def test_no_line_stands_twice() -> None:
    for asks, lines in rows().items():
        cells = [row.cell for row in lines]
        assert len(set(cells)) == len(cells), asks


def test_every_provision_has_its_rows() -> None:
    """What is common practice has no source that a second hand could read: rows for it may stand and need not."""
    asked = {asks for asks, provision in provisions().items() if provision.source.source is not None}
    assert sorted(asked - set(rows())) == []


def test_every_row_has_its_provision() -> None:
    assert sorted(set(rows()) - set(provisions())) == []


def test_every_limit_has_its_row_and_every_row_its_limit() -> None:
    pairs = [(asks, set(cells_of(provision)), {row.cell for row in lines}) for asks, provision, lines in each_pair()]
    assert [(asks, sorted(map(str, mine ^ other))) for asks, mine, other in pairs if mine != other] == []


def test_values_and_units_are_equal() -> None:
    found = [
        ((*asks, row.cell), written(text, kind), written(row.written, kind))
        for asks, provision, lines in each_pair()
        for row in lines
        for kind, text in [cells_of(provision).get(row.cell, ("", ""))]
        if kind
    ]
    assert len(found) > 80
    assert differences(found) == []


def test_sources_are_equal() -> None:
    found = [
        ((*asks, row.cell), source.designation if source else "common practice", row.source)
        for asks, provision, lines in each_pair()
        for row in lines
        for source in [provision.source.source]
    ]
    assert differences(found) == []


def clauses(text: str) -> frozenset[str]:
    """The clauses of a list, however it is punctuated and abbreviated."""
    plain = text.casefold().replace("§", "").replace(" s. ", ", ")
    for long, short in SHORT.items():
        plain = re.sub(rf"\b{long}(?![a-z])\.?", short, plain)
    return frozenset(part.strip() for part in re.split(r"[,;]|(?= table )", plain) if part.strip())


def test_clauses_are_equal() -> None:
    """Each row has the clause of its own value; the provision has them all."""
    found = [
        (
            asks,
            sorted(clauses(provision.source.clause)),
            sorted(frozenset.union(*(clauses(row.clause) for row in lines))),
        )
        for asks, provision, lines in each_pair()
    ]
    assert differences(found) == []


def test_a_provision_is_as_strong_as_its_weakest_row() -> None:
    found = [
        (asks, provision.source.status, min((row.status for row in lines), key=WEAKEST_FIRST.index))
        for asks, provision, lines in each_pair()
    ]
    assert differences(found) == []
