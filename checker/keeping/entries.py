"""What stands in the files of a folder of rulesets and may go unused: sources and tables, with their places."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from checker.keeping.flaws import Flaw
from checker.reading import Document, read_file
from checker.rules import Rulebook
from checker.rules.build import named_from
from checker.rules.model import Place


@dataclass(frozen=True, slots=True)
class Entries:
    """Where each source stands, by id, and each table, by layer and id."""

    sources: Mapping[str, Place]
    tables: Mapping[tuple[str, str], Place]


def entries(folder: Path) -> Entries:
    """The sources and tables in the files of a folder of rulesets that was read before. Raises Unreadable."""
    sources: dict[str, Place] = {}
    tables: dict[tuple[str, str], Place] = {}
    layers = sorted(folder.glob("*/layer.yaml"))
    for path in [
        folder / "sources.yaml",
        *(topic for layer in layers for topic in sorted(layer.parent.glob("*.yaml"))),
    ]:
        document = read_file(path)
        if path.name == "sources.yaml":
            sources |= _places(document, "sources", folder)
        else:
            named = _places(document, "tables", folder)
            tables |= {(path.parent.name, id): place for id, place in named.items()}
    return Entries(sources, tables)


def _places(document: Document, key: str, folder: Path) -> dict[str, Place]:
    parts = document.data.get(key, []) if isinstance(document.data, dict) else []
    return {part["id"]: _place(document, (key, number), folder) for number, part in enumerate(parts)}


def _place(document: Document, path: tuple[str | int, ...], folder: Path) -> Place:
    mark = document.mark(path)
    return Place(named_from(folder, document.file), mark.line, mark.column)


def unused(rulebook: Rulebook, held: Entries) -> Iterator[Flaw]:
    """Sources that no provision names, and tables that none gives to a rule."""
    cited = {each.source.source.id for each in rulebook.all_provisions if each.source.source is not None}
    for id, place in held.sources.items():
        if id not in cited:
            yield Flaw("source not used", id, place)
    given = {(table.layer, table.id) for each in rulebook.all_provisions for table in each.tables.values()}
    for key, place in held.tables.items():
        if key not in given:
            yield Flaw("table not used", key[1], place)
