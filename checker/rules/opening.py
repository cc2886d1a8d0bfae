"""Opening a folder of rulesets: from what was kept of it, else by reading every file."""

from pathlib import Path

from checker.rules import cache as kept
from checker.rules.rulebook import Rulebook


def read_rulesets(folder: Path, cache: Path | None = None) -> Rulebook:
    """All layers below a folder. Raises Unreadable with every problem found in any file.

    With `cache`, a folder of the user's own, the rulebook is kept there for the next time.
    """
    file = None if cache is None else kept.file_for(folder, sorted(folder.glob("**/*.yaml")), cache)
    if file is not None and (book := kept.held(file)) is not None:
        return book
    from checker.rules.shelf import rulebook_from

    book = rulebook_from(folder)
    if file is not None:
        kept.keep(file, book)
    return book
