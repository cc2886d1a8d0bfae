"""What was found in a site, rule by rule, so that after a ruleset changed only what it changes is judged again."""

import datetime as dt
from collections.abc import Mapping
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from checker.findings.result import Finding, Result


class OfRule(Struct, frozen=True, array_like=True):
    """What the findings of a rule rest on beside the site, and the days on which one of their comparisons turns."""

    rests_on: str
    """Digest of the rule, of all that is asked of it, of the layers of the region, and of the day."""
    turns: tuple[dt.date, ...]


class Judged(Struct, frozen=True, array_like=True, dict=True):
    """A result, and what the findings of each rule in force rest on."""

    result: Result
    rules: Mapping[str, OfRule]

    def findings(self, rule: str, rests_on: str) -> list[Finding] | None:
        """The findings of a rule, without what is marked on them afterwards; None where they rest on something else."""
        held = self.rules.get(rule)
        return None if held is None or held.rests_on != rests_on else self._by_rule.get(rule, [])

    @cached_property
    def _by_rule(self) -> Mapping[str, list[Finding]]:
        found: dict[str, list[Finding]] = {}
        for each in self.result.findings:
            marks = each.exception or each.accepted_alternative or each.remedy
            bare = replace(each, exception=None, accepted_alternative=None, remedy=None) if marks else each
            found.setdefault(each.rule, []).append(bare)
        return found
