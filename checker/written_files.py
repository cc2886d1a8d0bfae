"""Files that people write: what stands in one, and all those below folders of rulesets with the digest of each."""

import contextlib
import hashlib
import os
import stat
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from pathlib import Path
from typing import Final

from msgspec import Struct

LARGEST: Final = 1_000_000
"""Bytes in a file."""


class File(Struct, frozen=True):
    """A ruleset file as it was found."""

    name: str
    """As results name it, the same on every machine."""
    content: bytes | None
    """None where it cannot be read, or is too large."""
    digest: str


def files_in(folders: Sequence[Path]) -> Mapping[Path, File]:
    """All YAML files below folders, in the order of their paths, folder by folder; the first is that of the rulesets.

    Each is read once: what is made of it and the digest under which that is kept are of the same bytes.
    """
    paths = dict.fromkeys(path for folder in folders for path in sorted(folder.glob("**/*.yaml")))
    return {path: _file(folders[0], path) for path in paths}


def digest_of(files: Iterable[File]) -> str:
    """A digest of what files hold and how they are named."""
    return hashlib.sha256("".join(f"{file.name}\n{file.digest}\n" for file in files).encode()).hexdigest()


def ordinary_content(path: Path) -> bytes | None:
    """What stands in a file; None for one that cannot be read, and for what no file of ours is: `reading` says why."""
    with contextlib.suppress(OSError, ValueError):
        seen = os.stat(path)
        if stat.S_ISREG(seen.st_mode) and seen.st_size <= LARGEST:  # a pipe would be waited on for ever
            with open(path, "rb") as stream:
                return stream.read(LARGEST)
    return None


def _file(folder: Path, path: Path) -> File:
    name, content = _named(folder, path), ordinary_content(path)
    return File(name, content, "" if content is None else hashlib.sha256(content).hexdigest())


@lru_cache(maxsize=1024)
def named_from(folder: Path, file: str) -> str:
    """A file as results name it: from the folder of rulesets on."""
    return _named(folder, Path(file))


def _named(folder: Path, path: Path) -> str:
    parts, above = path.parts, folder.parts
    if parts[: len(above)] == above:
        return "/".join(filter(None, (folder.name, *parts[len(above) :])))
    return Path(*parts[-2:]).as_posix()
