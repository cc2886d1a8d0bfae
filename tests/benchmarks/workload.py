"""The load of the evaluator benchmark: 250 rules in a small neutral form and as many made-up sites as are asked for.

Nothing here comes from the program under test. Only `random()` is drawn from the generator, since that alone is
promised to stay the same from one Python to the next; every number is a multiple of 1/4, so that floats, decimals and
fractions agree to the last digit.

A rule is a list that JSON can hold:

    ["cmp", op, a, b]  ["is", path]  ["in", path, [words]]  ["and" | "or", [rules]]  ["not", rule]
    ["all" | "any", path of a list, condition or None, rule about a member]
    a, b: ["get", path]  ["num", x]  ["word", w]  ["calc", "add" | "mul", a, b]  ["count", path of a list, condition]

A path is a list of names; within a list, ["own", name] stands for a field of the member. op: eq ne lt le gt ge.
"""

import json
import random
from collections.abc import Callable, Iterator, Sequence
from typing import Any, Final, TypeVar

Rule = list[Any]
Site = dict[str, Any]
T = TypeVar("T")

SEED: Final = "rollers-1"
RULES: Final = 250
SITES: Final = 2000
MISSING: Final = 0.02
WORDS: Final = ("steel", "concrete", "timber", "mesh", "sheet")
MIX: Final = (("comparison", 110), ("joined", 60), ("membership", 25), ("over_a_list", 45), ("arithmetic", 10))
"""How many rules of each shape: 44, 24, 10, 18 and 4 in a hundred."""

GROUPS: Final = {
    "air": {"supply": "nnnwa", "exhaust": "nnwa", "heating": "nnwa"},
    "power": {"feed": "nnwa", "earthing": "nwa", "backup": "nnwa"},
    "fire": {"alarm": "nnwa", "escape": "nnwa", "store": "nnwa"},
    "building": {"slab": "nnwa", "walls": "nwa", "roof": "nwa"},
}
"""46 single values: per group and subgroup the types of fields, n number, w word, a answer."""
LISTS: Final = {"rooms": 4, "doors": 8, "machines": 6, "circuits": 10, "extinguishers": 12, "detectors": 6}
"""46 members."""
MEMBER: Final = "nnnwwaa"
NAMES: Final = {"n": "size", "w": "material", "a": "checked"}


def field_names(types: str) -> list[tuple[str, str]]:
    """Names of fields with their types: nnw gives size_1, size_2, material_1."""
    return [(f"{NAMES[kind]}_{types[: at + 1].count(kind)}", kind) for at, kind in enumerate(types)]


class Draw:
    """Choices from a seed."""

    def __init__(self, seed: str) -> None:
        self.random = random.Random(seed).random

    def one(self, of: Sequence[T]) -> T:
        return of[int(self.random() * len(of))]

    def some(self, of: Sequence[T], count: int) -> list[T]:
        left = list(of)
        return [left.pop(int(self.random() * len(left))) for _ in range(count)]

    def number(self, low: float = 0.0, high: float = 100.0) -> float:
        return low + int(self.random() * ((high - low) * 4 + 1)) / 4

    def chance(self, share: float) -> bool:
        return self.random() < share


def sites(count: int = SITES) -> Iterator[Site]:
    """Sites as JSON holds them; each depends on its number alone."""
    return (_site(number) for number in range(count))


def _site(number: int) -> Site:
    draw = Draw(f"{SEED}/site/{number}")
    site: Site = {
        group: {name: _record(draw, types) for name, types in inside.items()} for group, inside in GROUPS.items()
    }
    for name, count in LISTS.items():
        site[name] = [{"id": f"{name}-{at}"} | _record(draw, MEMBER) for at in range(count)]
    return site


def _record(draw: Draw, types: str) -> dict[str, Any]:
    made: dict[str, Callable[[], Any]] = {
        "n": draw.number,
        "w": lambda: draw.one(WORDS),
        "a": lambda: draw.chance(0.7),
    }
    drawn = [(name, made[kind](), draw.chance(MISSING)) for name, kind in field_names(types)]
    return {name: value for name, value, missing in drawn if not missing}


def rules() -> list[Rule]:
    """All rules, in the shares of MIX, shuffled so that no shape stands together."""
    draw = Draw(f"{SEED}/rules")
    made = [getattr(_Rules(draw), shape)() for shape, count in MIX for _ in range(count)]
    return draw.some(made, len(made))


class _Rules:
    """One rule of each shape."""

    def __init__(self, draw: Draw) -> None:
        self.draw = draw

    def path(self, kind: str) -> list[str]:
        found = [
            [group, name, field]
            for group, inside in GROUPS.items()
            for name, types in inside.items()
            for field, each in field_names(types)
            if each == kind
        ]
        return self.draw.one(found)

    def own(self, kind: str) -> list[str]:
        return ["own", self.draw.one([name for name, each in field_names(MEMBER) if each == kind])]

    def comparison(self) -> Rule:
        return self.about(self.path, 0.0, 100.0)

    def about(self, path: Callable[[str], list[str]], low: float, high: float) -> Rule:
        """A comparison, or an answer, of what `path` leads to; numbers are held against limits from low to high."""
        chosen = self.draw.random()
        if chosen < 0.12:
            return ["is", path("a")]
        if chosen < 0.3:
            return ["cmp", self.draw.one(("eq", "ne")), ["get", path("w")], ["word", self.draw.one(WORDS)]]
        measured, other = path("n"), path("n")
        limit = ["get", other] if chosen < 0.4 and other != measured else ["num", self.draw.number(low, high)]
        return ["cmp", self.draw.one(("lt", "le", "gt", "ge")), ["get", measured], limit]

    def joined(self) -> Rule:
        parts: list[Rule] = [self.comparison() for _ in range(2 + int(self.draw.random() * 3))]
        whole: Rule = [self.draw.one(("and", "or")), parts]
        if self.draw.chance(0.3):
            parts[0] = ["not", parts[0]]
        if len(parts) == 4:
            other = "or" if whole[0] == "and" else "and"
            whole = [whole[0], [*parts[:2], [other, parts[2:]]]]
        return ["not", whole] if self.draw.chance(0.15) else whole

    def membership(self) -> Rule:
        return ["in", self.path("w"), self.draw.some(WORDS, 3)]

    def over_a_list(self) -> Rule:
        name = [self.draw.one(list(LISTS))]
        word = self.draw.one(("all", "any", "count"))
        condition = self.about(self.own, 20.0, 80.0) if word == "count" or self.draw.chance(0.3) else None
        if word == "count":
            return ["cmp", self.draw.one(("ge", "le")), ["count", name, condition], ["num", self.draw.one((2.0, 3.0))]]
        tests = [self.about(self.own, 0.0, 100.0) for _ in range(self.draw.one((1, 1, 2, 3)))]
        body = tests[0] if len(tests) == 1 else ["or" if word == "all" else "and", tests]
        return [word, name, condition, body]

    def arithmetic(self) -> Rule:
        left = ["calc", "mul", ["get", self.path("n")], ["num", self.draw.one((0.75, 1.25, 1.5))]]
        right = ["calc", "add", ["get", self.path("n")], ["num", self.draw.number(0.0, 10.0)]]
        return ["cmp", self.draw.one(("le", "ge")), left, right]


def size(site: Site) -> int:
    """Bytes of a site as JSON."""
    return len(json.dumps(site))
