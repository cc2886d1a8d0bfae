"""Two editions of a folder of rulesets: every change, and what it asks of the version of each layer."""

from collections.abc import Iterator, Mapping
from typing import Final, Literal

from msgspec.structs import replace

from checker.keeping.asked import Asked
from checker.keeping.changes import Change, Diff, How, Part, Version, What
from checker.keeping.easing import bites, operators
from checker.keeping.provision_changes import provision_changes
from checker.keeping.rule_asked import RuleAsked
from checker.keeping.rule_changes import rule_changes
from checker.rules import Rulebook
from checker.rules.model import Layer, NotHeld, Source

HOW: Final[tuple[How, ...]] = (*("added", "withdrawn", "tightened", "relaxed", "changed", "words", "sources", "cases"),)


def diff(old: Rulebook, new: Rulebook) -> Diff:
    """Every change from one edition to the next, by layer, kind of change and rule; and each layer's version."""
    asked = Asked(old, new)
    changes = [change for one, other in pairs(old, new) for change in _of_rule(asked, one, other)]
    changes += [change for name in sorted({*old.layers, *new.layers}) for change in _of_layer(old, new, name)]
    changes += _of_bibliography(old, new)
    changes += _of_nothing_told(old, new, {change.layer for change in changes})
    ordered = sorted(changes, key=lambda one: (one.layer, HOW.index(one.how), one.about))
    names = sorted({*old.layers, *new.layers})
    return Diff(tuple(ordered), tuple(_version(name, old, new, ordered) for name in names))


def pairs(old: Rulebook, new: Rulebook) -> Iterator[tuple[str | None, str | None]]:
    """The ids of each rule in both editions, in order; None where one does not hold it. `was` keeps the history.

    Rules that became one are not that one under another name: each is withdrawn, and the one is added.
    """
    called = {before[0]: id for id in new.rules if len(before := became(old, new, id)) == 1}
    found = [(id, id if id in new.rules else called.get(id)) for id in old.rules]
    known = {other for _, other in found}
    found += [(None, id) for id in new.rules if id not in known]  # type: ignore[misc]
    yield from sorted(found, key=lambda pair: pair[1] or pair[0] or "")


def became(old: Rulebook, new: Rulebook, id: str) -> tuple[str, ...]:
    """The rules of the old edition that one of the new says it was, where neither edition holds both."""
    if id in old.rules:
        return ()
    return tuple(each for each in new.rules[id].was if each in old.rules and each not in new.rules)


def _of_rule(asked: Asked, before: str | None, after: str | None) -> Iterator[Change]:
    old = asked.old.rules.get(before or "")
    new = asked.new.rules.get(after or "")
    provisions = asked.of_old(before), asked.of_new(after)
    if old is not None and new is not None:
        yield from rule_changes(old, new, asked=any(provisions))
    elif new is not None:
        what: What = "rule" if provisions[1] else "rule not asked"
        yield Change("added", what, new.layer, new.id, 2, after=new.title, at=new.location, rule=new)
        for each in became(asked.old, asked.new, new.id):
            was_at = asked.old.rules[each].location
            yield Change("words", "merged", new.layer, new.id, 2, before=each, after=new.id, was_at=was_at,
                         at=new.location)  # fmt: skip
    elif old is not None:
        what = "rule" if provisions[0] else "rule not asked"
        yield Change("withdrawn", what, old.layer, old.id, 2, before=old.title, was_at=old.location, rule=old)
    if before != after and old is not None and new is not None:
        provisions = tuple(replace(each, rule=new.id) for each in provisions[0]), provisions[1]
    part: Part = 1 if asked.otherwise(before, after) else 2
    shown = new or old
    assert shown is not None
    yield from provision_changes(RuleAsked(asked, before, after, *provisions, bites(old, new), operators(shown), part))


def _of_layer(old: Rulebook, new: Rulebook, name: str) -> Iterator[Change]:
    one, other = old.layers.get(name), new.layers.get(name)
    if one is None or other is None:
        if other is not None:
            yield Change("added", "layer", name, "", 1, after=other.title, at=other.place)
        elif one is not None:
            yield Change("withdrawn", "layer", name, "", 1, before=one.title, was_at=one.place)
        return
    base = Change("words", "layer", name, "", 2, was_at=one.place, at=other.place)
    if one.title != other.title:
        yield replace(base, before=one.title, after=other.title)
    if one.extends != other.extends:
        yield replace(base, how="changed", what="extends", part=1, before=one.extends or "", after=other.extends or "")
    if sorted(one.authorities) != sorted(other.authorities):
        before, after = (", ".join(sorted(each.authorities)) for each in (one, other))
        yield replace(base, what="authorities", before=before, after=after)
    for gap in one.not_held:
        if gap not in other.not_held:
            yield replace(base, what="not held", name=_gap(gap), before=gap.asks, at=None)
    for gap in other.not_held:
        if gap not in one.not_held:
            yield replace(base, what="not held", name=_gap(gap), after=gap.asks, was_at=None)


def _gap(gap: NotHeld) -> str:
    return f"{gap.topic}, {gap.authority}"


def _of_bibliography(old: Rulebook, new: Rulebook) -> Iterator[Change]:
    """Entries that are cited in both editions and say something else, for each layer that rests on them."""
    one, other = _cited(old), _cited(new)
    for layer, id in sorted(one.keys() & other.keys()):
        before, after = one[layer, id], other[layer, id]
        for name in Source.__struct_fields__:
            if name == "location":
                continue
            said_before, said_after = (str(getattr(each, name) or "") for each in (before, after))
            if said_before != said_after:
                yield Change("sources", "bibliography", layer, id, 2, name=name, before=said_before,
                             after=said_after)  # fmt: skip


def _cited(book: Rulebook) -> Mapping[tuple[str, str], Source]:
    return {
        (each.layer, each.source.source.id): each.source.source
        for each in book.all_provisions
        if each.source.source is not None
    }


def _of_nothing_told(old: Rulebook, new: Rulebook, told: set[str]) -> Iterator[Change]:
    """Layers whose files say something else that nothing reads: a table or a source that is not used."""
    for name, layer in new.layers.items():
        before = old.layers.get(name)
        if before is None or name in told or before.version != layer.version:
            continue
        if before.digest != layer.digest:
            yield Change("words", "unused", name, "", 2)


def _version(name: str, old: Rulebook, new: Rulebook, changes: list[Change]) -> Version:
    one, other = old.layers.get(name), new.layers.get(name)
    if one is None or other is None:
        titled = {layer.title for layer in (one, other) if layer is not None}
        before, after = (None if layer is None else layer.version for layer in (one, other))
        return Version(name, titled.pop(), before, after, 0, "", True)
    rises: Part | Literal[0] = min((change.part for change in changes if change.layer == name), default=0)
    major, minor = _numbers(one)
    least = {0: (major, minor), 1: (major + 1, 0), 2: (major, minor + 1)}[rises]
    enough = _numbers(other) >= least
    return Version(name, other.title, one.version, other.version, rises, "{}.{}".format(*least), enough)


def _numbers(layer: Layer) -> tuple[int, int]:
    major, minor = layer.version.split(".")
    return int(major), int(minor)
