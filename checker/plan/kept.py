"""Answers kept on disk, so that a question asked before needs no geometry.

One JSON file an answer, named for the question and the program: a line with the digest of the rest, then the answer as
plain data. A file that is damaged, cut short or of another shape is passed over. Nothing in it is run, and a folder
that cannot be written is left alone.
"""

import contextlib
import hashlib
import json
import os
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from threading import get_ident
from typing import Any, Final

from msgspec import Struct

import checker
from checker.plan import results, shapes
from checker.plan.digest import digest_of

FORMAT: Final = 1
MOST_KEPT: Final = 4096
"""Files kept in the folder; above that, all but the half last written go."""
LARGEST: Final = 4 * 1024 * 1024
_KEPT: Final[Mapping[str, type]] = {
    name: kind
    for name, kind in [*vars(results).items(), *vars(shapes).items()]
    if isinstance(kind, type) and issubclass(kind, Struct)
}


class Answers(Struct, frozen=True):
    """Answers kept in a folder. It is made when the first is kept."""

    folder: Path

    def held(self, question: Any) -> Any | None:
        """The answer to a question, if one is kept that can be trusted."""
        try:
            file = self._file(question)
            if file.stat().st_size > LARGEST:
                return None
            digest, _, body = file.read_bytes().partition(b"\n")
            return _thawed(json.loads(body)) if digest.decode() == _sha(body) else None
        except (OSError, ValueError, TypeError, KeyError, RecursionError):
            return None

    def keep(self, question: Any, answer: Any) -> None:
        """Write an answer for the next time, whole or not at all."""
        body = json.dumps(_frozen(answer), separators=(",", ":"), allow_nan=False).encode()
        file = self._file(question)
        part = file.with_name(f"{file.name}.{os.getpid()}-{get_ident()}.part")
        with contextlib.suppress(OSError):
            self.folder.mkdir(parents=True, exist_ok=True)
            try:
                part.write_bytes(_sha(body).encode() + b"\n" + body)
                os.replace(part, file)
            finally:
                part.unlink(missing_ok=True)
            self._drop_oldest()

    def _file(self, question: Any) -> Path:
        return self.folder / f"plan-{digest_of([FORMAT, checker.__version__, _program(), question])[:40]}.json"

    def _drop_oldest(self) -> None:
        if len(os.listdir(self.folder)) > MOST_KEPT:
            kept = sorted(self.folder.glob("plan-*.json"), key=lambda path: path.stat().st_mtime)
            for path in kept[: -MOST_KEPT // 2]:
                path.unlink(missing_ok=True)


@cache
def _program() -> str:
    """Sizes and times of the modules that answer or ask: an answer of other code is not taken."""
    here = Path(__file__).parent
    with contextlib.suppress(OSError):
        modules = sorted([*here.glob("*.py"), *(here.parent / "quantities").glob("*.py")])
        return " ".join(f"{path.name}:{(s := path.stat()).st_size}:{s.st_mtime_ns}" for path in modules)
    return ""


def _sha(body: bytes) -> str:
    return hashlib.sha256(body).hexdigest()


def _frozen(value: Any) -> Any:
    """A value as JSON holds it; a kind of answer says which it is."""
    if isinstance(value, Struct):
        return {"": type(value).__name__, "of": [_frozen(getattr(value, name)) for name in value.__struct_fields__]}
    return [_frozen(each) for each in value] if isinstance(value, tuple) else value


def _thawed(kept: Any) -> Any:
    """The value that was frozen. Raises KeyError or TypeError for what never was."""
    if isinstance(kept, dict):
        return _KEPT[kept[""]](*[_thawed(each) for each in kept["of"]])
    return tuple([_thawed(each) for each in kept]) if isinstance(kept, list) else kept
