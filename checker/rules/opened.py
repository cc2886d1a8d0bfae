"""Ruleset files as a reading opens them: known from the reading before, or read, with every problem found in them."""

from collections import Counter
from collections.abc import Mapping
from pathlib import Path

from msgspec import Struct, field

from checker.reading import Document, Problem, Unreadable, read_file, read_text
from checker.rules.content import digest_of
from checker.rules.model import Place
from checker.rules.shelved import Known, Shelved
from checker.rules.structure import PathParts, Whole, fit
from checker.rules.tables import Table
from checker.written_files import File, named_from


class Opened(Struct):
    """The files below the folders of one reading."""

    folder: Path
    """The folder of rulesets; results name its files from here on."""
    files: Mapping[Path, File]
    before: Shelved
    problems: list[Problem] = field(default_factory=list)
    contents: dict[Path, str] = field(default_factory=dict)
    """The digest of what each file says that was opened."""

    def taken(self, path: Path) -> Known | None:
        """What is known of a file that has not changed, which then need not be read."""
        known = self.before.unchanged(self.files.get(path))
        if known is not None:
            self.contents[path] = known.content
        return known

    def read(self, path: Path, form: type[Whole]) -> tuple[Document | None, Whole | None]:
        """The document in a file, and that in its form; None for what cannot be read, and problems that tell why."""
        file = self.files.get(path)
        try:
            document = read_file(path) if file is None or file.content is None else read_text(file.content, str(path))
        except Unreadable as error:
            self.problems += error.problems
            return None, None
        self.contents[path] = digest_of(document.data)
        part, problems = fit(document, form)
        self.problems += problems
        return document, part

    def place(self, document: Document, path: PathParts) -> Place:
        """Where a part of a file stands, as results name it."""
        mark = document.mark(path)
        return Place(named_from(self.folder, document.file), mark.line, mark.column)

    def known(self, tables: Mapping[Path, tuple[Table, ...]]) -> dict[str, Known]:
        """What is now known of each file that was opened, with the tables in it; not of files that share their name."""
        times = Counter(file.name for file in self.files.values())
        return {
            file.name: Known(file.digest, self.contents[path], tables.get(path, ()))
            for path, file in self.files.items()
            if path in self.contents and times[file.name] == 1
        }
