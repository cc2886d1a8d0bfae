"""The tree of an expression: plain lists that JSON can hold, and the ways to walk and to write one.

    ["and", l, r]  ["or", l, r]  ["not", x]  ["cmp", op, l, r]  ["in", member, [words]]  ["calc", op, l, r]
    ["get", of, "name"]  ["name", "n"]  ["num", "1.25"]  ["str", "B"]  ["period", months, days, "12 months"]
    ["call", function, args]  ["due", day, period]
    ["all" | "any" | "count" | "sum", variable, list, condition or None, body]

`op` is one of eq ne lt le gt ge for comparisons and add sub mul div for arithmetic.
"""

import re
from collections.abc import Callable, Iterator
from itertools import count
from typing import Any, Final, TypeVar

Tree = list[Any]
T = TypeVar("T")

COMPARISONS: Final = {"eq": "==", "ne": "!=", "lt": "<", "le": "<=", "gt": ">", "ge": ">="}
ARITHMETIC: Final = {"add": "+", "sub": "-", "mul": "*", "div": "/"}
MIRRORED: Final = {"eq": "eq", "ne": "ne", "lt": "gt", "le": "ge", "gt": "lt", "ge": "le"}
NEGATED: Final = {"eq": "ne", "ne": "eq", "lt": "ge", "le": "gt", "gt": "le", "ge": "lt"}
OVER_A_LIST: Final = ("all", "any", "count", "sum")

MOST_NODES: Final = 200
"""The most parts of an expression."""
_NUMBER: Final = re.compile(r"-?[0-9]+(\.[0-9]+)?([eE][+-]?[0-9]{1,3})?")
_BINDING: Final = {"or": 1, "and": 2, "not": 3, "cmp": 4, "in": 4, "add": 5, "sub": 5, "mul": 6, "div": 6}


def branches(tree: Tree) -> Iterator[Tree]:
    """The trees directly below one, in the order of the text."""
    match tree:
        case ["and" | "or", left, right] | ["cmp" | "calc", _, left, right] | ["due", left, right]:
            yield left
            yield right
        case ["not", inner] | ["in", inner, _] | ["get", inner, _]:
            yield inner
        case ["call", function, arguments]:
            yield function
            yield from arguments
        case ["all" | "any" | "count" | "sum", _, members, condition, body]:
            yield members
            if condition is not None:
                yield condition
            yield body


def walk(tree: Tree) -> Iterator[Tree]:
    """A tree and every tree below it, from the top."""
    yield tree
    for branch in branches(tree):
        yield from walk(branch)


def well_formed(tree: object, most_nodes: int) -> bool:
    """Whether a value has the shape of a tree of at most so many parts; what it says is for the check of types."""
    return _parts_in(tree, most_nodes) <= most_nodes


def _parts_in(tree: object, most: int) -> int:
    """The number of parts of a tree; more than `most` for what is none."""
    match tree:
        case ["name", str()] | ["str", str()] | ["period", int(), int(), str()]:
            return 1
        case ["num", str(digits)]:
            return 1 if _NUMBER.fullmatch(digits) else most + 1
        case ["get", inner, str()] | ["not", inner]:
            below = [inner]
        case ["in", inner, [*words]] if words and all(isinstance(word, str) for word in words):
            below = [inner]
        case ["and" | "or", left, right] | ["due", left, right]:
            below = [left, right]
        case ["cmp", str(op), left, right] if op in COMPARISONS:
            below = [left, right]
        case ["calc", str(op), left, right] if op in ARITHMETIC:
            below = [left, right]
        case ["call", function, [*arguments]]:
            below = [function, *arguments]
        case [str(word), str(), members, condition, body] if word in OVER_A_LIST:
            below = [part for part in (members, condition, body) if part is not None]
        case _:
            return most + 1
    total = 1
    for part in below:
        total += _parts_in(part, most - total) if total <= most else 0
    return total


def folded(tree: Tree, part: Callable[[int], T], joined: Callable[[bool, T, T], T]) -> T:
    """What the parts of an expression come to: each by its number in the text, then two by two as they are joined.

    `joined` is told whether both have to hold, as of `and`, or one is enough; under a `not` it is the other way round.
    """
    numbers = count()

    def of(tree: Tree, negated: bool) -> T:
        match tree:
            case ["not", inner]:
                return of(inner, not negated)
            case ["and" | "or" as word, left, right]:
                return joined((word == "and") is not negated, of(left, negated), of(right, negated))
        return part(next(numbers))

    return of(tree, False)


def mentions(tree: Tree, names: frozenset[str]) -> bool:
    """Whether a tree begins anywhere with one of these names."""
    return any(node[0] == "name" and node[1] in names for node in walk(tree))


def text(tree: Tree) -> str:
    """A tree written out again, with no more brackets than it needs."""
    match tree:
        case ["and" | "or" as word, left, right]:
            return f"{_within(left, word)} {word} {_within(right, word, right=True)}"
        case ["not", inner]:
            return f"not {_within(inner, 'not')}"
        case ["cmp", op, left, right]:
            return f"{_within(left, 'cmp', right=True)} {COMPARISONS[op]} {_within(right, 'cmp', right=True)}"
        case ["in", member, words]:
            return f"{_within(member, 'in', right=True)} in [{', '.join(_quoted(word) for word in words)}]"
        case ["calc", op, left, right]:
            return f"{_within(left, op)} {ARITHMETIC[op]} {_within(right, op, right=True)}"
        case ["get", of, name]:
            return f"{text(of)}.{name}"
        case ["name", name] | ["num", name]:
            return str(name)
        case ["str", word]:
            return _quoted(word)
        case ["period", _, _, written]:
            return str(written)
        case ["call", function, arguments]:
            return f"{text(function)}({', '.join(text(argument) for argument in arguments)})"
        case ["due", day, period]:
            return f"due({text(day)}, {text(period)})"
        case [word, variable, members, condition, body]:
            only = "" if condition is None else f" if {text(condition)}"
            return f"{word}([{text(body)} for {variable} in {text(members)}{only}])"
    raise AssertionError(f"no such tree: {tree[:1]}")


def _within(tree: Tree, parent: str, *, right: bool = False) -> str:
    own = _BINDING.get(tree[1] if tree[0] == "calc" else tree[0], 9)
    loose = own < _BINDING[parent] or (right and own == _BINDING[parent])
    return f"({text(tree)})" if loose else text(tree)


def _quoted(word: str) -> str:
    return f'"{word}"'
