"""Results kept between runs: what was judged from the same bytes before is not judged again.

One file a result, named for all that a result comes from: first for the site file, the region, the day and this
program, then for the ruleset files, so that a result by other rulesets is found as well. It is checked like data: a
file that is damaged, of another program or of another shape is passed over. Nothing in it is run.
"""

import contextlib
import datetime as dt
import hashlib
from functools import cache
from pathlib import Path
from typing import Final

from msgspec import MsgspecError, Struct
from msgspec.msgpack import Decoder, encode
from msgspec.structs import replace

from checker.findings.judged import Judged
from checker.findings.result import Result
from checker.kept_files import body_of, drop_older_half, drop_oldest, keep_body, last_written_first, program

FORMAT: Final = 2
MOST_KEPT: Final = 128
"""Files kept in the folder; above that, all but the half last written go."""
MOST_OF_A_SITE: Final = 2
"""Those of one site asked one thing, by whatever rulesets."""
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
        found = _read(self.folder / self._name(content, file))
        return None if found is None else found.result

    def before(self, content: bytes, file: str) -> Judged | None:
        """What was found last in that site by other rulesets, asked the same."""
        with contextlib.suppress(OSError):
            found = last_written_first(self.folder.glob(f"{self._of_site(content, file)}*"))
            return _read(found[0]) if found else None
        return None

    def keep(self, content: bytes, file: str, judged: Judged) -> None:
        """Write what was judged for the next time, whole or not at all."""
        keep_body(self.folder / self._name(content, file), encode(judged))
        drop_oldest(self.folder.glob(f"{self._of_site(content, file)}*"), MOST_OF_A_SITE)
        drop_older_half(self.folder, "result-*", MOST_KEPT)

    def _name(self, content: bytes, file: str) -> str:
        return f"{self._of_site(content, file)}{self.asked.rulesets[:32]}"

    def _of_site(self, content: bytes, file: str) -> str:
        asked = replace(self.asked, rulesets="")
        key = hashlib.sha256(encode([FORMAT, program(), asked, file, content])).hexdigest()
        return f"result-{key[:32]}-"


def _read(file: Path) -> Judged | None:
    if (body := body_of(file, LARGEST)) is None:
        return None
    try:
        return _decoder().decode(body)
    except (MsgspecError, ArithmeticError):
        return None


@cache
def _decoder() -> Decoder[Judged]:
    return Decoder(Judged)
