"""A second, slow evaluator of expressions, written from what the language means and not from how it is compiled.

Logic is Kleene's strong three-valued logic (S. C. Kleene, Introduction to Metamathematics, 1952, section 64; from
memory, to be confirmed): `and` is the least, `or` the greatest of false < unknown < true. A list is a long `and` or
`or` over its members; one that is open holds one more member of whom nothing is known. Arithmetic wants everything.

An answer comes with its needs: what would have to be known, of the branches that are themselves unknown.
"""

import datetime
import decimal
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import reduce
from typing import Any

from checker.quantities import Missing, Need, OpenList
from checker.rules.tree import Tree
from checker.units import GRID, NOT_ASKED, Period

FALSE, UNKNOWN, TRUE = 0, 1, 2
Names = Mapping[str, Any]

COMPARES: Mapping[str, Callable[[Any, Any], bool]] = {
    "eq": lambda a, b: bool(a == b),
    "ne": lambda a, b: bool(a != b),
    "lt": lambda a, b: bool(a < b),
    "le": lambda a, b: bool(a <= b),
    "gt": lambda a, b: bool(a > b),
    "ge": lambda a, b: bool(a >= b),
}
CALCULATES: Mapping[str, Callable[[Any, Any], Any]] = {
    "add": GRID.add,
    "sub": GRID.subtract,
    "mul": GRID.multiply,
    "div": GRID.divide,
}


@dataclass(frozen=True)
class Answer:
    """False, unknown or true as 0, 1, 2; the needs of what is unknown."""

    truth: int
    needs: tuple[Need, ...] = ()

    @property
    def said(self) -> bool | None:
        """The same as an evaluator says it."""
        return (False, None, True)[self.truth]


@dataclass(frozen=True)
class Value:
    """A value, or what stands in its way."""

    value: Any = None
    needs: tuple[Need, ...] = ()


def reference(tree: Tree, names: Names) -> Answer:
    """What a tree answers, given the facts by name. Whatever breaks is raised."""
    with decimal.localcontext(GRID):
        return _answer(tree, names)


def least(answers: Iterable[Answer]) -> Answer:
    """Kleene's `and` over any number of answers; of none: true."""
    return reduce(lambda a, b: _joined(min, a, b), answers, Answer(TRUE))


def greatest(answers: Iterable[Answer]) -> Answer:
    """Kleene's `or` over any number of answers; of none: false."""
    return reduce(lambda a, b: _joined(max, a, b), answers, Answer(FALSE))


def _joined(choose: Callable[[int, int], int], a: Answer, b: Answer) -> Answer:
    truth = choose(a.truth, b.truth)
    return Answer(truth, a.needs + b.needs if truth == UNKNOWN else ())


def _negated(answer: Answer) -> Answer:
    return Answer(TRUE - answer.truth, answer.needs)


def _answer(tree: Tree, names: Names) -> Answer:
    match tree:
        case ["and", left, right]:
            return least([_answer(left, names), _answer(right, names)])
        case ["or", left, right]:
            return greatest([_answer(left, names), _answer(right, names)])
        case ["not", inner]:
            return _negated(_answer(inner, names))
        case ["cmp", op, left, right]:
            return _settled(_all_of([left, right], names), lambda sides: COMPARES[op](*sides))
        case ["in", member, words]:
            return _settled(_all_of([member], names), lambda sides: sides[0] in words)
        case ["all", variable, members, condition, body]:
            return least(_each(variable, members, names, lambda inner: _if(condition, body, inner)))
        case ["any", variable, members, condition, body]:
            return greatest(_each(variable, members, names, lambda inner: _and(condition, body, inner)))
    return _settled(_all_of([tree], names), lambda sides: sides[0] is True)


def _settled(sides: Value, decide: Callable[[list[Any]], bool]) -> Answer:
    if sides.needs:
        return Answer(UNKNOWN, sides.needs)
    return Answer(TRUE if decide(sides.value) else FALSE)


def _if(condition: Tree | None, body: Tree, names: Names) -> Answer:
    return greatest([_negated(_condition(condition, names)), _answer(body, names)])


def _and(condition: Tree | None, body: Tree, names: Names) -> Answer:
    return least([_condition(condition, names), _answer(body, names)])


def _condition(condition: Tree | None, names: Names) -> Answer:
    return Answer(TRUE) if condition is None else _answer(condition, names)


def _each(variable: str, members: Tree, names: Names, ask: Callable[[Names], Answer]) -> list[Answer]:
    """What each member answers, and one unknown for a list that is absent or open."""
    listed = _value(members, names)
    if listed.needs:
        return [Answer(UNKNOWN, listed.needs)]
    answers = [ask({**names, variable: member}) for member in listed.value]
    if isinstance(listed.value, OpenList):
        answers.append(Answer(UNKNOWN, (listed.value.open_because,)))
    return answers


def _all_of(trees: list[Tree], names: Names) -> Value:
    """The values of several trees together; every gap is named."""
    values = [_value(tree, names) for tree in trees]
    needs = tuple(need for value in values for need in value.needs)
    return Value(None, needs) if needs else Value([value.value for value in values])


def _value(tree: Tree, names: Names) -> Value:
    match tree:
        case ["num", digits]:
            return Value(decimal.Decimal(digits))
        case ["str", word]:
            return Value(word)
        case ["period", months, days, _]:
            return Value(Period(months, days))
        case ["name", name]:
            return _read(names, name)
        case ["get", of, name]:
            holder = _value(of, names)
            return holder if holder.needs else _read(holder.value, name)
        case ["calc", op, left, right]:
            return _made(_all_of([left, right], names), CALCULATES[op])
        case ["due", _, period] if _not_asked(period, names):
            return Value(datetime.date(9999, 12, 31))
        case ["due", day, period]:
            return _made(_all_of([day, period], names), names["due"])
        case ["call", function, arguments]:
            return _made(_all_of([function, *arguments], names), lambda called, *given: called(*given))
        case ["count" | "sum" as word, variable, members, condition, body]:
            return _totalled(word, variable, members, condition, body, names)
    answer = _answer(tree, names)
    return Value(None, answer.needs) if answer.truth == UNKNOWN else Value(answer.said)


def _not_asked(period: Tree, names: Names) -> bool:
    """Whether nobody asks what it is the period of: then no day has to be known, nor the keys of its column."""
    whole_column = period[0] == "call" and _value(period[1], names).value == NOT_ASKED
    return whole_column or bool(_value(period, names).value == NOT_ASKED)


def _read(holder: Any, name: str) -> Value:
    try:
        return Value(holder[name])
    except Missing as missing:
        return Value(None, missing.needs)


def _made(sides: Value, make: Callable[..., Any]) -> Value:
    if sides.needs:
        return sides
    try:
        return Value(make(*sides.value))
    except Missing as missing:
        return Value(None, missing.needs)


def _totalled(word: str, variable: str, members: Tree, condition: Tree | None, body: Tree, names: Names) -> Value:
    listed = _value(members, names)
    if listed.needs:
        return listed
    needs: list[Need] = []
    total = decimal.Decimal(0)
    for member in listed.value:
        inner = {**names, variable: member}
        counted = _condition(condition, inner)
        if counted.truth == FALSE:
            continue
        own = Value(decimal.Decimal(1)) if word == "count" else _value(body, inner)
        needs += [*counted.needs, *own.needs]
        if not counted.needs and not own.needs:
            total = GRID.add(total, own.value)
    if isinstance(listed.value, OpenList):
        needs.append(listed.value.open_because)
    return Value(None, tuple(needs)) if needs else Value(total)
