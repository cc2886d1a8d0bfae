"""What stands in the files of a folder of rulesets and nothing uses: sources, tables and columns."""

from collections.abc import Iterator, Mapping
from pathlib import Path

from checker.keeping.flaws import Flaw
from checker.reading import read_file
from checker.rules import Rulebook
from checker.rules.model import Place
from checker.rules.tables import Table
from checker.written_files import named_from

TablePlaces = Mapping[tuple[str, str], Place]
"""Where each table stands, by layer and id: a rulebook keeps those only that are given to a rule, without place."""


def table_places(folder: Path) -> TablePlaces:
    """The tables in the files of a folder of rulesets that was read before. Raises Unreadable."""
    places: dict[tuple[str, str], Place] = {}
    for layer in sorted(folder.glob("*/layer.yaml")):
        for path in sorted(layer.parent.glob("*.yaml")):
            document = read_file(path)
            tables = document.data.get("tables", []) if isinstance(document.data, dict) else []
            for number, table in enumerate(tables):
                mark = document.mark(("tables", number))
                place = Place(named_from(folder, document.file), mark.line, mark.column)
                places[layer.parent.name, table["id"]] = place
    return places


def unused(rulebook: Rulebook, tables: TablePlaces) -> Iterator[Flaw]:
    """Sources that no provision names, tables that none gives to a rule, and columns that no such rule declares."""
    cited = {each.source.source.id for each in rulebook.all_provisions if each.source.source is not None}
    for id, source in rulebook.sources.items():
        if id not in cited:
            yield Flaw("source not used", id, source.location)
    given: dict[tuple[str, str], set[str]] = {}
    held: dict[tuple[str, str], Table] = {}
    for each in rulebook.all_provisions:
        for name, table in each.tables.items():
            key = table.layer, table.id
            held[key] = table
            given.setdefault(key, set()).update(rulebook.rules[each.rule].tables[name].columns)
    for key, place in tables.items():
        if key not in given:
            yield Flaw("table not used", key[1], place)
            continue
        for column in sorted(held[key].columns.keys() - given[key]):
            yield Flaw("column not used", key[1], place, {"column": column})
