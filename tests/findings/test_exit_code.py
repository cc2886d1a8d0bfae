from typing import get_args

import pytest
from msgspec.structs import replace

from checker.findings.exit_code import SEVERITIES, exit_code
from checker.findings.result import Result, Severity, Summary
from tests.report.samples import us_site

NONE = dict.fromkeys(SEVERITIES, 0)


def result(not_met: str | None = None, undetermined: str | None = None, broken: int = 0) -> Result:
    summary = Summary(
        met=1,
        not_met=int(not_met is not None),
        undetermined=int(undetermined is not None),
        not_applicable=0,
        broken=broken,
        not_met_by_severity=NONE | ({not_met: 1} if not_met else {}),
        undetermined_by_severity=NONE | ({undetermined: 1} if undetermined else {}),
        met_by_evidence={"seen": 1},
        to_be_confirmed=0,
    )
    return replace(us_site(), summary=summary)


@pytest.mark.parametrize(
    "results, fail_on, code",
    [
        ([], "minor", 0),
        ([result()], "minor", 0),
        ([result(not_met="minor")], "minor", 1),
        ([result(not_met="observation")], "minor", 0),
        ([result(not_met="observation")], "observation", 1),
        ([result(not_met="major")], "critical", 0),
        ([result(not_met="critical")], "critical", 1),
        ([result(undetermined="critical")], "critical", 1),
        ([result(undetermined="major")], "observation", 0),
        ([result(broken=1)], "minor", 2),
        ([result(not_met="critical", broken=1)], "minor", 2),
        ([result(), result(not_met="major"), result()], "minor", 1),
        ([result(broken=1), result(not_met="major")], "minor", 2),
    ],
)
def test_the_worst_result_decides(results: list[Result], fail_on: Severity, code: int) -> None:
    assert exit_code(results, fail_on) == code


def test_severities_stand_worst_first() -> None:
    assert get_args(Severity) == SEVERITIES == ("critical", "major", "minor", "observation")
