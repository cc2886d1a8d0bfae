"""The answer of rule-engine itself to an expression over the small world, on complete facts."""

import datetime as dt
from collections.abc import Mapping
from decimal import Decimal
from functools import cache
from typing import Any

import rule_engine
from rule_engine import DataType
from rule_engine.builtins import Builtins

from checker.findings.due import due
from checker.rules.tree import Tree, text
from checker.units import GRID


def engine_answer(tree: Tree, facts: Mapping[str, Any]) -> object:
    """What rule-engine's evaluation of the written expression gives."""
    names = {
        "box": View(facts["box"]),
        "limit": View(facts["limit"]),
        "as_of": _moment(facts["as_of"]),
        "due": lambda done, every: _moment(due(done.date(), every.thing)),
        "all": all,
        "any": any,
        "count": lambda members: Decimal(len(members)),
        "sum": lambda values: GRID.plus(sum(values, Decimal(0))),
    }
    return rule_engine.Rule(text(tree), context=_context()).evaluate(names)


class View:
    """A thing as the engine sees it: no mapping, so that a dot means our own field."""

    def __init__(self, thing: Any) -> None:
        """Keep the thing."""
        self.thing = thing


def _seen(view: View, name: str) -> Any:
    value = view.thing[name]
    if isinstance(value, tuple):
        return tuple(View(member) for member in value)
    if isinstance(value, dt.date):
        return _moment(value)
    return View(value) if type(value).__name__ in ("Part", "Period") else value


def _moment(day: dt.date) -> dt.datetime:
    return dt.datetime.combine(day, dt.time(), dt.UTC)


@cache
def _context() -> Any:
    number, answer, word, day = DataType.FLOAT, DataType.BOOLEAN, DataType.STRING, DataType.DATETIME
    period = DataType.OBJECT("period")
    item = DataType.OBJECT("item", attributes={"n": number, "ok": answer, "colour": word}, accessor=_seen)
    box = DataType.OBJECT(
        "box",
        attributes={
            "a": number,
            "b": number,
            "p": answer,
            "q": answer,
            "colour": word,
            "tested_on": day,
            "items": DataType.ARRAY(item),
            "reach": DataType.FUNCTION("reach", return_type=number, argument_types=(number,)),
        },
        accessor=_seen,
    )
    limit = DataType.OBJECT("limit", attributes={"x": number, "y": number, "every": period}, accessor=_seen)

    def over(name: str, gives: Any, of: Any) -> Any:
        return DataType.FUNCTION(name, return_type=gives, argument_types=(DataType.ARRAY(of),))

    types = {
        "box": box,
        "limit": limit,
        "as_of": day,
        "due": DataType.FUNCTION("due", return_type=day),
        "all": over("all", answer, answer),
        "any": over("any", answer, answer),
        "count": DataType.FUNCTION("count", return_type=number),
        "sum": over("sum", number, number),
        "item": item,
        "period": period,
    }
    context = rule_engine.Context(
        type_resolver=rule_engine.type_resolver_from_dict(types),
        resolver=lambda names, name: names[name],
        default_timezone="utc",
        decimal_context=GRID,
    )
    context.builtins = Builtins({})
    return context
