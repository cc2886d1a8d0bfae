"""One rule as two editions of the rulesets ask it: what is heard where and when, before and after."""

import datetime as dt
from collections.abc import Iterator, Sequence
from functools import cached_property
from itertools import product

from msgspec import Struct
from msgspec.structs import replace

from checker.keeping.asked import ONE, Asked, days, region_in
from checker.keeping.changes import Part
from checker.keeping.direction import Sign
from checker.keeping.easing import Bites, Operators, all_eased, together
from checker.rules import Rulebook
from checker.rules.model import Provision

Key = tuple[str, str, dt.date | None]


class Heard(Struct, frozen=True):
    """What is in force in one region on one day, by both editions."""

    laid: tuple[str, ...]
    """The layer that is laid on the region, if any."""
    before: tuple[Provision, ...]
    after: tuple[Provision, ...]


class RuleAsked(Struct, frozen=True, dict=True):
    """One rule, by its ids in both editions (None: not held), with everything that is asked of it there."""

    asked: Asked
    before: str | None
    after: str | None
    old: tuple[Provision, ...]
    """By the id of the new edition."""
    new: tuple[Provision, ...]
    bite: Bites
    operators: Operators
    part: Part
    """1 where some site is asked otherwise on some day."""

    @cached_property
    def heard(self) -> tuple[Heard, ...]:
        """Everywhere, with nothing or one layer laid on it, on each day on which somebody begins or has ended."""
        one, other = self.asked.old, self.asked.new
        return tuple(
            Heard(
                way,
                () if self.before is None else before.provisions(self.before, region_in(before, after, region), day),
                () if self.after is None else after.provisions(self.after, region_in(after, before, region), day),
            )
            for way in self._ways()
            for before, after in [(_with(one, way), _with(other, way))]
            for region in self.asked.regions
            for day in sorted(days((*self.old, *self.new)))
        )

    def heard_around(self, layer: str) -> tuple[Heard, ...]:
        """Everywhere with nothing laid on it; with that layer laid on it, where it can be."""
        laid = (layer,) if any(layer in book.layers and _lies(book, layer) for book in self._books) else ()
        return tuple(each for each in self.heard if each.laid == laid)

    def stood_before(self, provision: Provision) -> tuple[Provision, ...] | None:
        """What is in force in its layer until the day before it begins; None where it speaks from ever."""
        return None if provision.from_ is None else self._on(provision, provision.from_ - ONE)

    def follows(self, provision: Provision) -> tuple[Provision, ...] | None:
        """What is in force in its layer from the day after it ends; None where it speaks without end."""
        if provision.until is None or provision.until == dt.date.max:
            return None
        return self._on(provision, provision.until + ONE)

    def eased_by_days(self, begin: tuple[dt.date | None, dt.date | None], back: tuple[Provision, Provision]) -> Sign:
        """Whether more or less is asked because a provision begins or ends on another day.

        `begin`: the days, before and after, from which something else is heard. `back`: the provision as it is, and
        with the day that it had.
        """
        first, last = sorted(each or dt.date.min for each in begin)
        was = tuple(back[1] if each is back[0] else each for each in self.new)
        signs = []
        for way, day in product(self._ways(), sorted(days((*was, *self.new)))):
            if first <= day < last:
                one, other = (replace(_with(self.asked.new, way), all_provisions=each) for each in (was, self.new))
                for region in one.regions():
                    heard = (book.provisions(back[0].rule, region, day) for book in (one, other))
                    signs.append(all_eased(*heard, bite=self.bite))
        return together(signs)

    def _ways(self) -> Iterator[tuple[str, ...]]:
        """Nothing laid on a region; or one layer that asks this rule."""
        yield ()
        for name in sorted({each.layer for each in (*self.old, *self.new)}):
            if any(name in book.layers and _lies(book, name) for book in self._books):
                yield (name,)

    @property
    def _books(self) -> tuple[Rulebook, Rulebook]:
        return self.asked.old, self.asked.new

    def _on(self, provision: Provision, day: dt.date) -> tuple[Provision, ...]:
        book = _with(self.asked.new, (provision.layer,))
        return book.provisions(provision.rule, book.held_region(provision.layer), day)


def key(provision: Provision) -> Key:
    """What tells a provision from all others of its rule in one edition."""
    return provision.layer, provision.authority, provision.from_


def among(provision: Provision, provisions: Sequence[Provision]) -> bool:
    """Whether a provision, in whatever edition, is one of these."""
    return any(key(each) == key(provision) for each in provisions)


def _with(book: Rulebook, names: tuple[str, ...]) -> Rulebook:
    """The same with those layers laid on any region that it holds and that can be laid."""
    return book.with_layers(tuple(each for each in names if each in book.layers and _lies(book, each)))


def _lies(book: Rulebook, name: str) -> bool:
    return book.layers[name].lies_on_any_region
