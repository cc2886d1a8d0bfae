"""Expressions and facts drawn from a seed: every operator of the language over the small world of tests/rules/world.py.

Numbers are few, small and sums of halves, so that decimals and binary floats both hold them and every result exactly.
"""

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal
from random import Random
from typing import Any

from checker.findings.due import due
from checker.quantities import Missing
from checker.rules.tree import Tree
from checker.rules.types import Scope
from checker.units import NOT_ASKED, Period
from tests.rules.world import COLOURS, DAY, TABLES, THINGS, Part, double, opened

SCOPE = Scope("box", {"x": "length", "y": "number", "every": "period"}, TABLES, THINGS)
YEAR: Tree = ["period", 12, 0, "12 months"]
COMPARISONS = ("eq", "ne", "lt", "le", "gt", "ge")


def get(of: str, *names: str) -> Tree:
    tree: Tree = ["name", of]
    for name in names:
        tree = ["get", tree, name]
    return tree


@dataclass
class Draw:
    """Draws one expression; `variables` are the members of the lists it stands in."""

    random: Random
    variables: tuple[str, ...] = ()
    written_period: bool = field(init=False)

    def __post_init__(self) -> None:
        self.written_period = self.random.random() < 0.5

    def one(self, *makers: Callable[[], Tree]) -> Tree:
        return self.random.choice(makers)()

    def answer(self, depth: int) -> Tree:
        """An expression that gives yes or no."""
        if depth <= 0:
            compared = self.random.choice((0, 1, 2))
            return self.one(lambda: self.compared(compared), self.said, self.word, self.among)
        joined = [self.both, self.either, self.opposite]
        others = [self.over_all, self.over_any, self.counted, self.compared, self.compared, self.in_time]
        return self.random.choice([*joined, *joined, *others])(depth - 1)

    def both(self, depth: int) -> Tree:
        return ["and", self.answer(depth), self.answer(depth)]

    def either(self, depth: int) -> Tree:
        return ["or", self.answer(depth), self.answer(depth)]

    def opposite(self, depth: int) -> Tree:
        return ["not", self.answer(depth)]

    def compared(self, depth: int = 0) -> Tree:
        return ["cmp", self.random.choice(COMPARISONS), self.length(depth), self.length(depth)]

    def said(self) -> Tree:
        own = [get(name, "ok") for name in self.variables]
        fits: Tree = ["call", get("box", "fits"), [self.colour()]]
        return self.random.choice([get("box", "p"), get("box", "q"), fits, *own])

    def word(self) -> Tree:
        return ["cmp", self.random.choice(["eq", "ne"]), self.colour(), ["str", self.random.choice(COLOURS)]]

    def among(self) -> Tree:
        return ["in", self.colour(), self.random.sample(COLOURS, self.random.randint(1, 2))]

    def colour(self) -> Tree:
        return get(self.random.choice(["box", *self.variables]), "colour")

    def in_time(self, _depth: int) -> Tree:
        looked_up: Tree = ["call", get("table", "often", "again"), [self.colour()]]
        period = YEAR if self.written_period else self.random.choice([get("limit", "every"), looked_up])
        sides: list[Tree] = [["due", get("box", "tested_on"), period], ["name", "as_of"]]
        self.random.shuffle(sides)
        return ["cmp", self.random.choice(COMPARISONS), *sides]

    def counted(self, depth: int) -> Tree:
        if len(self.variables) > 1:
            return self.said()
        number: Tree = ["num", self.random.choice("0123")]
        return ["cmp", self.random.choice(COMPARISONS), self.over("count", depth), number]

    def over_all(self, depth: int) -> Tree:
        return self.said() if len(self.variables) > 1 else self.over("all", depth)

    def over_any(self, depth: int) -> Tree:
        return self.said() if len(self.variables) > 1 else self.over("any", depth)

    def over(self, word: str, depth: int) -> Tree:
        """A list expression; the member's name is the one not yet taken."""
        variable = "ij"[len(self.variables)]
        inner = Draw(self.random, (*self.variables, variable))
        inner.written_period = self.written_period
        condition = inner.answer(min(depth, 1)) if self.random.random() < 0.5 else None
        body: Tree = ["name", variable]
        if word != "count":
            body = inner.length(min(depth, 1)) if word == "sum" else inner.answer(min(depth, 1))
        return [word, variable, get("box", "items"), condition, body]

    def length(self, depth: int) -> Tree:
        """An expression that gives a length."""
        plain = [get("box", "a"), get("box", "b"), get("limit", "x"), *(get(name, "n") for name in self.variables)]
        if depth <= 0:
            return self.random.choice(plain)
        table: Tree = ["call", get("table", "grip", "near"), [self.colour(), get("box", "b")]]
        calculated: list[Callable[[], Tree]] = [
            lambda: self.random.choice(plain),
            lambda: ["calc", self.random.choice(["add", "sub"]), self.length(depth - 1), self.length(depth - 1)],
            lambda: ["calc", "mul", self.length(depth - 1), ["num", self.random.choice(["0.5", "2"])]],
            lambda: ["calc", "div", self.length(depth - 1), self.random.choice([["num", "2"], get("limit", "y")])],
            lambda: ["call", get("box", "reach"), [self.length(depth - 1)]],
            lambda: table,
            lambda: self.over("sum", depth - 1) if len(self.variables) < 2 else self.random.choice(plain),
        ]
        return self.one(*calculated)


def expression(random: Random) -> Tree:
    """An expression right for SCOPE, of a few parts."""
    return Draw(random).answer(random.choice((1, 2, 3)))


def near(colour: str, length: Decimal) -> Decimal:
    """What `table.grip.near` holds; there is no row for green beyond 2 m."""
    if colour == "green" and length > 2:
        raise Missing("table.grip", "outside range", "up to 2 m")
    return length + COLOURS.index(colour)


def again(colour: str) -> Period:
    """What `table.often.again` holds, where anything is asked in it; of green nothing is."""
    return NOT_ASKED if colour == "green" else Period(12 * (1 + COLOURS.index(colour)))


def drawn_facts(random: Random, *, gaps: bool) -> dict[str, Any]:
    """Facts of a box; where there may be gaps, one value in ten is not recorded and one list in three is open."""

    def recorded(path: str, **values: Any) -> Part:
        return Part(path, **{name: value for name, value in values.items() if not gaps or random.random() >= 0.1})

    def number() -> Decimal:
        return Decimal(random.randint(0, 6)) / 2

    members = tuple(
        recorded(f"items[{at}]", n=number(), ok=random.random() < 0.5, colour=random.choice(COLOURS))
        for at in range(random.randint(0, 3))
    )
    box = recorded(
        "box",
        a=number(),
        b=number(),
        p=random.random() < 0.5,
        q=random.random() < 0.5,
        colour=random.choice(COLOURS),
        tested_on=dt.date(random.randint(2022, 2026), random.choice((6, 11)), 25),
        items=opened(*members) if gaps and random.random() < 1 / 3 else members,
    )
    box |= {"reach": double if gaps else lambda length: 2 * length, "fits": lambda colour: colour != "blue"}
    every = random.choice([NOT_ASKED, *(Period(12 * years) for years in (1, 2, 3, 4))])
    limit = recorded("limit", x=number(), y=Decimal(random.choice("0122")), every=every)
    table = {"grip": {"near": near if gaps else lambda colour, length: length + COLOURS.index(colour)}}
    table["often"] = {"again": NOT_ASKED if random.random() < 0.2 else again}
    return {"box": box, "limit": limit, "table": table, "as_of": DAY, "due": due}
