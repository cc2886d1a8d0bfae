"""One rule on one thing, as one authority asks it: outcome, parts, what is missing."""

import datetime as dt
import decimal
from collections.abc import Callable, Iterable, Mapping
from functools import cached_property, lru_cache
from typing import Any, Literal

from msgspec import Struct

from checker.findings.evidence import Reads, reads
from checker.findings.margin import Reading, governing, readings
from checker.quantities import Missing, Need, on_the_plan
from checker.rules import Rulebook
from checker.rules.compile import Evaluator, compile_tree
from checker.rules.model import Rule
from checker.rules.parts import PartSpec, clocks, part_specs
from checker.rules.tree import walk
from checker.units import GRID, Period
from checker.vocabulary import Because, Outcome

Facts = Mapping[str, Any]


class Compiled:
    """A rule made ready: its evaluators and how to read their sides, each made when it is first needed."""

    def __init__(self, rule: Rule) -> None:
        """Keep the rule; nothing is compiled yet."""
        self.rule = rule

    @cached_property
    def when(self) -> Evaluator | None:
        """Whether the rule applies; None where it applies everywhere."""
        return None if self.rule.when_tree is None else compile_tree(self.rule.when_tree)

    @cached_property
    def require(self) -> Evaluator:
        """Whether what it asks holds."""
        return compile_tree(self.rule.require_tree)

    @cached_property
    def specs(self) -> tuple[PartSpec, ...]:
        """The parts of what it asks."""
        return part_specs(self.rule.require_tree, self.rule.part_kinds)

    @cached_property
    def clocks(self) -> tuple[int | None, ...]:
        """The clock that each part tells of, by the number of the first one that tells of it."""
        return clocks(self.rule.require_tree, self.specs)

    @cached_property
    def offers_ways(self) -> bool:
        """Whether it may join parts of which one is enough."""
        return any(node[0] in ("or", "not") for node in walk(self.rule.require_tree))

    @cached_property
    def tells_of_clocks(self) -> bool:
        """Whether it joins parts that count from a day with others."""
        return len(self.specs) > 1 and any(number is not None for number in self.clocks)

    @cached_property
    def on_the_plan(self) -> bool:
        """Whether what it asks is measured on a floor plan, so that the plan's readings may settle it."""
        return any(node[0] == "get" and node[2] in on_the_plan() for node in walk(self.rule.require_tree))

    @cached_property
    def reads(self) -> tuple[Reads, ...]:
        """What each part reads, in the order of the parts."""
        return tuple(reads(spec.tree) for spec in self.specs)


class Judgement(Struct, frozen=True):
    """What came out for one subject and one provision."""

    outcome: Outcome
    because: Because | None
    parts: tuple[Reading, ...]
    governs: int | None
    needs: tuple[Need, ...]
    fault: str = ""
    taken: Literal["", "longest", "shortest"] = ""
    """The reading of the floor plan it was judged by, where something on that is not known."""

    @property
    def governing(self) -> Reading | None:
        """The part that decides."""
        return None if self.governs is None else self.parts[self.governs]


def compile_rules(rules: Iterable[Rule]) -> dict[str, Compiled]:
    """Rules made ready, by id."""
    return {rule.id: Compiled(rule) for rule in rules}


@lru_cache(maxsize=8)
def compiled_rules(rulebook: Rulebook, ids: tuple[str, ...]) -> Mapping[str, Compiled]:
    """Rules of a rulebook made ready, once for all sites that are checked against them."""
    return compile_rules(rulebook.rules[each] for each in ids)


class Asked(dict[str, Any]):
    """Limits or tables by name; asking for one that is not given is a gap, not a fault."""

    __slots__ = ("of",)

    def __init__(self, of: str, values: Mapping[str, Any]) -> None:
        """Keep the name that a gap is called by: limit, table.class_b."""
        super().__init__(values)
        self.of = of

    def __missing__(self, name: str) -> Any:
        """A limit that is not given. Raises Missing."""
        raise Missing(f"{self.of}.{name}", "not recorded")


def facts_for(
    rule: Rule,
    subject: Any,
    site: Any,
    limits: Asked,
    tables: Asked,
    as_of: dt.date,
    due: Callable[[dt.date, Period], dt.date],
) -> dict[str, Any]:
    """The names that the expressions of a rule may read."""
    return {
        rule.each: subject,
        "site": site,
        "limit": limits,
        "table": tables,
        "as_of": as_of,
        "due": due,
    }


def judge(compiled: Compiled, facts: Facts) -> Judgement:
    """Apply a rule to the facts of one subject. A rule that breaks is undetermined, never met."""
    gaps: list[Missing] = []
    try:
        with decimal.localcontext(GRID):
            if compiled.when is not None:
                applies, _ = compiled.when(facts, gaps)
                if applies is False:
                    return Judgement("not applicable", None, (), None, ())
                if applies is None:
                    return _unknown((), None, gaps)
            truth, sides = compiled.require(facts, gaps)
    except Exception as fault:  # whatever broke, the other rules must still speak
        return Judgement("undetermined", "rule broke", (), None, (), f"{type(fault).__name__}: {fault}")
    parts = readings(compiled.specs, sides)
    governs = governing(compiled.rule.require_tree, parts)
    if truth is None:
        return _unknown(parts, governs, gaps)
    return Judgement("met" if truth else "not met", None, parts, governs, ())


def _unknown(parts: tuple[Reading, ...], governs: int | None, gaps: list[Missing]) -> Judgement:
    needs = tuple(dict.fromkeys(need for gap in gaps for need in gap.needs))
    return Judgement("undetermined", needs[0].because, parts, governs, needs)
