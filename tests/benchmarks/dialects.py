"""The neutral rules written out in the language of each evaluator, as a person would write them there."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final

from tests.benchmarks.workload import Rule

OPS: Final = {"eq": "==", "ne": "!=", "lt": "<", "le": "<=", "gt": ">", "ge": ">="}
CALC: Final = {"add": "+", "mul": "*"}
MEMBER: Final = "x"
"""The name of a member of a list."""


@dataclass(frozen=True)
class Dialect:
    """A language of infix text."""

    path: Callable[[list[str]], str]
    """How a chain of names is written; the first may be MEMBER or a list."""
    all: str = "$all([{body} for x in {list}{only}])"
    any: str = "$any([{body} for x in {list}{only}])"
    count: str = "[x for x in {list}{only}].length"
    and_: str = " and "
    or_: str = " or "
    not_: str = "not ({})"
    number: Callable[[float], str] = str
    number_of_members: Callable[[float], str] = str
    condition_of_all: bool = False
    """Whether `all` wants its condition within the body."""

    def text(self, rule: Rule) -> str:
        """A rule."""
        match rule:
            case ["and" | "or" as word, parts]:
                return (self.and_ if word == "and" else self.or_).join(self._within(part) for part in parts)
            case ["not", part]:
                return self.not_.format(self.text(part))
            case ["is", path]:
                return self._path(path)
            case ["in", path, words]:
                return f"{self._path(path)} in [{', '.join(map(_quoted, words))}]"
            case ["cmp", op, left, right]:
                counted = left[0] == "count"
                return f"{self._value(left)} {OPS[op]} {self._value(right, counted=counted)}"
            case ["all" | "any" as word, path, condition, body]:
                return self._over(word, path, condition, body)
        raise AssertionError(rule)

    def _within(self, rule: Rule) -> str:
        return f"({self.text(rule)})" if rule[0] in ("and", "or", "not") else self.text(rule)

    def _over(self, word: str, path: list[str], condition: Rule | None, body: Rule) -> str:
        template, inner = (self.all if word == "all" else self.any), self.text(body)
        if condition is not None and self.condition_of_all:
            joined = [self.not_.format(self.text(condition)), self._within(body)]
            inner = self.or_.join(joined) if word == "all" else self.and_.join([self._within(condition), joined[1]])
            condition = None
        return template.format(body=inner, list=self._path(path), only=self._only(condition))

    def _only(self, condition: Rule | None) -> str:
        return "" if condition is None else f" if {self.text(condition)}"

    def _value(self, side: Any, *, counted: bool = False) -> str:
        match side:
            case ["num", number]:
                return (self.number_of_members if counted else self.number)(number)
            case ["word", word]:
                return _quoted(word)
            case ["get", path]:
                return self._path(path)
            case ["calc", op, left, right]:
                return f"{self._value(left)} {CALC[op]} {self._value(right)}"
            case ["count", path, condition]:
                only = self._only(condition)
                return self.count.format(list=self._path(path), only=only, condition=only.removeprefix(" if "))
        raise AssertionError(side)

    def _path(self, path: list[str]) -> str:
        return self.path([MEMBER, *path[1:]] if path[0] == "own" else path)


def _quoted(word: str) -> str:
    return f'"{word}"'


def _items(path: list[str]) -> str:
    return path[0] + "".join(f'["{name}"]' for name in path[1:])


def _python_items(path: list[str]) -> str:
    return _items(path if path[0] == MEMBER else ["f", *path])


OURS: Final = Dialect(
    ".".join,
    all="all([{body} for x in {list}{only}])",
    any="any([{body} for x in {list}{only}])",
    count="count([x for x in {list}{only}])",
)
RULE_ENGINE: Final = Dialect(".".join)
RULE_ENGINE_ITEMS: Final = Dialect(_items)
CEL: Final = Dialect(
    ".".join,
    all="{list}.all(x, {body})",
    any="{list}.exists(x, {body})",
    count="size({list}.filter(x, {condition}))",
    and_=" && ",
    or_=" || ",
    not_="!({})",
    number_of_members=lambda number: str(int(number)),
    condition_of_all=True,
)


def python(number: Callable[[float], str] = str) -> Dialect:
    """Plain Python over a mapping `f`; `number` writes a number down."""
    return Dialect(
        _python_items,
        all="all({body} for x in {list}{only})",
        any="any({body} for x in {list}{only})",
        count="sum(1 for x in {list}{only})",
        number=number,
        number_of_members=lambda count: str(int(count)),
    )


def json_logic(rule: Any) -> Any:
    """A rule in JsonLogic (jsonlogic.com): operators as keys, `var` for a path."""
    match rule:
        case ["and" | "or" as word, parts]:
            return {word: [json_logic(part) for part in parts]}
        case ["not", part]:
            return {"!": [json_logic(part)]}
        case ["is" | "get", path]:
            return {"var": ".".join(path[1:] if path[0] == "own" else path)}
        case ["in", path, words]:
            return {"in": [json_logic(["get", path]), words]}
        case ["cmp", op, left, right]:
            return {OPS[op]: [json_logic(left), json_logic(right)]}
        case ["num" | "word", value]:
            return value
        case ["calc", op, left, right]:
            return {CALC[op]: [json_logic(left), json_logic(right)]}
        case ["count", path, condition]:
            chosen = {"filter": [{"var": path[0]}, json_logic(condition)]}
            return {"reduce": [chosen, {"+": [{"var": "accumulator"}, 1]}, 0]}
        case ["all", path, condition, body]:
            only = json_logic(body) if condition is None else json_logic(["or", [["not", condition], body]])
            return {"all": [{"var": path[0]}, only]}
        case ["any", path, condition, body]:
            only = json_logic(body) if condition is None else json_logic(["and", [condition, body]])
            return {"some": [{"var": path[0]}, only]}
    raise AssertionError(rule)
