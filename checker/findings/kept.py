"""Results kept between runs: what was judged from the same bytes before is not judged again.

One file a result, named for all that a result comes from: the site file, every ruleset file, the region, the day and
this program. It is checked like data: a file that is damaged, of another program or of another shape is passed over.
Nothing in it is run.
"""

import datetime as dt
import hashlib
from functools import cache
from pathlib import Path
from typing import Final

from msgspec import MsgspecError, Struct
from msgspec.msgpack import Decoder, encode

from checker.findings.result import Result
from checker.kept_files import body_of, drop_older_half, keep_body, program

FORMAT: Final = 1
MOST_KEPT: Final = 128
"""Files kept in the folder; above that, all but the half last written go."""
LARGEST: Final = 16 * 1024 * 1024


class Asked(Struct, frozen=True):
    """All that a result comes from beside the site file."""

    rulesets: str
    """Digest of the ruleset files."""
    laid: tuple[str, ...]
    region: str | None
    as_of: dt.date
    upcoming: int | None


class Results(Struct, frozen=True):
    """Results kept in a folder, of sites that were asked one thing. It is made when the first is kept."""

    folder: Path
    asked: Asked

    def held(self, content: bytes, file: str) -> Result | None:
        """The result of a site file with this content and name, if one is kept that can be trusted."""
        if (body := body_of(self._file(content, file), LARGEST)) is None:
            return None
        try:
            return _decoder().decode(body)
        except (MsgspecError, ArithmeticError):
            return None

    def keep(self, content: bytes, file: str, result: Result) -> None:
        """Write a result for the next time, whole or not at all."""
        keep_body(self._file(content, file), encode(result))
        drop_older_half(self.folder, "result-*", MOST_KEPT)

    def _file(self, content: bytes, file: str) -> Path:
        key = hashlib.sha256(encode([FORMAT, program(), self.asked, file, content]))
        return self.folder / f"result-{key.hexdigest()[:40]}"


@cache
def _decoder() -> Decoder[Result]:
    return Decoder(Result)
