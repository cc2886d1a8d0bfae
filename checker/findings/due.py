"""The day on which something falls due."""

import datetime as dt
from collections.abc import Callable

from dateutil.relativedelta import relativedelta

from checker.units import Period

LAST: dt.date = dt.date.max


def due(done: dt.date, every: Period) -> dt.date:
    """The day, a period after it was last done; the last day of a month stays one where the next month is shorter.

    What was never done (the first day of the calendar) fell due long ago.
    """
    if done == dt.date.min:
        return done
    try:
        return done + relativedelta(months=every.months, days=every.days)
    except (ValueError, OverflowError):
        return LAST


def due_and_noted(noted: list[dt.date]) -> Callable[[dt.date, Period], dt.date]:
    """The same, keeping every day found: the result may change on the day after each."""

    def found(done: dt.date, every: Period) -> dt.date:
        day = due(done, every)
        noted.append(day)
        return day

    return found
