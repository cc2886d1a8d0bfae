"""The answer of another language with the same logic: our trees translated to CEL, and cel-python's own evaluation.

CEL (Common Expression Language, language definition, "Logical Operators" and "Macros"; from memory, to be confirmed)
lets `&&`, `||`, `all` and `exists` absorb an error wherever another side decides; otherwise the error stands. With
what is not recorded as an error that is Kleene's logic. A missing field is an error by itself. `count` and `sum` are
written out member by member, since cel-python lets no error in `filter` or `map` be absorbed.
"""

import datetime as dt
from collections.abc import Mapping
from decimal import Decimal
from functools import lru_cache
from typing import Any

import celpy
from celpy import celtypes
from celpy.adapter import json_to_cel
from celpy.evaluation import CELEvalError

from checker.quantities import Missing, OpenList
from checker.rules.tree import Tree
from checker.units import NOT_ASKED, Period

OPERATORS = {"eq": "==", "ne": "!=", "lt": "<", "le": "<=", "gt": ">", "ge": ">=", "add": "+", "sub": "-", "mul": "*"}
WORLD = celpy.Environment(runner_class=celpy.InterpretedRunner)
LAST = dt.date.max.toordinal()
Written = Mapping[str, str]
"""How a member of a list is written, by its variable."""


def answer(tree: Tree, facts: Mapping[str, Any]) -> bool | None:
    """What CEL says to a tree over the small world; None for an error."""
    box, limit = facts["box"], facts["limit"]
    given = {
        "box": {name: _plain(value) for name, value in box.items() if not callable(value)},
        "limit": {name: _plain(value) for name, value in limit.items()},
        "as_of": facts["as_of"].toordinal(),
        "whole": {} if isinstance(box.get("items"), OpenList) else {"answer": True, "number": 0.0},
        "never": {},
    }
    functions = {
        "due": _due,
        "reach": _called(box["reach"]),
        "fits": _called(box["fits"]),
        "near": _called(facts["table"]["grip"]["near"]),
    }
    written = _Translation(len(box.get("items", ()))).cel(tree, {})
    program = WORLD.program(_compiled(written), functions=functions)
    try:
        said = program.evaluate({name: json_to_cel(value) for name, value in given.items()})
    except CELEvalError:
        return None
    assert isinstance(said, celtypes.BoolType)
    return bool(said)


@lru_cache(maxsize=64)
def _compiled(written: str) -> Any:
    return WORLD.compile(written)


class _Translation:
    """Trees to CEL. `whole` is missing where a list is open, and nothing is ever in `never`."""

    def __init__(self, members: int) -> None:
        self.members = members

    def cel(self, tree: Tree, written: Written) -> str:
        match tree:
            case ["and", left, right]:
                return f"({self.cel(left, written)} && {self.cel(right, written)})"
            case ["or", left, right]:
                return f"({self.cel(left, written)} || {self.cel(right, written)})"
            case ["not", inner]:
                return f"!{self.cel(inner, written)}"
            case ["calc", "div", left, right]:
                over = self.cel(right, written)
                return f"({over} == 0.0 ? never.there : {self.cel(left, written)} / {over})"
            case ["cmp" | "calc", op, left, right]:
                return f"({self.cel(left, written)} {OPERATORS[op]} {self.cel(right, written)})"
            case ["in", member, words]:
                return f"({self.cel(member, written)} in {list(words)})"
            case ["get", of, name]:
                return f"{self.cel(of, written)}.{name}"
            case ["name", name]:
                return written.get(name, name)
            case ["num", digits]:
                return str(float(digits))
            case ["str", word]:
                return repr(word)
            case ["period", months, _, _]:
                return str(months)
            case ["due", day, ["period", *_] as period]:
                return f"due({self.cel(day, written)}, {self.cel(period, written)})"
            case ["due", day, period]:
                every = self.cel(period, written)
                return f"({every} == {NOT_ASKED.months} ? {LAST} : due({self.cel(day, written)}, {every}))"
            case ["call", function, arguments]:
                return f"{function[-1]}({', '.join(self.cel(each, written) for each in arguments)})"
        return self._over_a_list(tree, written)

    def _over_a_list(self, tree: Tree, written: Written) -> str:
        word, variable, members, condition, body = tree
        listed = self.cel(members, written)
        only, own = (self._body(word, each, {**written, variable: variable}) for each in (condition, body))
        match word:
            case "all":
                return f"({listed}.all({variable}, !({only}) || {own}) && whole.answer)"
            case "any":
                return f"({listed}.exists({variable}, {only} && {own}) || !whole.answer)"
        each = []
        for number in range(self.members):
            inner = {**written, variable: f"{listed}[{number}]"}
            each.append(f"({self._body(word, condition, inner)} ? {self._body(word, body, inner)} : 0.0)")
        return f"({' + '.join((*each, f'double(size({listed}))', 'whole.number'))} - double(size({listed})))"

    def _body(self, word: str, tree: Tree | None, written: Written) -> str:
        """A condition, which may be none, or what is asked of each member: one of a count counts as one."""
        if tree is None:
            return "true"
        return "1.0" if word == "count" and tree[0] == "name" else self.cel(tree, written)


def _plain(value: Any) -> Any:
    match value:
        case Decimal():
            return float(value)
        case dt.date():
            return value.toordinal()
        case Period():
            return value.months
        case tuple():
            return [{name: _plain(each) for name, each in member.items()} for member in value]
    return value


def _due(day: Any, months: Any) -> Any:
    done = dt.date.fromordinal(int(day))
    return celtypes.IntType(done.replace(year=done.year + int(months) // 12).toordinal())


def _called(function: Any) -> Any:
    def call(*given: Any) -> Any:
        try:
            found = function(*(Decimal(float(each)) if isinstance(each, float) else str(each) for each in given))
        except Missing as missing:
            return CELEvalError(str(missing))
        return celtypes.BoolType(found) if isinstance(found, bool) else celtypes.DoubleType(found)

    return call
