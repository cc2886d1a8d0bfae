"""Opening a folder of rulesets: from what was kept of it, else by reading every file that has changed."""

from collections.abc import Mapping
from pathlib import Path

from checker.rules import cache as kept
from checker.rules.rulebook import Rulebook
from checker.written_files import File, files_in


def read_rulesets(
    folder: Path,
    cache: Path | None = None,
    beside: tuple[Path, ...] = (),
    files: Mapping[Path, File] | None = None,
) -> Rulebook:
    """All layers below a folder, and those in folders beside it. Raises Unreadable with every problem in any file.

    With `cache`, a folder of the user's own, the rulebook is kept there for the next time. `files` are all that lie in
    these folders, if they have been looked up.
    """
    files = files_in((folder, *beside)) if files is None else files
    file = None if cache is None else kept.file_for(files.values(), cache)
    if file is not None and (book := kept.held(file)) is not None:
        return book
    from checker.rules.shelf import NOTHING, shelved_from

    before = None if cache is None else kept.last(cache)
    shelved = shelved_from(folder, beside, files, before or NOTHING)
    if file is not None:
        kept.keep(file, shelved)
    return shelved.book
