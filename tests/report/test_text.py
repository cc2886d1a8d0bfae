"""The report for people. CHECKER_GOLDEN=write writes the golden files anew; read what changed before committing."""

import datetime as dt
import os
import re
import unicodedata
from pathlib import Path

import pytest
from msgspec.structs import replace

from checker.findings.result import Finding, Need, Result
from checker.report import FORMATS, Drawing
from checker.report.page import columns
from checker.report.text import render
from tests.report.samples import COMMON, SITES, finding, metric_site, provision, result, subject, us_site

GOLDEN = Path(__file__).parent / "golden"


@pytest.mark.parametrize("details", [False, True], ids=["short", "details"])
@pytest.mark.parametrize("site", SITES)
def test_the_report_as_it_was_agreed(site: str, details: bool) -> None:
    path = GOLDEN / f"{site}{'-details' if details else ''}.txt"
    drawn = render(SITES[site](), details=details)
    if os.environ.get("CHECKER_GOLDEN") == "write":
        path.write_text(drawn, encoding="utf-8", newline="\n")
    assert drawn.encode() == path.read_bytes()


@pytest.mark.parametrize("width", [50, 80, 120])
@pytest.mark.parametrize("site", SITES)
def test_no_line_is_wider_than_asked_nor_obeyed_by_a_terminal(site: str, width: int) -> None:
    for line in render(SITES[site](), width=width, details=True).split("\n"):
        assert columns(line) <= width
        assert not any(unicodedata.category(character) in ("Cc", "Cf", "Cs") for character in line)


def block(text: str, name: str) -> str:
    """The text of one block, between its heading and the next."""
    found = re.search(rf"^{name}: .*?(?=^[^\n]+\n-{{4,}}$|\Z)", text[text.index(f"\n{name}: ") + 1 :], re.S | re.M)
    assert found
    return found[0].partition("\n")[2].partition("\n")[2]


@pytest.mark.parametrize("site", SITES)
@pytest.mark.parametrize(
    "name, outcome",
    [("What is wrong", "not met"), ("What is not known", "undetermined"), ("What is fine", "met")],
)
def test_a_block_holds_its_outcome_and_no_other(site: str, name: str, outcome: str) -> None:
    drawn = SITES[site]()
    told = block(render(drawn, width=10_000, details=True), name)
    for one in drawn.findings:
        entry = f"Rule       {one.rule}\n" in told or f" {one.rule} at " in told
        same_rule = {other.outcome for other in drawn.findings if other.rule == one.rule}
        if one.outcome == outcome:
            assert entry
        elif outcome not in same_rule:
            assert not entry


def test_what_is_critical_and_not_known_is_said_at_the_top_and_in_full() -> None:
    text = render(us_site())
    opening = text[: text.index("What is wrong")]
    assert "look at these before anything else: Running room (cell), Roller machine (d1): The engine stops" in " ".join(
        opening.split()
    )
    unknown = block(text, "What is not known")
    assert unknown.index("1. Critical: Running room (cell), Roller machine (d1)") < unknown.index("What to look at")


def test_worst_stands_first() -> None:
    text = block(render(metric_site()), "What is wrong")
    assert re.findall(r"^\d\. (\w+):", text, re.M) == ["Critical", "Major", "Minor"]


def test_an_entry_goes_from_the_place_to_the_proof() -> None:
    text = block(render(us_site()), "What is wrong")
    order = [
        "Parts washer",
        "Recorded",
        "Value",
        "Limit",
        "Margin",
        "Asked by",
        "Why",
        "To do",
        "Proof",
        "Working",
        "Rule",
    ]
    assert [text.index(word) for word in order] == sorted(text.index(word) for word in order)


def test_from_memory_no_clause_is_shown() -> None:
    text = render(metric_site(), details=True)
    assert "BS 5306-3; from memory, to be confirmed" in " ".join(text.split())
    assert "6.2" not in text


def test_where_adoption_is_not_recorded_it_is_said() -> None:
    assert "Fire code (us), where adopted: " in render(us_site())


def test_every_authority_that_asks_is_cited_and_the_governing_one_first() -> None:
    text = " ".join(render(us_site()).split())
    assert re.search(
        r"Workplace law .* Not met, 11 ft too much\. This one governs\. Fire code .* Met, 14 ft to spare\.", text
    )


def blank(things: int) -> Result:
    """A first visit: nothing recorded, many rules waiting for the same few things."""

    def waiting(number: int) -> Finding:
        severity = ("major", "minor", "observation")[number % 3]
        about = subject("dyno", "d1", "Roller machine (d1)", "Cell (cell)")
        needs = tuple(Need(path=f"dynos[d1].plate.{name}", because="not recorded") for name in ("voltage", "current"))
        asked = [provision(COMMON, "good practice", "undetermined")]
        more = {"title": "Something", "reason": "A reason.", "severity": severity, "needs": needs}
        return finding("blank", f"electrical.rule-{number}", about, "undetermined", asked, **more)

    from checker.findings.result import SiteLabel

    label = SiteLabel(id="blank", name=None, address=None, file="blank.yaml")
    return result(label, "us", [waiting(number) for number in range(things)], {})


def test_a_blank_site_reads_as_things_to_look_at_and_not_as_paragraphs() -> None:
    text = block(render(blank(60)), "What is not known")
    assert len(text.splitlines()) < 10
    assert "major       plate: rated voltage on the plate: 60 rules (electrical 60)" in text
    assert "major       plate: rated current on the plate: 60 rules (electrical 60)" in text


@pytest.mark.parametrize(
    "drawn, says",
    [
        (us_site(), "1 not met, 3 undetermined: not all that is asked is met."),
        (blank(41), "0 not met, 41 undetermined: not shown to comply."),
        (blank(0), "Nothing was judged: not shown to comply."),
        (us_site(), "3 met: 1 measured or tested, 1 read off plates, tags or manuals, 1 only told."),
        (us_site(), "The same on every day from 2026-11-04 to 2026-11-30."),
        (metric_site(), "1 rule broke and judged nothing: the rulesets need mending."),
    ],
)
def test_the_sum_is_in_words(drawn: Result, says: str) -> None:
    assert says in " ".join(render(drawn)[-800:].split())


def test_nothing_open_and_nothing_wrong_is_still_no_approval() -> None:
    met = [one for one in us_site().findings if one.outcome == "met"]
    label = us_site().site
    text = " ".join(render(result(label, "us", met, {"seen": 3})).split())
    assert "what was checked is met, on what was recorded. What is not covered was not checked." in text
    assert not re.search(r"\b(pass(ed)?|compliant|approved|score|grade)\b|%", text, re.I)


@pytest.mark.parametrize(
    "first, until, says",
    [
        (dt.date(2026, 1, 1), None, "The same on every day from 2026-01-01."),
        (None, dt.date(2026, 12, 1), "The same on every day until 2026-12-01."),
    ],
)
def test_a_span_without_an_end(first: dt.date | None, until: dt.date | None, says: str) -> None:
    valid = replace(us_site().valid, first=first, until=until)
    assert says in render(replace(us_site(), valid=valid))


def test_colour_is_never_alone() -> None:
    plain, coloured = render(metric_site()), render(metric_site(), colour=True)
    assert re.sub(r"\x1b\[\d+m", "", coloured) == plain
    assert set(re.findall(r"\x1b\[(\d+)m", coloured)) == {"0", "1", "31"}


def test_several_sites_one_after_another() -> None:
    text = FORMATS["text"]([us_site(), metric_site()], Drawing())
    assert text.index("mill-yard") < text.index("=" * 40) < text.index("quay-street")
