"""A rulebook with what is known of each file it was read from, so that the next reading opens only what changed."""

from collections.abc import Iterable, Mapping
from functools import cached_property
from typing import Protocol, TypeVar

from msgspec import Struct

from checker.rules.model import Place, Provision, Rule, Source
from checker.rules.rulebook import Rulebook
from checker.rules.tables import Table
from checker.rules.tree import Tree
from checker.written_files import File


class Known(Struct, frozen=True, array_like=True):
    """What is known of a file that was read and is right."""

    digest: str
    """Of its bytes."""
    content: str
    """Digest of what it says, however it is written."""
    tables: tuple[Table, ...] = ()
    """Those that stand in it, used or not."""


class Shelved(Struct, frozen=True, dict=True):
    """What a folder of rulesets held when it was read."""

    book: Rulebook
    files: Mapping[str, Known]
    """By name, those that no other shares its name with."""

    def unchanged(self, file: File | None) -> Known | None:
        """What is known of a file, if it holds the same bytes as then."""
        known = None if file is None else self.files.get(file.name)
        return known if known is not None and file is not None and known.digest == file.digest else None

    @cached_property
    def rules_in(self) -> Mapping[str, list[Rule]]:
        """The rules of each file, in its order."""
        return _by_file(self.book.rules.values())

    @cached_property
    def provisions_in(self) -> Mapping[str, list[Provision]]:
        """The provisions of each file, in its order."""
        return _by_file(self.book.all_provisions)

    @cached_property
    def sources_in(self) -> Mapping[str, list[Source]]:
        """The entries of each bibliography, in its order."""
        return _by_file(self.book.sources.values())

    @cached_property
    def trees(self) -> Mapping[str, Tree]:
        """By text the trees of its expressions: most changes of a ruleset change none.

        What stands in one was checked when it was made and is so again where it is used; the parser alone is spared.
        """
        rules = self.book.rules.values()
        whens = {rule.when: rule.when_tree for rule in rules if rule.when and rule.when_tree}
        return whens | {rule.require: rule.require_tree for rule in rules}


class _Placed(Protocol):
    @property
    def location(self) -> Place: ...


Part = TypeVar("Part", bound=_Placed)


def _by_file(parts: Iterable[Part]) -> Mapping[str, list[Part]]:
    found: dict[str, list[Part]] = {}
    for part in parts:
        found.setdefault(part.location.file, []).append(part)
    return found
