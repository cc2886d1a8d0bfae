"""The report as Markdown, read back by markdown-it-py. CHECKER_GOLDEN=write writes the golden files anew."""

import os
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from markdown_it.token import Token

from checker.findings.result import Result
from checker.report import FORMATS, Drawing
from checker.report.markdown import escaped, render
from checker.report.page import GLUE, clean
from checker.report.text import render as render_text
from tests.report.samples import NASTY, SITES, filled, metric_site, us_site

GOLDEN = Path(__file__).parent / "golden"
READERS = {
    "CommonMark": MarkdownIt("commonmark"),
    "with tables and struck words": MarkdownIt("js-default", {"html": True}),
}
KINDS = {"heading", "paragraph", "blockquote", "bullet_list", "ordered_list", "list_item", "strong"}
SIGNS = st.text(alphabet="\\`*_{}[]()<>#+-.!|~&;:=/@$ \n\t01aé")


def tokens(markdown: str, reader: str = "CommonMark") -> list[Token]:
    """All tokens, those within a line after it."""
    found = []
    for token in READERS[reader].parse(markdown):
        found += [token, *(token.children or ())]
    return found


def kinds(markdown: str, reader: str = "CommonMark") -> list[str]:
    return [token.type for token in tokens(markdown, reader)]


def shown(text: str) -> str:
    return " ".join(clean(text).replace(GLUE, " ").split())


@pytest.mark.parametrize("details", [False, True], ids=["short", "details"])
@pytest.mark.parametrize("site", SITES)
def test_the_document_as_it_was_agreed(site: str, details: bool) -> None:
    path = GOLDEN / f"{site}{'-details' if details else ''}.md"
    drawn = render(SITES[site](), details)
    if os.environ.get("CHECKER_GOLDEN") == "write":
        path.write_text(drawn, encoding="utf-8", newline="\n")
    assert drawn.encode() == path.read_bytes()


@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize(
    "before, after", [("", ""), ("## ", ""), ("- ", ""), ("- **a:** ", ""), ("**", "**"), ("> ", "")]
)
@given(text=st.one_of(SIGNS, st.text()))
def test_a_text_is_shown_as_it_is_and_makes_nothing(before: str, after: str, reader: str, text: str) -> None:
    """Whatever a text holds, the reader gives it back, and the same things as for a plain word."""
    if not shown(text):
        return
    got, plain = tokens(f"{before}{escaped(text)}{after}", reader), tokens(f"{before}word{after}", reader)
    assert [token.type for token in got if token.type != "text"] == [one.type for one in plain if one.type != "text"]
    told = "".join(token.content for token in got if token.type == "text")
    assert told.removeprefix("a:" if "a:" in before else "").strip() == shown(text)


@pytest.mark.parametrize(
    "text, written",
    [
        ("dynos[dyno-1].anchors", "dynos[dyno-1].anchors"),
        ("dynos[dyno-1]: Rollers", "dynos[dyno-1]: Rollers"),
        ("[dyno-1]: /address", "\\[dyno-1]: /address"),
        ("drive_line_sound (with in_reach)", "drive_line_sound (with in_reach)"),
        ("2026-11-25", "2026-11-25"),
        ("-5 °C", "-5 °C"),
        ("12.5 m", "12.5 m"),
        ("29 CFR 1910.157, (d)(4)", "29 CFR 1910.157, (d)(4)"),
        ("at most 3 < 4; a & b", "at most 3 < 4; a & b"),
        ("“61 ft”: the way out!", "“61 ft”: the way out!"),
        ("see [a](b)", "see [a\\](b)"),
        ("https://x.example", "https\\://x.example"),
        ("1. one", "1\\. one"),
        ("# one", "\\# one"),
        ("<b>", "\\<b>"),
    ],
)
def test_only_what_would_mean_something_is_marked(text: str, written: str) -> None:
    assert escaped(text) == written


@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize("site", [us_site, metric_site])
@pytest.mark.parametrize("tries", NASTY)
def test_names_of_strangers_change_no_kind_of_what_is_drawn(tries: str, site: type[Result], reader: str) -> None:
    nasty = render(filled(site(), NASTY[tries], markdown=False), details=True)
    assert kinds(nasty, reader) == kinds(render(filled(site(), "word", markdown=False), details=True), reader)


@pytest.mark.parametrize("tries", NASTY)
def test_advice_of_strangers_makes_only_lists(tries: str) -> None:
    drawn = render(filled(us_site(), NASTY[tries]), details=True)
    drawn.encode()
    assert {kind.removesuffix("_open").removesuffix("_close") for kind in kinds(drawn)} <= {*KINDS, "inline", "text"}


@pytest.mark.parametrize("site", [us_site, metric_site])
@pytest.mark.parametrize("details", [False, True], ids=["short", "details"])
def test_read_back_it_says_every_word_of_the_plain_text(site: type[Result], details: bool) -> None:
    def words(text: str) -> set[str]:
        return {word for word in text.replace(":", " ").split() if not re.fullmatch(r"-|[-=]{4,}|\d+\.", word)}

    read = " ".join(token.content for token in tokens(render(site(), details)) if token.type == "text")
    assert words(render_text(site(), width=10_000, details=details)) - words(read) == set()


@pytest.mark.parametrize("name, outcome", [("wrong", "not met"), ("not known", "undetermined"), ("fine", "met")])
@pytest.mark.parametrize("site", [us_site, metric_site])
def test_a_block_holds_its_outcome_and_no_other(site: type[Result], name: str, outcome: str) -> None:
    result = site()
    (told,) = re.findall(rf"^## What is {name}: \d+\n(.*?)(?=^## )", render(result, details=True), re.S | re.M)
    entries = set(re.findall(r"^- \*\*Rule:\*\* (\S+)$", told, re.M))
    judged = {one.rule for one in result.findings if one.outcome == outcome and one.because != "rule broke"}
    assert entries == judged


def test_several_sites_are_parts_of_one_document() -> None:
    drawn = FORMATS["markdown"]([us_site(), metric_site()], Drawing())
    assert re.findall(r"^# (.*)$", drawn, re.M) == ["Mill Yard Cycles (mill-yard)", "quay-street"]
