"""What stands in a file that has not changed is taken over from the reading before, where it goes with what is new.

A rule and a table rest on their own file alone. A provision rests on its rule, its tables, its layer and its source,
which may stand in files that changed: where one of them is not as it was, the file of the provision is read. Where
something that was taken over is wrong beside what is new, only Outdated says so, and all files are read.
"""

from msgspec import Struct, field
from msgspec.structs import replace

from checker.rules.build import Builder, Outdated
from checker.rules.model import Provision, Rule
from checker.rules.shelved import Known
from checker.rules.tables import Table
from checker.units import NOT_ASKED


class Adopter(Struct):
    """Gives a builder the parts of files that have not changed."""

    builder: Builder
    _tables: set[tuple[str, str]] = field(default_factory=set)
    """Layer and id of each table that was taken over."""

    def tables(self, _file: str, known: Known) -> bool:
        """Take over the tables of a file. Raises Outdated."""
        for table in known.tables:
            if (table.layer, table.id) in self.builder.tables:
                raise Outdated
            self.builder.tables[table.layer, table.id] = table
            self._tables.add((table.layer, table.id))
        return True

    def rules(self, file: str, _known: Known) -> bool:
        """Take over the rules of a file. Raises Outdated."""
        for rule in self.builder.before.rules_in.get(file, ()):
            if rule.id in self.builder.rules:
                raise Outdated
            self.builder.rules[rule.id] = rule
        return True

    def provisions(self, file: str, _known: Known) -> bool:
        """Whether the provisions of a file go with what is new, and so were taken over."""
        taken = [self._with_its_source(each) for each in self.builder.before.provisions_in.get(file, ())]
        fit = [each for each in taken if each is not None and self._fits(each)]
        if len(fit) < len(taken):
            return False
        self.builder.provisions += fit
        return True

    def _with_its_source(self, provision: Provision) -> Provision | None:
        """The provision with its source as the bibliography now has it; None where that lacks it."""
        use = provision.source
        if use.source is None:
            return provision
        now = (self.builder.sources or {}).get(use.source.id)
        if now is None:
            return None
        return provision if now == use.source else replace(provision, source=replace(use, source=now))

    def _fits(self, provision: Provision) -> bool:
        rule, before = self.builder.rules.get(provision.rule), self.builder.before.book.rules[provision.rule]
        layer = self.builder.layers.get(provision.layer)
        return (
            rule is not None
            and (rule is before or _asked(rule) == _asked(before))
            and layer is not None
            and provision.authority in layer.authorities
            and all(self._finds(provision.layer, table) for table in provision.tables.values())
        )

    def _finds(self, layer: str, table: Table) -> bool:
        """Whether a provision of a layer would find the same table again."""
        if table.id == str(NOT_ASKED):
            return True
        found = self.builder.table_for(table.id, layer)
        return found is not None and found.layer == table.layer and (found.layer, found.id) in self._tables


def _asked(rule: Rule) -> tuple[object, ...]:
    """What a rule asks of a provision: its limits, and the shapes of its tables, whose keys stand in an order."""
    shapes = {name: (list(shape.keys.items()), shape.columns) for name, shape in rule.tables.items()}
    return rule.limit, shapes
