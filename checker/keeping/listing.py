"""Rules with those who ask them, chosen by what is asked."""

from collections.abc import Iterator

from msgspec import Struct

from checker.rules import Rulebook
from checker.rules.model import Provision, Rule


class Wanted(Struct, frozen=True):
    """What a rule and one of its provisions have to be; None: anything."""

    topic: str | None = None
    severity: str | None = None
    layer: str | None = None
    authority: str | None = None
    status: str | None = None
    source: str | None = None
    """The id of a source."""

    def rule(self, rule: Rule) -> bool:
        """Whether a rule is one of those wanted."""
        return self.topic in (None, rule.topic) and self.severity in (None, rule.severity)

    def provision(self, provision: Provision) -> bool:
        """Whether a provision is one of those wanted."""
        source = provision.source.source.id if provision.source.source is not None else ""
        return (
            self.layer in (None, provision.layer)
            and self.authority in (None, provision.authority)
            and self.status in (None, provision.source.status)
            and self.source in (None, source)
        )

    @property
    def of_provisions(self) -> bool:
        """Whether a rule that nobody asks cannot be wanted."""
        return any(each is not None for each in (self.layer, self.authority, self.status, self.source))


class Listed(Struct, frozen=True):
    """One rule, and which of the provisions wanted ask it."""

    rule: Rule
    asked: tuple[Provision, ...]


def listed(rulebook: Rulebook, wanted: Wanted) -> Iterator[Listed]:
    """The rules wanted by topic and id, each with the provisions wanted."""
    asked: dict[str, list[Provision]] = {}
    for provision in rulebook.all_provisions:
        if wanted.provision(provision):
            asked.setdefault(provision.rule, []).append(provision)
    for rule in sorted(rulebook.rules.values(), key=lambda each: (each.topic, each.id)):
        if wanted.rule(rule) and (rule.id in asked or not wanted.of_provisions):
            yield Listed(rule, tuple(asked.get(rule.id, ())))
