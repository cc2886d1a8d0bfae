"""Faults of the reader that were mended, one test each."""

import codecs

import pytest

from checker.reading import Problem, Unreadable, read_text


def problem(content: bytes, file: str) -> Problem:
    with pytest.raises(Unreadable) as refused:
        read_text(content, file)
    (one,) = refused.value.problems
    return one


@pytest.mark.parametrize(
    "content, column, found",
    [
        (b'1e4001e5"id"', 7, 'e5"id"'),
        (b'{"id": NaN, "name": ]}', 21, "]}"),
        (b"[NaN}", 5, "}"),
        (b'{"a": 1, "a": 2', 16, "the end of the file"),
    ],
)
def test_what_is_no_json_behind_a_value_that_is_refused_is_told(content: bytes, column: int, found: str) -> None:
    """The scan for what was refused read on as if the rest were JSON, and broke."""
    told = problem(content, "shop.json")
    assert (told.line, told.column, told.found, told.says.split(" (")[0]) == (1, column, found, "this is not JSON")


def test_a_byte_that_is_no_text_behind_a_byte_order_mark_has_its_place() -> None:
    """Places behind the mark were counted as if it were not there, and what stood before was cut within a sign."""
    told = problem(codecs.BOM_UTF8 + "é: é\n".encode() + b"a\xff", "shop.yaml")
    assert (told.line, told.column, told.found) == (2, 2, "the byte 0xff")
