"""A rulebook kept between runs, so that a warm start reads no ruleset file and needs no parser.

One JSON file for the bytes of all ruleset files and for this program: a line with the digest of the rest, a line with
the rulebook as plain data, trees of expressions and all, and the cases of each rule on a line of their own. It is
checked like data: a file that is damaged, cut short, of another program or of another shape is passed over, and the
rulesets are read again. Nothing in it is run.
"""

import contextlib
import datetime as dt
import hashlib
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from functools import cache, cached_property
from pathlib import Path
from typing import Any, Final

from msgspec import MsgspecError, Struct
from msgspec.json import decode, encode
from msgspec.structs import astuple

import checker
from checker.kept_files import body_of, drop_oldest, keep_body, last_written_first, modules_in
from checker.rules.model import Case, Layer, Limit, NotHeld, Place, Provision, Rule, Source, SourceUse
from checker.rules.rulebook import Rulebook
from checker.rules.tables import Band, Row, Table
from checker.rules.tree import MOST_NODES, Tree, well_formed
from checker.rules.types import TableShape
from checker.units import Period

FORMAT: Final = 5
MADE_BY: Final = ("rules", "quantities", "site")
"""The rooms whose code decides what a rulebook is: one made by other code is not taken."""
MOST_KEPT: Final = 16
"""Files kept in the folder; the least recently written go first."""
LARGEST: Final = 16 * 1024 * 1024
_KEPT: Final[Mapping[str, type]] = {
    kind.__name__: kind
    for kind in (
        Band,
        Case,
        Layer,
        Limit,
        NotHeld,
        Period,
        Place,
        Provision,
        Row,
        Rule,
        Source,
        SourceUse,
        Table,
        TableShape,
    )
}


_PLAIN: Final = frozenset({str, int, bool, type(None)})


def file_for(folders: tuple[Path, ...], files: Iterable[Path], cache_folder: Path) -> Path:
    """Where the rulebook of folders with these files is kept by this program."""
    key = hashlib.sha256()
    for path in files:
        folder = next(each for each in folders if path.is_relative_to(each))
        key.update(f"{folder.name}/{path.relative_to(folder).as_posix()}".encode())
        with contextlib.suppress(OSError):
            key.update(hashlib.sha256(path.read_bytes()).digest())
    return cache_folder / f"rulebook-{_program()}-{key.hexdigest()[:32]}.json"


def _program() -> str:
    """A digest of the version and of the modules that make a rulebook."""
    return hashlib.sha256(f"{FORMAT} {checker.__version__} {_modules()}".encode()).hexdigest()[:16]


@cache
def _modules() -> str:
    here = Path(checker.__file__).parent
    return modules_in(here, *(here / room for room in MADE_BY))


def trees_of_last(cache_folder: Path) -> dict[str, Tree]:
    """By text the trees of the rulebook that this program kept last: most changes of a ruleset change no expression.

    What stands in it was checked when it was made and is so again where it is used; the parser alone is spared.
    """
    with contextlib.suppress(OSError):
        for path in last_written_first(cache_folder.glob(f"rulebook-{_program()}-*.json")):
            if (book := held(path)) is not None:
                rules = book.rules.values()
                whens = {rule.when: rule.when_tree for rule in rules if rule.when and rule.when_tree}
                return whens | {rule.require: rule.require_tree for rule in rules}
    return {}


def held(file: Path) -> Rulebook | None:
    """The rulebook kept in a file, if there is one that can be trusted."""
    if (body := body_of(file, LARGEST)) is None:
        return None
    try:
        named, *cases = body.split(b"\n")
        layers, rules, provisions, sources = (_thawed(part, cases) for part in decode(named))
    except (ValueError, TypeError, LookupError, ArithmeticError, RecursionError, MsgspecError):
        return None
    book = Rulebook(layers, rules, provisions, sources)
    return book if all(map(_whole, rules.values())) else None


def _whole(rule: object) -> bool:
    return (
        isinstance(rule, Rule)
        and well_formed(rule.require_tree, MOST_NODES)
        and (rule.when_tree is None or well_formed(rule.when_tree, MOST_NODES))
    )


def keep(file: Path, book: Rulebook) -> None:
    """Write a rulebook for the next run, whole or not at all. A folder that cannot be written is left alone."""
    named = [dict(book.layers), dict(book.rules), book.all_provisions, dict(book.sources)]
    cases: list[Sequence[Case]] = []
    parts = [_frozen(part, cases) for part in named]
    body = b"\n".join([encode(parts), *(encode([_frozen(each, []) for each in of]) for of in cases)])
    keep_body(file, body)
    drop_oldest(file.parent.glob("*.json"), MOST_KEPT)


class _Cases(Sequence[Case]):
    """The cases of a rule, as text until somebody asks: a check of a site never does."""

    def __init__(self, text: bytes) -> None:
        self._text = text

    @cached_property
    def _made(self) -> tuple[Case, ...]:
        return tuple([_thawed(each, []) for each in decode(self._text)])

    def __len__(self) -> int:
        return len(self._made)

    def __getitem__(self, at: Any) -> Any:
        return self._made[at]

    def __eq__(self, other: object) -> bool:
        return tuple(self) == tuple(other) if isinstance(other, Sequence) else NotImplemented

    __hash__ = None  # type: ignore[assignment]


def _frozen(value: Any, cases: list[Sequence[Case]]) -> Any:
    """A value as JSON holds it: lists and what JSON knows stay, all else says what it is. Cases go to a list apart."""
    match value:
        case Rule():
            cases.append(value.cases)
            return _part(value, {"cases": {"": "cases", "of": len(cases) - 1}}, cases)
        case Struct():
            return _part(value, {}, cases)
        case Decimal():
            return {"": "number", "of": str(value)}
        case dt.date():
            return {"": "day", "of": value.isoformat()}
        case tuple():
            return {"": "tuple", "of": [_frozen(each, cases) for each in value]}
        case Mapping():
            return {"": "map", "of": [[key, _frozen(each, cases)] for key, each in value.items()]}
    return value


def _part(part: Struct, instead: Mapping[str, Any], cases: list[Sequence[Case]]) -> Any:
    held = [
        value if type(value) in _PLAIN else instead.get(name) or _frozen(value, cases)
        for name, value in zip(part.__struct_fields__, astuple(part), strict=True)
    ]
    stays = not any(isinstance(each, dict) for each in held)
    return {"": type(part).__name__, "is" if stays else "of": held}


def _thawed(kept: Any, cases: Sequence[bytes]) -> Any:
    """The value that was frozen. Raises LookupError, TypeError or ValueError for what never was."""
    if not isinstance(kept, dict):
        return kept
    kind = kept[""]
    if "is" in kept:
        return _KEPT[kind](*kept["is"])
    of = kept["of"]
    if kind == "tuple":
        return tuple([_thawed(each, cases) for each in of])
    if kind == "map":
        return {key: _thawed(each, cases) for key, each in of}
    if kind == "cases":
        return _Cases(cases[of])
    if kind == "number":
        return Decimal(of)
    if kind == "day":
        return dt.date.fromisoformat(of)
    return _KEPT[kind](*[_thawed(each, cases) if isinstance(each, dict) else each for each in of])
