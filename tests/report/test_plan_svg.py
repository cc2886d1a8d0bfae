"""The floor plan as a drawing: to scale, complete, legible in black and white. CHECKER_GOLDEN=write renews the golden.

A millimetre on paper at 1:150 is 150 mm in the storey: that is what the scale is held against.
"""

import os
import re
import xml.etree.ElementTree as ET
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from checker.findings.result import Result
from checker.findings.storey import PlacedThing, Storey
from checker.report.blocks import content
from checker.report.html import render
from checker.report.markdown import render as render_markdown
from checker.report.page import clean
from checker.report.plan_frame import MARGIN, PAPER_WIDTH, frame_of
from checker.report.plan_legend import LETTERS, SAMPLE
from checker.report.plan_model import FloorPlan
from checker.report.plan_sheet import sheet, written
from checker.report.plan_signs import SIGNS, draw
from checker.report.plan_space import Box, Space, text_width
from checker.report.plan_styles import AREAS, BY_OUTCOME, LABELS, LINES, PATTERNS
from checker.report.plan_svg import svg
from checker.report.sentences_of_plans import OF_PLANS
from checker.report.text import render as render_text
from tests.report.plan_site import shop
from tests.report.samples import NASTY, filled
from tests.report.test_html import GOLDEN, Walk, plain

NS = "{http://www.w3.org/2000/svg}"
PARTS = ("doors", "obstacles", "partitions", "machines", "clear_zones", "things")


def plan_of(result: Result) -> FloorPlan:
    return content(result, False).plans[0]


def drawn(plan: FloorPlan) -> ET.Element:
    return ET.fromstring(svg(plan, "shop/plan-1"))


def groups(root: ET.Element, class_: str) -> list[ET.Element]:
    return [each for each in root.iter(f"{NS}g") if each.get("class") == class_]


def points(path: ET.Element) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+),(-?[\d.]+)", path.get("d", ""))]


def with_storey(**changed: Any) -> Result:
    result = shop()
    return replace(result, storeys=(replace(result.storeys[0], **changed),))


def test_the_plan_as_it_was_agreed() -> None:
    path = GOLDEN / "plan.svg"
    found = svg(plan_of(shop()), "shop/plan-1") + "\n"
    if os.environ.get("CHECKER_GOLDEN") == "write":
        path.write_text(found, encoding="utf-8", newline="\n")
    assert found.encode() == path.read_bytes()


def test_a_wall_is_as_long_as_the_scale_says() -> None:
    root = drawn(plan_of(shop()))
    scale = next(each.text for each in root.iter(f"{NS}text") if (each.text or "").startswith("1:"))
    assert scale == "1:150 on paper at full size"
    store = points(groups(root, "room")[1][0])
    wide, high = (max(axis) - min(axis) for axis in zip(*store, strict=True))
    assert wide == pytest.approx((21 - 16.2) * 1000 / 150, abs=0.02)
    assert high == pytest.approx((11 - 5) * 1000 / 150, abs=0.02)
    assert root.get("viewBox", "").split()[2] == "170" == root.get("width", "").removesuffix("mm")


def test_up_on_the_plan_is_up_on_paper() -> None:
    frame = frame_of([(0, 0), (10, 5)])
    assert frame.at((0, 5))[1] < frame.at((0, 0))[1]
    assert frame.at((0, 0))[0] < frame.at((10, 0))[0]


@pytest.mark.parametrize("size", [(0, 0), (0.01, 0.02), (10, 4), (3, 40), (200, 60), (1e5, 1e5)])
def test_every_size_fits_the_paper(size: tuple[float, float]) -> None:
    frame = frame_of([(-3, 7), (size[0] - 3, size[1] + 7)])
    for x, y in frame.all([(-3, 7), (size[0] - 3, size[1] + 7)]):
        assert MARGIN - 0.01 <= x <= PAPER_WIDTH - MARGIN + 0.01
        assert MARGIN - 0.01 <= y <= frame.height - MARGIN + 0.01
    assert frame.height < 190


def test_everything_that_has_a_place_is_drawn_once_and_numbered_once() -> None:
    plan = plan_of(shop())
    root, storey = drawn(plan), plan.storey
    for class_, parts in (
        ("room", storey.rooms), ("obstacle", storey.obstacles), ("partition", storey.partitions),
        ("door", storey.doors), ("machine", storey.machines), ("clear-zone", storey.clear_zones),
        ("line", plan.lines), ("label", plan.lines), ("name", storey.rooms),
    ):  # fmt: skip
        assert len(groups(root, class_)) == len(parts), class_
    numbers = [each.text for one in ("number", "thing") for each in _texts(groups(root, one)) if each.text != "B"]
    assert sorted(map(int, filter(None, numbers))) == list(range(1, len(plan.marks) + 1))


def _texts(found: list[ET.Element]) -> list[ET.Element]:
    return [text for group in found for text in group.iter(f"{NS}text")]


def test_nothing_written_leaves_the_paper() -> None:
    many = tuple(
        PlacedThing(kind="hazard", id=f"h{n}", label=f"h{n}", path=f"hazards[h{n}]", at=(n % 7 * 0.3, n // 7 * 0.3))
        for n in range(40)
    )
    root = drawn(plan_of(with_storey(things=many)))
    _, _, width, height = map(float, root.get("viewBox", "").split())
    for text in root.iter(f"{NS}text"):
        if text.get("x") is None or "sample" in str(text.attrib):
            continue
        half = text_width(text.text or "", float(text.get("font-size", "2.8")))
        left = float(text.get("x", 0)) - {"middle": half / 2, "start": 0, "end": half}[text.get("text-anchor", "")]
        assert left >= -2.7, text.text
        assert left + half <= width + 0.01, text.text
        assert float(text.get("y", 0)) <= height


def test_labels_do_not_lie_on_each_other_where_there_is_room() -> None:
    space = Space(100, 100)
    boxes = [space.place(20, 5, [(50, 50 + 6 * n) for n in range(8)]) for _ in range(8)]
    for one, other in combinations(boxes, 2):
        assert not _overlap(one, other)


def _overlap(one: Box, other: Box) -> bool:
    return (
        abs(one.x - other.x) < (one.width + other.width) / 2 and abs(one.y - other.y) < (one.height + other.height) / 2
    )


def test_a_label_that_finds_no_free_paper_stays_on_it() -> None:
    box = Space(50, 20).place(30, 5, [(-400, 900)])
    assert box.left >= 0
    assert box.left + box.width <= 50
    assert box.top >= 0
    assert box.top + box.height <= 20


def uncoloured(style: Any) -> tuple[tuple[str, str], ...]:
    """A style without its colours: a pattern, widths and dashes remain, and whether it is dark or light."""
    kept = {name: value for name, value in style.items() if name not in ("stroke", "fill")}
    fill = style.get("fill", "none")
    pattern = PATTERNS.get(fill.removeprefix("pattern:"), ())[1:2] if fill.startswith("pattern:") else (fill,)
    return (*sorted(kept.items()), ("fill", str(pattern)))


@pytest.mark.parametrize("table", [AREAS, LABELS], ids=["areas", "labels"])
def test_in_black_and_white_areas_and_labels_still_differ(table: Any) -> None:
    assert len({uncoloured(style) for style in table.values()}) == len(table)


def test_in_black_and_white_what_findings_measured_still_differs() -> None:
    kinds = ("walk", "farthest-walk", "common-path", "reach", "other", "measure", "straight-line")
    told = {(kind, outcome): LINES[kind] | BY_OUTCOME[outcome] for kind in kinds for outcome in ("not met", "met")}  # type: ignore[operator]
    marks = {key: (style.get("stroke-dasharray"), style["stroke-width"]) for key, style in told.items()}
    of_the_site = {key: mark for key, mark in marks.items() if key[0] != "measure"}
    assert len(set(of_the_site.values())) == len(of_the_site)
    assert float(BY_OUTCOME["not met"]["stroke-width"]) > 2 * float(BY_OUTCOME["met"]["stroke-width"])


def test_in_black_and_white_signs_still_differ() -> None:
    def shape(kind: str) -> str:
        drawing = sheet("x", 10, 10, "x")
        draw(drawing, kind, (5, 5), "sign", "B")
        return re.sub(r'(fill|stroke)="#[0-9a-f]{6}"', "", written(drawing))

    assert len({shape(kind) for kind in SIGNS}) == len(SIGNS)


@pytest.mark.parametrize("key", [key for key in OF_PLANS if key.startswith("legend ")])
def test_the_words_of_the_legend_fit_their_column(key: str) -> None:
    assert text_width(OF_PLANS[key], LETTERS) <= (PAPER_WIDTH - 4) / 3 - SAMPLE - 1.5


def test_a_finding_says_where_on_the_plan_to_look() -> None:
    page = Walk(render(shop()))
    walk = next(line for line in plan_of(shop()).lines if line.outcome == "not met" and line.style == "walk")
    assert plain(walk.label) == "walk 1: 59.88 ft"
    assert {one.rpartition("/")[0] for one in walk.findings} == {"cooper-lane/fire.class-b-walk"}
    assert "See plan: walk 1" in page.text
    assert "Floor plan: drawn in the html form of this report (ground floor)." in render_text(shop(), 200)
    assert "Floor plan: drawn in the html form of this report (ground floor)." in render_markdown(shop())


def test_the_straight_line_would_pass_where_the_walk_does_not() -> None:
    walk = next(line for line in plan_of(shop()).lines if line.name == "walk 1")
    (x1, y1), (x2, y2) = walk.rings[0][0], walk.rings[0][-1]
    assert ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5 < 50 * 0.3048 < (walk.size or 0)


def test_a_site_without_a_plan_says_nothing_of_one() -> None:
    bare = replace(shop(), storeys=())
    for page in (render(bare), render_text(bare), render_markdown(bare)):
        assert "loor plan: drawn" not in page
        assert "<svg" not in page
        assert "See plan" not in page


@pytest.mark.parametrize("tries", NASTY)
def test_what_a_stranger_wrote_is_text_on_the_plan(tries: str) -> None:
    result = shop()
    findings = tuple(one for one in result.findings if any(step.figure for step in one.working))
    page = render(filled_storeys(replace(result, findings=findings), NASTY[tries]))
    page.encode()
    walk = Walk(page)
    assert plain_start(NASTY[tries]) in walk.text
    assert len(walk.ids) == len(set(walk.ids))
    assert not re.search("[\x00-\x08\x0b-\x1f\x7f-\x9f\u200e\u200f\u202a-\u202e\u2066-\u2069]", page)


def plain_start(text: str) -> str:
    return " ".join(clean(text, 25).split())[:-1]


def filled_storeys(result: Result, text: str) -> Result:
    """The result with that text in all that a storey holds but the words that a drawing reads."""
    storey = result.storeys[0]
    hostile: Storey = filled(storey, text)
    kept = {"things": ("kind",), "doors": ("to", "swing", "hinge", "room"), "rooms": ("id",)}
    changed = {
        name: tuple(
            replace(new, **{field: getattr(old, field) for field in fields})
            for new, old in zip(getattr(hostile, name), getattr(storey, name), strict=True)
        )
        for name, fields in kept.items()
    }
    return replace(result, storeys=(replace(hostile, **changed),))


@given(st.data())
def test_any_part_of_a_plan_is_drawn_without_the_rest(data: st.DataObject) -> None:
    """Whatever places are recorded, the plan is drawn, and no number is wasted or given twice."""
    result = shop()
    storey = result.storeys[0]
    kept = {name: tuple(one for one in getattr(storey, name) if data.draw(st.booleans())) for name in PARTS}
    machines = tuple(
        replace(one, **{name: data.draw(st.sampled_from([getattr(one, name), gone])) for name, gone in GONE.items()})
        for one in kept["machines"]
    )
    kept["machines"] = tuple(one for one in machines if one.at or one.footprint)
    kept["doors"] = tuple(
        replace(
            one,
            opening=data.draw(st.sampled_from([one.opening, ()])),
            locked=data.draw(st.sampled_from([True, False, None])),
            swing=data.draw(st.sampled_from(["in", "out", "both", "sliding", "roller", None])),
            hinge=data.draw(st.sampled_from(["left", "right", None])),
        )
        for one in kept["doors"]
    )
    findings = tuple(one for one in result.findings if any(s.figure for s in one.working) and data.draw(st.booleans()))
    plan = plan_of(replace(result, findings=findings, storeys=(replace(storey, **kept),)))
    root = drawn(plan)
    assert [mark.number for mark in plan.marks] == list(range(1, len(plan.marks) + 1))
    assert len(groups(root, "line")) == len(plan.lines)


GONE: dict[str, Any] = {"at": None, "faces": None, "footprint": ()}


def test_more_than_can_be_told_apart_is_counted_and_not_drawn() -> None:
    result = shop()
    one = next(one for one in result.findings if any(step.figure for step in one.working))
    step = next(step for step in one.working if step.figure)
    assert step.figure
    steps = tuple(
        replace(step, figure=replace(step.figure, points=((n / 9, 1.0), (5.0, 2.0)), what="walk")) for n in range(20)
    )
    plan = plan_of(replace(result, findings=(replace(one, working=steps),)))
    assert (len(plan.lines), plan.not_drawn) == (14, 6)


def test_outlines_that_follow_each_other_are_drawn_apart() -> None:
    strip = next(line for line in plan_of(shop()).lines if line.style == "strip")
    assert [len(ring) for ring in strip.rings] == [4, 4]


ROOM = Path(__file__).resolve().parents[2] / "checker" / "report"


@pytest.mark.parametrize("path", sorted(ROOM.glob("plan_*.py")), ids=lambda path: path.stem)
def test_a_drawing_holds_no_script_and_reads_nothing(path: Path) -> None:
    told = path.read_text(encoding="utf-8")
    assert not re.search(r"<script|javascript|\bopen\(|xlink|@import|http(?!://www\.w3\.org/2000/svg)", told)
