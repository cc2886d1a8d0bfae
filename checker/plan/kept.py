"""Answers kept on disk, so that a question asked before needs no geometry.

One JSON file an answer, named for the question and the program: a line with the digest of the rest, then the answer as
plain data. A file that is damaged, cut short or of another shape is passed over. Nothing in it is run, and a folder
that cannot be written is left alone.
"""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final

from msgspec import Struct

from checker.kept_files import body_of, drop_older_half, keep_body, program
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
            body = body_of(self._file(question), LARGEST)
            return None if body is None else _thawed(json.loads(body))
        except (ValueError, TypeError, KeyError, RecursionError):
            return None

    def keep(self, question: Any, answer: Any) -> None:
        """Write an answer for the next time, whole or not at all."""
        body = json.dumps(_frozen(answer), separators=(",", ":"), allow_nan=False).encode()
        keep_body(self._file(question), body)
        drop_older_half(self.folder, "plan-*.json", MOST_KEPT)

    def _file(self, question: Any) -> Path:
        return self.folder / f"plan-{digest_of([FORMAT, program(), question])[:40]}.json"


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
