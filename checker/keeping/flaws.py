"""What is wrong with a ruleset that can be read: one kind of flaw, one place, one thing to mend."""

from collections.abc import Mapping
from typing import Final, Literal

from msgspec import Struct, field

from checker.rules.model import Place

Kind = Literal[
    "cases fail",
    "reason is blank", "reason is the title", "meanwhile is blank",
    "no case met", "no case not met", "no case undetermined", "no case not applicable",
    "no case for a part",
    "no case at", "no case under", "no case over",
    "limit not read", "table not read", "column not read",
    "never equal", "hardly ever equal",
    "never applies", "never met", "never fails",
    "nobody asks", "never heard", "days between", "changes nothing", "row not found",
    "source not used", "table not used", "column not used",
    "laxer than another",
]  # fmt: skip
REMARKS: Final[frozenset[Kind]] = frozenset({"laxer than another"})
"""What is worth knowing and need not be mended."""


class Flaw(Struct, frozen=True):
    """One thing to mend."""

    kind: Kind
    about: str
    """The id of the rule, the table or the source."""
    location: Place
    fields: Mapping[str, str] = field(default_factory=dict)
    """What the words for this kind are filled with."""

    @property
    def remark(self) -> bool:
        """Whether it need not be mended."""
        return self.kind in REMARKS
