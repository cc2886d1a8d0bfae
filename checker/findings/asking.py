"""What is asked of the things of a site: the rules in force, made ready, with each authority's demand."""

import datetime as dt
import hashlib
from functools import cached_property, lru_cache

from msgspec import Struct
from msgspec.msgpack import encode
from msgspec.structs import replace

from checker.findings.judge import Compiled, compiled_rules
from checker.findings.weigh import Bound, Demand, demand
from checker.quantities import Thing
from checker.rules import Rulebook


class Asking(Struct, frozen=True, dict=True):
    """One rule in force, and what each authority demands by it."""

    compiled: Compiled
    usual: tuple[Demand, ...]
    rulebook: Rulebook
    region: str
    day: dt.date
    bound: Bound
    by_installation: bool

    @cached_property
    def rests_on(self) -> str:
        """A digest of all that the findings of a site rest on beside the site."""
        rule, layers = self.compiled.rule, self.rulebook.layers_of(self.region)
        asked = encode([replace(rule, cases=()), self.rulebook.all_of(rule.id), layers, self.region, self.day])
        return hashlib.sha256(asked).hexdigest()

    def of(self, thing: Thing) -> tuple[Demand, ...]:
        """What is demanded of a thing: for new work, by the edition of the day it was installed."""
        day = installed_on(thing) if self.by_installation else None
        if day is None:
            return self.usual
        own = self.rulebook.provisions(self.compiled.rule.id, self.region, self.day, day)
        return tuple(demand(self.compiled.rule, each, self.bound) for each in own) or self.usual


@lru_cache(maxsize=16)
def asked_in_force(rulebook: Rulebook, region: str, day: dt.date, bound: Bound) -> tuple[Asking, ...]:
    """Every rule that some authority asks for in a region on a day, in the order of ids."""
    in_force = rulebook.in_force(region, day)
    compiled = compiled_rules(rulebook, tuple(rule.id for rule, _ in in_force))
    return tuple(
        Asking(
            compiled=compiled[rule.id],
            usual=tuple(demand(rule, each, bound) for each in asks),
            rulebook=rulebook,
            region=region,
            day=day,
            bound=bound,
            by_installation=rulebook.depends_on_installation(rule.id),
        )
        for rule, asks in in_force
    )


def installed_on(thing: Thing) -> dt.date | None:
    """The day a thing, or the building it stands in, was put up or last altered; None where that is not known."""
    for holder, name in ((thing, "installed_on"), (thing["site"], "altered_on"), (thing["site"], "built_on")):
        entry = holder.entries.get(name)
        if entry is not None and isinstance(entry.value, dt.date) and entry.value != dt.date.min:
            return entry.value
    return None
