"""What a provision asks, and from when until when, in words."""

import datetime as dt
from collections.abc import Collection, Mapping

from checker.report.sentences import say
from checker.report.shapes import Provision
from checker.report.words import operator_words

_SAID_BY_THE_COMPARISON = frozenset({"least", "most"})
"""Names of limits that only say again how they are compared."""


def day_words(day: dt.date) -> str:
    """A day as people write it: 1 January 2027."""
    return say("day", day=day.day, month=say(f"month {day.month}"), year=day.year)


def span_words(first: dt.date | None, until: dt.date | None) -> str:
    """From which day until which day."""
    key = "span" + ("_from" if first else "") + ("_until" if until else "")
    return say(key, first=first and day_words(first), until=until and day_words(until))


def asked_words(provision: Provision, operators: Mapping[str, str], left_out: Collection[str] = ()) -> str:
    """Each limit with its comparison, and each table; `operators`: how the rule compares each limit."""
    limits = [
        limit_words(name, limit.written, operators.get(name))
        for name, limit in provision.limit.items()
        if name not in left_out
    ]
    return say("list").join([*limits, *(say("sources_table", name=table.id) for table in provision.tables.values())])


def limit_words(name: str, written: str, operator: str | None) -> str:
    """One limit: `walk at most 8 m`, `at least 950 mm`, or `rating 1` where no comparison tells which way it goes."""
    asked = operator_words(operator, written, "") if operator else written
    return asked if operator and name in _SAID_BY_THE_COMPARISON else say("named", name=spaced(name), value=asked)


def spaced(name: str) -> str:
    """A name of a ruleset as words."""
    return name.replace("_", " ")
