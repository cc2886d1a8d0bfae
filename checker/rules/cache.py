"""Trees of expressions kept between runs, so that a warm start needs no parser.

One JSON file for the bytes of all ruleset files and of the parser's own modules: a line with the digest of the rest,
then every expression with its tree. It is data and is checked like data: a file that is damaged, cut short, of another
version or of another shape is passed over, and the expressions are parsed again. Nothing in it is run.
"""

import contextlib
import hashlib
import json
import os
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from checker import __version__
from checker.rules.parse import MOST_NODES, parse
from checker.rules.tree import Tree, well_formed

FORMAT: Final = 1
MADE_BY: Final = ("parse.py", "scan.py", "tree.py")
"""The modules that decide which tree a text has, and whether it has one: trees made by others are not taken."""
MOST_KEPT: Final = 16
"""Files kept in the folder; the least recently written go first."""
LARGEST: Final = 4 * 1024 * 1024


@dataclass
class Trees:
    """Expressions and their trees: what the cache holds, and what had to be parsed."""

    file: Path | None
    """Where they are kept; None keeps nothing."""
    known: dict[str, Tree] = field(default_factory=dict)
    parsed: bool = False

    def tree(self, text: str) -> Tree:
        """The tree of an expression. Raises Refused as parsing does."""
        if text not in self.known:
            self.known[text] = parse(text)
            self.parsed = True
        return self.known[text]

    def keep(self) -> None:
        """Write the trees for the next run, whole or not at all. A folder that cannot be written is left alone."""
        if self.file is None or not self.parsed:
            return
        body = json.dumps(self.known, separators=(",", ":"), sort_keys=True)
        part = self.file.with_name(f"{self.file.name}.{os.getpid()}.part")
        with contextlib.suppress(OSError):
            self.file.parent.mkdir(parents=True, exist_ok=True)
            try:
                part.write_text(f"{_digest(body.encode())}\n{body}", encoding="utf-8", newline="\n")
                os.replace(part, self.file)
            finally:
                part.unlink(missing_ok=True)
            _drop_oldest(self.file.parent)


def trees_for(files: Iterable[Path], folder: Path | None) -> Trees:
    """The trees kept in a folder for these ruleset files, as far as they can be trusted."""
    if folder is None:
        return Trees(None)
    key = hashlib.sha256(f"{FORMAT} {__version__}".encode())
    own = [Path(__file__).with_name(name) for name in MADE_BY]
    for path in (*own, *files):
        with contextlib.suppress(OSError):
            key.update(hashlib.sha256(path.read_bytes()).digest())
    file = folder / f"trees-{key.hexdigest()[:32]}.json"
    return Trees(file, _held(file))


def _held(file: Path) -> dict[str, Tree]:
    try:
        if file.stat().st_size > LARGEST:
            return {}
        digest, _, body = file.read_bytes().partition(b"\n")
        if digest.decode() != _digest(body):
            return {}
        held = json.loads(body)
    except (OSError, ValueError, RecursionError):
        return {}
    if not isinstance(held, dict):
        return {}
    return {text: tree for text, tree in held.items() if well_formed(tree, MOST_NODES)}


def _digest(body: bytes) -> str:
    return hashlib.sha256(body).hexdigest()


def _drop_oldest(folder: Path) -> None:
    kept = sorted(folder.glob("trees-*.json"), key=lambda path: path.stat().st_mtime, reverse=True)
    for path in kept[MOST_KEPT:]:
        path.unlink(missing_ok=True)
