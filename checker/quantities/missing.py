"""Why a value is not there.

Exception
├── Missing        what was recorded does not give the value: says what would
├── OutsideRange   a formula does not hold for these numbers; the registry turns it into Missing
└── Broken         an attribute was asked of a thing that was recorded as none
"""

from collections.abc import Iterable
from typing import Literal

from msgspec import Struct

Because = Literal["not recorded", "not reached", "evidence too weak", "outside range"]


class Need(Struct, frozen=True):
    """One thing that would have to be known."""

    path: str
    """Where it stands or would stand in the site: dynos[d1].capture.flow."""
    because: Because
    why: str = ""
    """The reason in the surveyor's or the formula's words; empty where `because` says it all."""
    instead: tuple[str, ...] = ()
    """Other paths, any one of which would do in its place."""


class Missing(Exception):
    """What was recorded does not give the value. Raised when a fact is read; `needs` names every gap, each once."""

    def __init__(self, path: str, because: Because, why: str = "", instead: tuple[str, ...] = ()) -> None:
        """Keep one need; `of` keeps several."""
        self.needs: tuple[Need, ...] = (Need(path, because, why, instead),)
        super().__init__(path, because, why, instead)

    @classmethod
    def of(cls, *needs: Need) -> "Missing":
        """One Missing for several needs, in the order given."""
        missing = cls.__new__(cls, needs)
        missing.needs = needs if len(needs) == 1 else tuple(dict.fromkeys(needs))
        return missing

    @classmethod
    def together(cls, faults: Iterable["Missing"]) -> "Missing":
        """One Missing for the needs of several."""
        return cls.of(*(need for fault in faults for need in fault.needs))

    @property
    def alone(self) -> "Missing":
        """Itself without where it was raised: a list of such holds none of the frames that lie on the way to it."""
        self.__traceback__ = self.__context__ = None
        return self

    def __str__(self) -> str:
        """The paths and the reasons, for people who read a traceback."""
        return "; ".join(f"{need.path}: {need.why or need.because}" for need in self.needs)

    @property
    def path(self) -> str:
        """The path of the first need."""
        return self.needs[0].path

    @property
    def because(self) -> Because:
        """Why the first need is open."""
        return self.needs[0].because

    @property
    def why(self) -> str:
        """The first need's reason in words."""
        return self.needs[0].why

    @property
    def instead(self) -> tuple[str, ...]:
        """What would do in place of the first need."""
        return self.needs[0].instead


class OutsideRange(Exception):
    """A formula does not hold for these numbers. Raised by a formula; the text says what it holds for."""


class Broken(Exception):
    """An attribute was asked of something recorded as none. Raised when a rule lacks its has_ guard."""
