import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.report import advice
from checker.report.advice import paragraphs, with_limits_named


@pytest.mark.parametrize(
    "markdown, blocks",
    [
        ("", []),
        ("Hang it by the door.", [("", "Hang it by the door.")]),
        ("One\nparagraph.\n\nAnother.", [("", "One paragraph."), ("", "Another.")]),
        ("Buy **one**, _not_ `two`.", [("", "Buy one, not two.")]),
        ("- powder\n- foam", [("- ", "powder"), ("- ", "foam")]),
        ("1. first\n2. second", [("1. ", "first"), ("2. ", "second")]),
        ("See [the plate](https://x.example).", [("", "See the plate.")]),
        ("# Now\nmend", [("", "Now"), ("", "mend")]),
        ("<b>not</b> a tag", [("", "<b>not</b> a tag")]),
        ("```\n12 ft\n```", [("", "12 ft")]),
        ("2 * 3 < 7", [("", "2 * 3 < 7")]),
    ],
)
def test_marks_are_taken_out_and_blocks_kept(markdown: str, blocks: list[tuple[str, str]]) -> None:
    assert [tuple(block) for block in paragraphs(markdown)] == blocks


def test_apart_from_a_site_a_limit_goes_by_its_name() -> None:
    assert with_limits_named("Within {limit.walk}, {not one}.") == "Within the limit “walk”, {not one}."


@given(st.text(alphabet="ab .,:;'\"()!-=+1\n\t*_#>", max_size=60))
def test_what_needs_no_parser_is_what_the_parser_makes_of_it(text: str) -> None:
    parsed = tuple(advice._blocks(advice._parser().parse(text.strip())))
    assert paragraphs(text) == parsed
