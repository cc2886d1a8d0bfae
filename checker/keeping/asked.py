"""Whether any site is asked anything otherwise: what is in force for each region on each day, in two editions."""

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from itertools import permutations, product

from checker.rules import Rulebook
from checker.rules.model import Provision

MOST_LAID = 2
"""Layers that are laid on a region together when it is tried."""
ONE = dt.timedelta(days=1)


class Asked:
    """Two editions of a folder of rulesets, asked rule by rule."""

    def __init__(self, old: Rulebook, new: Rulebook) -> None:
        """All regions of either edition, each alone and with the layers that both can lay on it."""
        self.old, self.new = old, new
        self.provisions = tuple(_by_rule(book) for book in (old, new))
        self.regions = sorted({*old.regions(), *new.regions()})
        laid = sorted({name for name, layer in old.layers.items() if layer.lies_on_any_region}
                      & {name for name, layer in new.layers.items() if layer.lies_on_any_region})  # fmt: skip
        ways = [way for length in range(MOST_LAID + 1) for way in permutations(laid, length)]
        self._laid = [(way, old.with_layers(way), new.with_layers(way)) for way in ways]

    def of_old(self, rule: str | None) -> tuple[Provision, ...]:
        """What is asked of a rule in the old edition, anywhere and ever."""
        return self.provisions[0].get(rule or "", ())

    def of_new(self, rule: str | None) -> tuple[Provision, ...]:
        """What is asked of a rule in the new edition, anywhere and ever."""
        return self.provisions[1].get(rule or "", ())

    def otherwise(self, before: str | None, after: str | None) -> bool:
        """Whether some thing may be asked by other values on some day; the rule's ids in both editions, None: not held.

        Who asks, in which layer and by which source does not count: the values do.
        """
        old, new = self.of_old(before), self.of_new(after)
        if _as_a_whole(old) == _as_a_whole(new):
            return False
        speaking = {each.layer for each in (*old, *new)}
        turns = sorted(days((*old, *new)))
        installed: list[dt.date | None] = [None]
        if any(each.judges == "new work" for each in (*old, *new)):
            installed += turns
        for way, one, other in self._laid:
            if not way or speaking & set(way):
                for region, day, built in product(self.regions, turns, installed):
                    old_region, new_region = region_in(one, other, region), region_in(other, one, region)
                    if _values(one, before, old_region, day, built) != _values(other, after, new_region, day, built):
                        return True
        return any(each.layer not in book.layers for each in (*old, *new) for book in (self.old, self.new))


def _by_rule(book: Rulebook) -> Mapping[str, tuple[Provision, ...]]:
    grouped: dict[str, list[Provision]] = {}
    for provision in book.all_provisions:
        grouped.setdefault(provision.rule, []).append(provision)
    return {rule: tuple(provisions) for rule, provisions in grouped.items()}


def _as_a_whole(provisions: Iterable[Provision]) -> frozenset[object]:
    return frozenset((each.layer, each.authority, each.from_, each.until, value(each)) for each in provisions)


def region_in(book: Rulebook, other: Rulebook, region: str) -> str:
    """The region; where a book does not hold it, the nearest that it stands on by another edition."""
    if region in book.layers:
        return region
    return next((layer.name for layer in other.chain(region) if layer.name in book.regions()), region)


def days(provisions: Iterable[Provision]) -> Iterator[dt.date]:
    """The days on which somebody begins or stops to ask, and a day before them all."""
    yield dt.date.min
    for each in provisions:
        if each.from_ is not None:
            yield each.from_
        if each.until is not None and each.until < dt.date.max:
            yield each.until + ONE


def _values(
    book: Rulebook, rule: str | None, region: str, day: dt.date, installed: dt.date | None
) -> frozenset[object]:
    if rule is None:
        return frozenset()
    return frozenset(value(each) for each in book.provisions(rule, region, day, installed))


def value(provision: Provision) -> object:
    """What decides an outcome: values of limits, rows of tables, and what it judges."""
    limits = frozenset((name, limit.value) for name, limit in provision.limit.items())
    tables = frozenset(
        (name, frozenset((row.keys, frozenset(row.cells.items())) for row in table.rows))
        for name, table in provision.tables.items()
    )
    return limits, tables, provision.judges
