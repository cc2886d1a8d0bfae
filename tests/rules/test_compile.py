"""The compiled evaluator: Kleene's logic cell by cell, lists with gaps, sides, needs, faults; and two other evaluators.

The tables are those of Kleene's strong logic (S. C. Kleene, Introduction to Metamathematics, 1952, section 64; from
memory, to be confirmed). The engine is rule-engine's own evaluation of the same text; the reference is kleene.py.
"""

import datetime as dt
import decimal
from collections import Counter
from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import event, given, settings, target
from hypothesis import strategies as st

from checker.quantities import Broken, Missing, Need
from checker.rules.compile import compile_tree, compile_trees, limit_stands_left
from checker.rules.compile import parts as compiled_parts
from checker.rules.parse import parse
from checker.rules.tree import Tree
from checker.rules.types import check
from checker.units import GRID, Period
from tests.rules.engine import engine_answer
from tests.rules.kleene import reference
from tests.rules.world import DAY, SCOPE, Part, double, facts, opened, random_facts, trees

Asked = tuple[bool | None, tuple[Any, ...], list[Need]]
T, F, U = True, False, None
WRITTEN = {True: "yes", False: "no", None: "unknown"}


def ask(written: str | Tree, names: Mapping[str, Any]) -> Asked:
    """Truth, sides and needs of an expression."""
    gaps: list[Missing] = []
    with decimal.localcontext(GRID):
        truth, sides = compile_tree(parse(written) if isinstance(written, str) else written)(names, gaps)
    return truth, sides, [need for gap in gaps for need in gap.needs]


def recorded(**answers: bool | None) -> dict[str, bool]:
    return {name: answer for name, answer in answers.items() if answer is not None}


AND = [(T, T, T), (T, F, F), (T, U, U), (F, T, F), (F, F, F), (F, U, F), (U, T, U), (U, F, F), (U, U, U)]
OR = [(T, T, T), (T, F, T), (T, U, T), (F, T, T), (F, F, F), (F, U, U), (U, T, T), (U, F, U), (U, U, U)]
NOT = [(T, F), (F, T), (U, U)]


@pytest.mark.parametrize("p, q, both", AND)
def test_and(p: bool | None, q: bool | None, both: bool | None) -> None:
    assert ask("box.p and box.q", facts(recorded(p=p, q=q)))[0] is both


@pytest.mark.parametrize("p, q, either", OR)
def test_or(p: bool | None, q: bool | None, either: bool | None) -> None:
    assert ask("box.p or box.q", facts(recorded(p=p, q=q)))[0] is either


@pytest.mark.parametrize("p, opposite", NOT)
def test_not(p: bool | None, opposite: bool | None) -> None:
    assert ask("not box.p", facts(recorded(p=p)))[0] is opposite


def item(number: int, ok: bool | None = None, n: int | None = None, colour: str | None = None) -> Part:
    given = {"ok": ok, "n": None if n is None else Decimal(n), "colour": colour}
    return Part(f"items[{number}]", **{name: value for name, value in given.items() if value is not None})


def listed(*answers: bool | None) -> list[Part]:
    return [item(number, ok) for number, ok in enumerate(answers)]


ABSENT = object()
LISTS: list[tuple[str, Any, bool | None, bool | None]] = [  # members, open or not; all; any
    ("none", (), T, F),
    ("open, nothing seen", opened(), U, U),
    ("absent", ABSENT, U, U),
    ("yes", tuple(listed(T)), T, T),
    ("no", tuple(listed(F)), F, F),
    ("unknown", tuple(listed(U)), U, U),
    ("yes no", tuple(listed(T, F)), F, T),
    ("yes unknown", tuple(listed(T, U)), U, T),
    ("unknown yes", tuple(listed(U, T)), U, T),
    ("no unknown", tuple(listed(F, U)), F, U),
    ("unknown no", tuple(listed(U, F)), F, U),
    ("yes no unknown", tuple(listed(T, F, U)), F, T),
    ("open, yes", opened(*listed(T)), U, T),
    ("open, no", opened(*listed(F)), F, U),
    ("open, unknown", opened(*listed(U)), U, U),
]


@pytest.mark.parametrize("name, members, every, some", LISTS, ids=[name for name, *_ in LISTS])
def test_all_and_any(name: str, members: Any, every: bool | None, some: bool | None) -> None:
    names = facts({} if members is ABSENT else {"items": members})
    assert ask("all([i.ok for i in box.items])", names)[0] is every
    assert ask("any([i.ok for i in box.items])", names)[0] is some
    assert ask("not any([not i.ok for i in box.items])", names)[0] is every


CONDITIONS = [  # condition, answer of one member; all, any
    (T, T, T, T), (T, F, F, F), (T, U, U, U), (F, T, T, F), (F, F, T, F), (F, U, T, F), (U, T, T, U), (U, F, U, F),
    (U, U, U, U),
]  # fmt: skip


@pytest.mark.parametrize("chosen, ok, every, some", CONDITIONS)
def test_a_member_counts_only_where_its_condition_holds(
    chosen: bool | None, ok: bool | None, every: bool | None, some: bool | None
) -> None:
    colour = {True: "red", False: "blue", None: None}[chosen]
    names = facts({"items": (item(0, ok, colour=colour),)})
    assert ask('all([i.ok for i in box.items if i.colour == "red"])', names)[0] is every
    assert ask('any([i.ok for i in box.items if i.colour == "red"])', names)[0] is some


COUNTS: list[tuple[str, Any, Decimal | None, Decimal | None, list[str]]] = [  # members; red ones, their sum; needs
    ("none", (), Decimal(0), Decimal(0), []),
    ("two", (item(0, n=1, colour="red"), item(1, n=2, colour="red")), Decimal(2), Decimal(3), []),
    ("one of two", (item(0, n=1, colour="blue"), item(1, n=2, colour="red")), Decimal(1), Decimal(2), []),
    ("colour unknown", (item(0, n=1), item(1, n=2, colour="red")), None, None, ["items[0].colour"]),
    ("open", opened(item(0, n=1, colour="red")), None, None, ["box.items"]),
    ("absent", ABSENT, None, None, ["box.items"]),
    ("blue unknown", (item(0, colour="blue"), item(1, n=2, colour="red")), Decimal(1), Decimal(2), []),
]


@pytest.mark.parametrize("name, members, count, total, needs", COUNTS, ids=[name for name, *_ in COUNTS])
def test_count_and_sum_need_all(
    name: str, members: Any, count: Decimal | None, total: Decimal | None, needs: list[str]
) -> None:
    names = facts({} if members is ABSENT else {"items": members})
    counted, ((_, left, _),), lacking = ask('count([i for i in box.items if i.colour == "red"]) >= 1', names)
    assert (left, [need.path for need in lacking]) == (count, needs)
    assert counted is (None if count is None else count >= 1)
    summed, ((_, left, _),), lacking = ask('sum([i.n for i in box.items if i.colour == "red"]) >= 1', names)
    assert (left, [need.path for need in lacking]) == (total, needs)
    assert summed is (None if total is None else total >= 1)


def test_a_sum_names_every_gap_of_every_member() -> None:
    names = facts({"items": opened(item(0), item(1, n=2, colour="red"), item(2, colour="red"))})
    _, _, needs = ask('sum([i.n for i in box.items if i.colour == "red"]) >= 1', names)
    assert [need.path for need in needs] == ["items[0].colour", "items[0].n", "items[2].n", "box.items"]


def test_the_need_of_an_open_list_says_why_it_is_open() -> None:
    _, _, needs = ask("all([i.ok for i in box.items])", facts({"items": opened(*listed(T))}))
    assert needs == [Need("box.items", "not reached", "behind the rack")]


SIDES: list[tuple[str, dict[str, Any], dict[str, Any], tuple[Any, Any, Any]]] = [
    ("box.a <= limit.x", {"a": Decimal(1)}, {"x": Decimal(2)}, (T, Decimal(1), Decimal(2))),
    ("box.a <= limit.x", {}, {"x": Decimal(2)}, (U, None, Decimal(2))),
    ("limit.x >= box.a", {}, {"x": Decimal(2)}, (U, Decimal(2), None)),
    ("box.a <= limit.x", {"a": Decimal(1)}, {}, (U, Decimal(1), None)),
    ("box.a * 2 + box.b > limit.x", {"a": Decimal(1), "b": Decimal(1)}, {"x": Decimal(2)}, (T, Decimal(3), Decimal(2))),
    ("due(box.tested_on, limit.every) >= as_of", {}, {"every": Period(12)}, (U, None, DAY)),
    ("as_of <= due(box.tested_on, 12 months)", {"tested_on": dt.date(2025, 11, 25)}, {}, (T, DAY, DAY)),
    ("as_of < due(box.tested_on, 12 months)", {"tested_on": dt.date(2025, 11, 25)}, {}, (F, DAY, DAY)),
    ('box.colour in ["red", "blue"]', {"colour": "red"}, {}, (T, "red", None)),
    ('box.colour in ["red", "blue"]', {"colour": "green"}, {}, (F, "green", None)),
    ('box.colour in ["red", "blue"]', {}, {}, (U, None, None)),
    ('box.colour == "red"', {"colour": "green"}, {}, (F, "green", "red")),
    ("box.p", {"p": True}, {}, (T, None, None)),
]  # fmt: skip


@pytest.mark.parametrize("written, box, limit, side", SIDES)
def test_both_sides_are_kept(
    written: str, box: dict[str, Any], limit: dict[str, Any], side: tuple[Any, Any, Any]
) -> None:
    assert ask(written, facts(box, limit))[1] == (side,)


def test_the_sides_stand_in_the_order_of_the_parts_whatever_decides() -> None:
    written = "not (box.a > limit.x) and (box.p or box.b < limit.y)"
    names = facts({"a": Decimal(3), "p": True, "b": Decimal(1)}, {"x": Decimal(2), "y": Decimal(2)})
    truth, sides, _ = ask(written, names)
    assert truth is False
    assert sides == ((True, Decimal(3), Decimal(2)), (True, None, None), (True, Decimal(1), Decimal(2)))
    assert [part[0] for part in compiled_parts(parse(written))] == ["cmp", "get", "cmp"]


NEEDS: list[tuple[str, dict[str, Any], dict[str, Any], list[str]]] = [
    ("box.p and box.q", {}, {}, ["box.p", "box.q"]),
    ("box.p and box.q", {"p": True}, {}, ["box.q"]),
    ("box.p and box.q", {"q": False}, {}, []),
    ("(box.p or box.q) and box.a > limit.x", {"q": True}, {}, ["box.a", "limit.x"]),
    ("(box.p and box.q) or box.a > limit.x", {"q": False}, {"x": Decimal(1)}, ["box.a"]),
    ("(box.p and box.q) or box.a > limit.x", {"q": False, "a": Decimal(2)}, {"x": Decimal(1)}, []),
    ("not (box.p and box.q)", {"q": True}, {}, ["box.p"]),
    ("box.a <= limit.x", {}, {}, ["box.a", "limit.x"]),
    ("box.a * 2 + box.b <= limit.x + limit.y", {}, {}, ["box.a", "box.b", "limit.x", "limit.y"]),
    ("box.a + box.b <= limit.x", {"a": Decimal(1)}, {"x": Decimal(1)}, ["box.b"]),
    ("due(box.tested_on, limit.every) >= as_of", {}, {}, ["box.tested_on", "limit.every"]),
    ("box.reach(box.a + box.b) <= limit.x", {}, {}, ["box.a", "box.b", "limit.x"]),
    ("box.reach(box.a) <= limit.x", {"a": Decimal(4)}, {"x": Decimal(1)}, ["box.reach"]),
    ("all([i.n <= limit.x for i in box.items])", {"items": (item(0), item(1, n=1))}, {"x": Decimal(1)}, ["items[0].n"]),
    ("all([i.n <= limit.x for i in box.items])", {"items": (item(0), item(1, n=2))}, {"x": Decimal(1)}, []),
    ("any([i.n <= limit.x for i in box.items])", {"items": (item(0), item(1, n=1))}, {"x": Decimal(1)}, []),
    ("all([i.ok for i in box.items if i.n > limit.x])", {"items": (item(0), item(1, n=0))}, {"x": Decimal(1)},
     ["items[0].n", "items[0].ok"]),
    ("count([i for i in box.items if i.ok]) + count([i for i in box.items if i.n > limit.x]) >= 1",
     {"items": (item(0),)}, {"x": Decimal(1)}, ["items[0].ok", "items[0].n"]),
]  # fmt: skip


@pytest.mark.parametrize("written, box, limit, paths", NEEDS)
def test_every_gap_of_what_is_undecided_is_named_and_no_other(
    written: str, box: dict[str, Any], limit: dict[str, Any], paths: list[str]
) -> None:
    truth, _, needs = ask(written, facts(box, limit))
    assert list(dict.fromkeys(need.path for need in needs)) == paths
    assert (truth is None) is bool(paths)


class Faulty(Part):
    """A thing whose `bad` breaks."""

    def __missing__(self, name: str) -> Any:
        if name == "bad":
            raise Broken("box.lid is none")
        return super().__missing__(name)


def with_a_fault(**recorded: Any) -> dict[str, Any]:
    return {**facts({}), "box": Faulty("box", **recorded)}


@pytest.mark.parametrize(
    "written, recorded, truth",
    [
        ("box.p and box.bad", {"p": False}, False),
        ("box.p or box.bad", {"p": True}, True),
        ("not box.p and box.bad", {"p": True}, False),
        ("box.p and box.bad > 3 or box.q", {"p": False, "q": True}, True),
        ("(box.p and box.bad) and box.q", {"p": False, "q": True}, False),
        ("box.p and 1 / box.a > 1", {"p": False, "a": Decimal(0)}, False),
        ("all([i.ok and i.bad for i in box.items])", {"items": (Faulty("items[0]", ok=False),)}, False),
        ("all([i.bad for i in box.items if i.ok])", {"items": (Faulty("items[0]", ok=False),)}, True),
        ("any([i.bad for i in box.items if i.ok])", {"items": (Faulty("items[0]", ok=False),)}, False),
        ("count([i for i in box.items if i.ok and i.bad]) == 0", {"items": (Faulty("items[0]", ok=False),)}, True),
    ],
)
def test_a_right_side_that_breaks_is_not_asked_where_the_left_decides(
    written: str, recorded: dict[str, Any], truth: bool
) -> None:
    answer, _, needs = ask(written, with_a_fault(**recorded))
    assert (answer, needs) == (truth, [])


@pytest.mark.parametrize(
    "written, recorded, error",
    [
        ("box.bad", {}, Broken),
        ("box.bad and box.p", {"p": False}, Broken),
        ("box.p and box.bad", {"p": True}, Broken),
        ("box.p and box.bad", {}, Broken),
        ("box.p or box.bad", {"p": False}, Broken),
        ("box.p or box.bad", {}, Broken),
        ("box.bad > 3", {}, Broken),
        ("box.a / box.b > 3", {"a": Decimal(1), "b": Decimal(0)}, decimal.DivisionByZero),
        ("box.a / box.b > 3", {"a": Decimal(0), "b": Decimal(0)}, decimal.InvalidOperation),
        ("all([i.bad for i in box.items])", {"items": (Faulty("items[0]"),)}, Broken),
    ],
)
def test_what_breaks_and_is_asked_is_raised(written: str, recorded: dict[str, Any], error: type[Exception]) -> None:
    with pytest.raises(error):
        ask(written, with_a_fault(**recorded))


GRID_CASES = [
    ("box.a + box.b == limit.x", "0.1", "0.2", "0.3", True),
    ("box.a * 3 == limit.x", "0.333333333", "0", "0.999999999", True),
    ("box.a * 3 == limit.x", "0.333333333", "0", "1", False),
    ("box.a / 3 == limit.x", "1", "0", "0.333333333", True),
    ("box.a == 1 / 3", "0.333333333", "0", "0", True),
    ("box.a == 0.33333333333", "0.333333333", "0", "0", True),
    ("box.a <= limit.x", "15.24", "0", "15.24", True),
    ("box.a <= limit.x", "15.2400001", "0", "15.24", False),
    ("box.a + box.b <= limit.x", "15.24", "0.000000001", "15.24", True),
]


@pytest.mark.parametrize("written, a, b, x, truth", GRID_CASES)
def test_numbers_are_calculated_and_compared_to_nine_digits(written: str, a: str, b: str, x: str, truth: bool) -> None:
    assert ask(written, facts({"a": Decimal(a), "b": Decimal(b)}, {"x": Decimal(x)}))[0] is truth


def test_the_limit_of_a_comparison_is_known_by_what_it_names() -> None:
    left = ["limit.x >= box.a", "as_of < due(box.tested_on, 1 year)", "3 > box.heads", "table.grip.near(1) > box.a"]
    right = ["box.a <= limit.x", "box.a <= box.b", "box.heads > 3", "limit.x <= limit.y", 'box.colour == "red"']
    assert [limit_stands_left(parse(written)) for written in left] == [True] * len(left)
    assert [limit_stands_left(parse(written)) for written in right] == [False] * len(right)


def test_expressions_of_one_shape_share_their_code_and_keep_their_own_names() -> None:
    high, wide = (compile_tree(parse(text)) for text in ("box.height <= limit.top", "box.width <= limit.side"))
    facts = {"box": {"height": Decimal(3), "width": Decimal(1)}, "limit": {"top": Decimal(2), "side": Decimal(2)}}
    assert high.__code__ is wide.__code__
    assert (high(facts, [])[0], wide(facts, [])[0]) == (False, True)


def test_many_are_compiled_together_and_answer_apart() -> None:
    functions = compile_trees({"rule:when": parse("box.p"), "rule'); raise(": parse("not box.p")})
    assert {name: function(facts({"p": True}), [])[0] for name, function in functions.items()} == {
        "rule:when": True,
        "rule'); raise(": False,
    }
    assert compile_trees({}) == {}


@pytest.mark.parametrize("name", ["x'] or f['y", "__class__", "Upper", "a b", ""])
def test_no_other_than_a_plain_name_reaches_the_generated_text(name: str) -> None:
    with pytest.raises(AssertionError, match="no plain name"):
        compile_tree(["get", ["name", "box"], name])


@pytest.mark.parametrize("word", ["'] + x + ['", '"', "\\", "\n", "k0", "{0}"])
def test_a_word_stays_a_word(word: str) -> None:
    assert ask(["cmp", "eq", ["get", ["name", "box"], "name"], ["str", word]], facts({"name": word}))[0] is True
    assert ask(["in", ["get", ["name", "box"], "name"], [word]], facts({"name": word}))[0] is True


# --- laws


def shares(law: Callable[[Counter[str]], Callable[[], None]]) -> Counter[str]:
    """Run a law over its examples and count the answers it saw."""
    seen: Counter[str] = Counter()
    law(seen)()
    print({answer: f"{number / seen.total():.0%}" for answer, number in sorted(seen.items())})
    return seen


def test_on_complete_facts_the_engine_answers_the_same() -> None:
    def law(seen: Counter[str]) -> Callable[[], None]:
        @settings(max_examples=400)
        @given(trees(), random_facts(gaps=False))
        def holds(tree: Tree, names: dict[str, Any]) -> None:
            truth, _, needs = ask(tree, names)
            seen[WRITTEN[truth]] += 1
            event(WRITTEN[truth])
            target(float(truth is True), label="true")
            assert truth is engine_answer(tree, names)
            assert needs == []

        return holds

    seen = shares(law)
    assert min(seen["yes"], seen["no"]) >= 0.3 * seen.total(), seen


def test_with_gaps_the_reference_answers_the_same_and_needs_the_same() -> None:
    def law(seen: Counter[str]) -> Callable[[], None]:
        @settings(max_examples=800)
        @given(trees(), random_facts(gaps=True))
        def holds(tree: Tree, names: dict[str, Any]) -> None:
            truth, _, needs = ask(tree, names)
            expected = reference(tree, names)
            seen[WRITTEN[truth]] += 1
            event(WRITTEN[truth])
            assert truth is expected.said
            assert set(needs) == set(expected.needs)
            assert (truth is None) is bool(needs)

        return holds

    seen = shares(law)
    assert min(seen["yes"], seen["no"], seen["unknown"]) >= 0.15 * seen.total(), seen


@settings(max_examples=200)
@given(trees(), random_facts(gaps=True), random_facts(gaps=False))
def test_recording_more_changes_no_answer_that_was_settled(
    tree: Tree, names: dict[str, Any], whole: dict[str, Any]
) -> None:
    before = ask(tree, names)[0]
    for name in ("box", "limit"):
        for field, value in whole[name].items():
            if field != "items":
                names[name].setdefault(field, value)
    names["box"]["reach"] = double
    if before is not None:
        assert ask(tree, names)[0] is before


@settings(max_examples=200)
@given(trees())
def test_every_generated_expression_is_right_for_its_scope(tree: Tree) -> None:
    check(tree, "", SCOPE)
    assert len(compiled_parts(tree)) == len(ask(tree, facts({"items": ()}))[1])


@given(trees(), random_facts(gaps=True), st.randoms())
def test_the_order_in_which_facts_were_recorded_changes_nothing(tree: Tree, names: dict[str, Any], random: Any) -> None:
    first = ask(tree, names)
    for part in (names["box"], names["limit"]):
        shuffled = list(part.items())
        random.shuffle(shuffled)
        part.clear()
        part.update(shuffled)
    assert ask(tree, names) == first
