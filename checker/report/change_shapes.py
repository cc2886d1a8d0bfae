"""What a report of changes shows, told as shapes: a report imports no rules."""

from collections.abc import Collection, Mapping, Sequence
from typing import Protocol

from checker.report.shapes import Place, Provision, Rule


class Tried(Protocol):
    """A case that comes out otherwise."""

    @property
    def case_number(self) -> int:
        """Its number in its own edition."""

    @property
    def of_old(self) -> bool:
        """Whether it is a case of the old edition."""

    @property
    def before(self) -> str:
        """Its outcome by the old edition."""

    @property
    def after(self) -> str:
        """Its outcome by the new edition."""


class Trial(Protocol):
    """What cases show of a change."""

    @property
    def otherwise(self) -> Sequence[Tried]:
        """Cases that come out otherwise."""

    @property
    def alike(self) -> int:
        """How many do not."""

    @property
    def not_tried(self) -> int:
        """How many only one edition can read."""


class Compared(Protocol):
    """One limit beside that of another provision."""

    @property
    def name(self) -> str:
        """Its name."""

    @property
    def own(self) -> str:
        """As the provision writes it that is told of."""

    @property
    def other(self) -> str:
        """As the other writes it."""

    @property
    def way(self) -> str:
        """Whether the own one is stricter or laxer."""


class Beside(Protocol):
    """Another provision, limit by limit."""

    @property
    def provision(self) -> Provision:
        """The other."""

    @property
    def limits(self) -> Sequence[Compared]:
        """The limits that both give."""


class Change(Protocol):
    """One change."""

    @property
    def how(self) -> str:
        """Which way it goes."""

    @property
    def what(self) -> str:
        """Names its sentence."""

    @property
    def layer(self) -> str:
        """The layer that says it."""

    @property
    def about(self) -> str:
        """The rule or the source."""

    @property
    def part(self) -> int:
        """The part of the version that rises by it."""

    @property
    def authority(self) -> str:
        """Who asks."""

    @property
    def name(self) -> str:
        """Which limit, field or case."""

    @property
    def before(self) -> str:
        """What the old edition says."""

    @property
    def after(self) -> str:
        """What the new edition says."""

    @property
    def was_at(self) -> Place | None:
        """Where it stands in the old edition."""

    @property
    def at(self) -> Place | None:
        """Where it stands in the new edition."""

    @property
    def trial(self) -> Trial | None:
        """What cases show of it."""

    @property
    def rule(self) -> Rule | None:
        """The rule that came or went."""

    @property
    def was(self) -> Provision | None:
        """The provision as it was, or the one that is replaced."""

    @property
    def now(self) -> Provision | None:
        """The provision as it is, or the one that replaces another."""

    @property
    def alike(self) -> Collection[str]:
        """Limits in which both agree."""

    @property
    def operators(self) -> Mapping[str, str]:
        """How the rule compares each limit."""

    @property
    def stood(self) -> Sequence[Provision] | None:
        """What is in force until the provision begins."""

    @property
    def follows(self) -> Sequence[Provision] | None:
        """What is in force after it has ended."""

    @property
    def beside(self) -> Sequence[Beside]:
        """What others ask there."""

    @property
    def silenced(self) -> Sequence[Beside]:
        """Good practice that is not heard any more, or again."""


class Version(Protocol):
    """What the version of a layer must do."""

    @property
    def layer(self) -> str:
        """Its name."""

    @property
    def title(self) -> str:
        """Its title."""

    @property
    def before(self) -> str | None:
        """The old version."""

    @property
    def after(self) -> str | None:
        """The new version."""

    @property
    def rises(self) -> int:
        """The part that must rise."""

    @property
    def least(self) -> str:
        """The least version that is right."""

    @property
    def enough(self) -> bool:
        """Whether it rose so far."""


class Diff(Protocol):
    """All changes and all layers."""

    @property
    def changes(self) -> Sequence[Change]:
        """By layer, then by the way they go."""

    @property
    def versions(self) -> Sequence[Version]:
        """One for each layer."""


class JudgedTwice(Protocol):
    """One finding of one site, judged by two editions."""

    @property
    def site(self) -> str:
        """Id of the site."""

    @property
    def rule(self) -> str:
        """Id of the rule."""

    @property
    def title(self) -> str:
        """Title of the rule."""

    @property
    def severity(self) -> str:
        """Severity of the rule."""

    @property
    def acts(self) -> str:
        """Who acts."""

    @property
    def place(self) -> Sequence[str]:
        """Labels from the outermost place to the thing."""

    @property
    def subject(self) -> str:
        """Kind and id of the thing."""

    @property
    def why(self) -> Sequence[Change]:
        """The changes it comes from."""
