"""All that is wrong with rulesets that can be read and proved."""

from collections import Counter

from checker.findings.prove import prove
from checker.keeping.flaws import Flaw
from checker.keeping.lint_provisions import flaws_of_provisions
from checker.keeping.lint_rules import flaws_of_rule
from checker.keeping.unused import TablePlaces, unused
from checker.rules import Rulebook


def lint(rulebook: Rulebook, tables: TablePlaces) -> tuple[Flaw, ...]:
    """Every flaw, in the order of the files and their lines; `tables`: where those in its files stand."""
    failed = Counter(each.rule for each in prove(rulebook).failures)
    found = [flaw for rule in rulebook.rules.values() for flaw in flaws_of_rule(rule, failed[rule.id])]
    found += [*flaws_of_provisions(rulebook, tables), *unused(rulebook, tables)]
    return tuple(sorted(found, key=lambda each: (each.location.file, each.location.line)))
