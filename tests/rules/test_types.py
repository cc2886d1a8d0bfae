"""The check of an expression against its names: everything wrong is told, each thing once, at its place."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.rules.faults import Fault, Refused
from checker.rules.parse import parse
from checker.rules.tree import Tree
from checker.rules.types import ANSWER, DATE, PERIOD, Scope, TableShape, check, type_of_kind, type_within
from checker.units import KINDS
from tests.rules.world import COLOURS, SCOPE, THINGS, trees

FIELDS = sorted(THINGS["box"])
FIRST = f"one of {', '.join(FIELDS[:12])} …"


def faults(written: str, scope: Scope = SCOPE) -> list[tuple[int, str, str, str]]:
    """What is wrong with an expression: (place, what, found, wanted); nothing if it is right."""
    try:
        check(parse(written), written, scope)
    except Refused as refused:
        return [(fault.offset, fault.says, fault.found, fault.wanted) for fault in refused.faults]
    return []


RIGHT = [
    "box.p",
    "not box.p",
    'box.fits("red")',
    "box.has_lid and box.lid.n <= limit.x",
    "site.employer or box.p",
    "box.a <= limit.x",
    "box.a + box.b - limit.x < limit.y * 2",
    "box.reach(limit.x) <= limit.y",
    "box.reach(box.a + box.b) / 2 <= limit.y",
    "table.grip.near(box.colour, box.a) >= box.b",
    'table.grip.far("red", limit.x) >= box.b',
    'box.colour == "red"',
    '"red" != box.colour',
    'box.colour in ["red", "blue"]',
    'box.name == "whatever it says"',
    "due(box.tested_on, limit.every) >= as_of",
    "due(box.tested_on, 12 months) >= as_of",
    "box.tested_on < as_of",
    "all([i.ok for i in box.items])",
    'any([i.n <= limit.x for i in box.items if i.colour == "red"])',
    "count([i for i in box.items if i.ok]) >= 2",
    "sum([i.n for i in box.items]) <= limit.x",
    "count([i for i in box.items]) <= box.heads * 2",
    "box.flow_per_area * box.area <= box.flow",
    "box.area * box.flow_per_area <= box.flow",
    "box.flow / box.area >= box.flow_per_area",
    "box.a * box.b <= box.area",
    "box.area / box.a <= limit.x",
    "box.a / box.b <= 2",
    "box.volts * box.amps <= box.power",
    "box.share * box.heads < 3",
    "box.warmth - box.warmth < box.rise",
    "box.warmth + box.rise < box.warmth",
    "box.warmth - box.rise < box.warmth",
    "box.gauge * 1.5 < box.gauge",
    "box.loudness < box.loudness",
]


@pytest.mark.parametrize("written", RIGHT)
def test_what_is_right_passes(written: str) -> None:
    assert faults(written) == []


@given(trees())
def test_what_is_made_right_passes(tree: Tree) -> None:
    check(tree, "", SCOPE)


NAMES = [
    ("bax.a < limit.x", [(0, "there is no such name here", "bax", "box")]),
    ("crate", [(0, "there is no such name here", "crate", "one of as_of, box, limit, site, table")]),
    ("box.collour == \"red\"", [(4, "a box has no such field", "box.collour", "colour")]),
    ("box.zzz < limit.x", [(4, "a box has no such field", "box.zzz", FIRST)]),
    ("box.lid.thickness < limit.x", [(8, "a box lid has no such field", "box.lid.thickness", "one of n")]),
    ("box.a.b < limit.x", [(6, "length has no parts", "box.a.b", "a field of a thing")]),
    ("box.p.q", [(6, "an answer has no parts", "box.p.q", "a field of a thing")]),
    ("box.items.n < limit.x", [(10, "a list has no parts", "box.items.n", "a field of a thing")]),
    ("box.a < limit.z", [(14, "the rule has no such limit", "limit.z", "one of every, x, y")]),
    ("box.tested_on < due(box.tested_on, limit.evry)",
     [(41, "the rule has no such limit", "limit.evry", "every")]),
    ("limit", [(0, "this name alone says nothing", "limit", "limit.NAME")]),
    ("box.p and table", [(10, "this name alone says nothing", "table", "table.NAME")]),
    ("table.grip.near < box.a", [(6, "a table is called by a column", "table.grip", "table.NAME.COLUMN(keys)")]),
    ("table.grap.near(box.colour, box.a) < box.a", [(6, "the rule has no such table", "table.grap", "grip")]),
    ("table.grip.neer(box.colour, box.a) < box.a", [(11, "table grip has no such column", "neer", "near")]),
    ("all([d.ok for i in box.items])", [(5, "there is no such name here", "d", "one of as_of, box, i, limit, site, "
                                         "table")]),
    ("all([i.oak for i in box.items])", [(7, "an item has no such field", "i.oak", "ok")]),
    ("all([i.ok for i in box.itms])", [(23, "a box has no such field", "box.itms", "items")]),
    ("i.ok and all([i.ok for i in box.items])", [(0, "there is no such name here", "i",
                                                  "one of as_of, box, limit, site, table")]),
]  # fmt: skip

KINDS_WRONG = [
    ("box.a < 3", [(0, "these kinds cannot be compared", "length (box.a) with number (3)", "two sides of one kind")]),
    ("box.a < box.area", [(0, "these kinds cannot be compared", "length (box.a) with area (box.area)",
                           "two sides of one kind")]),
    ("box.a == box.p", [(0, "these cannot be compared", "length (box.a) with an answer (box.p)",
                         "two sides of one kind")]),
    ("box.a < \"5 ft\"", [(0, "these cannot be compared", "length (box.a) with a word (\"5 ft\")",
                           "two sides of one kind")]),
    ("box.warmth < box.rise", [(0, "these kinds cannot be compared",
                                "temperature (box.warmth) with temperature difference (box.rise)",
                                "two sides of one kind")]),
    ("box.gauge < box.absolute", [(0, "these kinds cannot be compared",
                                   "pressure gauge (box.gauge) with pressure absolute (box.absolute)",
                                   "two sides of one kind")]),
    ("box.gauge < box.stress", [(0, "these kinds cannot be compared",
                                 "pressure gauge (box.gauge) with stress (box.stress)", "two sides of one kind")]),
    ("box.free_air < box.flow", [(0, "these kinds cannot be compared", "free air (box.free_air) with flow (box.flow)",
                                  "two sides of one kind")]),
    ("box.loudness < box.peak", [(0, "these kinds cannot be compared",
                                  "sound level (box.loudness) with sound level c (box.peak)",
                                  "two sides of one kind")]),
    ("box.flow_per_area * box.area < box.free_air",
     [(0, "these kinds cannot be compared",
       "a product in m3 s-1 (box.flow_per_area * box.area) with free air (box.free_air)", "two sides of one kind")]),
    ("box.volts * box.amps < box.apparent",
     [(0, "these kinds cannot be compared",
       "a product in m2 kg s-3 (box.volts * box.amps) with apparent power (box.apparent)", "two sides of one kind")]),
    ("box.loudness + box.loudness < box.loudness",
     [(0, "this arithmetic has no meaning", "sound level (box.loudness) and sound level (box.loudness)",
       "kinds that go together")]),
    ("box.peak + box.peak < box.peak",
     [(0, "this arithmetic has no meaning", "sound level c (box.peak) and sound level c (box.peak)",
       "kinds that go together")]),
    ("box.loudness * 2 < box.loudness", [(0, "this arithmetic has no meaning",
                                          "sound level (box.loudness) and number (2)", "kinds that go together")]),
    ("box.warmth + box.warmth < box.warmth",
     [(0, "this arithmetic has no meaning", "temperature (box.warmth) and temperature (box.warmth)",
       "kinds that go together")]),
    ("box.warmth * 2 < box.warmth", [(0, "this arithmetic has no meaning", "temperature (box.warmth) and number (2)",
                                      "kinds that go together")]),
    ("box.a + box.area < box.a", [(0, "this arithmetic has no meaning", "length (box.a) and area (box.area)",
                                   "kinds that go together")]),
    ("box.a + 1 < box.a", [(0, "this arithmetic has no meaning", "length (box.a) and number (1)",
                            "kinds that go together")]),
    ("box.p + box.a < box.a", [(0, "arithmetic wants numbers", "an answer (box.p) and length (box.a)", "two numbers")]),
    ("box.tested_on < 3", [(0, "these cannot be compared", "a date (box.tested_on) with number (3)",
                            "two sides of one kind")]),
    ("as_of < limit.x", [(0, "these cannot be compared", "a date (as_of) with length (limit.x)",
                          "two sides of one kind")]),
    ("limit.every < 12 months", [(0, "these cannot be compared", "a period (limit.every) with a period (12 months)",
                                  "two sides of one kind")]),
    ("box.p == box.q", [(0, "answers are not compared", "an answer (box.p) with an answer (box.q)",
                         "the answer itself, or `not` before it")]),
    ('box.colour < "red"', [(0, "words have no order", 'a word (box.colour) with a word ("red")', "== or !=")]),
    ('box.name >= "red"', [(0, "words have no order", 'a text (box.name) with a word ("red")', "== or !=")]),
    ("box.lid == box.lid", [(0, "these cannot be compared", "a box lid (box.lid) with a box lid (box.lid)",
                             "two sides of one kind")]),
    ("box.items == box.items", [(0, "these cannot be compared", "a list (box.items) with a list (box.items)",
                                 "two sides of one kind")]),
    ("box.reach < limit.x", [(0, "these cannot be compared", "a function (box.reach) with length (limit.x)",
                              "two sides of one kind")]),
]  # fmt: skip

ANSWERS = [
    ("box.lid", [(0, "a rule says yes or no", "a box lid (box.lid)", "a comparison or an answer")]),
    ("box.a", [(0, "a rule says yes or no", "length (box.a)", "a comparison or an answer")]),
    ("box.a + box.b", [(0, "a rule says yes or no", "length (box.a + box.b)", "a comparison or an answer")]),
    ("12 months", [(0, "a rule says yes or no", "a period (12 months)", "a comparison or an answer")]),
    ("due(box.tested_on, 1 year)", [(0, "a rule says yes or no", "a date (due(box.tested_on, 1 year))",
                                     "a comparison or an answer")]),
    ("box.reach(limit.x)", [(0, "a rule says yes or no", "length (box.reach(limit.x))", "a comparison or an answer")]),
    ("box.fits", [(0, "a rule says yes or no", "a function (box.fits)", "a comparison or an answer")]),
    ("box.lid and box.p", [(0, "a thing is no answer", "box.lid", "has_NAME, or one of its own fields")]),
    ("not box.a", [(4, "`and`, `or` and `not` join answers", "length (box.a)", "a comparison")]),
    ("box.p or box.colour", [(9, "`and`, `or` and `not` join answers", "a word (box.colour)", "a comparison")]),
]  # fmt: skip

WORDS = [
    ("box.colour == red", [(14, "words stand in quotes", "red", '"red"')]),
    ("red != box.colour", [(0, "words stand in quotes", "red", '"red"')]),
    ("box.colour == rod", [(14, "words stand in quotes", "rod", '"red"')]),
    ("box.name == anything", [(12, "words stand in quotes", "anything", '"anything"')]),
    ("box.colour != purple", [(14, "words stand in quotes", "purple", 'one of "blue", "green", "red"')]),
    ("box.p and all([i.colour == red for i in box.items])", [(27, "words stand in quotes", "red", '"red"')]),
    ("box.colour == limit", [(14, "this name alone says nothing", "limit", "limit.NAME")]),
    ('box.colour == "rod"', [(14, "box.colour never holds this word", '"rod"', '"red"')]),
    ('"rod" == box.colour', [(0, "box.colour never holds this word", '"rod"', '"red"')]),
    ('box.colour in ["red", "purple"]', [(22, "box.colour never holds this word", '"purple"',
                                          'one of "blue", "green", "red"')]),
    ('box.colour in ["rod", "bleu"]', [(15, "box.colour never holds this word", '"rod"', '"red"'),
                                       (22, "box.colour never holds this word", '"bleu"', '"blue"')]),
    ('box.a in ["red"]', [(0, "only a word can be one of several", "length (box.a)", "a word")]),
    ('box.p in ["yes"]', [(0, "only a word can be one of several", "an answer (box.p)", "a word")]),
    ('all([i.colour == "rod" for i in box.items])', [(17, "i.colour never holds this word", '"rod"', '"red"')]),
]  # fmt: skip

CALLS = [
    ("box.reach() < limit.x", [(0, "wrong number of arguments", "0 in box.reach", "(from_)")]),
    ("box.reach(limit.x, limit.y) < limit.x", [(0, "wrong number of arguments", "2 in box.reach", "(from_)")]),
    ("box.reach(3) < limit.x", [(10, "wrong kind for from_", "number (3)", "length")]),
    ("box.reach(box.colour) < limit.x", [(10, "wrong kind for from_", "a word (box.colour)", "length")]),
    ("box.fits(box.a)", [(9, "wrong kind for colour", "length (box.a)", "a word")]),
    ("box.a(3) < limit.x", [(4, "this is no function", "box.a", "the name alone")]),
    ("limit.x(3) < limit.x", [(6, "this is no function", "limit.x", "the name alone")]),
    ("table.grip.near(box.colour) < limit.x", [(0, "wrong number of arguments", "1 in table.grip.near",
                                                "(colour, from_)")]),
    ("table.grip.near(box.a, box.colour) < limit.x",
     [(16, "wrong kind for colour", "length (box.a)", "a word"),
      (23, "wrong kind for from_", "a word (box.colour)", "length")]),
    ("due(box.a, 12 months) > as_of", [(4, "due counts from a day", "length (box.a)", "a date")]),
    ("due(box.tested_on, 3) > as_of", [(19, "due counts a period", "number (3)", "a period")]),
    ("due(box.tested_on, limit.x) > as_of", [(19, "due counts a period", "length (limit.x)", "a period")]),
    ("due(box.tested_on, 1 year) > 3", [(0, "these cannot be compared",
                                         "a date (due(box.tested_on, 1 year)) with number (3)",
                                         "two sides of one kind")]),
]  # fmt: skip

LISTS = [
    ("all([i.n for i in box.items])", [(5, "`and`, `or` and `not` join answers", "length (i.n)", "a comparison")]),
    ("any([i for i in box.items])", [(5, "a thing is no answer", "i", "has_NAME, or one of its own fields")]),
    ("all([i.ok for i in box.items if i.n])", [(32, "`and`, `or` and `not` join answers", "length (i.n)",
                                                "a comparison")]),
    ("all([i.ok for i in box.a])", [(19, "`all` looks through a list", "length (box.a)", "a list")]),
    ("all([i.ok for i in box.lid])", [(19, "`all` looks through a list", "a box lid (box.lid)", "a list")]),
    ("count([i.ok for i in box.items]) > 1", [(7, "`count` counts members", "i.ok", "count([i for i in …])")]),
    ("count([i for i in box.items]) > limit.x",
     [(0, "these kinds cannot be compared", "number (count([i for i in box.items])) with length (limit.x)",
       "two sides of one kind")]),
    ("sum([i.ok for i in box.items]) > 1", [(5, "`sum` adds numbers", "an answer (i.ok)", "a number")]),
    ("sum([i.loudness for i in box.items]) < box.loudness",
     [(5, "this sum has no meaning", "sound level (i.loudness)", "what can be added")]),
    ("sum([i.warmth for i in box.items]) < box.warmth",
     [(5, "this sum has no meaning", "temperature (i.warmth)", "what can be added")]),
    ("sum([i.n for i in box.items]) > 3", [(0, "these kinds cannot be compared",
                                            "length (sum([i.n for i in box.items])) with number (3)",
                                            "two sides of one kind")]),
    ("all([site.ok for site in box.items])", [(5, "the name is taken", "site", "another name for the member")]),
    ("all([box.ok for box in box.items])", [(5, "the name is taken", "box", "another name for the member")]),
    ("all([any([i.ok for i in box.items]) for i in box.items])",
     [(10, "the name is taken", "i", "another name for the member")]),
]  # fmt: skip

TOGETHER = [
    ("box.hight < limit.z and box.colour == \"rod\" and box.warmth < box.rise or box.lid",
     [(4, "a box has no such field", "box.hight", FIRST),
      (18, "the rule has no such limit", "limit.z", "one of every, x, y"),
      (38, "box.colour never holds this word", '"rod"', '"red"'),
      (48, "these kinds cannot be compared", "temperature (box.warmth) with temperature difference (box.rise)",
       "two sides of one kind"),
      (73, "a thing is no answer", "box.lid", "has_NAME, or one of its own fields")]),
]  # fmt: skip

TABLES = [*NAMES, *KINDS_WRONG, *ANSWERS, *WORDS, *CALLS, *LISTS]


@pytest.mark.parametrize("written, wrong", TABLES, ids=[written for written, _ in TABLES])
def test_what_is_wrong_is_told_where_it_stands(written: str, wrong: list[tuple[int, str, str, str]]) -> None:
    assert faults(written) == wrong


@pytest.mark.parametrize("written, wrong", TOGETHER)
def test_all_that_is_wrong_is_told_at_once(written: str, wrong: list[tuple[int, str, str, str]]) -> None:
    assert faults(written) == wrong


@given(st.lists(st.sampled_from([written for written, _ in TABLES]), min_size=2, max_size=3, unique=True))
def test_each_wrong_side_is_told_whatever_stands_beside_it(sides: list[str]) -> None:
    told = {says for _, says, _, _ in faults(" or ".join(f"({side})" for side in sides))}
    alone = {says for side in sides for _, says, _, _ in faults(side)}
    assert alone - {"a rule says yes or no"} <= told


def test_a_fault_keeps_its_fields_and_the_refusal_its_order() -> None:
    with pytest.raises(
        Refused, match=r"a box has no such field \(found box.hight\); the rule has no such limit"
    ) as told:
        check(parse("box.hight < limit.z"), "box.hight < limit.z", SCOPE)
    assert told.value.faults[1] == Fault(18, "the rule has no such limit", "limit.z", "one of every, x, y")


def test_a_rule_without_limits_or_tables_says_that_none_is_declared() -> None:
    bare = Scope("box", {}, {}, THINGS)
    assert faults("box.a < limit.x", bare) == [(14, "the rule has no such limit", "limit.x", "none is declared")]
    assert faults("box.a < table.t.c(1)", bare) == [(14, "the rule has no such table", "table.t", "none is declared")]


@pytest.mark.parametrize("kind", sorted(set(KINDS) - {"period"}))
def test_a_kind_gives_a_number_of_its_name(kind: str) -> None:
    number = type_of_kind(kind).number
    assert number is not None
    assert (number.name, number.dimension) == (kind, KINDS[kind].dimension)


@pytest.mark.parametrize(
    "written, base, name",
    [("box.a + box.b", "number", "length"), ("box.a * box.b", "number", None), ("box.a / box.b", "number", "number"),
     ("box.colour", "word", None), ("table.grip.far(box.colour, box.a)", "number", "length"),
     ("box.fits(box.colour)", "answer", None), ("as_of", "date", None)],
)  # fmt: skip
def test_the_type_of_a_part(written: str, base: str, name: str | None) -> None:
    given = type_within(parse(written), SCOPE)
    assert (given.base, given.number and given.number.name) == (base, name)


def test_a_member_has_the_type_of_its_list() -> None:
    inner = {"i": type_within(["get", ["name", "box"], "lid"], SCOPE)}
    assert type_within(parse("i.n"), SCOPE, inner).base == "number"
    assert type_within(parse("box.colour"), SCOPE).choices == frozenset(COLOURS)
    assert (ANSWER.base, DATE.base, PERIOD.base) == ("answer", "date", "period")
    assert TableShape({}, {}) == TableShape({}, {})
