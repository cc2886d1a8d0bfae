"""A folder of rulesets, read whole: every layer, every topic, the bibliography, with all problems at once."""

import hashlib
from collections.abc import Iterator, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final

from msgspec import Struct, field
from msgspec.json import encode

from checker.quantities import kinds as kinds_of_things
from checker.reading import Document, Problem, Unreadable, read_file
from checker.rules.build import Builder, named_from
from checker.rules.files import LayerFile, SourcesFile, TopicFile
from checker.rules.model import Layer, NotHeld, Place, Source
from checker.rules.rulebook import Rulebook
from checker.rules.structure import PathParts, fit, near, problem
from checker.rules.tree import Tree

_ENTRIES: Final = frozenset(TopicFile.model_fields)
"""The lists of a topic's file, whose entries stand in no order."""


def rulebook_from(
    folder: Path, beside: tuple[Path, ...] = (), parsed: Mapping[str, Tree] = MappingProxyType({})
) -> Rulebook:
    """All layers below a folder, and layers in folders beside it. Expressions among those `parsed` need no parser.

    Raises Unreadable with every problem found in any file.
    """
    shelf = _Shelf(folder)
    shelf.sources(folder / "sources.yaml")
    for path in [*sorted(folder.glob("*/layer.yaml")), *(each / "layer.yaml" for each in beside)]:
        shelf.layer(path)
    if not shelf.layers and not shelf.problems:
        shelf.problems.append(Problem(str(folder), 1, 1, "", "no */layer.yaml", "LAYER/layer.yaml", "no layer is held"))
    shelf.check_chains()
    builder = Builder(shelf.layers, shelf.bibliography, kinds_of_things(), frozenset(shelf.unread), folder, parsed)
    for kind in ("tables", "rules", "provisions"):
        for layer, topic, document, part in shelf.topics:
            getattr(builder, f"add_{kind}")(layer, topic, document, part)
    problems = [*shelf.problems, *builder.finish()]
    if problems:
        raise Unreadable(tuple(sorted(problems, key=lambda each: (each.file, each.line, each.column))))
    return Rulebook(shelf.layers, builder.rules, tuple(builder.provisions), shelf.bibliography or {})


class _Shelf(Struct):
    folder: Path
    layers: dict[str, Layer] = field(default_factory=dict)
    topics: list[tuple[str, str, Document, TopicFile]] = field(default_factory=list)
    documents: dict[str, Document] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    unread: set[str] = field(default_factory=set)
    refused: set[str] = field(default_factory=set)
    """Layers whose layer.yaml was refused: what stands on them is not blamed for it."""
    bibliography: dict[str, Source] | None = field(default_factory=dict)

    def document(self, path: Path) -> Document | None:
        try:
            return read_file(path)
        except Unreadable as error:
            self.problems += error.problems
            return None

    def sources(self, path: Path) -> object:
        """The entries of a bibliography; where one cannot be read, none is known for certain."""
        document = self.document(path)
        part, problems = fit(document, SourcesFile) if document is not None else (None, [])
        self.problems += problems
        held = self.bibliography
        if document is None or part is None or held is None:
            self.bibliography = None
            return None
        for number, entry in enumerate(part.sources):
            if entry.id in held:
                at = ("sources", number, "id")
                self.problems.append(problem(document, at, "this id stands twice", entry.id, "an id of its own"))
            held[entry.id] = Source(**entry.model_dump(), location=self.place(document, ("sources", number)))
        return document.data

    def layer(self, path: Path) -> None:
        document = self.document(path)
        if document is None:
            return
        part, problems = fit(document, LayerFile)
        self.problems += problems
        parsed = [document.data]
        for topic in sorted(path.parent.glob("*.yaml")):
            if topic.name == "sources.yaml":
                parsed.append(self.sources(topic))
            elif topic != path:
                parsed += self.topic(path.parent.name, topic)
        if part is None:
            self.refused.add(path.parent.name)
            return
        if part.name != path.parent.name:
            at, folder = ("name",), path.parent.name
            self.problems.append(problem(document, at, "a layer is named as its folder", part.name, folder))
        self.documents[part.name] = document
        self.layers[part.name] = Layer(
            name=part.name,
            title=part.title,
            extends=part.extends,
            version=part.version,
            authorities=tuple(part.authorities),
            not_held=tuple(NotHeld(**each.model_dump()) for each in part.not_held),
            digest=hashlib.sha256(_in_order(parsed)).hexdigest(),
            place=Place(named_from(self.folder, document.file), 1, 1),
        )

    def place(self, document: Document, path: PathParts) -> Place:
        mark = document.mark(path)
        return Place(named_from(self.folder, document.file), mark.line, mark.column)

    def topic(self, layer: str, path: Path) -> Iterator[object]:
        document = self.document(path)
        if document is None:
            self.unread.add(path.stem)
            return
        yield {path.stem: document.data}
        part, problems = fit(document, TopicFile)
        self.problems += problems
        if part is None:
            self.unread.add(path.stem)
        else:
            self.topics.append((layer, path.stem, document, part))

    def check_chains(self) -> None:
        """Every chain of `extends` ends at a layer without a parent."""
        for name, layer in self.layers.items():
            seen, here = [name], layer
            while here.extends is not None:
                document, parent = self.documents[here.name], here.extends
                if parent in self.refused:
                    break
                if parent not in self.layers:
                    wanted = near(parent, self.layers)
                    says = "this layer extends one that is not held"
                    self.problems.append(problem(document, ("extends",), says, parent, wanted))
                    break
                if parent in seen and parent != name:
                    break
                if parent in seen:
                    chain = " ← ".join(reversed([*seen, parent]))
                    says = "the chain of layers goes round in a circle"
                    self.problems.append(problem(document, ("extends",), says, chain, "a chain that ends at common"))
                    break
                seen.append(parent)
                here = self.layers[parent]
        self.problems = list(dict.fromkeys(self.problems))


def _in_order(parsed: object) -> bytes:
    """What files say, in one order: entries may stand in any, and fields; the keys of a table stand as it is called."""
    return encode(_ordered(parsed), order="sorted")


def _ordered(parsed: object) -> object:
    if isinstance(parsed, list):
        return [_ordered(each) if isinstance(each, (dict, list)) else each for each in parsed]
    if not isinstance(parsed, dict):
        return parsed
    ordered: dict[str, Any] = {
        name: _ordered(value) if isinstance(value, (dict, list)) else value for name, value in parsed.items()
    }
    for name in _ENTRIES & ordered.keys():
        if isinstance(ordered[name], list):
            ordered[name] = sorted(ordered[name], key=_in_order)
    if isinstance(keys := ordered.get("keys"), dict):
        ordered["keys"] = list(keys.items())
    return ordered
