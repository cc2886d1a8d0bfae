"""A rulebook kept between runs, so that a warm start reads no ruleset file and needs no parser.

One file for the bytes of all ruleset files and for this program. In it stands, line by line as JSON, the digest of the
rest; the rulebook, trees of expressions and all; what is known of each ruleset file, so that after a change no other is
read; and the cases of each rule. It is checked like data: a file that is damaged, cut short, of another program or of
another shape is passed over, and the rulesets are read again. Nothing in it is run.
"""

import contextlib
from collections.abc import Iterable, Sequence
from functools import cached_property
from pathlib import Path
from typing import Any, Final

from msgspec import MsgspecError, Struct
from msgspec.json import decode, encode
from msgspec.structs import replace

from checker.kept_files import body_of, drop_oldest, keep_body, last_written_first, program
from checker.rules.model import Case, Layer, Provision, Rule, Source
from checker.rules.rulebook import Rulebook
from checker.rules.shelved import Known, Shelved
from checker.rules.tree import MOST_NODES, well_formed
from checker.written_files import File, digest_of

FORMAT: Final = 7
MOST_KEPT: Final = 16
"""Files kept in the folder; the least recently written go first."""
LARGEST: Final = 16 * 1024 * 1024


class _Kept(Struct, frozen=True, array_like=True):
    """The rulebook that a file holds, of whose rules the cases stand apart."""

    layers: dict[str, Layer]
    rules: dict[str, Rule]
    provisions: tuple[Provision, ...]
    sources: dict[str, Source]


def file_for(files: Iterable[File], cache_folder: Path) -> Path:
    """Where the rulebook of these files is kept by this program."""
    return cache_folder / f"{_made_here()}{digest_of(files)[:32]}.json"


def _made_here() -> str:
    """What the names of all files begin with that this program keeps."""
    return f"rulebook-{FORMAT}-{program()}-"


def held(file: Path) -> Rulebook | None:
    """The rulebook kept in a file, if there is one that can be trusted."""
    return (found := _read(file)) and found[0]


def last(cache_folder: Path) -> Shelved | None:
    """What this program kept last, of whatever files: most of them will not have changed."""
    with contextlib.suppress(OSError, MsgspecError):
        for path in last_written_first(cache_folder.glob(f"{_made_here()}*.json")):
            if (found := _read(path)) is not None:
                return Shelved(found[0], decode(found[1], type=dict[str, Known]))
    return None


def _read(file: Path) -> tuple[Rulebook, bytes] | None:
    """The rulebook in a file, and what is known of its files as text; None where it cannot be trusted."""
    if (body := body_of(file, LARGEST)) is None:
        return None
    with contextlib.suppress(MsgspecError, ValueError, ArithmeticError, RecursionError):
        text, files, *cases = body.split(b"\n")
        kept = decode(text, type=_Kept)
        if all(map(_whole, kept.rules.values())):
            each = zip(kept.rules.items(), cases, strict=True)
            rules = {name: replace(rule, cases=_Cases(text)) for (name, rule), text in each}
            return Rulebook(kept.layers, rules, kept.provisions, kept.sources), files
    return None


def _whole(rule: Rule) -> bool:
    return well_formed(rule.require_tree, MOST_NODES) and (
        rule.when_tree is None or well_formed(rule.when_tree, MOST_NODES)
    )


def keep(file: Path, shelved: Shelved) -> None:
    """Write a rulebook for the next run, whole or not at all. A folder that cannot be written is left alone."""
    book = shelved.book
    bare = {name: replace(rule, cases=()) for name, rule in book.rules.items()}
    kept = _Kept(dict(book.layers), bare, book.all_provisions, dict(book.sources))
    cases = (_text(rule.cases) for rule in book.rules.values())
    keep_body(file, b"\n".join([encode(kept), encode(shelved.files), *cases]))
    drop_oldest(file.parent.glob("*.json"), MOST_KEPT)


class _Cases(Sequence[Case]):
    """The cases of a rule, as text until somebody asks: a check of a site never does."""

    def __init__(self, text: bytes) -> None:
        self.text = text

    @cached_property
    def _made(self) -> tuple[Case, ...]:
        return decode(self.text, type=tuple[Case, ...])

    def __len__(self) -> int:
        return len(self._made)

    def __getitem__(self, at: Any) -> Any:
        return self._made[at]

    def __eq__(self, other: object) -> bool:
        return tuple(self) == tuple(other) if isinstance(other, Sequence) else NotImplemented

    __hash__ = None  # type: ignore[assignment]


def _text(cases: Sequence[Case]) -> bytes:
    return cases.text if isinstance(cases, _Cases) else encode(cases)
