import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.report import page
from checker.report.page import GLUE, Page, clean, columns, wrap


@pytest.mark.parametrize(
    "text, shown",
    [
        ("Running room", "Running room"),
        ("two\nlines\tand\r\nmore", "two lines and  more"),
        ("\x1b[2Jgone", "<U+001B>[2Jgone"),
        ("bell\x07 \x9b31m", "bell<U+0007> <U+009B>31m"),
        ("\u202eexe.yaml", "<U+202E>exe.yaml"),
        ("lone \ud800", "lone <U+D800>"),
        ("Zoë, 車検, ½″", "Zoë, 車検, ½″"),
        ("a" + "\u0301" * 20, "a" + "\u0301" * 3),
        ("x" * 5000, "x" * 3999 + "…"),
    ],
)
def test_text_from_strangers_is_shown_and_not_obeyed(text: str, shown: str) -> None:
    assert clean(text) == shown


@pytest.mark.parametrize("text, taken", [("abc", 3), ("車検", 4), ("e\u0301", 1), ("", 0), ("½ ft", 4)])
def test_columns_of_a_terminal_are_counted(text: str, taken: int) -> None:
    assert columns(text) == taken


@pytest.mark.parametrize(
    "text, lines",
    [
        ("one two three", ["- one", "  two", "  three"]),
        ("abcdefghij", ["- abcdef", "  ghij"]),
        ("車検場", ["- 車検場"]),
        (f"a 50{GLUE}ft", ["- a", "  50 ft"]),
        ("", ["-"]),
    ],
)
def test_lines_are_broken_between_words_and_else_within_one(text: str, lines: list[str]) -> None:
    assert wrap(text, 8, "- ", "  ") == lines


@given(st.text(), st.integers(min_value=20, max_value=100), st.integers(min_value=0, max_value=12))
def test_no_line_is_wider_than_the_page_nor_holds_a_control_character(text: str, width: int, indent: int) -> None:
    page = Page(width)
    page.text(text, indent)
    page.row(text[:5], text)
    for line in str(page).split("\n"):
        assert columns(line) <= width
        assert not any(unicodedata.category(character) in ("Cc", "Cs", "Cn") for character in line)


@given(st.lists(st.text(alphabet="abcé車", min_size=1, max_size=30), min_size=1))
def test_wrapping_loses_no_word(words: list[str]) -> None:
    assert "".join(wrap(" ".join(words), 12)).replace(" ", "") == "".join(words)


def test_colour_only_where_asked() -> None:
    def drawn(colour: bool) -> str:
        page = Page(40, colour)
        page.text("Critical: here", bold=True, fg="red")
        page.heading("Wrong: 1")
        return str(page)

    assert "\x1b" not in drawn(False)
    assert drawn(True).startswith("\x1b[31m\x1b[1mCritical: here\x1b[0m\n\n\x1b[1mWrong: 1\x1b[0m\n--------\n")


def test_ordinary_characters_are_printed_as_they_are_and_take_one_column() -> None:
    ordinary = [chr(code) for code in range(0x3000) if page._ORDINARY.fullmatch(chr(code))]
    assert len(ordinary) > 900
    for character in ordinary:
        assert "".join(page._shown(character)) == character
        assert page._columns_of(character) == 1, hex(ord(character))
