"""From the parts of ruleset files to rules, tables and provisions, each checked against what the others say."""

import datetime as dt
from collections.abc import Iterator, Mapping
from decimal import Decimal
from difflib import get_close_matches
from itertools import combinations
from pathlib import Path

from msgspec import Struct, field

from checker.quantities import Attribute
from checker.reading import Document, Problem
from checker.rules.advice import ADVISING, misnamed
from checker.rules.faults import Fault, Refused
from checker.rules.files import ProvisionPart, RulePart, SourcePart, TablePart, TopicFile
from checker.rules.model import Case, Layer, Limit, Place, Provision, Rule, Source, SourceUse
from checker.rules.parse import parse
from checker.rules.parts import part_kinds
from checker.rules.shelved import Shelved
from checker.rules.structure import PathParts, near, problem
from checker.rules.tables import Band, Key, Row, Table
from checker.rules.tree import OVER_A_LIST, Tree, walk
from checker.rules.types import Scope, TableShape, check
from checker.units import GRID, KINDS, NOT_ASKED, Period, UnitProblem, read
from checker.written_files import named_from

SURELY_MEANT = 0.85
"""How like a name another is that is offered without doubt, from 0 to 1."""
_AS_WRITTEN = ("id", "title", "reason", "each", "when", "require", "evidence", "severity", "acts", "closes_with",
               "advice", "meanwhile")  # fmt: skip
"""Fields of a rule that are taken as they stand in its file."""
LAW_AND_CODE = frozenset({"workplace law", "fire code", "building code", "mechanical code", "wiring rules"})


class Outdated(Exception):
    """Something taken over from an earlier reading is wrong beside what is new: only its file tells what and where."""


class Builder(Struct):
    """Takes parts file by file; tables before rules, rules before provisions."""

    layers: Mapping[str, Layer]
    sources: Mapping[str, Source] | None
    """None where the bibliography cannot be read."""
    things: Mapping[str, Mapping[str, Attribute]]
    unread: frozenset[str]
    """Topics with a file that cannot be read: what they may hold is not called missing."""
    folder: Path
    """The folder of rulesets; results name its files from here on, the same on every machine."""
    before: Shelved
    """An earlier reading: its trees spare the parser, and what stands in a file that has not changed is taken over."""
    rules: dict[str, Rule] = field(default_factory=dict)
    provisions: list[Provision] = field(default_factory=list)
    tables: dict[tuple[str, str], Table] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    _refused: set[str] = field(default_factory=set)
    _stands: dict[int, tuple[Document, PathParts]] = field(default_factory=dict)

    def blame(self, document: Document, path: PathParts, says: str, found: str, wanted: str) -> None:
        """Note a problem at a path of a document."""
        self.problems.append(problem(document, path, says, found, wanted))

    def add_tables(self, layer: str, _topic: str, document: Document, part: TopicFile) -> None:
        """Every table of a topic file."""
        for number, each in enumerate(part.tables):
            at: PathParts = ("tables", number)
            if (layer, each.id) in self.tables:
                self.blame(document, (*at, "id"), "this id stands twice in the layer", each.id, "an id of its own")
            elif self._kinds_known(document, at, {"keys": each.keys, "columns": each.columns}):
                self._add_table(layer, document, at, each)
            if (layer, each.id) not in self.tables:
                self._refused.add(each.id)

    def _add_table(self, layer: str, document: Document, at: PathParts, part: TablePart) -> None:
        before = len(self.problems)
        rows = [self._row(document, (*at, "rows", number), part, row) for number, row in enumerate(part.rows)]
        if len(self.problems) > before:
            return
        table = Table(part.id, layer, part.keys, part.columns, tuple(row for row in rows if row is not None))
        for earlier, later in table.overlapping():
            says = f"this row and row {earlier + 1} answer the same keys"
            self.blame(document, (*at, "rows", later), says, f"row {later + 1}", "keys that no other row has")
        self.tables[layer, part.id] = table

    def _row(self, document: Document, at: PathParts, part: TablePart, row: Mapping[str, object]) -> Row | None:
        wanted = {**part.keys, **part.columns}
        for name in [*row, *wanted]:
            if name not in wanted:
                self.blame(document, (*at, name), "the table has no such key or column", name, near(name, wanted))
            elif name not in row:
                self.blame(document, at, "a cell is missing", "nothing", f"{name}: …")
        if set(row) != set(wanted):
            return None
        keys = tuple(self._key(document, (*at, name), kind, row[name]) for name, kind in part.keys.items())
        cells = {name: self._limit(document, (*at, name), kind, row[name]) for name, kind in part.columns.items()}
        if None in keys or None in cells.values():
            return None
        whole = {name: cell for name, cell in cells.items() if cell is not None}
        return Row(
            tuple(key for key in keys if key is not None),
            {name: cell.value for name, cell in whole.items()},
            {name: cell.written for name, cell in whole.items()},
        )

    def _key(self, document: Document, at: PathParts, kind: str, found: object) -> Key | None:
        if kind == "word":
            if isinstance(found, str):
                return found
            self.blame(document, at, "a word is wanted here", str(found), "a word")
            return None
        if not isinstance(found, dict):
            exact = self._limit(document, at, kind, found)
            return Band(exact.value, exact.value) if exact and isinstance(exact.value, Decimal) else None
        ends = set(found)
        if not ends or ends - {"from", "over", "to", "below"} or ends >= {"from", "over"} or ends >= {"to", "below"}:
            self.blame(document, at, "a band has one lower and one upper end at most", ", ".join(map(str, found)),
                       "from or over, and to or below")  # fmt: skip
            return None
        read_ends = {end: self._limit(document, (*at, end), kind, value) for end, value in found.items()}
        if None in read_ends.values():
            return None
        values = {end: limit.value for end, limit in read_ends.items() if limit and isinstance(limit.value, Decimal)}
        return Band(
            values.get("from", values.get("over")), values.get("to", values.get("below")),
            "over" not in values, "below" not in values,
        )  # fmt: skip

    def _kinds_known(self, document: Document, at: PathParts, groups: Mapping[str, Mapping[str, str]]) -> bool:
        right = True
        for group, named in groups.items():
            known = {*KINDS, "word"} if group == "keys" else set(KINDS)
            for name, kind in named.items():
                if kind not in known:
                    right = False
                    self.blame(document, (*at, group, name), "there is no such kind", kind, near(kind, known))
        return right

    def _limit(self, document: Document, at: PathParts, kind: str, found: object) -> Limit | None:
        try:
            quantity = read(found, kind)
        except UnitProblem as error:
            self.blame(document, at, str(error), error.found, error.wanted)
            return None
        value = quantity.value
        return Limit(value if isinstance(value, Period) else GRID.plus(value), kind, quantity.written)

    def add_rules(self, layer: str, topic: str, document: Document, part: TopicFile) -> None:
        """Every rule of a topic file."""
        for number, each in enumerate(part.rules):
            at: PathParts = ("rules", number)
            before = len(self.problems)
            if each.id in self.rules:
                first = self.rules[each.id].location
                says = f"this rule stands already in {first.file} line {first.line}"
                self.blame(document, (*at, "id"), says, each.id, "an id of its own")
            if each.id.split(".")[0] != topic:
                self.blame(document, (*at, "id"), "a rule's id begins with its topic", each.id, f"{topic}.…")
            if each.severity == "critical" and not each.meanwhile:
                self.blame(document, at, "a critical rule says what to do tonight", "nothing", "meanwhile: …")
            for name in ADVISING:
                for found in misnamed(getattr(each, name), each.limit):
                    wanted = near(found.strip("{}"), [f"{{limit.{limit}}}" for limit in each.limit])
                    self.blame(document, (*at, name), "only a limit of the rule is named in braces", found, wanted)
            rule = self._rule(layer, topic, document, at, each)
            if rule is not None and len(self.problems) == before:
                self.rules[rule.id] = rule
            else:
                self._refused.add(each.id)

    def _rule(self, layer: str, topic: str, document: Document, at: PathParts, part: RulePart) -> Rule | None:
        if part.each not in self.things or "." in part.each:
            kinds = [kind for kind in self.things if "." not in kind]
            self.blame(document, (*at, "each"), "there is no such kind of thing", part.each, near(part.each, kinds))
            return None
        shapes = {name: TableShape(shape.keys, shape.columns) for name, shape in part.table.items()}
        known = [self._kinds_known(document, at, {"limit": part.limit})]
        for name, shape in part.table.items():
            named = {"keys": shape.keys, "columns": shape.columns}
            known.append(self._kinds_known(document, (*at, "table", name), named))
        if not all(known):
            return None
        scope = Scope(part.each, part.limit, shapes, self.things)
        when = None if part.when is None else self._tree(document, (*at, "when"), part.when, scope)
        require = self._tree(document, (*at, "require"), part.require, scope)
        cases = tuple(self._cases(document, at, part))
        if part.evidence and require is not None and any(node[0] in OVER_A_LIST for node in walk(require)):
            says = "evidence is weighed thing by thing, and this requirement speaks of a whole list"
            self.blame(document, (*at, "evidence"), says, part.evidence, "a rule for each member of the list")
        if require is None or (part.when is not None and when is None):
            return None
        words = {name: getattr(part, name) for name in _AS_WRITTEN}
        return Rule(**words, was=tuple(part.was), when_tree=when, require_tree=require,
                    part_kinds=part_kinds(require, scope), limit=part.limit, tables=shapes, cases=cases, layer=layer,
                    topic=topic, location=self._place(document, at))  # fmt: skip

    def _tree(self, document: Document, at: PathParts, written: str, scope: Scope) -> Tree | None:
        try:
            tree = self.before.trees.get(written) or parse(written)
            check(tree, written, scope)
        except Refused as refused:
            self.problems += [_expression_problem(document, at, written, fault) for fault in refused.faults]
            return None
        return tree

    def _cases(self, document: Document, at: PathParts, part: RulePart) -> Iterator[Case]:
        for number, case in enumerate(part.cases):
            here = (*at, "cases", number)
            yield Case(case.given, case.outcome, self._day(document, (*here, "as_of"), case.as_of),
                       self._place(document, here))  # fmt: skip

    def _day(self, document: Document, at: PathParts, written: str | None) -> dt.date | None:
        try:
            return None if written is None else dt.date.fromisoformat(written)
        except ValueError:
            self.blame(document, at, "there is no such day in the calendar", str(written), "a day such as 2026-11-25")
            return None

    def add_provisions(self, layer: str, _topic: str, document: Document, part: TopicFile) -> None:
        """Every provision of a topic file."""
        for number, each in enumerate(part.provisions):
            at: PathParts = ("provisions", number)
            before = len(self.problems)
            held = self.layers.get(layer)
            if held is not None and each.authority not in held.authorities:
                wanted = near(each.authority, held.authorities)
                says = f"this authority does not speak in layer {layer}"
                self.blame(document, (*at, "authority"), says, each.authority, wanted)
            source = self._source(document, (*at, "source"), each)
            from_ = self._day(document, (*at, "from"), each.from_)
            until = self._day(document, (*at, "until"), each.until)
            if from_ and until and until < from_:
                self.blame(document, (*at, "until"), "it ends before it begins", f"{until}", f"{from_} or later")
            rule = self.rules.get(each.rule)
            if rule is None:
                if each.rule not in self._refused and each.rule.split(".")[0] not in self.unread:
                    self.blame(document, (*at, "rule"), "there is no such rule", each.rule, self._meant(each.rule))
                continue
            limits = self._limits(document, at, rule, each)
            tables = self._tables(document, at, rule, each, layer)
            if len(self.problems) == before and source is not None:
                made = Provision(each.rule, layer, each.authority, limits, tables, from_, until, each.judges, source,
                                 self._place(document, at))  # fmt: skip
                self._stands[len(self.provisions)] = (document, at)
                self.provisions.append(made)

    def _meant(self, id: str) -> str:
        """What an id that no rule has was meant to be, for certain or probably, or where to look for it."""
        if meant := get_close_matches(id, sorted(self.rules), 1, SURELY_MEANT):
            return meant[0]
        if meant := get_close_matches(id, sorted(self.rules), 1):
            return f"{meant[0]}, if you mean that one; `checker rules list` shows all"
        return "the id of a rule; `checker rules list` shows all"

    def _source(self, document: Document, at: PathParts, provision: ProvisionPart) -> SourceUse | None:
        part: SourcePart = provision.source
        source = self.sources.get(part.ref) if part.ref and self.sources is not None else None
        if part.ref is not None and self.sources is None:
            return None
        if part.ref is not None and source is None:
            meant = get_close_matches(part.ref, sorted(self.sources or ()), 1)
            wanted = meant[0] if meant else "an id that sources.yaml holds, or enter it there first"
            self.blame(document, (*at, "ref"), "there is no such source", part.ref, wanted)
            return None
        if part.ref is None and (part.status != "common practice" or provision.authority in LAW_AND_CODE):
            self.blame(document, at, f"what {provision.authority} asks needs a source", "none",
                       "source: {ref: …, clause: …, status: …}")  # fmt: skip
            return None
        return SourceUse(source, part.clause, part.status, part.read_in, part.note)

    def _limits(self, document: Document, at: PathParts, rule: Rule, part: ProvisionPart) -> dict[str, Limit]:
        limits: dict[str, Limit] = {}
        for name in sorted({*rule.limit, *part.limit}):
            if name not in rule.limit:
                wanted = near(name, rule.limit)
                self.blame(document, (*at, "limit", name), f"{rule.id} has no such limit", name, wanted)
            elif name not in part.limit:
                self.blame(document, at, f"{rule.id} needs a limit", "nothing", f"{name}: … ({rule.limit[name]})")
            elif limit := self._limit(document, (*at, "limit", name), rule.limit[name], part.limit[name]):
                limits[name] = limit
        return limits

    def _tables(
        self, document: Document, at: PathParts, rule: Rule, part: ProvisionPart, layer: str
    ) -> dict[str, Table]:
        tables: dict[str, Table] = {}
        for name in sorted({*rule.tables, *part.table}):
            if name not in rule.tables:
                wanted = near(name, rule.tables)
                self.blame(document, (*at, "table", name), f"{rule.id} has no such table", name, wanted)
            elif name not in part.table:
                self.blame(document, at, f"{rule.id} needs a table", "nothing", f"table: {{{name}: …}}")
            elif part.table[name] == str(NOT_ASKED):
                shape = rule.tables[name]
                for column, kind in shape.columns.items():
                    if kind != "period":
                        says = "only periods can be `not asked`, and this table has others"
                        self.blame(document, (*at, "table", name), says, f"{column}: {kind}", "the id of a table")
                tables[name] = Table(part.table[name], layer, shape.keys, shape.columns, ())
            elif table := self._table(document, (*at, "table", name), part.table[name], layer):
                shape = rule.tables[name]
                same_keys = list(table.keys.items()) == list(shape.keys.items())
                if not same_keys or not shape.columns.items() <= table.columns.items():
                    wanted = f"keys {_listed(shape.keys)}, columns {_listed(shape.columns)}"
                    self.blame(document, (*at, "table", name), "the table has another shape", table.id, wanted)
                tables[name] = table
        return tables

    def _table(self, document: Document, at: PathParts, wanted: str, layer: str) -> Table | None:
        if table := self.table_for(wanted, layer):
            return table
        if layer in self.layers and wanted not in self._refused and not self.unread:
            says = "there is no such table in this layer or above it"
            self.blame(document, at, says, wanted, near(wanted, (name for _, name in self.tables)))
        return None

    def table_for(self, wanted: str, layer: str) -> Table | None:
        """The table of an id that a layer or one above it holds."""
        here: str | None = layer
        for _ in self.layers:  # a chain that goes round in a circle ends here too
            if here is None or here not in self.layers:
                break
            if (here, wanted) in self.tables:
                return self.tables[here, wanted]
            here = self.layers[here].extends
        return None

    def _place(self, document: Document, at: PathParts) -> Place:
        mark = document.mark(at)
        return Place(named_from(self.folder, document.file), mark.line, mark.column)

    def finish(self) -> list[Problem]:
        """What only the whole shows: provisions of one authority that overlap in time. All problems found so far.

        Raises Outdated where one of them was taken over.
        """
        groups: dict[tuple[str, str, str], list[int]] = {}
        for number, provision in enumerate(self.provisions):
            groups.setdefault((provision.rule, provision.layer, provision.authority), []).append(number)
        for numbers in groups.values():
            for one, other in combinations(numbers, 2):
                a, b = self.provisions[one], self.provisions[other]
                if _ends_before(a, b) or _ends_before(b, a):
                    continue
                if other not in self._stands:
                    raise Outdated
                document, at = self._stands[other]
                says = f"{b.authority} already speaks on these days in {a.location.file} line {a.location.line}"
                self.blame(document, at, says, b.rule, "days that do not overlap (from, until)")
        return self.problems


def _listed(kinds: Mapping[str, str]) -> str:
    return f"{{{', '.join(f'{name}: {kind}' for name, kind in kinds.items())}}}"


def _ends_before(a: Provision, b: Provision) -> bool:
    return a.until is not None and b.from_ is not None and a.until < b.from_


def _expression_problem(document: Document, at: PathParts, written: str, fault: Fault) -> Problem:
    """Where a fault stands in the file: to the letter if the text stands in one line, else where its word stands."""
    start = document.mark(at)
    whole = document.source_line(start.line).find(written, start.column - 1)
    if whole >= 0:
        column = whole + fault.offset + 1
        return Problem(document.file, start.line, column, document.place(at), fault.found, fault.wanted, fault.says)
    word = next(iter(written[fault.offset :].split()), "")
    line, column = start.line, start.column
    for number in range(start.line, start.line + written.count("\n") + 8):
        shown = document.source_line(number)
        found = shown.find(word, start.column - 1 if number == start.line else 0) if word else -1
        if found >= 0:
            line, column = number, found + 1
            break
    return Problem(document.file, line, column, document.place(at), fault.found, fault.wanted, fault.says)
