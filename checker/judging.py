"""Site files judged for a command: taken from what was kept where nothing has changed, else judged and kept."""

import datetime as dt
from collections.abc import Mapping, Sequence
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec.structs import replace

from checker import __version__, shipped
from checker.commands import Told, cache_folder, reading, rulebook, ruleset_folders
from checker.findings.kept import Asked, Results
from checker.written_files import File, digest_of, files_in, ordinary_content

if TYPE_CHECKING:
    from checker.findings.judged import Judged
    from checker.findings.result import Result
    from checker.reading import Document
    from checker.rules import Rulebook


class NoRulebook(Told):
    """No site can be judged, since the rulesets cannot be used."""


class Judging:
    """What is asked of every site of a command: by which rulesets, where, and on which day."""

    def __init__(
        self, rulesets: Path | None, laid: Sequence[str], region: str | None, as_of: dt.date, upcoming: int | None
    ) -> None:
        """Keep what is asked; no ruleset is opened yet."""
        self.rulesets, self.laid = rulesets, tuple(laid)
        self.region, self.as_of, self.upcoming = region, as_of, upcoming

    def result(self, name: str) -> "Result":
        """The result of a site file, or of the demonstration site of that name. Raises Told, NoRulebook."""
        path, file = _named(name)
        content = ordinary_content(path)
        if content is None:
            return self._judged(path, file, None).result
        held = self._kept.held(content, file)
        if held is None:
            judged = self._judged(path, file, content)
            self._kept.keep(content, file, judged)
            held = judged.result
        return held

    def _judged(self, path: Path, file: str, content: bytes | None) -> "Judged":
        from checker.answers.remedies import with_remedies
        from checker.findings.check import judged
        from checker.rules.rulebook import NoRegion
        from checker.site import read_site

        book, plans = self._rulebook, cache_folder() / "plans"
        with reading():
            site = read_site(_document(path, file, content))
        before = None if content is None else self._kept.before(content, file)
        try:
            found = judged(
                site, book, region=self.region, as_of=self.as_of, program_version=__version__, kept=plans, before=before
            )
        except NoRegion as none:
            held = ", ".join(none.held)
            raise Told(f"{file}: names no region; write one in it or give --region: {held}") from none
        result = with_remedies(site, found.result, plans)
        if self.upcoming is not None:
            from checker.answers.upcoming import with_upcoming

            result = with_upcoming(site, book, result, self.upcoming)
        return replace(found, result=result)

    @cached_property
    def _kept(self) -> Results:
        asked = Asked(digest_of(self._files.values()), self.laid, self.region, self.as_of, self.upcoming)
        return Results(cache_folder() / "results", asked)

    @cached_property
    def _files(self) -> "Mapping[Path, File]":
        return files_in(ruleset_folders(self.rulesets, self.laid))

    @cached_property
    def _rulebook(self) -> "Rulebook":
        try:
            return rulebook(self.rulesets, self.laid, self._files)
        except Told as told:
            raise NoRulebook(*told.args) from told


def _named(name: str) -> tuple[Path, str]:
    """The file of that name, else the demonstration site of that name; and what results call it."""
    given = Path(name)
    held = shipped.sites() / f"{given.name.removesuffix('.yaml')}.yaml"
    return (given, str(given)) if given.exists() or not held.exists() else (held, f"sites/{held.name}")


def _document(path: Path, file: str, content: bytes | None) -> "Document":
    """The document in a file. Raises Unreadable."""
    from checker.reading import read_file, read_text

    return read_file(path) if content is None else read_text(content, file)
