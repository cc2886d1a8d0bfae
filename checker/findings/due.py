"""The day on which something falls due, and the days on which a judgement may turn."""

import datetime as dt

from dateutil.relativedelta import relativedelta

from checker.rules.compile import NOT_DUE
from checker.site import NEVER
from checker.units import Period

LAST: dt.date = dt.date.max
ONE = dt.timedelta(days=1)


class JudgedOn(dt.date):
    """The day that is judged on. What compares it notes the first day on which the answer would be another."""

    turns: set[dt.date]

    def __lt__(self, other: dt.date) -> bool:
        """Before a day: no longer on that day."""
        self._note(other, on=True)
        return super().__lt__(other)

    def __ge__(self, other: dt.date) -> bool:
        """On a day or after it: from that day."""
        self._note(other, on=True)
        return super().__ge__(other)

    def __le__(self, other: dt.date) -> bool:
        """On a day or before it: no longer on the day after."""
        self._note(other, after=True)
        return super().__le__(other)

    def __gt__(self, other: dt.date) -> bool:
        """After a day: from the day after."""
        self._note(other, after=True)
        return super().__gt__(other)

    def __eq__(self, other: object) -> bool:
        """The very day: on that day alone."""
        self._note(other, on=True, after=True)
        return super().__eq__(other)

    def __ne__(self, other: object) -> bool:
        """Any other day."""
        return not self == other

    __hash__ = dt.date.__hash__

    def _note(self, other: object, *, on: bool = False, after: bool = False) -> None:
        if isinstance(other, dt.date) and other is not NOT_DUE and other.toordinal() != NEVER.toordinal():
            self.turns |= {other} if on else set()
            self.turns |= {other + ONE} if after and other.toordinal() != LAST.toordinal() else set()

    def plain(self) -> dt.date:
        """The day as any other. What is reckoned from it holds for this day only, which is noted."""
        day = dt.date(self.year, self.month, self.day)
        self._note(day, on=True, after=True)
        return day


def judged_on(day: dt.date, turns: set[dt.date]) -> JudgedOn:
    """The day, noting in `turns` every day on which something that was compared with it turns."""
    made = JudgedOn(day.year, day.month, day.day)
    made.turns = turns
    return made


def due(done: dt.date, every: Period) -> dt.date:
    """The day, a period after it was last done; the last day of a month stays one where the next month is shorter.

    What was never done (the first day of the calendar) fell due long ago.
    """
    if isinstance(done, JudgedOn):
        done = done.plain()
    if done == NEVER:
        return done
    try:
        return done + relativedelta(months=every.months, days=every.days)
    except (ValueError, OverflowError):
        return LAST
