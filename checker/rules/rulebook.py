"""All that is held: layers, rules, provisions; and which of it is in force for a region on a day."""

import datetime as dt
from collections.abc import Mapping
from functools import cached_property

from msgspec import Struct, field
from msgspec.structs import replace

from checker.rules.model import Layer, Provision, Rule, Source


class NoLayer(Exception):
    """A layer to lay on a region is not held. Raised by `with_layers`; `held` lists those that are."""

    def __init__(self, name: str, held: tuple[str, ...]) -> None:
        """Keep the name that was asked for and the layers that are held."""
        self.name, self.held = name, held
        super().__init__(f"no layer {name} to lay on a region; held are {', '.join(held) or 'none'}")


class NoRegion(Exception):
    """No region was given. Raised when rules in force are asked for without one; `held` lists what could be."""

    def __init__(self, held: tuple[str, ...]) -> None:
        """Keep the regions that are held."""
        self.held = held
        super().__init__(f"no region given; held are {', '.join(held)}")


class Rulebook(Struct, frozen=True, dict=True):
    """Layers by name, rules by id, provisions as they stand in the files, the bibliography by id."""

    layers: Mapping[str, Layer]
    rules: Mapping[str, Rule]
    all_provisions: tuple[Provision, ...]
    sources: Mapping[str, Source] = field(default_factory=dict)
    """Every entry, used or not."""
    laid: tuple[str, ...] = ()
    """Layers of a house, an insurer, a landlord or a maker that are laid on whatever region is asked for."""

    __hash__ = object.__hash__
    """Which rulebook it is, not what it says: what is made from one is kept for that one."""

    def regions(self) -> tuple[str, ...]:
        """The layers that a site can name as its region."""
        return tuple(name for name, layer in sorted(self.layers.items()) if not layer.lies_on_any_region)

    def held_region(self, region: str | None) -> str:
        """The nearest layer held: the region itself, what its name begins with, or the layer all others extend.

        Raises NoRegion when no region is given.
        """
        if not region:
            raise NoRegion(self.regions())
        words = region.split("-")
        for length in range(len(words), 0, -1):
            if (name := "-".join(words[:length])) in self.regions():
                return name
        return next(name for name in self.regions() if self.layers[name].extends is None)

    def with_layers(self, names: tuple[str, ...]) -> "Rulebook":
        """The same, with layers laid on any region that is asked for. Raises NoLayer."""
        held = tuple(name for name, layer in sorted(self.layers.items()) if layer.lies_on_any_region)
        for name in names:
            if name not in held:
                raise NoLayer(name, held)
        return replace(self, laid=names)

    def chain(self, region: str) -> tuple[Layer, ...]:
        """What is laid on a region, then its own layers, nearest first."""
        chain = [self.layers[self.held_region(region)]]
        while (parent := chain[-1].extends) is not None:
            chain.append(self.layers[parent])
        return (*(self.layers[name] for name in self.laid), *chain)

    def provisions(
        self, rule_id: str, region: str, day: dt.date, installed: dt.date | None = None
    ) -> tuple[Provision, ...]:
        """What is asked of a rule: each authority's nearest provision; good practice only where no other speaks.

        A provision that judges new work is the one that spoke on the day a thing was installed, where that is known.
        """
        nearest: dict[str, Provision] = {}
        held = self._by_rule.get(rule_id, ())
        for layer in self.layers_of(region):
            for provision in held:
                if provision.layer == layer and provision.speaks_on(
                    installed if installed is not None and provision.judges == "new work" else day
                ):
                    nearest.setdefault(provision.authority, provision)
        binding = {name: each for name, each in nearest.items() if name != "good practice"}
        return tuple((binding or nearest)[name] for name in sorted(binding or nearest))

    def all_of(self, rule_id: str) -> tuple[Provision, ...]:
        """All that is asked of a rule, in any layer and on any day, in the order of the files."""
        return self._by_rule.get(rule_id, ())

    def not_heard(self, rule_id: str, region: str, day: dt.date) -> tuple[Provision, ...]:
        """What the layers of a region say of a rule on a day and is not heard: replaced by a nearer, or silenced."""
        heard = self.provisions(rule_id, region, day)
        layers = self.layers_of(region)
        held = (each for each in self._by_rule.get(rule_id, ()) if each.layer in layers and each.speaks_on(day))
        return tuple(each for each in held if not any(each is one for one in heard))

    def in_force(self, region: str, day: dt.date) -> tuple[tuple[Rule, tuple[Provision, ...]], ...]:
        """Every rule that some authority asks for, with what each asks, in the order of ids."""
        asked = ((rule, self.provisions(name, region, day)) for name, rule in sorted(self.rules.items()))
        return tuple((rule, provisions) for rule, provisions in asked if provisions)

    def depends_on_installation(self, rule_id: str) -> bool:
        """Whether the day a thing was installed can decide which provision it is judged by."""
        held = self._by_rule.get(rule_id, ())
        return any(each.judges == "new work" and (each.from_ or each.until) for each in held)

    def layers_of(self, region: str) -> tuple[str, ...]:
        """The names of the layers of a region, nearest first."""
        if region not in self._chains:
            self._chains[region] = tuple(layer.name for layer in self.chain(region))
        return self._chains[region]

    @cached_property
    def _chains(self) -> dict[str, tuple[str, ...]]:
        return {}

    @cached_property
    def _by_rule(self) -> Mapping[str, tuple[Provision, ...]]:
        grouped: dict[str, list[Provision]] = {}
        for provision in self.all_provisions:
            grouped.setdefault(provision.rule, []).append(provision)
        return {rule: tuple(provisions) for rule, provisions in grouped.items()}
