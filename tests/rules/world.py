"""A small world made by hand: the names of a box, facts for them with and without gaps, and expressions over them.

It stands apart from the site model, so that these tests hold the language and not the fields of a site.
"""

import datetime as dt
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from hypothesis import strategies as st

from checker.findings.due import due
from checker.quantities import Argument, Attribute, Missing, Need, OpenList
from checker.rules.tree import Tree
from checker.rules.types import Scope, TableShape
from checker.units import NOT_ASKED, Period

COLOURS = ("blue", "green", "red")
DAY = dt.date(2026, 11, 25)
LIMITS = {"x": "length", "y": "length", "every": "period"}


def _named(*attributes: Attribute) -> dict[str, Attribute]:
    return {attribute.name: attribute for attribute in attributes}


THINGS: Mapping[str, Mapping[str, Attribute]] = {
    "box": _named(
        Attribute("a", "number", "length"),
        Attribute("b", "number", "length"),
        Attribute("p", "answer"),
        Attribute("q", "answer"),
        Attribute("colour", "word", choices=frozenset(COLOURS)),
        Attribute("name", "text"),
        Attribute("tested_on", "date"),
        Attribute("items", "list", thing="item"),
        Attribute("lid", "thing", thing="box.lid", maybe_none=True),
        Attribute("has_lid", "answer"),
        Attribute("reach", "function", "length", arguments=(Argument("from_", "length"),), returns="number"),
        Attribute("fits", "function", arguments=(Argument("colour", "word"),), returns="answer"),
        Attribute("area", "number", "area"),
        Attribute("flow", "number", "flow"),
        Attribute("free_air", "number", "free_air"),
        Attribute("flow_per_area", "number", "flow_per_area"),
        Attribute("warmth", "number", "temperature"),
        Attribute("rise", "number", "temperature_difference"),
        Attribute("gauge", "number", "pressure_gauge"),
        Attribute("absolute", "number", "pressure_absolute"),
        Attribute("stress", "number", "stress"),
        Attribute("loudness", "number", "sound_level"),
        Attribute("peak", "number", "sound_level_c"),
        Attribute("apparent", "number", "apparent_power"),
        Attribute("volts", "number", "voltage"),
        Attribute("amps", "number", "current"),
        Attribute("power", "number", "power"),
        Attribute("heads", "number", "count"),
        Attribute("share", "number", "ratio"),
    ),
    "box.lid": _named(Attribute("n", "number", "length")),
    "item": _named(
        Attribute("n", "number", "length"),
        Attribute("ok", "answer"),
        Attribute("colour", "word", choices=frozenset(COLOURS)),
        Attribute("loudness", "number", "sound_level"),
        Attribute("warmth", "number", "temperature"),
    ),
    "site": _named(Attribute("employer", "answer")),
}
TABLES = {
    "grip": TableShape({"colour": "word", "from_": "length"}, {"near": "length", "far": "length"}),
    "often": TableShape({"colour": "word"}, {"again": "period"}),
}
SCOPE = Scope("box", LIMITS, TABLES, THINGS)


class Part(dict[str, Any]):
    """What is recorded of a thing; the rest is missing."""

    def __init__(self, path: str, **recorded: Any) -> None:
        """Keep what is recorded."""
        super().__init__(recorded)
        self.path = path

    def __missing__(self, name: str) -> Any:
        """Raise Missing."""
        raise Missing(f"{self.path}.{name}", "not recorded")

    __eq__ = object.__eq__
    __hash__ = object.__hash__  # type: ignore[assignment]


def double(length: Decimal) -> Decimal:
    """What `box.reach` gives; nothing is known beyond 3 m."""
    if length > 3:
        raise Missing("box.reach", "outside range", "up to 3 m")
    return 2 * length


def facts(box: Mapping[str, Any], limit: Mapping[str, Any] | None = None, **more: Any) -> dict[str, Any]:
    """Names for an evaluation."""
    return {
        "box": Part("box", **{"reach": double, **box}),
        "limit": Part("limit", **(limit or {})),
        "as_of": DAY,
        "due": due,
        **more,
    }


def opened(*members: Part) -> OpenList:
    """A list of which more may be there."""
    return OpenList(members, Need("box.items", "not reached", "behind the rack"))  # type: ignore[arg-type]


# --- facts at random


numbers = st.integers(0, 6).map(lambda n: Decimal(n) / 2)
answers = st.booleans()
colours = st.sampled_from(COLOURS)
periods = st.sampled_from([NOT_ASKED, *(Period(months=12 * years) for years in (1, 2, 3, 4))])
days = st.integers(0, 4).map(lambda n: dt.date(2022 + n, 6, 30))


@st.composite
def random_facts(draw: st.DrawFn, gaps: bool) -> dict[str, Any]:
    """Facts of a box, with one value in five not recorded where there may be gaps."""

    def recorded(path: str, **strategies: st.SearchStrategy[Any]) -> Part:
        whole = Part(path)
        for name, strategy in strategies.items():
            if not gaps or draw(st.integers(0, 4)):
                whole[name] = draw(strategy)
        return whole

    members = tuple(
        recorded(f"items[{number}]", n=numbers, ok=answers, colour=colours) for number in range(draw(st.integers(0, 3)))
    )
    box = recorded("box", a=numbers, b=numbers, p=answers, q=answers, colour=colours, tested_on=days)
    box["reach"] = double if gaps else lambda length: 2 * length
    if not gaps or draw(st.integers(0, 4)):
        box["items"] = opened(*members) if gaps and draw(st.booleans()) else members
    limit = recorded("limit", x=numbers, y=numbers, every=periods)
    return {"box": box, "limit": limit, "as_of": DAY, "due": due}


# --- expressions at random


def _get(of: str, name: str) -> Tree:
    return ["get", ["name", of], name]


def _lengths(variables: tuple[str, ...], depth: int) -> st.SearchStrategy[Tree]:
    leaves = [_get("box", "a"), _get("box", "b"), _get("limit", "x"), _get("limit", "y")]
    leaves += [_get(variable, "n") for variable in variables]
    plain = st.sampled_from(leaves)
    if depth <= 0:
        return plain
    deeper = st.deferred(lambda: _lengths(variables, depth - 1))
    factor = st.sampled_from(["0.5", "2", "3"]).map(lambda digits: ["num", digits])
    return st.one_of(
        plain,
        plain,
        st.tuples(st.sampled_from(["add", "sub"]), deeper, deeper).map(lambda t: ["calc", *t]),
        st.tuples(st.sampled_from(["mul", "div"]), deeper, factor).map(lambda t: ["calc", *t]),
        deeper.map(lambda inner: ["call", _get("box", "reach"), [inner]]),
        _over("sum", variables, depth - 1),
    )


def _over(word: str, variables: tuple[str, ...], depth: int) -> st.SearchStrategy[Tree]:
    name = "ij"[len(variables) % 2]
    if len(variables) > 1:
        return st.just(_get("box", "a")) if word == "sum" else st.just(_get("box", "p"))
    inner = (*variables, name)
    body = {
        "sum": _lengths(inner, min(depth, 1)),
        "count": st.just(["name", name]),
    }.get(word, _answers(inner, min(depth, 1)))
    condition = st.one_of(st.none(), _answers(inner, min(depth, 1)))
    return st.tuples(condition, body).map(lambda t: [word, name, _get("box", "items"), *t])


def _answers(variables: tuple[str, ...], depth: int) -> st.SearchStrategy[Tree]:
    ops = st.sampled_from(["eq", "ne", "lt", "le", "gt", "ge"])
    lengths = st.deferred(lambda: _lengths(variables, depth - 1))
    colour = st.sampled_from([_get(name, "colour") for name in ("box", *variables)])
    word = st.sampled_from(COLOURS)
    compared = st.tuples(ops, lengths, lengths).map(lambda t: ["cmp", *t])
    leaves = [
        compared,
        compared,
        st.sampled_from([_get("box", "p"), _get("box", "q"), *(_get(name, "ok") for name in variables)]),
        st.tuples(st.sampled_from(["eq", "ne"]), colour, word).map(lambda t: ["cmp", t[0], t[1], ["str", t[2]]]),
        st.tuples(colour, st.lists(word, min_size=1, max_size=2, unique=True)).map(lambda t: ["in", *t]),
    ]
    if depth <= 0:
        return st.one_of(leaves)
    deeper = st.deferred(lambda: _answers(variables, depth - 1))
    joined = st.tuples(st.sampled_from(["and", "or"]), deeper, deeper).map(list)
    number = st.sampled_from("0123").map(lambda digit: ["num", digit])
    counted = st.tuples(ops, _over("count", variables, depth - 1), number).map(lambda t: ["cmp", *t])
    in_time = ops.map(lambda op: ["cmp", op, ["due", _get("box", "tested_on"), _get("limit", "every")],
                                  ["name", "as_of"]])  # fmt: skip
    listed = [_over(word, variables, depth - 1) for word in ("all", "any")] if len(variables) < 2 else []
    return st.one_of(joined, joined, joined, deeper.map(lambda inner: ["not", inner]), *leaves[:3], in_time, counted,
                     *listed)  # fmt: skip


def trees(depth: int = 3) -> st.SearchStrategy[Tree]:
    """Expressions that give an answer, all right for SCOPE."""
    return _answers((), depth)
