"""What changed in what the authorities ask of one rule: provisions, their limits, days and sources."""

import datetime as dt
from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from checker.keeping.asked import ONE
from checker.keeping.came_and_went import came, went
from checker.keeping.changes import Change, How
from checker.keeping.easing import Bites, eased, how, row_eased
from checker.keeping.rule_asked import RuleAsked
from checker.rules.model import Provision, SourceUse
from checker.rules.tables import Key, Row, Table
from checker.units import write


def provision_changes(rule: RuleAsked) -> Iterator[Change]:
    """Each change of the provisions of one rule."""
    for speaker in sorted({_speaker(each) for each in (*rule.old, *rule.new)}):
        gone = [each for each in rule.old if _speaker(each) == speaker]
        come = [each for each in rule.new if _speaker(each) == speaker]
        for before, after in _pairs(gone, come):
            gone.remove(before)
            come.remove(after)
            yield from (_with_days(each, rule) for each in _changes(before, after, rule))
        yield from (went(each, rule, _base(each, rule)) for each in gone)
        yield from (_with_days(came(each, rule, _base(each, rule)), rule) for each in come)


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


def _base(provision: Provision, rule: RuleAsked, how: How = "changed") -> Change:
    return Change(how, "provision", provision.layer, provision.rule, rule.part, provision.authority,
                  operators=rule.operators)  # fmt: skip


def _with_days(change: Change, rule: RuleAsked) -> Change:
    """A change with what is in force in its layer before the provision begins, and after it ends."""
    if change.now is None:
        return change
    return replace(change, stood=rule.stood_before(change.now), follows=rule.follows(change.now))


def _changes(old: Provision, new: Provision, rule: RuleAsked) -> Iterator[Change]:
    bite = rule.bite
    base = replace(_base(new, rule), was_at=old.location, at=new.location, was=old, now=new)
    for name in sorted({*old.limit, *new.limit}):
        before, after = old.limit.get(name), new.limit.get(name)
        told = replace(base, what="limit", name=name, before=before.written if before else "",
                       after=after.written if after else "")  # fmt: skip
        if before and after and before.value == after.value and before.written != after.written:
            yield replace(told, how="words", part=2)
        elif before and after and before.value != after.value:
            yield replace(told, how=how(eased(before.value, after.value, bite.get(name))))
        elif before is None or after is None:
            yield told
    for name in sorted({*old.tables, *new.tables}):
        yield from _table_changes(name, old.tables.get(name), new.tables.get(name), bite, base)
    yield from _day_changes(old, new, rule, base)
    if old.judges != new.judges:
        yield replace(base, what="judges", before=old.judges, after=new.judges)
    yield from _source_changes(old.source, new.source, replace(base, how="sources", part=2))


def _day_changes(old: Provision, new: Provision, rule: RuleAsked, base: Change) -> Iterator[Change]:
    """Another first or last day: where the stricter begins later, less is asked; where it ends later, more."""
    if old.from_ != new.from_:
        sign = rule.eased_by_days((old.from_, new.from_), (new, replace(new, from_=old.from_)))
        yield replace(base, how=how(sign), what="from", before=str(old.from_ or ""), after=str(new.from_ or ""))
    if old.until != new.until:
        ends = (_day_after(old.until), _day_after(new.until))
        sign = rule.eased_by_days(ends, (new, replace(new, until=old.until)))
        yield replace(base, how=how(sign), what="until", before=str(old.until or ""), after=str(new.until or ""))


def _day_after(last: dt.date | None) -> dt.date:
    return dt.date.max if last is None or last == dt.date.max else last + ONE


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
            yield replace(told, how=how(row_eased(name, row, after, bite)), after=_cells(after, row))
        elif after.written != row.written:
            yield replace(told, how="words", part=2, after=_cells(after, row))
    for row in rows.values():
        yield replace(base, how="added", what="row", name=row_name(new, row), after=_cells(row, None))


def row_name(table: Table, row: Row) -> str:
    """Which row it is: the table and its keys."""
    keys = (f"{name} {_key(key, kind)}" for (name, kind), key in zip(table.keys.items(), row.keys, strict=True))
    return f"{table.id} ({', '.join(keys)})"


def _key(key: Key, kind: str) -> str:
    if isinstance(key, str):
        return key
    if key.low is not None and key.low == key.high:
        return write(key.low, kind)
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
