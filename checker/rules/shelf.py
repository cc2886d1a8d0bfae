"""A folder of rulesets, read whole: every layer, every topic, the bibliography, with all problems at once."""

import contextlib
import hashlib
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Final

from msgspec import Struct, field
from msgspec.structs import asdict, replace

from checker.quantities import kinds as kinds_of_things
from checker.reading import Document, Problem, Unreadable
from checker.rules.adopt import Adopter
from checker.rules.build import Builder, Outdated
from checker.rules.files import LayerFile, SourcesFile, TopicFile
from checker.rules.model import Layer, NotHeld, Place, Source
from checker.rules.opened import Opened
from checker.rules.rulebook import Rulebook
from checker.rules.shelved import Known, Shelved
from checker.rules.structure import PathParts, near, problem
from checker.rules.tables import Table
from checker.written_files import File, named_from

NOTHING: Final = Shelved(Rulebook({}, {}, ()), {})
"""What is known before the first reading."""


def shelved_from(
    folder: Path, beside: tuple[Path, ...], files: Mapping[Path, File], before: Shelved = NOTHING
) -> Shelved:
    """All layers below a folder, and layers in folders beside it. What has not changed since `before` is taken over.

    Raises Unreadable with every problem found in any file.
    """
    if before.files:
        with contextlib.suppress(Outdated):
            return _Shelf(Opened(folder, files, before)).read(beside)
    return _Shelf(Opened(folder, files, Shelved(before.book, {}))).read(beside)


class _Topic(Struct):
    """A topic's file: taken over, or read."""

    layer: str
    path: Path
    taken: Known | None
    read: tuple[Document, TopicFile] | None = None

    def tables(self, builder: Builder) -> Iterable[Table]:
        """The tables that stand in it."""
        if self.taken is not None:
            return self.taken.tables
        return (builder.tables[self.layer, each.id] for each in self.read[1].tables) if self.read else ()


class _Shelf(Struct):
    opened: Opened
    layers: dict[str, Layer] = field(default_factory=dict)
    topics: list[_Topic] = field(default_factory=list)
    documents: dict[str, Document] = field(default_factory=dict)
    """By name those of layers that were read."""
    unread: set[str] = field(default_factory=set)
    refused: set[str] = field(default_factory=set)
    """Layers whose layer.yaml was refused: what stands on them is not blamed for it."""
    bibliography: dict[str, Source] | None = field(default_factory=dict)

    def read(self, beside: tuple[Path, ...]) -> Shelved:
        """Everything there is. Raises Unreadable, and Outdated where something taken over is in doubt."""
        folder, problems = self.opened.folder, self.opened.problems
        within: dict[Path, list[Path]] = {}
        for path in self.opened.files:
            within.setdefault(path.parent, []).append(path)
        self.sources(folder / "sources.yaml")
        below = [each for each in within if each.parent == folder and each / "layer.yaml" in self.opened.files]
        for each in [*below, *beside]:
            self.layer(each / "layer.yaml", within.get(each, []))
        if not self.layers and not problems:
            problems.append(Problem(str(folder), 1, 1, "", "no */layer.yaml", "LAYER/layer.yaml", "no layer is held"))
        self.check_chains()
        builder = self.built()
        if wrong := [*dict.fromkeys(problems), *builder.finish()]:
            raise Unreadable(wrong)
        book = Rulebook(self.layers, builder.rules, tuple(builder.provisions), self.bibliography or {})
        tables = {topic.path: tuple(topic.tables(builder)) for topic in self.topics}
        return Shelved(book, self.opened.known(tables))

    def blame(self, document: Document, at: PathParts, says: str, found: str, wanted: str) -> None:
        self.opened.problems.append(problem(document, at, says, found, wanted))

    def sources(self, path: Path) -> None:
        """The entries of a bibliography; where one cannot be read, none is known for certain."""
        if self.opened.taken(path) is not None:
            self.take_sources(self.opened.files[path].name)
            return
        document, part = self.opened.read(path, SourcesFile)
        held = self.bibliography
        if document is None or part is None or held is None:
            self.bibliography = None
            return
        for number, entry in enumerate(part.sources):
            if entry.id in held:
                at = ("sources", number, "id")
                self.blame(document, at, "this id stands twice", entry.id, "an id of its own")
            held[entry.id] = Source(**asdict(entry), location=self.opened.place(document, ("sources", number)))

    def take_sources(self, name: str) -> None:
        """Take over the entries of a bibliography. Raises Outdated."""
        for source in self.opened.before.sources_in.get(name, ()):
            if self.bibliography is None or source.id in self.bibliography:
                raise Outdated
            self.bibliography[source.id] = source

    def layer(self, path: Path, files: list[Path]) -> None:
        """A layer, its topics and its bibliography."""
        name, layer = path.parent.name, None
        if self.opened.taken(path) is not None:
            layer = self.opened.before.book.layers[name]
        else:
            document, part = self.opened.read(path, LayerFile)
            if document is None:
                return
            if part is None:
                self.refused.add(name)
            else:
                layer = self.layer_of(name, document, part)
        for each in files:
            if each.name == "sources.yaml":
                self.sources(each)
            elif each != path:
                self.topic(name, each)
        if layer is not None:
            said = "\n".join(f"{each.name} {self.opened.contents.get(each, '')}" for each in files)
            self.layers[layer.name] = replace(layer, digest=hashlib.sha256(said.encode()).hexdigest())

    def layer_of(self, folder: str, document: Document, part: LayerFile) -> Layer:
        """What a layer says of itself; its digest is for when all of its files are read."""
        if part.name != folder:
            self.blame(document, ("name",), "a layer is named as its folder", part.name, folder)
        self.documents[part.name] = document
        return Layer(
            name=part.name,
            title=part.title,
            extends=part.extends,
            version=part.version,
            authorities=tuple(part.authorities),
            not_held=tuple(NotHeld(**asdict(each)) for each in part.not_held),
            digest="",
            place=Place(named_from(self.opened.folder, document.file), 1, 1),
        )

    def topic(self, layer: str, path: Path) -> None:
        """A topic's file, read only where it has changed."""
        topic = _Topic(layer, path, self.opened.taken(path))
        self.topics.append(topic)
        if topic.taken is None:
            self.read_topic(topic)

    def read_topic(self, topic: _Topic) -> None:
        """What stands in a topic's file."""
        document, part = self.opened.read(topic.path, TopicFile)
        if document is None or part is None:
            self.unread.add(topic.path.stem)
        else:
            topic.read = document, part

    def built(self) -> Builder:
        """All tables, then all rules, then all provisions. Raises Outdated."""
        opened, unread = self.opened, frozenset(self.unread)
        builder = Builder(self.layers, self.bibliography, kinds_of_things(), unread, opened.folder, opened.before)
        adopter = Adopter(builder)
        for kind in ("tables", "rules", "provisions"):
            add, adopt = getattr(builder, f"add_{kind}"), getattr(adopter, kind)
            for topic in self.topics:
                if topic.taken is not None:
                    if adopt(opened.files[topic.path].name, topic.taken):
                        continue
                    self.read_topic(topic)
                if topic.read is not None:
                    add(topic.layer, topic.path.stem, *topic.read)
        return builder

    def check_chains(self) -> None:
        """Every chain of `extends` ends at a layer without a parent. Raises Outdated."""
        for name, layer in self.layers.items():
            seen, here = [name], layer
            while here.extends is not None:
                parent = here.extends
                if parent in self.refused:
                    break
                if parent not in self.layers:
                    self.blame_layer(
                        here.name, "this layer extends one that is not held", parent, near(parent, self.layers)
                    )
                    break
                if parent in seen and parent != name:
                    break
                if parent in seen:
                    chain = " ← ".join(reversed([*seen, parent]))
                    wanted = "a chain that ends at common"
                    self.blame_layer(here.name, "the chain of layers goes round in a circle", chain, wanted)
                    break
                seen.append(parent)
                here = self.layers[parent]

    def blame_layer(self, name: str, says: str, found: str, wanted: str) -> None:
        """Note a problem of what a layer extends. Raises Outdated where the layer was taken over."""
        if name not in self.documents:
            raise Outdated
        self.blame(self.documents[name], ("extends",), says, found, wanted)
