"""Days that fall due, held against the calendar."""

import calendar
import datetime as dt
import operator as op
from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.findings.due import due, judged_on
from checker.units import Period

NEVER = dt.date.min


@pytest.mark.parametrize(
    "done, every, day",
    [
        ("2026-01-15", Period(months=1), "2026-02-15"),
        ("2026-01-31", Period(months=1), "2026-02-28"),
        ("2028-01-31", Period(months=1), "2028-02-29"),
        ("2026-05-31", Period(months=6), "2026-11-30"),
        ("2026-02-28", Period(months=1), "2026-03-28"),
        ("2028-02-29", Period(months=12), "2029-02-28"),
        ("2028-02-29", Period(months=48), "2032-02-29"),
        ("2027-02-28", Period(months=12), "2028-02-28"),
        ("2025-11-25", Period(months=14), "2027-01-25"),
        ("2026-12-31", Period(days=1), "2027-01-01"),
        ("2028-02-28", Period(days=1), "2028-02-29"),
        ("2026-01-31", Period(months=1, days=2), "2026-03-02"),
        ("2026-11-25", Period(), "2026-11-25"),
    ],
)
def test_months_are_months_of_the_calendar_and_days_are_days(done: str, every: Period, day: str) -> None:
    assert due(dt.date.fromisoformat(done), every) == dt.date.fromisoformat(day)


@pytest.mark.parametrize("every", [Period(months=1), Period(days=1), Period(months=120000)])
def test_what_was_never_done_fell_due_long_ago(every: Period) -> None:
    assert due(NEVER, every) == NEVER


@pytest.mark.parametrize(
    "done, every",
    [
        ("9999-12-01", Period(months=1)),
        ("9999-12-31", Period(days=1)),
        ("2026-11-25", Period(months=12 * 99999)),
        ("2026-11-25", Period(days=99999 * 7 * 60)),
    ],
)
def test_what_falls_due_after_the_last_day_of_the_calendar_falls_due_on_it(done: str, every: Period) -> None:
    assert due(dt.date.fromisoformat(done), every) == dt.date.max


@given(st.dates(dt.date(1900, 1, 1), dt.date(2200, 12, 31)), st.integers(0, 600))
def test_some_months_later_is_the_same_day_or_the_last_of_a_shorter_month(done: dt.date, months: int) -> None:
    """Held against the calendar module of Python's own library (proleptic Gregorian calendar, as ISO 8601)."""
    year, month = divmod(done.year * 12 + done.month - 1 + months, 12)
    last = calendar.monthrange(year, month + 1)[1]
    assert due(done, Period(months=months)) == dt.date(year, month + 1, min(done.day, last))


DAYS = st.dates(dt.date(2026, 1, 1), dt.date(2026, 1, 9))


@given(DAYS, DAYS, st.sampled_from([op.lt, op.le, op.gt, op.ge, op.eq, op.ne]), st.booleans())
def test_a_comparison_with_the_day_notes_every_day_on_which_it_turns(
    day: dt.date, other: dt.date, compare: Callable[[dt.date, dt.date], bool], day_first: bool
) -> None:
    """Held against plain days, one by one: between the days noted the answer is the same, on each of them another."""
    turns: set[dt.date] = set()
    judged = judged_on(day, turns)

    def plain(on: dt.date) -> bool:
        return compare(on, other) if day_first else compare(other, on)

    assert (compare(judged, other) if day_first else compare(other, judged)) == plain(day)
    every = [dt.date(2026, 1, 1) + dt.timedelta(days=number) for number in range(-3, 13)]
    assert turns == {after for before, after in pairwise(every) if plain(before) != plain(after)}


@pytest.mark.parametrize("edge, noted", [(dt.date.min, set()), (dt.date.max, {dt.date.max})])
def test_the_ends_of_the_calendar_are_no_turn(edge: dt.date, noted: set[dt.date]) -> None:
    turns: set[dt.date] = set()
    judged = judged_on(dt.date(2026, 11, 25), turns)
    assert (judged < edge, judged <= edge, judged == edge) == (edge == dt.date.max, edge == dt.date.max, False)
    assert turns == noted


def test_what_is_reckoned_from_the_day_holds_for_that_day_only() -> None:
    turns: set[dt.date] = set()
    day = dt.date(2026, 11, 25)
    found = due(judged_on(day, turns), Period(months=1))
    assert (found, type(found)) == (dt.date(2026, 12, 25), dt.date)
    assert turns == {day, dt.date(2026, 11, 26)}
