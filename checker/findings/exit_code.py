"""What a run says to other programs: one number for all its results."""

from collections.abc import Iterable
from typing import get_args

from checker.findings.result import Result
from checker.vocabulary import Severity

COMPLIES, DOES_NOT, UNRELIABLE = 0, 1, 2
SEVERITIES: tuple[Severity, ...] = get_args(Severity)
"""Worst first."""


def exit_code(results: Iterable[Result], fail_on: Severity) -> int:
    """The worst code of the results.

    2: a rule broke. 1: something is not met at `fail_on` or worse, or a critical rule is undetermined. 0: neither.
    """
    return max((_code(result, fail_on) for result in results), default=COMPLIES)


def _code(result: Result, fail_on: Severity) -> int:
    summary = result.summary
    if summary.broken:
        return UNRELIABLE
    counted = SEVERITIES[: SEVERITIES.index(fail_on) + 1]
    wrong = any(summary.not_met_by_severity.get(severity, 0) for severity in counted)
    return DOES_NOT if wrong or summary.undetermined_by_severity.get("critical", 0) else COMPLIES
