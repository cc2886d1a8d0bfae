"""Answers kept on disk, so that a question asked before needs no geometry.

One JSON file an answer, named for the question and the program: a line with the digest of the rest, then the answer as
plain data. A file that is damaged, cut short or of another shape is passed over. Nothing in it is run, and a folder
that cannot be written is left alone.
"""

import contextlib
from functools import cache
from pathlib import Path
from typing import Any, Final, Union

from msgspec import MsgspecError, Struct
from msgspec.json import Decoder, encode

from checker.kept_files import body_of, drop_older_half, keep_body, program
from checker.plan.digest import digest_of
from checker.plan.results import Answer

FORMAT: Final = 2
MOST_KEPT: Final = 4096
"""Files kept in the folder; above that, all but the half last written go."""
LARGEST: Final = 4 * 1024 * 1024


class Answers(Struct, frozen=True):
    """Answers kept in a folder. It is made when the first is kept."""

    folder: Path

    def held(self, question: Any) -> Any | None:
        """The answer to a question, if one is kept that can be trusted."""
        if (body := body_of(self._file(question), LARGEST)) is None:
            return None
        try:
            several, answers = _decoder().decode(body)
        except (MsgspecError, RecursionError):
            return None
        return answers if several else answers[0] if answers else None

    def keep(self, question: Any, answer: Any) -> None:
        """Write an Answer, or a tuple of them, for the next time, whole or not at all.

        What would not come back as it is, such as an endless number, is not kept.
        """
        several = isinstance(answer, tuple)
        answers = answer if several else (answer,)
        body = encode((several, answers))
        with contextlib.suppress(MsgspecError):
            if _decoder().decode(body) == (several, answers):
                keep_body(self._file(question), body)
        drop_older_half(self.folder, "plan-*.json", MOST_KEPT)

    def _file(self, question: Any) -> Path:
        return self.folder / f"plan-{digest_of([FORMAT, program(), question])[:40]}.json"


@cache
def _decoder() -> Decoder[tuple[bool, tuple[Answer, ...]]]:
    """What reads an answer, or several, of any kind there is."""
    kinds: Any = Union[tuple(Answer.__subclasses__())]  # noqa: UP007  # made of what is there
    return Decoder(tuple[bool, tuple[kinds, ...]])
