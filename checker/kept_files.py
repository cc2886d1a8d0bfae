"""Files kept between runs in a folder of the user's own: written whole or not at all, taken only where they are whole.

A file is a line with the digest of the rest, then the rest. Nothing in one is run, and a folder that cannot be read
or written is left alone: whoever keeps something does without.
"""

import contextlib
import hashlib
import os
import sys
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path
from threading import get_ident

import msgspec

from checker import __version__


def body_of(file: Path, largest: int) -> bytes | None:
    """What was kept in a file; None where there is none, or it is damaged, cut short, or of more than so many bytes."""
    with contextlib.suppress(OSError, UnicodeDecodeError):
        if file.stat().st_size <= largest:
            digest, _, body = file.read_bytes().partition(b"\n")
            return body if digest.decode() == _digest(body) else None
    return None


def keep_body(file: Path, body: bytes) -> None:
    """Keep something under a name for the next run. A folder that is not there is made, for its owner alone."""
    with contextlib.suppress(OSError):
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        write_whole(file, _digest(body).encode() + b"\n" + body)


def write_whole(file: Path, content: bytes) -> None:
    """Write a file so that nobody ever finds a part of it. Raises OSError, and leaves what was there before."""
    part = file.with_name(f".{file.name}.{os.getpid()}-{get_ident()}.part")
    try:
        part.write_bytes(content)
        os.replace(part, file)
    finally:
        part.unlink(missing_ok=True)


def drop_oldest(files: Iterable[Path], most: int) -> None:
    """Remove all but so many of these files; those written last stay."""
    with contextlib.suppress(OSError):
        for file in last_written_first(files)[most:]:
            file.unlink(missing_ok=True)


def drop_older_half(folder: Path, pattern: str, most: int) -> None:
    """Where a folder has more files than that, leave of those of a pattern the half of `most` that was written last."""
    with contextlib.suppress(OSError):
        if len(os.listdir(folder)) > most:
            drop_oldest(folder.glob(pattern), most // 2)


def last_written_first(files: Iterable[Path]) -> list[Path]:
    """Files by when they were written. Raises OSError where one has gone meanwhile."""
    return sorted(files, key=lambda file: file.stat().st_mtime, reverse=True)


@cache
def program() -> str:
    """A digest of all that makes what is kept: what another version, Python, library or module made is not taken."""
    here, beside = os.path.dirname(__file__), os.path.dirname(os.path.dirname(msgspec.__file__))
    seen = [__version__, sys.version]
    with contextlib.suppress(OSError):
        seen += [f"{os.stat(beside).st_mtime_ns}", *modules_of(here)]
    return hashlib.sha256(" ".join(seen).encode()).hexdigest()[:16]


def modules_of(package: str) -> Iterator[str]:
    """Name, size and time of each module of a package and of its rooms. Raises OSError where they cannot be seen."""
    for room in (package, *sorted(each.path for each in os.scandir(package) if each.is_dir())):
        for module in sorted(os.scandir(room), key=lambda each: each.name):
            if module.name.endswith(".py"):
                seen = module.stat()
                yield f"{module.name}:{seen.st_size}:{seen.st_mtime_ns}"


def _digest(body: bytes) -> str:
    return hashlib.sha256(body).hexdigest()
