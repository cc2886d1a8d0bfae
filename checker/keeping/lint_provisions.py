"""What is wrong with what is asked: nobody asks, nobody is heard, nothing changes, days between editions."""

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from itertools import groupby, pairwise, permutations

from checker.keeping.easing import bites, provision_eased
from checker.keeping.flaws import Flaw
from checker.keeping.scopes import scope_of, walk_typed
from checker.keeping.unused import TablePlaces
from checker.rules import Rulebook
from checker.rules.model import Provision, Rule
from checker.rules.tables import Table
from checker.rules.tree import text
from checker.rules.types import type_within

DAY = dt.timedelta(days=1)


def flaws_of_provisions(rulebook: Rulebook, places: TablePlaces) -> Iterator[Flaw]:
    """All that is wrong with the provisions of a rulebook, and with the rules that need one."""
    by_rule: dict[str, list[Provision]] = {name: [] for name in rulebook.rules}
    for provision in rulebook.all_provisions:
        by_rule[provision.rule].append(provision)
    on_any = (name for name, layer in sorted(rulebook.layers.items()) if layer.lies_on_any_region)
    books = [rulebook, *(rulebook.with_layers((name,)) for name in on_any)]
    for name, provisions in by_rule.items():
        if not provisions:
            yield Flaw("nobody asks", name, rulebook.rules[name].location)
        yield from _never_heard(books, provisions)
        yield from _days_between(provisions)
        yield from _changes_nothing(rulebook, provisions)
        yield from _laxer(rulebook, rulebook.rules[name], provisions)
    yield from _rows_not_found(rulebook, places)


def _fields(provision: Provision, **more: str) -> Mapping[str, str]:
    return {"authority": provision.authority, "layer": provision.layer, **more}


def _never_heard(books: list[Rulebook], provisions: list[Provision]) -> Iterator[Flaw]:
    """Provisions that others silence in every region on every day, with nothing or one layer laid on it."""
    days = sorted(set(_turns(provisions)))
    heard = {
        id(each)
        for rule in {one.rule for one in provisions}
        for book in books
        for region in book.regions()
        for day in days
        for each in book.provisions(rule, region, day)
    }
    for provision in provisions:
        if id(provision) not in heard:
            yield Flaw("never heard", provision.rule, provision.location, _fields(provision))


def _turns(provisions: Iterable[Provision]) -> Iterator[dt.date]:
    """A day of each span in which the same provisions speak."""
    yield dt.date.min
    for provision in provisions:
        if provision.from_ is not None:
            yield provision.from_
        if provision.until is not None and provision.until < dt.date.max:
            yield provision.until + DAY


def _days_between(provisions: list[Provision]) -> Iterator[Flaw]:
    """Days on which an authority is silent between two of its provisions."""
    ordered = sorted(provisions, key=lambda each: (each.layer, each.authority, each.from_ or dt.date.min))
    for _, group in groupby(ordered, key=lambda each: (each.layer, each.authority)):
        for one, other in pairwise(group):
            if one.until is not None and other.from_ is not None and one.until + DAY < other.from_:
                first, last = str(one.until + DAY), str(other.from_ - DAY)
                yield Flaw("days between", other.rule, other.location, _fields(other, first=first, last=last))


def _changes_nothing(rulebook: Rulebook, provisions: list[Provision]) -> Iterator[Flaw]:
    """Provisions that say again what the same authority says in the next layer above."""
    for provision in provisions:
        above = rulebook.layers[provision.layer].extends
        while above is not None:
            said = [each for each in provisions if (each.layer, each.authority) == (above, provision.authority)]
            if same := next((each for each in said if _says_the_same(provision, each)), None):
                at = same.location
                yield Flaw("changes nothing", provision.rule, provision.location,
                           _fields(provision, above=above, file=at.file, line=str(at.line)))  # fmt: skip
            above = None if said else rulebook.layers[above].extends


def _laxer(rulebook: Rulebook, rule: Rule, provisions: list[Provision]) -> Iterator[Flaw]:
    """Provisions that ask less than another authority does wherever and whenever both are heard."""
    if len({each.authority for each in provisions}) < len(("one", "other")):
        return
    bite, told = bites(rule, None), set()
    for region in rulebook.regions():
        for day in sorted(set(_turns(provisions))):
            for one, other in permutations(rulebook.provisions(rule.id, region, day), 2):
                if (id(one), id(other)) not in told and provision_eased(other, one, bite) == 1:
                    told.add((id(one), id(other)))
                    governs = ", ".join(f"{asked} of {other.authority}" for asked in _otherwise(other, one))
                    fields = _fields(one, other=other.authority, beside=other.layer, governs=governs)
                    yield Flaw("laxer than another", rule.id, one.location, fields)


def _otherwise(one: Provision, other: Provision) -> Iterator[str]:
    """The limits and tables of a provision that are others than those of another."""
    yield from (each.written for name, each in one.limit.items() if each.value != other.limit[name].value)
    yield from (f"table {each.id}" for name, each in one.tables.items() if each.rows != other.tables[name].rows)


def _says_the_same(near: Provision, far: Provision) -> bool:
    """Whether the farther provision asks the same from the same source, on every day on which the nearer speaks."""
    begun = far.from_ is None or (near.from_ is not None and far.from_ <= near.from_)
    lasts = far.until is None or (near.until is not None and near.until <= far.until)
    limits = [{name: each.value for name, each in one.limit.items()} for one in (near, far)]
    tables = [{name: each.rows for name, each in one.tables.items()} for one in (near, far)]
    source = [(one.source.source, one.source.clause, one.judges) for one in (near, far)]
    return begun and lasts and all(a == b for a, b in (limits, tables, source))


def _rows_not_found(rulebook: Rulebook, places: TablePlaces) -> Iterator[Flaw]:
    """Rows with a word for a key that nothing the rules ask with can hold."""
    tables: dict[tuple[str, str], Table] = {}
    asked: dict[tuple[str, str, int], set[str] | None] = {}
    for provision in rulebook.all_provisions:
        for name, table in provision.tables.items():
            tables[table.layer, table.id] = table
            for number, words in _asked_with(rulebook.rules[provision.rule], name):
                before = asked.get((table.layer, table.id, number), set())
                asked[table.layer, table.id, number] = None if words is None or before is None else before | words
    for (layer, table_id, number), among in asked.items():
        table = tables[layer, table_id]
        for row in table.rows if among is not None else ():
            if isinstance(found := row.keys[number], str) and among and found not in among:
                fields = {"key": list(table.keys)[number], "word": found, "words": ", ".join(sorted(among))}
                yield Flaw("row not found", table_id, places[layer, table_id], fields)


def _asked_with(rule: Rule, table: str) -> Iterator[tuple[int, frozenset[str] | None]]:
    """The number of each key of a table and the words a rule may ask it with; None where they are not closed."""
    scope = scope_of(rule)
    for tree in (rule.when_tree, rule.require_tree):
        for node, variables in walk_typed(tree, scope) if tree is not None else ():
            if node[0] == "call" and text(node[1]).startswith(f"table.{table}."):
                for number, argument in enumerate(node[2]):
                    yield number, type_within(argument, scope, variables).choices
