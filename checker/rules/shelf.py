"""A folder of rulesets, read whole: every layer, every topic, the bibliography, with all problems at once."""

import contextlib
import hashlib
from collections import Counter
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Final

from msgspec import Struct, field
from msgspec.structs import asdict, replace

from checker.quantities import kinds as kinds_of_things
from checker.reading import Document, Problem, Unreadable, read_file, read_text
from checker.rules.adopt import Adopter
from checker.rules.build import Builder, Outdated
from checker.rules.content import digest_of
from checker.rules.files import LayerFile, SourcesFile, TopicFile
from checker.rules.folders import File, named_from
from checker.rules.model import Layer, NotHeld, Place, Source
from checker.rules.rulebook import Rulebook
from checker.rules.shelved import Known, Shelved
from checker.rules.structure import PathParts, Whole, fit, near, problem
from checker.rules.tables import Table

NOTHING: Final = Shelved(Rulebook({}, {}, ()), {})
"""What is known before the first reading."""


def shelved_from(
    folder: Path, beside: tuple[Path, ...], files: Mapping[Path, File], before: Shelved = NOTHING
) -> Shelved:
    """All layers below a folder, and layers in folders beside it. What has not changed since `before` is taken over.

    Raises Unreadable with every problem found in any file. Where there is one, everything was read from the files.
    """
    if before.files:
        with contextlib.suppress(Unreadable, Outdated):
            return _Shelf(folder, files, before).read(beside)
    return _Shelf(folder, files, Shelved(before.book, {})).read(beside)


class _Topic(Struct):
    """A topic's file: taken over, or read as a document and its part."""

    layer: str
    path: Path
    file: File | None
    taken: Known | None = None
    read: tuple[Document, TopicFile] | None = None


class _Shelf(Struct):
    folder: Path
    files: Mapping[Path, File]
    before: Shelved
    layers: dict[str, Layer] = field(default_factory=dict)
    topics: list[_Topic] = field(default_factory=list)
    documents: dict[str, Document] = field(default_factory=dict)
    """By name those of layers that were read."""
    contents: dict[Path, str] = field(default_factory=dict)
    """The digest of what each file says."""
    problems: list[Problem] = field(default_factory=list)
    unread: set[str] = field(default_factory=set)
    refused: set[str] = field(default_factory=set)
    """Layers whose layer.yaml was refused: what stands on them is not blamed for it."""
    bibliography: dict[str, Source] | None = field(default_factory=dict)

    def read(self, beside: tuple[Path, ...]) -> Shelved:
        """Everything there is. Raises Unreadable, and Outdated where something taken over is in doubt."""
        self.sources(self.folder / "sources.yaml")
        within: dict[Path, list[Path]] = {}
        for path in self.files:
            within.setdefault(path.parent, []).append(path)
        below = [each for each in within if each.parent == self.folder and each / "layer.yaml" in self.files]
        for each in [*below, *beside]:
            self.layer(each / "layer.yaml", within.get(each, []))
        if not self.layers and not self.problems:
            wanted, says = "LAYER/layer.yaml", "no layer is held"
            self.problems.append(Problem(str(self.folder), 1, 1, "", "no */layer.yaml", wanted, says))
        self.check_chains()
        builder = self.built()
        if problems := [*self.problems, *builder.finish()]:
            raise Unreadable(problems)
        book = Rulebook(self.layers, builder.rules, tuple(builder.provisions), self.bibliography or {})
        return Shelved(book, self.known(builder))

    def document(self, path: Path) -> Document | None:
        file = self.files.get(path)
        try:
            document = read_file(path) if file is None or file.content is None else read_text(file.content, str(path))
        except Unreadable as error:
            self.problems += error.problems
            return None
        self.contents[path] = digest_of(document.data)
        return document

    def taken(self, path: Path) -> Known | None:
        """What is known of a file that has not changed."""
        known = self.before.unchanged(self.files.get(path))
        if known is not None:
            self.contents[path] = known.content
        return known

    def opened(self, path: Path, form: type[Whole]) -> tuple[Document | None, Whole | None]:
        """The document in a file, and that as a part; None for what cannot be read."""
        document = self.document(path)
        if document is None:
            return None, None
        part, problems = fit(document, form)
        self.problems += problems
        return document, part

    def sources(self, path: Path) -> None:
        """The entries of a bibliography; where one cannot be read, none is known for certain."""
        if self.taken(path) is not None:
            self.take_sources(self.files[path].name)
            return
        document, part = self.opened(path, SourcesFile)
        held = self.bibliography
        if document is None or part is None or held is None:
            self.bibliography = None
            return
        for number, entry in enumerate(part.sources):
            if entry.id in held:
                at = ("sources", number, "id")
                self.problems.append(problem(document, at, "this id stands twice", entry.id, "an id of its own"))
            held[entry.id] = Source(**asdict(entry), location=self.place(document, ("sources", number)))

    def take_sources(self, name: str) -> None:
        for source in self.before.sources_in.get(name, ()):
            if self.bibliography is None or source.id in self.bibliography:
                raise Outdated
            self.bibliography[source.id] = source

    def layer(self, path: Path, files: list[Path]) -> None:
        name, made = path.parent.name, None
        if self.taken(path) is not None:
            made = self.before.book.layers[name]
        else:
            document, part = self.opened(path, LayerFile)
            if document is None:
                return
            if part is None:
                self.refused.add(name)
            else:
                made = self.made_layer(name, document, part)
        for each in files:
            if each.name == "sources.yaml":
                self.sources(each)
            elif each != path:
                self.topic(name, each)
        if made is not None:
            digests = [f"{each.name} {self.contents.get(each, '')}" for each in files]
            digest = hashlib.sha256("\n".join(digests).encode()).hexdigest()
            self.layers[made.name] = replace(made, digest=digest)

    def made_layer(self, folder: str, document: Document, part: LayerFile) -> Layer:
        if part.name != folder:
            at = ("name",)
            self.problems.append(problem(document, at, "a layer is named as its folder", part.name, folder))
        self.documents[part.name] = document
        return Layer(
            name=part.name,
            title=part.title,
            extends=part.extends,
            version=part.version,
            authorities=tuple(part.authorities),
            not_held=tuple(NotHeld(**asdict(each)) for each in part.not_held),
            digest="",
            place=Place(named_from(self.folder, document.file), 1, 1),
        )

    def place(self, document: Document, path: PathParts) -> Place:
        mark = document.mark(path)
        return Place(named_from(self.folder, document.file), mark.line, mark.column)

    def topic(self, layer: str, path: Path) -> None:
        topic = _Topic(layer, path, self.files.get(path), self.taken(path))
        self.topics.append(topic)
        if topic.taken is None:
            self.read_topic(topic)

    def read_topic(self, topic: _Topic) -> None:
        document, part = self.opened(topic.path, TopicFile)
        if document is None or part is None:
            self.unread.add(topic.path.stem)
        else:
            topic.read = document, part

    def built(self) -> Builder:
        """All tables, then all rules, then all provisions. Raises Outdated."""
        unread = frozenset(self.unread)
        builder = Builder(self.layers, self.bibliography, kinds_of_things(), unread, self.folder, self.before)
        adopter = Adopter(builder)
        for kind in ("tables", "rules", "provisions"):
            for topic in self.topics:
                if topic.taken and topic.file and getattr(adopter, kind)(topic.file.name, topic.taken):
                    continue
                if topic.read is None and topic.taken:
                    self.read_topic(topic)
                if topic.read:
                    getattr(builder, f"add_{kind}")(topic.layer, topic.path.stem, *topic.read)
        return builder

    def known(self, builder: Builder) -> dict[str, Known]:
        """What is known of each file now, but of files that share their name."""
        times = Counter(file.name for file in self.files.values())
        tables = {topic.path: tuple(_tables_in(topic, builder)) for topic in self.topics}
        return {
            file.name: Known(file.digest, self.contents[path], tables.get(path, ()))
            for path, file in self.files.items()
            if path in self.contents and times[file.name] == 1
        }

    def check_chains(self) -> None:
        """Every chain of `extends` ends at a layer without a parent. Raises Outdated."""
        for name, layer in self.layers.items():
            seen, here = [name], layer
            while here.extends is not None:
                parent = here.extends
                if parent in self.refused:
                    break
                if parent not in self.layers:
                    wanted = near(parent, self.layers)
                    self.blame_layer(here.name, "this layer extends one that is not held", parent, wanted)
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
        self.problems = list(dict.fromkeys(self.problems))

    def blame_layer(self, name: str, says: str, found: str, wanted: str) -> None:
        if name not in self.documents:
            raise Outdated
        self.problems.append(problem(self.documents[name], ("extends",), says, found, wanted))


def _tables_in(topic: _Topic, builder: Builder) -> Iterable[Table]:
    if topic.taken is not None:
        return topic.taken.tables
    return (builder.tables[topic.layer, each.id] for each in topic.read[1].tables) if topic.read else ()
