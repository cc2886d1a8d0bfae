"""The report as one HTML file. CHECKER_GOLDEN=write writes the golden files anew."""

import os
import re
from collections.abc import Sequence
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path

import pytest

from checker.findings.result import Result
from checker.report import FORMATS, Drawing
from checker.report.advice import as_html
from checker.report.html import render
from checker.report.page import GLUE, clean
from checker.report.text import render as render_text
from tests.report.samples import NASTY, SITES, filled, metric_site, us_site

GOLDEN = Path(__file__).parent / "golden"
CSS = (Path(__file__).parents[2] / "checker" / "report" / "page.css").read_text(encoding="utf-8")
VOID = {"meta", "br", "hr"}
DRAWN = {
    "fill", "stroke", "stroke-width", "stroke-dasharray", "stroke-linejoin", "stroke-linecap", "stroke-opacity",
}  # fmt: skip
ALLOWED = {
    "html": {"lang"}, "head": set(), "meta": {"charset", "http-equiv", "content", "name"}, "title": set(),
    "style": set(), "body": set(), "main": set(), "header": set(), "section": {"class", "id", "style"},
    "nav": {"aria-label", "class"}, "article": {"id", "class"}, "div": {"class", "tabindex"},
    "details": set(), "summary": set(),
    "h1": set(), "h2": set(), "h3": set(), "h4": set(), "p": {"class"}, "ul": set(), "ol": {"start"}, "li": set(),
    "dl": set(), "dt": set(), "dd": set(), "a": {"href"}, "strong": set(), "em": set(), "code": set(), "pre": set(),
    "blockquote": set(), "br": set(), "hr": set(),
    "figure": {"class", "id"}, "figcaption": set(),
    "svg": {"class", "xmlns", "role", "aria-label", "viewbox", "width", "height"}, "defs": set(),
    "pattern": {"id", "width", "height", "patternunits"}, "clippath": {"id"},
    "g": {"class", "transform", "clip-path"}, "path": {"class", "d", *DRAWN},
    "circle": {"class", "cx", "cy", "r", *DRAWN},
    "rect": {"x", "y", "width", "height", "rx", *DRAWN},
    "text": {"x", "y", "text-anchor", "font-family", "font-size", "font-weight", "font-style", "paint-order",
             *DRAWN},
}  # fmt: skip
"""Every element the page may have and its attributes: none of them can run, fetch or send anything."""
LEVELS = {"h1": 1, "h2": 2, "h3": 3, "h4": 4}


class Walk(HTMLParser):
    """Reads a page as a browser would, and complains of an element left open or closed twice, or not allowed."""

    def __init__(self, page: str) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.ids: list[str] = []
        self.links: list[str] = []
        self.headings: list[int] = []
        self.texts: list[str] = []
        self.policy = ""
        self.feed(page)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: Sequence[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        assert len(given) == len(attrs)
        assert set(given) <= ALLOWED[tag], (tag, attrs)
        assert re.fullmatch(r"page: site-\d+", given.get("style") or "page: site-1")
        if "href" in given:
            assert str(given["href"]).startswith("#")
            self.links.append(str(given["href"])[1:])
        if given.get("id"):
            self.ids.append(str(given["id"]))
        if given.get("http-equiv") == "Content-Security-Policy":
            self.policy = str(given["content"])
        if tag in LEVELS:
            self.headings.append(LEVELS[tag])
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if self.open and self.open[-1] != "style":
            self.texts.append(data)

    def handle_comment(self, data: str) -> None:
        raise AssertionError(f"a comment: {data}")

    def handle_pi(self, data: str) -> None:
        raise AssertionError(f"an instruction: {data}")

    def unknown_decl(self, data: str) -> None:
        raise AssertionError(f"a declaration: {data}")

    @property
    def text(self) -> str:
        return plain("".join(self.texts))


def plain(text: str) -> str:
    return " ".join(text.replace(GLUE, " ").split())


def pair(drawing: Drawing) -> str:
    return FORMATS["html"]([us_site(), metric_site()], drawing)


@pytest.mark.parametrize("details", [False, True], ids=["short", "details"])
@pytest.mark.parametrize("site", SITES)
def test_the_page_as_it_was_agreed(site: str, details: bool) -> None:
    agreed(f"{site}{'-details' if details else ''}.html", render(SITES[site](), details))


def test_two_sites_as_they_were_agreed() -> None:
    agreed("two-sites.html", pair(Drawing()))


def agreed(name: str, drawn: str) -> None:
    path = GOLDEN / name
    if os.environ.get("CHECKER_GOLDEN") == "write":
        path.write_text(drawn, encoding="utf-8", newline="\n")
    assert drawn.encode() == path.read_bytes()


@pytest.mark.parametrize("details", [False, True], ids=["short", "details"])
@pytest.mark.parametrize("site", [us_site, metric_site])
@pytest.mark.parametrize("tries", NASTY)
def test_what_a_stranger_wrote_is_text(tries: str, site: type[Result], details: bool) -> None:
    page = render(filled(site(), NASTY[tries]), details)
    page.encode()
    walk = Walk(page)
    assert plain(clean(NASTY[tries], 100))[:-1] in walk.text
    assert not re.search("[\x00-\x08\x0b-\x1f\x7f-\x9f\u200e\u200f\u202a-\u202e\u2066-\u2069]", page)


@pytest.mark.parametrize("site", SITES)
def test_every_place_is_named_once_and_every_link_has_one(site: str) -> None:
    walk = Walk(render(SITES[site](), details=True))
    assert len(walk.ids) == len(set(walk.ids))
    assert set(walk.links) <= set(walk.ids)
    assert not any(re.search(r"\s", name) for name in walk.ids)


def test_a_finding_stands_under_its_rule_and_subject() -> None:
    walk = Walk(pair(Drawing()))
    assert "mill-yard/fire.class-b-walk/washer" in walk.ids
    assert "quay-street/exhaust.examined/d2" in walk.ids


def test_the_same_site_twice_has_two_names_for_each_place() -> None:
    walk = Walk(FORMATS["html"]([us_site(), us_site()], Drawing()))
    assert len(walk.ids) == len(set(walk.ids))
    assert {"mill-yard/fire.class-b-walk/washer", "mill-yard/fire.class-b-walk/washer--2"} <= set(walk.links)


@pytest.mark.parametrize("site", SITES)
def test_no_level_of_heading_is_left_out(site: str) -> None:
    headings = Walk(render(SITES[site]())).headings
    assert headings[0] == 1
    assert all(after - before <= 1 for before, after in pairwise(headings))


@pytest.mark.parametrize("details", [False, True], ids=["short", "details"])
@pytest.mark.parametrize("site", [us_site, metric_site])
def test_the_page_says_every_word_of_the_plain_text(site: type[Result], details: bool) -> None:
    """Marks of Markdown and of lists, which the two set differently, are left out of the comparison."""

    def words(text: str) -> set[str]:
        return set(re.sub(r"[-=]{4,}|(?<= )- |\*", " ", text).split())

    wanted = words(render_text(site(), width=10_000, details=details))
    assert wanted - words(Walk(render(site(), details)).text) == set()


def block(page: str, name: str) -> str:
    (found,) = re.findall(
        rf'<section id="[^"]*/{name}">(.*?)(?=<section id="[^"]*/(?:{"|".join(BLOCKS)})">)', page, re.S
    )
    return found


BLOCKS = ("wrong", "unknown", "fine", "not_covered", "not_applicable", "summary")


@pytest.mark.parametrize("name, outcome", [("wrong", "not met"), ("unknown", "undetermined"), ("fine", "met")])
@pytest.mark.parametrize("site", [us_site, metric_site])
def test_a_block_holds_its_outcome_and_no_other(site: type[Result], name: str, outcome: str) -> None:
    result = site()
    entries = set(re.findall(r'<article id="([^"]+)"', block(render(result, details=True), name)))
    judged = {one.id for one in result.findings if one.outcome == outcome and one.because != "rule broke"}
    assert entries == judged


@pytest.mark.parametrize("site", SITES)
def test_severity_is_a_word_wherever_it_is_a_colour(site: str) -> None:
    page = render(SITES[site](), details=True)
    entries = re.findall(r'<article id="[^"]*" class="(\w+)">.*?<h\d>\d+\. (\w+): ', page, re.S)
    assert len(entries) == page.count("<article")
    assert all(severity.capitalize() == word for severity, word in entries)


@pytest.mark.parametrize("page", [render(us_site(), True), pair(Drawing())])
def test_the_page_needs_nothing_from_elsewhere(page: str) -> None:
    policy = Walk(page).policy
    assert policy == "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"
    style = re.findall(r"<style>(.*?)</style>", page, re.S)
    assert len(style) == 1
    assert not re.search(r"url\(|@import|@font-face|expression|//", style[0])


def colours() -> dict[str, str]:
    return dict(re.findall(r"--(\w+): (#[0-9a-f]{6});", CSS)) | {"paper": "#ffffff"}


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    shares = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4 for share in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("back", ["paper", "tint"])
@pytest.mark.parametrize("front", ["ink", "quiet", "grave", "link"])
def test_letters_stand_out_from_their_ground(front: str, back: str) -> None:
    """WCAG 2.2, success criterion 1.4.3 (AA): a contrast ratio of at least 4.5 to 1."""
    lighter, darker = sorted((luminance(colours()[front]), luminance(colours()[back])), reverse=True)
    assert (lighter + 0.05) / (darker + 0.05) >= 4.5


def test_black_on_white_has_the_contrast_that_the_definition_gives() -> None:
    assert (luminance("#ffffff") + 0.05) / (luminance("#000000") + 0.05) == pytest.approx(21)


def test_each_printed_page_bears_site_and_day() -> None:
    page = pair(Drawing())
    heads = re.findall(r'@page site-(\d) \{ @top-left \{ content: "((?:\\[0-9a-f]+ |[A-Za-z0-9])+)"; \} \}', page)
    told = {number: re.sub(r"\\([0-9a-f]+) ", lambda sign: chr(int(sign[1], 16)), head) for number, head in heads}
    assert told == {"1": "Mill Yard Cycles (mill-yard), as of 2026-11-25", "2": "quay-street, as of 2026-11-25"}
    assert re.findall(r'style="page: site-(\d)"', page) == ["1", "2"]


def test_what_is_wrong_and_what_is_critical_and_unknown_can_be_reached_from_the_top() -> None:
    page = render(us_site())
    contents = page[page.index("<nav") : page.index("</nav>")]
    assert "#mill-yard/fire.class-b-walk/washer" in contents
    assert "#mill-yard/exhaust.capture-stops-engine/d1" in contents
    assert "#mill-yard/fire.class-b-walk/bench" not in contents


@pytest.mark.parametrize(
    "markdown, html",
    [
        ("Hang *one*.", "<p>Hang <em>one</em>.</p>"),
        ("- powder\n- foam", "<ul>\n<li>powder</li>\n<li>foam</li>\n</ul>"),
        ("3. three", '<ol start="3">\n<li>three</li>\n</ol>'),
        ("<script>x</script>", "<p>&lt;script&gt;x&lt;/script&gt;</p>"),
        ("[look](https://x.example/a)", "<p>look (https://x.example/a)</p>"),
        ("<https://x.example/a>", "<p>https://x.example/a</p>"),
        ("[look](javascript:x)", "<p>[look](javascript:x)</p>"),
        ("![the *plate*](https://x.example/a.png)", "<p>the <em>plate</em></p>"),
        ('![a](/b "c")', "<p>a</p>"),
        ("# Now\nmend", '<p class="lead">Now</p>\n<p>mend</p>'),
        ("&#x202e;&lt;b&gt;", "<p>&lt;U+202E&gt;&lt;b&gt;</p>"),
        ("```html onload\n<b>\u202e\n```", "<pre><code>&lt;b&gt;&lt;U+202E&gt;\n</code></pre>"),
        ("`<i>\u202e`", "<p><code>&lt;i&gt;&lt;U+202E&gt;</code></p>"),
        ("[a][b]\n\n[b]: https://x.example 'c'", "<p>a (https://x.example)</p>"),
    ],
)
def test_advice_is_set_and_can_neither_be_followed_nor_fetched(markdown: str, html: str) -> None:
    assert as_html(markdown).strip() == html
