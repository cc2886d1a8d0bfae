"""Advice names the limits of its rule, and never a number that a provision may change."""

import pytest

from checker import shipped
from checker.rules import read_rulesets
from checker.rules.advice import ADVISING, misnamed, with_limits


@pytest.mark.parametrize(
    "text, found",
    [
        ("Nothing in braces.", []),
        ("At {limit.walk}, rated {limit.rating}.", []),
        ("At {limit.wlak}.", ["{limit.wlak}"]),
        ("At {walk} or {limits.walk}.", ["{walk}", "{limits.walk}"]),
        ("At {limit.walk or {limit.rating}.", ["{limit.walk or "]),
        ("At limit.walk}.", ["}"]),
        ("At {}.", ["{}"]),
        ("At {limit.walk.written}, {limit.walk!r}, {limit[walk]}.",
         ["{limit.walk.written}", "{limit.walk!r}", "{limit[walk]}"]),
    ],
)  # fmt: skip
def test_what_stands_in_braces_is_a_limit_of_the_rule(text: str, found: list[str]) -> None:
    assert list(misnamed(text, ["walk", "rating"])) == found


def test_a_limit_stands_as_written_and_where_none_is_given_by_that_word() -> None:
    text = "Hang it within {limit.walk}; {limit.walk} is the longest."
    assert with_limits(text, {"walk": "50 ft"}) == "Hang it within 50 ft; 50 ft is the longest."
    assert with_limits(text, {}) == "Hang it within the limit; the limit is the longest."


def test_what_a_limit_is_written_as_is_never_read_again() -> None:
    assert with_limits("{limit.a}", {"a": "{limit.b}", "b": "no"}) == "{limit.b}"


def test_no_shipped_advice_holds_the_number_of_a_limit_that_a_layer_may_change() -> None:
    book = read_rulesets(shipped.rulesets())
    named = [
        (provision.rule, limit.written)
        for provision in book.all_provisions
        for limit in provision.limit.values()
        for name in ADVISING
        if f" {limit.written} " in getattr(book.rules[provision.rule], name).replace(",", " ").replace(".", " ")
    ]
    assert [each for each in named if not each[1].isdigit()] == []


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ("1 year", "at least every year"),
        ("3 months", "at least every 3 months"),
        ("1 yearling", "at least every 1 yearling"),
    ],
)
def test_nobody_says_every_one_year(written: str, says: str) -> None:
    assert with_limits("at least every {limit.every}", {"every": written}) == says
