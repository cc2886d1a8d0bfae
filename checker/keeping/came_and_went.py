"""Provisions that came and provisions that went: what they replace, silence, or stand beside."""

from collections.abc import Iterable, Sequence

from msgspec.structs import replace

from checker.keeping.changes import Beside, Change, Compared, How, LimitWay
from checker.keeping.direction import Sign
from checker.keeping.easing import all_eased, eased, how, provision_eased, together
from checker.keeping.rule_asked import Heard, RuleAsked, among, key
from checker.rules import Rulebook
from checker.rules.model import Provision

WAYS: dict[Sign, LimitWay] = {1: "laxer", -1: "stricter", 0: "the same", None: "unknown"}
PRACTICE = "good practice"


def came(each: Provision, rule: RuleAsked, base: Change) -> Change:
    """A provision that came: another edition of one that ends before it, one in place of a farther one, or a first."""
    base = replace(base, how="added", after=said(each), at=each.location, now=each)
    earlier = [one for one in rule.new if (one.layer, one.authority) == (each.layer, each.authority)
               and one.until and each.from_ and one.until < each.from_]  # fmt: skip
    if earlier:
        last = max(earlier, key=lambda one: str(one.until))
        return _apart(replace(base, what="edition", how=_way(last, each, rule), name=str(each.from_)), last, each)
    if (farther := _farther(each, rule.asked.new, rule.new)) is not None:
        return _apart(replace(base, what="nearer", how=_way(farther, each, rule), name=farther.layer), farther, each)
    here = [one for one in rule.heard_around(each.layer) if among(each, one.after)]
    silenced = _practice(here, rule.new, lost=True) if each.authority != PRACTICE else ()
    others = _by_key(one for place in here for one in place.after if one.authority != each.authority)
    return replace(
        base,
        how="relaxed" if silenced and _eased(here, rule) == 1 else "added",
        beside=tuple(Beside(one, _limits(each, one, rule)) for one in others),
        silenced=tuple(Beside(one, _limits(each, one, rule)) for one in silenced),
    )


def went(each: Provision, rule: RuleAsked, base: Change) -> Change:
    """A provision that went: one that a farther one replaces, or one after which good practice is heard again."""
    base = replace(base, how="withdrawn", before=said(each), was_at=each.location, was=each)
    if each.layer in rule.asked.new.layers and (farther := _farther(each, rule.asked.new, rule.new)) is not None:
        return _apart(replace(base, what="farther", how=_way(each, farther, rule), name=farther.layer), each, farther)
    here = [one for one in rule.heard_around(each.layer) if among(each, one.before)]
    again = _practice(here, rule.new, lost=False) if each.authority != PRACTICE else ()
    return replace(
        base,
        how="tightened" if again and _eased(here, rule) == -1 else "withdrawn",
        silenced=tuple(Beside(one, _limits(one, each, rule)) for one in again),
    )


def said(provision: Provision, left_out: Iterable[str] = ()) -> str:
    """What a provision asks, as written: each limit and table by name."""
    limits = [f"{name} {limit.written}" for name, limit in provision.limit.items() if name not in left_out]
    return ", ".join([*limits, *(f"{name} {table.id}" for name, table in provision.tables.items())])


def _way(old: Provision, new: Provision, rule: RuleAsked) -> How:
    """Which way it goes from one provision to another; where both ask the same, only the source is another."""
    sign = provision_eased(old, new, rule.bite)
    return "sources" if sign == 0 else how(sign)


def _apart(change: Change, old: Provision, new: Provision) -> Change:
    """A change with what two provisions ask, but for limits in which they agree; all where they agree in everything."""
    alike = {name for name, limit in old.limit.items() if name in new.limit and new.limit[name].value == limit.value}
    if len(alike) == len(old.limit) == len(new.limit) or old.tables or new.tables:
        alike = set()
    return replace(change, before=said(old, alike), after=said(new, alike), was=old, now=new, alike=frozenset(alike))


def _farther(each: Provision, book: Rulebook, provisions: Sequence[Provision]) -> Provision | None:
    """What the same authority asks in the nearest layer that this one extends, on days that both share."""
    layer = book.layers[each.layer].extends
    while layer is not None:
        for one in provisions:
            if (one.layer, one.authority) == (layer, each.authority) and _share_a_day(one, each):
                return one
        layer = book.layers[layer].extends
    return None


def _share_a_day(one: Provision, other: Provision) -> bool:
    return not any(a.until and b.from_ and a.until < b.from_ for a, b in ((one, other), (other, one)))


def _practice(places: Iterable[Heard], held: Sequence[Provision], *, lost: bool) -> tuple[Provision, ...]:
    """Good practice that is still held, and heard before and not after (`lost`) or the other way round."""
    turned = ((one.before, one.after) if lost else (one.after, one.before) for one in places)
    return _by_key(
        one for heard, then in turned for one in heard
        if one.authority == PRACTICE and not among(one, then) and among(one, held)
    )  # fmt: skip


def _by_key(provisions: Iterable[Provision]) -> tuple[Provision, ...]:
    """Each once, by who asks and where."""
    found = {key(one): one for one in provisions}
    return tuple(sorted(found.values(), key=lambda one: (one.authority, one.layer, str(one.from_ or ""))))


def _eased(places: Iterable[Heard], rule: RuleAsked) -> Sign:
    return together([all_eased(one.before, one.after, bite=rule.bite) for one in places])


def _limits(one: Provision, other: Provision, rule: RuleAsked) -> tuple[Compared, ...]:
    """Each limit of the one beside that of the other."""
    return tuple(
        Compared(name, limit.written, beside.written, WAYS[eased(beside.value, limit.value, rule.bite.get(name))])
        for name, limit in one.limit.items()
        if (beside := other.limit.get(name)) is not None
    )
