"""Opening a folder of rulesets: from what was kept of it, else by reading every file."""

from pathlib import Path

from checker.rules import cache as kept
from checker.rules.rulebook import Rulebook


def read_rulesets(folder: Path, cache: Path | None = None, beside: tuple[Path, ...] = ()) -> Rulebook:
    """All layers below a folder, and those in folders beside it. Raises Unreadable with every problem in any file.

    With `cache`, a folder of the user's own, the rulebook is kept there for the next time.
    """
    files = [path for each in (folder, *beside) for path in sorted(each.glob("**/*.yaml"))]
    file = None if cache is None else kept.file_for((folder, *beside), files, cache)
    if file is not None and (book := kept.held(file)) is not None:
        return book
    from checker.rules.shelf import rulebook_from

    book = rulebook_from(folder, beside, {} if cache is None else kept.trees_of_last(cache))
    if file is not None:
        kept.keep(file, book)
    return book
