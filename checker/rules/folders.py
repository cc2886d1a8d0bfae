"""The files below folders of rulesets, each with its name, what it holds, and the digest of that."""

import hashlib
from collections.abc import Mapping, Sequence
from functools import lru_cache
from pathlib import Path

from msgspec import Struct

from checker.reading import Unreadable, content_of


class File(Struct, frozen=True):
    """A ruleset file as it was found."""

    name: str
    """As results name it, the same on every machine."""
    content: bytes | None
    """None where it cannot be read."""
    digest: str


def files_in(folders: Sequence[Path]) -> Mapping[Path, File]:
    """All YAML files below folders, in the order of their paths, folder by folder; the first is that of the rulesets.

    Each is read once: what is made of it and the digest under which that is kept are of the same bytes.
    """
    paths = dict.fromkeys(path for folder in folders for path in sorted(folder.glob("**/*.yaml")))
    return {path: _file(folders[0], path) for path in paths}


def _file(folder: Path, path: Path) -> File:
    name = _named(folder, path)
    try:
        content = content_of(path)
    except Unreadable:
        return File(name, None, "")
    return File(name, content, hashlib.sha256(content).hexdigest())


@lru_cache(maxsize=1024)
def named_from(folder: Path, file: str) -> str:
    """A file as results name it: from the folder of rulesets on."""
    return _named(folder, Path(file))


def _named(folder: Path, path: Path) -> str:
    parts, above = path.parts, folder.parts
    if parts[: len(above)] == above:
        return "/".join(filter(None, (folder.name, *parts[len(above) :])))
    return Path(*parts[-2:]).as_posix()
