"""What is wrong with a file, where, and what would be right."""

from collections.abc import Iterable
from typing import Final

from msgspec import Struct

from checker.units import visible


class Mark(Struct, frozen=True, gc=False):
    """A place in a text: line and column, both counted from 1."""

    line: int
    column: int


TOP: Final = Mark(1, 1)
"""Where a text starts."""


class Problem(Struct, frozen=True):
    """One problem. Its text is safe to print, whatever the file holds."""

    file: str
    line: int
    column: int
    path: str
    """Where in the tree, as in rooms[cell].height; empty if the whole file is meant."""
    found: str
    wanted: str
    """What to write instead, fit to follow the word "write"."""
    says: str
    """What is wrong: a sentence without its full stop."""

    def __str__(self) -> str:
        place = f"{visible(self.file, 200)}:{self.line}:{self.column}: "
        path = f"{visible(self.path, 120)}: " if self.path else ""
        found = f"Found {visible(self.found)}" if self.found else ""
        write = f"write {visible(self.wanted, 200)}" if self.wanted else ""
        remedy = f"{found}; {write}" if found and write else found or write.capitalize()
        return f"{place}{path}{visible(self.says, 300)}." + (f"\n  {remedy}" if remedy else "")


class Unreadable(Exception):
    """A file that cannot be read, with every problem found in it, in the order of their places."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        """Sorts the problems by file, line and column."""
        self.problems = tuple(sorted(problems, key=lambda each: (each.file, each.line, each.column)))
        super().__init__(self.problems)

    def __str__(self) -> str:
        return "\n".join(map(str, self.problems))
