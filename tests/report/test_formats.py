"""Many results are drawn one by one: what was drawn is let go."""

import gc
from collections.abc import Iterator

import pytest

from checker.findings.result import Result
from checker.report import FORMATS, Drawing
from tests.report.samples import metric_site, us_site

MANY = 5
MOST_HELD = 3
"""The one just made, the one just drawn, and one that is looked ahead to."""


def alive() -> int:
    return sum(isinstance(each, Result) for each in gc.get_objects())


@pytest.mark.parametrize("form", FORMATS)
def test_results_are_let_go_once_they_are_drawn(form: str) -> None:
    others, most = alive(), 0

    def made() -> Iterator[Result]:
        nonlocal most
        for _ in range(MANY):
            yield us_site()
            most = max(most, alive() - others)

    assert FORMATS[form](made(), Drawing())
    assert 0 < most <= MOST_HELD


@pytest.mark.parametrize("form", FORMATS)
@pytest.mark.parametrize("count", [1, 2, 3])
def test_results_that_come_one_by_one_are_drawn_as_those_of_a_list(form: str, count: int) -> None:
    sites = [us_site(), metric_site(), us_site()][:count]
    assert FORMATS[form](iter(sites), Drawing()) == FORMATS[form](sites, Drawing())
