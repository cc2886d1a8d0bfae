"""What is wrong with a site file, by path, until the file's positions turn it into a problem for people."""

from collections.abc import Iterable

from msgspec import Struct

from checker.reading import Document, Problem
from checker.site.entries import Path, Refused


class Flaw(Struct, frozen=True):
    """One thing that cannot be so: where, what is wrong, what was found, what would be right."""

    path: Path
    says: str
    found: str
    wanted: str
    at_key: bool = False
    """The name of the field is meant, not its value."""
    along: tuple[Path, ...] = ()
    """What else stands in the file because of the same mistake."""


def flaw_of(path: Path, refusal: Refused) -> Flaw:
    """The flaw behind a refusal by the field at `path`."""
    return Flaw((*path, *refusal.at), refusal.says, refusal.found, refusal.wanted)


def problem_of(document: Document, flaw: Flaw) -> Problem:
    """The flaw with its place in the file."""
    mark = document.key_mark(flaw.path) if flaw.at_key else document.mark(flaw.path)
    return Problem(document.file, mark.line, mark.column, document.place(flaw.path), flaw.found, flaw.wanted, flaw.says)


def unless_within(flaws: Iterable[Flaw], paths: Iterable[Path]) -> list[Flaw]:
    """The flaws that lie at or under none of the paths."""
    covered = frozenset(paths)
    return [flaw for flaw in flaws if not any(flaw.path[:depth] in covered for depth in range(len(flaw.path) + 1))]
