"""What changed in what the authorities ask of one rule: provisions, their limits, days and sources."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace

from checker.keeping.changes import Change, How, Part
from checker.keeping.direction import Sign, directions, rise
from checker.rules import Rulebook
from checker.rules.model import Provision, Rule, SourceUse
from checker.rules.tables import Band, Key, Row, Table
from checker.units import write

Bites = Mapping[str, Sign]


def bites(old: Rule | None, new: Rule | None) -> Bites:
    """Which way each limit bites; None where the two editions of the rule do not agree."""
    found = [directions(rule) for rule in (old, new) if rule is not None]
    return {name: sign if all(each.get(name, sign) == sign for each in found) else None
            for each in found for name, sign in each.items()}  # fmt: skip


def provision_changes(
    asked: tuple[Sequence[Provision], Sequence[Provision]], books: tuple[Rulebook, Rulebook], bite: Bites, part: Part
) -> Iterator[Change]:
    """Each change of the provisions of one rule; `part`: 1 where some site is asked otherwise on some day."""
    old, new = asked
    for speaker in sorted({_speaker(each) for each in (*old, *new)}):
        gone = [each for each in old if _speaker(each) == speaker]
        come = [each for each in new if _speaker(each) == speaker]
        for before, after in _pairs(gone, come):
            gone.remove(before)
            come.remove(after)
            yield from _changes(before, after, bite, part)
        for each in gone:
            yield _withdrawn(each, books[1], new, bite, part)
        for each in come:
            yield _added(each, books[1], new, bite, part)


def _speaker(provision: Provision) -> tuple[str, str]:
    return provision.layer, provision.authority


def _pairs(old: Sequence[Provision], new: Sequence[Provision]) -> Iterator[tuple[Provision, Provision]]:
    """Provisions of one speaker that are one and the same: they begin on the same day, or each is the one left."""
    found = [(one, other) for one in old for other in new if one.from_ == other.from_]
    yield from found
    gone = [one for one in old if all(one is not known for known, _ in found)]
    come = [one for one in new if all(one is not known for _, known in found)]
    if len(gone) == len(come) == 1:
        yield gone[0], come[0]


def _base(provision: Provision, how: How, part: Part) -> Change:
    return Change(how, "provision", provision.layer, provision.rule, part, provision.authority, source=provision.source)


def _added(each: Provision, book: Rulebook, new: Sequence[Provision], bite: Bites, part: Part) -> Change:
    """A provision that came: another edition of one that ends before it, one in place of a farther one, or a first."""
    base = replace(_base(each, "added", part), after=said(each), at=each.location)
    earlier = [one for one in new if _speaker(one) == _speaker(each) and one.until and each.from_
               and one.until < each.from_]  # fmt: skip
    if earlier:
        last = max(earlier, key=lambda one: str(one.until))
        how = _way(last, each, bite)
        return _apart(replace(base, what="edition", how=how, name=str(each.from_)), last, each)
    if (farther := _farther(each, book, new)) is not None:
        how = _way(farther, each, bite)
        return _apart(replace(base, what="nearer", how=how, name=farther.layer), farther, each)
    others = _others(each, book, new)
    practice = others.pop("good practice", None)
    silenced = practice if not others and each.authority != "good practice" else None
    return replace(base, beside=tuple(others[name] for name in sorted(others)), silenced=silenced)


def _withdrawn(each: Provision, book: Rulebook, new: Sequence[Provision], bite: Bites, part: Part) -> Change:
    base = replace(_base(each, "withdrawn", part), before=said(each), was_at=each.location)
    if each.layer in book.layers and (farther := _farther(each, book, new)) is not None:
        how = _way(each, farther, bite)
        return _apart(replace(base, what="farther", how=how, name=farther.layer), each, farther)
    return base


def _apart(change: Change, old: Provision, new: Provision) -> Change:
    """A change with what two provisions ask, but for limits in which they agree; all where they agree in everything."""
    alike = {name for name, limit in old.limit.items() if name in new.limit and new.limit[name].value == limit.value}
    if len(alike) == len(old.limit) == len(new.limit) or old.tables or new.tables:
        alike = set()
    return replace(change, before=said(old, alike), after=said(new, alike), source=new.source, was_source=old.source)


def _farther(each: Provision, book: Rulebook, provisions: Sequence[Provision]) -> Provision | None:
    """What the same authority asks in the nearest layer that this one extends, on days that both share."""
    layer = book.layers[each.layer].extends
    while layer is not None:
        for one in provisions:
            if _speaker(one) == (layer, each.authority) and _share_a_day(one, each):
                return one
        layer = book.layers[layer].extends
    return None


def _others(each: Provision, book: Rulebook, provisions: Sequence[Provision]) -> dict[str, Provision]:
    """What other authorities ask in the layer of a provision and in those it stands on: the nearest of each."""
    nearest: dict[str, Provision] = {}
    layer: str | None = each.layer
    while layer is not None:
        for one in provisions:
            if one.layer == layer and one.authority != each.authority and _share_a_day(one, each):
                nearest.setdefault(one.authority, one)
        layer = book.layers[layer].extends
    return nearest


def _share_a_day(one: Provision, other: Provision) -> bool:
    return not any(a.until and b.from_ and a.until < b.from_ for a, b in ((one, other), (other, one)))


def said(provision: Provision, left_out: Collection[str] = ()) -> str:
    """What a provision asks, as written: each limit and table by name."""
    limits = [f"{name} {limit.written}" for name, limit in provision.limit.items() if name not in left_out]
    return ", ".join([*limits, *(f"{name} {table.id}" for name, table in provision.tables.items())])


def _changes(old: Provision, new: Provision, bite: Bites, part: Part) -> Iterator[Change]:
    base = replace(_base(new, "changed", part), was_at=old.location, at=new.location)
    for name in sorted({*old.limit, *new.limit}):
        before, after = old.limit.get(name), new.limit.get(name)
        told = replace(base, what="limit", name=name, before=before.written if before else "",
                       after=after.written if after else "")  # fmt: skip
        if before and after and before.value == after.value and before.written != after.written:
            yield replace(told, how="words", part=2)
        elif before and after and before.value != after.value:
            yield replace(told, how=_how(_eased(before.value, after.value, bite.get(name))))
        elif before is None or after is None:
            yield told
    for name in sorted({*old.tables, *new.tables}):
        yield from _table_changes(name, old.tables.get(name), new.tables.get(name), bite, base)
    for what, first, last in (("from", old.from_, new.from_), ("until", old.until, new.until)):
        if first != last:
            yield replace(base, what=what, before=str(first or ""), after=str(last or ""))  # type: ignore[arg-type]
    if old.judges != new.judges:
        yield replace(base, what="judges", before=old.judges, after=new.judges)
    yield from _source_changes(old.source, new.source, replace(base, how="sources", part=2))


def _table_changes(name: str, old: Table | None, new: Table | None, bite: Bites, base: Change) -> Iterator[Change]:
    if old is None or new is None:
        yield replace(base, what="table", name=name, before=old.id if old else "", after=new.id if new else "")
        return
    if old.id != new.id or old.layer != new.layer:
        yield replace(base, how="words", what="table", part=2, name=name, before=old.id, after=new.id)
    rows = {row.keys: row for row in new.rows}
    for row in old.rows:
        after = rows.pop(row.keys, None)
        told = replace(base, what="row", name=row_name(old, row), before=_cells(row, after))
        if after is None:
            yield replace(told, how="withdrawn")
        elif after.cells != row.cells:
            yield replace(told, how=_how(_row_eased(name, row, after, bite)), after=_cells(after, row))
        elif after.written != row.written:
            yield replace(told, how="words", part=2, after=_cells(after, row))
    for row in rows.values():
        yield replace(base, how="added", what="row", name=row_name(new, row), after=_cells(row, None))


def row_name(table: Table, row: Row) -> str:
    """Which row it is: the table and its keys."""
    keys = (f"{name} {_key(key, kind)}" for (name, kind), key in zip(table.keys.items(), row.keys, strict=True))
    return f"{table.id} ({', '.join(keys)})"


def _key(key: Key, kind: str) -> str:
    if not isinstance(key, Band):
        return key if isinstance(key, str) else write(key, kind)
    ends = ((">", key.holds_low, key.low), ("<", key.holds_high, key.high))
    return " ".join(f"{sign}{'=' if held else ''} {write(end, kind)}" for sign, held, end in ends if end is not None)


def _cells(row: Row, other: Row | None) -> str:
    """The cells of a row that stand otherwise in the other."""
    return ", ".join(
        f"{name} {written}"
        for name, written in row.written.items()
        if other is None or other.written.get(name) != written
    )


def _source_changes(old: SourceUse, new: SourceUse, base: Change) -> Iterator[Change]:
    if _reference(old) != _reference(new):
        before, after = cited_as(old), cited_as(new)
        yield replace(base, what="clause" if before == after else "source", before=before, after=after)
    known = [" ".join(word for word in (use.status, use.read_in and f"({use.read_in})") if word) for use in (old, new)]
    if known[0] != known[1]:
        yield replace(base, what="status", before=known[0], after=known[1])
    if old.note != new.note:
        yield replace(base, how="words", what="note", before=old.note, after=new.note)


def _reference(use: SourceUse) -> tuple[str, str]:
    return use.source.id if use.source else "", use.clause


def cited_as(use: SourceUse) -> str:
    """The source and its clause, which is not told from memory; empty for common practice."""
    if use.source is None:
        return ""
    clause = "" if use.status == "memory" else use.clause
    return ", ".join(word for word in (use.source.designation, use.source.edition, clause) if word)


def _eased(old: object, new: object, bite: Sign) -> Sign:
    """1 where the change asks less, -1 where more, 0 where nothing changed, None where that is not to be told."""
    moved = rise(old, new)
    return 0 if moved == 0 else moved * bite if moved and bite else None


def _row_eased(name: str, old: Row, new: Row, bite: Bites) -> Sign:
    return _all([_eased(old.cells.get(column), cell, bite.get(f"table.{name}.{column}"))
                 for column, cell in new.cells.items()])  # fmt: skip


def _all(eased: Sequence[Sign]) -> Sign:
    moved = {sign for sign in eased if sign != 0}
    return 0 if not moved else moved.pop() if len(moved) == 1 else None


def _how(eased: Sign) -> How:
    return "changed" if not eased else "relaxed" if eased > 0 else "tightened"


def _way(old: Provision, new: Provision, bite: Bites) -> How:
    """Which way it goes from one provision to another; where both ask the same, only the source is another."""
    signs = [_eased(limit.value, new.limit[name].value, bite.get(name)) if name in new.limit else None
             for name, limit in old.limit.items()]  # fmt: skip
    for name, table in old.tables.items():
        other = {row.keys: row for row in new.tables[name].rows} if name in new.tables else {}
        signs += [_row_eased(name, row, other[row.keys], bite) if row.keys in other else None for row in table.rows]
        signs += [None] if len(other) != len(table.rows) else []
    eased = _all(signs)
    return "sources" if eased == 0 else _how(eased)
