"""The page in a real browser, where there is one: nothing runs, is fetched, is cut off or torn apart."""

import html
import json
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from checker.report import FORMATS, Drawing
from checker.report.html import render
from tests.report.plan_site import shop
from tests.report.samples import NASTY, SITES, filled, metric_site, us_site

BROWSER = shutil.which("chromium") or shutil.which("chromium-browser")
READER = shutil.which("pdftotext")
pytestmark = pytest.mark.skipif(BROWSER is None, reason="Debian's chromium is not installed")

PHONE, DESK = 360, 1200
FOUND = """<!DOCTYPE html><meta charset="utf-8"><title>frame</title>
<iframe id="page" style="border:0;width:%dpx;height:800px" srcdoc="%s"></iframe>
<pre id="found"></pre>
<script>
addEventListener("load", () => {
  const view = document.getElementById("page").contentWindow, page = view.document;
  const count = (what) => page.querySelectorAll(what).length;
  const shown = (what) => [...page.querySelectorAll(what)].filter((one) => one.getClientRects().length).length;
  page.querySelectorAll("details").forEach((one, number) => { one.open = number === 0; });
  document.getElementById("found").textContent = JSON.stringify({
    hidden: page.documentElement.scrollWidth - page.documentElement.clientWidth,
    active: count("script,img,iframe,object,embed,svg,math,link,form,input,button,video,audio,base,template"),
    attributes: [...new Set([...page.querySelectorAll("*")].flatMap((one) => one.getAttributeNames()))].sort(),
    fetched: view.performance.getEntriesByType("resource").length,
    title: page.title,
    font: parseFloat(view.getComputedStyle(page.body).fontSize),
    switches: count("details"),
    workings: shown(".working"),
    lost: [...page.links].filter((link) => !page.getElementById(link.getAttribute("href").slice(1))).length,
  });
});
</script>
"""


def chromium(folder: Path, *what: str) -> str:
    """What the browser prints, with a profile of its own in the folder."""
    flags = [
        "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
        "--disable-background-networking", "--disable-component-update", "--disable-sync",
        f"--user-data-dir={folder / 'profile'}",
    ]  # fmt: skip
    run = subprocess.run(
        [str(BROWSER), *flags, *what], check=True, capture_output=True, text=True, encoding="utf-8", timeout=120
    )
    return run.stdout


def found(folder: Path, page: str, width: int) -> dict[str, object]:
    """What there is in the page when a browser has read it in a window of that width, its first working unfolded."""
    frame = folder / "frame.html"
    frame.write_text(FOUND % (width, html.escape(page)), encoding="utf-8", newline="\n")
    dump = chromium(folder, "--dump-dom", frame.as_uri())
    told = re.search(r'<pre id="found">(.*?)</pre>', dump, re.S)
    assert told
    answer: dict[str, object] = json.loads(html.unescape(told[1]))
    return answer


def printed(folder: Path, page: str, paper: str) -> list[str]:
    """The text of each page of paper."""
    source, target = folder / "page.html", folder / "page.pdf"
    sized = page.replace("</style>", f"@page {{ size: {paper}; }}</style>")
    source.write_text(sized, encoding="utf-8", newline="\n")
    chromium(folder, "--no-pdf-header-footer", f"--print-to-pdf={target}", source.as_uri())
    run = subprocess.run(
        [str(READER), "-layout", target, "-"], check=True, capture_output=True, text=True, encoding="utf-8"
    )
    return run.stdout.split("\f")[:-1]


def all_that_is_nasty() -> str:
    return FORMATS["html"]([filled(us_site(), text) for text in NASTY.values()], Drawing(details=True))


@pytest.mark.parametrize("width", [PHONE, DESK])
def test_what_strangers_wrote_runs_nothing_fetches_nothing_and_fits(width: int, tmp_path: Path) -> None:
    seen = found(tmp_path, all_that_is_nasty(), width)
    assert seen["active"] == 0
    assert seen["fetched"] == 0
    assert seen["lost"] == 0
    assert str(seen["title"]).startswith("<script>document.title='hit'</script>")
    assert seen["hidden"] == 0
    allowed = "aria-label charset class content href http-equiv id lang name open start style"
    assert set(map(str, seen["attributes"])) <= set(allowed.split())  # type: ignore[call-overload]


@pytest.mark.parametrize("width", [PHONE, DESK])
@pytest.mark.parametrize("site", SITES)
def test_a_page_fits_the_screen_with_letters_of_full_size(site: str, width: int, tmp_path: Path) -> None:
    seen = found(tmp_path, render(SITES[site](), details=True), width)
    assert seen["hidden"] == 0
    assert seen["font"] == 16


@pytest.mark.parametrize("width", [PHONE, DESK])
def test_a_floor_plan_moves_within_a_narrow_screen_and_makes_no_page_wider(width: int, tmp_path: Path) -> None:
    seen = found(tmp_path, render(shop()), width)
    assert seen["hidden"] == 0
    assert seen["fetched"] == 0
    assert seen["active"] == 1, "the one drawing"


def test_a_working_is_folded_until_it_is_asked_for(tmp_path: Path) -> None:
    page = FORMATS["html"]([us_site(), us_site()], Drawing())
    seen = found(tmp_path, page, DESK)
    assert (seen["switches"], seen["workings"]) == (2, 1)


ENTRY = re.compile(r"^\s*\d+\. (?:Critical|Major|Minor|Observation): ", re.M)
LAST_ROW = re.compile(r"^\s*File\s", re.M)


@pytest.mark.skipif(READER is None, reason="pdftotext (poppler) is not installed")
@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_on_paper_no_entry_is_torn_apart_and_each_page_bears_its_site(paper: str, tmp_path: Path) -> None:
    sites = [us_site(), metric_site()]
    pages = printed(tmp_path, FORMATS["html"](sites, Drawing(details=True)), paper)
    entries = [(len(ENTRY.findall(page)), len(LAST_ROW.findall(page))) for page in pages]
    told = [one for site in sites for one in site.findings if one.outcome != "not applicable" and not one.fault]
    assert sum(begun for begun, _ in entries) == len(told)
    assert all(begun == ended for begun, ended in entries)
    heads = [page.strip().splitlines()[0].strip() for page in pages[1:]]
    mill, quay = "Mill Yard Cycles (mill-yard), as of 2026-11-25", "quay-street, as of 2026-11-25"
    assert heads == sorted(heads)
    assert set(heads) == {mill, quay}
    feet = [page.rstrip().splitlines()[-1].replace(" ", "") for page in pages]
    assert feet == [f"{number}/{len(pages)}" for number in range(1, len(pages) + 1)]


@pytest.mark.skipif(READER is None, reason="pdftotext (poppler) is not installed")
def test_on_paper_the_working_is_open(tmp_path: Path) -> None:
    text = " ".join(" ".join(printed(tmp_path, render(us_site()), "A4")).split())
    assert "Working 1. walk to extinguisher of Parts washer (washer)" in text
    assert "in 1 step" not in text


@pytest.mark.skipif(READER is None, reason="pdftotext (poppler) is not installed")
@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_on_paper_a_floor_plan_stands_on_one_page_with_all_its_words(paper: str, tmp_path: Path) -> None:
    pages = printed(tmp_path, render(shop()), paper)
    (page,) = (page for page in pages if "1:150 on paper at full size" in page)
    for words in (
        "Floor plan",
        "ground floor",
        "up of the plan",
        "strip 2",
        "Running room (cell)",
        "plain, thin line: met",
    ):
        assert words in page
