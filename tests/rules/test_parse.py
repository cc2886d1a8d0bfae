"""The language as read: each of its forms, and every form that a parser of rule-engine knows and the language lacks."""

import re
import subprocess
import sys
import time

import pytest
from hypothesis import given

from checker.rules.faults import Fault, Refused
from checker.rules.parse import parse
from checker.rules.scan import LANGUAGE
from checker.rules.tree import Tree, branches, mentions, text, walk
from tests.rules.world import trees

A = ["get", ["name", "room"], "a"]
B = ["get", ["name", "room"], "b"]
LIST = ["get", ["name", "room"], "fans"]
D = ["name", "d"]
NOT_HELD = "this is not in the language"

FORMS: list[tuple[str, Tree]] = [
    ("room.a", A),
    ("((room.a))", A),
    ("room.a.b.c", ["get", ["get", A, "b"], "c"]),
    ("room.a == 3", ["cmp", "eq", A, ["num", "3"]]),
    ("room.a != 0.5", ["cmp", "ne", A, ["num", "0.5"]]),
    ("room.a < -2", ["cmp", "lt", A, ["num", "-2"]]),
    ("room.a <= 1e3", ["cmp", "le", A, ["num", "1E+3"]]),
    ("1 > room.a", ["cmp", "gt", ["num", "1"], A]),
    ("room.a >= room.b", ["cmp", "ge", A, B]),
    ('room.a == "B"', ["cmp", "eq", A, ["str", "B"]]),
    ("room.a == 'B'", ["cmp", "eq", A, ["str", "B"]]),
    ('room.a == "two words, é and it\'s"', ["cmp", "eq", A, ["str", "two words, é and it's"]]),
    ('room.a == "12 months"', ["cmp", "eq", A, ["str", "12 months"]]),
    ('room.a in ["x", "y z"]', ["in", A, ["x", "y z"]]),
    ('room.a not in ["x"]', ["not", ["in", A, ["x"]]]),
    ('not room.a in ["x"]', ["not", ["in", A, ["x"]]]),
    ("room.a and room.b", ["and", A, B]),
    ("room.a\n  and room.b", ["and", A, B]),
    ("room.a or room.b and room.a", ["or", A, ["and", B, A]]),
    ("(room.a or room.b) and room.a", ["and", ["or", A, B], A]),
    ("not room.a and room.b", ["and", ["not", A], B]),
    ("not (room.a and room.b)", ["not", ["and", A, B]]),
    ("not room.a == room.b", ["not", ["cmp", "eq", A, B]]),
    ("room.a + room.b - 1 < 2", ["cmp", "lt", ["calc", "sub", ["calc", "add", A, B], ["num", "1"]], ["num", "2"]]),
    ("room.a - (room.b - 1) < 2", ["cmp", "lt", ["calc", "sub", A, ["calc", "sub", B, ["num", "1"]]], ["num", "2"]]),
    ("room.a * 2 / room.b < 2", ["cmp", "lt", ["calc", "div", ["calc", "mul", A, ["num", "2"]], B], ["num", "2"]]),
    ("room.a + room.b * 2 < 2", ["cmp", "lt", ["calc", "add", A, ["calc", "mul", B, ["num", "2"]]], ["num", "2"]]),
    ("room.a(\"B\", limit.n) < 2",
     ["cmp", "lt", ["call", A, [["str", "B"], ["get", ["name", "limit"], "n"]]], ["num", "2"]]),
    ("table.t.near(room.a) < room.b",
     ["cmp", "lt", ["call", ["get", ["get", ["name", "table"], "t"], "near"], [A]], B]),
    ("due(room.a, 12 months) >= as_of", ["cmp", "ge", ["due", A, ["period", 12, 0, "12 months"]], ["name", "as_of"]]),
    ("due(room.a, 1  year) >= as_of", ["cmp", "ge", ["due", A, ["period", 12, 0, "1 year"]], ["name", "as_of"]]),
    ("due(room.a, 2 weeks) >= as_of", ["cmp", "ge", ["due", A, ["period", 0, 14, "2 weeks"]], ["name", "as_of"]]),
    ("due(room.a, 1 day) >= as_of", ["cmp", "ge", ["due", A, ["period", 0, 1, "1 day"]], ["name", "as_of"]]),
    ("all([d.x for d in room.fans])", ["all", "d", LIST, None, ["get", D, "x"]]),
    ("any([d.x for d in room.fans if d.y])", ["any", "d", LIST, ["get", D, "y"], ["get", D, "x"]]),
    ("count([d for d in room.fans]) > 2", ["cmp", "gt", ["count", "d", LIST, None, D], ["num", "2"]]),
    ("sum([d.x for d in room.fans if d.y]) > 2",
     ["cmp", "gt", ["sum", "d", LIST, ["get", D, "y"], ["get", D, "x"]], ["num", "2"]]),
    ("any([all([e.x for e in d.parts]) for d in room.fans])",
     ["any", "d", LIST, None, ["all", "e", ["get", D, "parts"], None, ["get", ["name", "e"], "x"]]]),
]  # fmt: skip


@pytest.mark.parametrize("written, tree", FORMS)
def test_a_form_is_read_as_its_tree(written: str, tree: Tree) -> None:
    assert parse(written) == tree


@pytest.mark.parametrize("tree", [tree for _, tree in FORMS])
def test_a_form_written_out_again_is_read_as_the_same_tree(tree: Tree) -> None:
    assert parse(text(tree)) == tree


@given(trees())
def test_what_is_written_out_is_read_back_as_it_was(tree: Tree) -> None:
    assert parse(text(tree)) == tree


REFUSED: list[tuple[str, list[tuple[int, str, str, str]]]] = [
    # names and values that stand ready in the engine
    ("as_of < $now", [(8, NOT_HELD, "$now", LANGUAGE)]),
    ("$range(3) == room.a", [(0, NOT_HELD, "$range", LANGUAGE)]),
    ("room.a == null", [(10, NOT_HELD, "null", "has_NAME, where there may be none")]),
    ("room.a == true", [(10, NOT_HELD, "true", "the name alone")]),
    ("room.a != false", [(10, NOT_HELD, "false", "`not` before the name")]),
    ("room.a < inf", [(9, NOT_HELD, "inf", LANGUAGE)]),
    ("room.a < nan", [(9, NOT_HELD, "nan", LANGUAGE)]),
    ("room.a < -inf", [(10, NOT_HELD, "inf", LANGUAGE)]),
    # patterns
    ('room.a =~ "a.*"', [(7, NOT_HELD, "=~", LANGUAGE)]),
    ('room.a =~~ "a"', [(7, NOT_HELD, "=~~", LANGUAGE)]),
    ('room.a !~ "a"', [(7, NOT_HELD, "!~", LANGUAGE)]),
    ('room.a !~~ "a"', [(7, NOT_HELD, "!~~", LANGUAGE)]),
    # other operators
    ("room.a ** 2 > 3", [(7, NOT_HELD, "**", LANGUAGE)]),
    ("room.a % 2 == 0", [(7, NOT_HELD, "%", LANGUAGE)]),
    ("room.a // 2 == 0", [(7, NOT_HELD, "//", LANGUAGE)]),
    ("room.a << 2 == 0", [(7, NOT_HELD, "<<", LANGUAGE)]),
    ("room.a >> 2 == 0", [(7, NOT_HELD, ">>", LANGUAGE)]),
    ("room.a & room.b", [(7, NOT_HELD, "&", "and")]),
    ("room.a && room.b", [(7, NOT_HELD, "&&", "and")]),
    ("room.a | room.b", [(7, NOT_HELD, "|", "or")]),
    ("room.a || room.b", [(7, NOT_HELD, "||", "or")]),
    ("room.a ^ room.b", [(7, NOT_HELD, "^", LANGUAGE)]),
    ("!room.a", [(0, NOT_HELD, "!", "not")]),
    ("room.a = 1", [(7, NOT_HELD, "=", "==")]),
    ("room.a&.b", [(6, NOT_HELD, "&.", LANGUAGE)]),
    ("room.a ?? room.b", [(7, NOT_HELD, "??", LANGUAGE)]),
    ("room.a ? room.b : room.c", [(7, NOT_HELD, "?", LANGUAGE), (16, NOT_HELD, ":", LANGUAGE)]),
    ("-room.a < 1", [(0, "a minus stands between numbers or before digits", "-", "0 - NAME")]),
    ("1 < room.a < 3", [(11, "the expression cannot be read from here on", "'<'", "an operator or the end")]),
    ("room.a == 1 == 1", [(12, "the expression cannot be read from here on", "'=='", "an operator or the end")]),
    ("due(room.a, 12 months) due", [(23, "the expression cannot be read from here on", "'due'",
                                     "an operator or the end")]),
    ("room.a and", [(10, "the expression ends too early", "the end", "the missing part")]),
    ("", [(0, "the expression ends too early", "the end", "the missing part")]),
    ("room.a # why", [(7, NOT_HELD, "#", LANGUAGE)]),
    ("room.a; room.b", [(6, NOT_HELD, ";", LANGUAGE)]),
    # literals
    ('as_of > d"2026-01-01"', [(8, NOT_HELD, 'd"2026-01-01"', LANGUAGE)]),
    ('as_of > t"P1D"', [(8, NOT_HELD, 't"P1D"', LANGUAGE)]),
    ('room.a == b"x"', [(10, NOT_HELD, 'b"x"', LANGUAGE)]),
    ('room.a == r"x"', [(10, NOT_HELD, 'r"x"', LANGUAGE)]),
    ("room.a < 0x10", [(9, "a number has another form", "0x10", "digits with a point, as in 0.5")]),
    ("room.a < 1_000", [(9, "a number has another form", "1_000", "digits with a point, as in 0.5")]),
    ("room.a < 5.", [(9, "a number has another form", "5.", "digits with a point, as in 0.5")]),
    ("room.a < .5", [(9, "a dot stands between names, or between digits", ".", "thing.field, or 0.5")]),
    ("room.a < 1e999999999", [(9, "a number has another form", "1e999999999", "digits with a point, as in 0.5")]),
    ("room.a < 5 ft", [(11, "a value with its unit stands in a provision, not in an expression", "5 ft",
                        "limit.NAME, and the value under `limit` of the provision")]),
    ('room.a is "x"', [(7, "this is not in the language", "is", "== for `is`, != for `is not`")]),
    ('room.a = "x"', [(7, "this is not in the language", "=", "==")]),
    ("room.a => limit.b", [(7, "this is not in the language", "=>", ">=")]),
    ("room.a == yes", [(10, "this is not in the language", "yes", "the name alone")]),
    ("room.a == no", [(10, "this is not in the language", "no", "`not` before the name")]),
    ("room.a == running room", [(10, "words stand in quotes", "running room", '"running room"')]),
    ("room.a in [running room]", [(11, "words stand in quotes", "running room", '"running room"')]),
    ("room.a in [store]", [(11, "words stand in quotes", "store", '"store"')]),
    ("room.a room.b", [(5, "nothing joins these names", "a room", "==, and, or another sign between them")]),
    (r'room.a == "say \"x\""', [(10, "a word holds no quotation mark and no backslash", r'"say \"x\""',
                                 'a word in plain quotes: "B"')]),
    ("room.a == 'say \"x\"'", [(10, "a word holds no quotation mark and no backslash", "'say \"x\"'",
                                'a word in plain quotes: "B"')]),
    (r'room.a == "a\b"', [(10, "a word holds no quotation mark and no backslash", r'"a\b"',
                           'a word in plain quotes: "B"')]),
    ('room.a == "B', [(10, "a word holds no quotation mark and no backslash", '"B', 'a word in plain quotes: "B"')]),
    # lists, sets, mappings
    ("room.fans[0].x", [(9, "a list is looked through as a whole", "[", "all, any, count or sum; or `in` before it")]),
    ("room.fans[0:1]", [(9, "a list is looked through as a whole", "[", "all, any, count or sum; or `in` before it"),
                        (11, NOT_HELD, ":", LANGUAGE)]),
    ('room.a == ["B"]', [(10, "a list is looked through as a whole", "[",
                          "all, any, count or sum; or `in` before it")]),
    ("[d.x for d in room.fans]", [(0, "a list is looked through as a whole", "[",
                                   "all, any, count or sum; or `in` before it")]),
    ("([d.x for d in room.fans])", [(1, NOT_HELD, "[", LANGUAGE)]),
    ('room.a in {"x", "y"}', [(10, NOT_HELD, "{", LANGUAGE), (19, NOT_HELD, "}", LANGUAGE)]),
    ('{"a": 1}', [(0, NOT_HELD, "{", LANGUAGE), (4, NOT_HELD, ":", LANGUAGE), (7, NOT_HELD, "}", LANGUAGE)]),
    ("room.a in []", [(6, "`in` looks in a list of words", " in ", 'in ["one", "other"]')]),
    ('room.a in ["x", 3]', [(6, "`in` looks in a list of words", " in ", "words in quotes only")]),
    ("room.a in room.b", [(6, "`in` looks in a list of words", " in ", 'in ["one", "other"]')]),
    ('"x" in room.b', [(3, "`in` looks in a list of words", " in ", 'in ["one", "other"]')]),
    # calls and names
    ('"abc".length == room.a', [(5, "a dot stands between names, or between digits", ".", "thing.field, or 0.5")]),
    ("room.f(1)(2) == 3", [(6, "only a quantity or a table can be called", "(", LANGUAGE)]),
    ("min(room.a)", [(0, "there is no function of this name", "min", "due, all, any, count, sum or a quantity")]),
    ("room.a < f(room.b)", [(9, "there is no function of this name", "f",
                             "due, all, any, count, sum or a quantity")]),
    ("due(room.a) > as_of", [(0, "`due` takes a day and a period", "due", "due(date, limit.every)")]),
    ("all(room.fans)", [(0, "`all` looks through one list", "all",
                         "all([d.name for d in thing.list if condition])")]),
    ("room.__class__", [(5, "a name has small letters, digits and _, and begins with a letter", "__class__",
                         "a name")]),
    ("room.a AND room.b", [(7, "this is written in small letters", "AND", "and")]),
    ("room.a Plus room.b", [(7, "a name has small letters, digits and _, and begins with a letter", "Plus", "a name")]),
    ("P12mmmmmm == room.a", [(0, "a name has small letters, digits and _, and begins with a letter", "P12mmmmmm",
                              "a name")]),
    ("1 < 2", [(0, "a comparison that is always the same says nothing", "1 < 2", "a name on one side")]),
    # all of them at once
    ("Room.a == null or room.b % 2 = 0",
     [(0, "a name has small letters, digits and _, and begins with a letter", "Room", "a name"),
      (10, NOT_HELD, "null", "has_NAME, where there may be none"),
      (25, NOT_HELD, "%", LANGUAGE),
      (29, NOT_HELD, "=", "==")]),
]  # fmt: skip


@pytest.mark.parametrize("written, faults", REFUSED, ids=[written for written, _ in REFUSED])
def test_what_the_language_lacks_is_refused_where_it_stands(
    written: str, faults: list[tuple[int, str, str, str]]
) -> None:
    with pytest.raises(Refused) as refused:
        parse(written)
    assert list(refused.value.faults) == [Fault(*fault) for fault in faults]


RUNAWAYS = [
    ("a" * 2001, "the expression is too long"),
    ("room.a == " + '"' + "x" * 2000 + '"', "the expression is too long"),
    (" and ".join(["a"] * 101), "the expression is too large"),
    (" and ".join(["a"] * 500), "the expression is too long"),
    (" or ".join(["a"] * 330), "the expression is too large"),
    ("not " * 490 + "a", "the expression is too large"),
    ("-" * 1900 + "1 < a", "the expression is too large"),
    ("a" + ".a" * 300, "the expression is too large"),
    ("(" * 31 + "a" + ")" * 31, "brackets are nested too deeply"),
    ("(" * 1990, "brackets are nested too deeply"),
    ("[" * 1990, "brackets are nested too deeply"),
    ("room.a < (1 << 9999999)", NOT_HELD),
    ("room.a < 9 ** 9 ** 9 ** 9", NOT_HELD),
    ('room.a and "' + "a" * 40 + '!" =~ "(a+)+$"', NOT_HELD),
    ('"' * 1999, "the expression is too large"),
    ("room.a == " + "'" + '"' * 1900, "a word holds no quotation mark and no backslash"),
    ("1e" * 900, "a number has another form"),
]


@pytest.mark.parametrize("written, says", RUNAWAYS, ids=[f"{says} {written[:12]}" for written, says in RUNAWAYS])
def test_a_runaway_is_refused_at_once(written: str, says: str) -> None:
    parse("a")
    start = time.process_time()
    with pytest.raises(Refused) as refused:
        parse(written)
    assert time.process_time() - start < 0.2
    assert says in [fault.says for fault in refused.value.faults]


@pytest.mark.parametrize(
    "written, nodes",
    [(" and ".join(["a"] * 100), 199), ("a" + ".a" * 199, 200), ("(" * 30 + "a" + ")" * 30, 1), ("a" * 2000, 1)],
)
def test_the_largest_that_is_still_read(written: str, nodes: int) -> None:
    assert sum(1 for _ in walk(parse(written))) == nodes


def test_an_expression_of_201_nodes_says_how_many_it_has() -> None:
    with pytest.raises(Refused) as refused:
        parse("not " + "a" + ".a" * 199)
    assert list(refused.value.faults) == [Fault(0, "the expression is too large", "201 parts", "at most 200")]


@given(trees())
def test_a_walk_meets_every_name_that_is_written(tree: Tree) -> None:
    begun = {node[1] for node in walk(tree) if node[0] == "name"}
    assert begun <= set(re.findall(r"\w+", text(tree)))
    assert all(mentions(tree, frozenset({name})) for name in begun)
    assert not mentions(tree, frozenset({"nowhere"}))
    assert sum(1 for _ in walk(tree)) == 1 + sum(sum(1 for _ in walk(branch)) for branch in branches(tree))


def test_reading_is_left_to_the_engine_only_when_something_is_parsed() -> None:
    code = (
        "import sys, checker.rules.parse as p\n"
        "assert 'rule_engine' not in sys.modules\n"
        "p.parse('a')\n"
        "assert 'rule_engine' in sys.modules\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
