"""What changed from one folder of rulesets to another: each change found, told in the right direction, and counted."""

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from checker import cli, shipped
from checker.keeping.diff import diff
from checker.rules import read_rulesets

CLOCKS = "fire.extinguisher-clocks"
US_FIRE, COMMON_FIRE = "us/fire.yaml", "common/fire.yaml"
REASON = "A fuel fire grows faster than a person fetches an extinguisher from the far wall."
CASE = "{limit.walk: 50 ft, limit.rating: 1, hazard.fire_class: A}"


def edited(folder: Path, file: str, old: str, new: str, times: int = 1) -> Path:
    """A copy of the shipped rulesets in which a text was replaced."""
    copy = folder / "edited"
    if not copy.exists():
        shutil.copytree(shipped.rulesets(), copy)
    path = copy / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, times), encoding="utf-8", newline="\n")
    return copy


def changes(new: Path) -> list[tuple[str, str, str, str]]:
    found = diff(read_rulesets(shipped.rulesets()), read_rulesets(new))
    return [(one.how, one.what, one.layer, one.about) for one in found.changes]


@pytest.mark.parametrize(
    "file, old, new, how, what, layer, about, part",
    [
        (US_FIRE, "{walk: 50 ft,", "{walk: 40 ft,", "tightened", "limit", "us", "fire.class-b-walk", 1),
        (US_FIRE, "{walk: 50 ft,", "{walk: 60 ft,", "relaxed", "limit", "us", "fire.class-b-walk", 1),
        (US_FIRE, "service: 1 year", "service: 2 years", "relaxed", "limit", "us", CLOCKS, 1),
        (US_FIRE, "service: 1 year", "service: not asked", "relaxed", "limit", "us", CLOCKS, 1),
        (US_FIRE, "look: 1 month", "look: 2 weeks", "tightened", "limit", "us", CLOCKS, 1),
        (US_FIRE, "life: not asked}", "life: 20 years}", "tightened", "limit", "us", CLOCKS, 1),
        (US_FIRE, "opening: 6 years", "opening: not asked", "relaxed", "row", "us", CLOCKS, 1),
        (COMMON_FIRE, REASON, "A fuel fire grows fast.", "words", "field", "common", "fire.class-b-walk", 2),
        (US_FIRE, "clause: (d)(4)", "clause: (d)(5)", "sources", "source", "us", "fire.class-b-walk", 2),
    ],
)  # fmt: skip
def test_one_change_is_told_as_what_it_is(
    tmp_path: Path, file: str, old: str, new: str, how: str, what: str, layer: str, about: str, part: int
) -> None:
    copy = edited(tmp_path, file, old, new)
    assert changes(copy) == [(how, what, layer, about)]
    versions = diff(read_rulesets(shipped.rulesets()), read_rulesets(copy)).versions
    assert [(each.layer, each.rises, each.enough) for each in versions if each.rises] == [(layer, part, False)]


def test_the_same_in_another_folder_is_no_change(tmp_path: Path) -> None:
    shutil.copytree(shipped.rulesets(), tmp_path / "copy")
    assert changes(tmp_path / "copy") == []


def test_a_rule_withdrawn_and_one_added(tmp_path: Path) -> None:
    copy = edited(
        tmp_path, "example-house/house.yaml", "house.co-alarm-stops-engine", "house.co-alarm-stops-it", times=2
    )
    found = set(changes(copy))
    assert ("withdrawn", "rule", "example-house", "house.co-alarm-stops-engine") in found
    assert ("added", "rule", "example-house", "house.co-alarm-stops-it") in found


def run(*arguments: object) -> tuple[int, str]:
    done = CliRunner().invoke(cli.main, [str(one) for one in arguments])
    return done.exit_code, done.output


def test_the_command_says_what_the_version_owes(tmp_path: Path) -> None:
    copy = edited(tmp_path, US_FIRE, "{walk: 50 ft, rating: 1}", "{walk: 40 ft, rating: 1}")
    code, told = run("rules", "diff", shipped.rulesets(), copy)
    assert code == 1
    assert "walk at most 40 ft, before 50 ft" in told
    stands = read_rulesets(shipped.rulesets()).layers["us"].version
    owed = f"{int(stands.split('.')[0]) + 1}.0"
    assert f"{owed} or later" in told
    assert max(map(len, told.splitlines())) <= 80
    edited(tmp_path, "us/layer.yaml", f'version: "{stands}"', f'version: "{owed}"')
    assert run("rules", "diff", shipped.rulesets(), copy)[0] == 0


def test_impact_names_the_sites_and_the_cause(tmp_path: Path) -> None:
    copy = edited(tmp_path, US_FIRE, "{walk: 50 ft, rating: 1}", "{walk: 10 ft, rating: 1}")
    code, told = run("rules", "impact", copy, "--sites", shipped.sites(), "--as-of", "2026-11-25")
    assert code == 0
    assert "fire.class-b-walk" in told
    assert "ridgeway-motorcycles" in told
    assert "walk at most 10 ft, before 50 ft" in " ".join(told.split())
    assert "harbour-lane" not in told.split("Site by site")[1].split("Not judged")[0]
    assert max(map(len, told.splitlines())) <= 80


def test_impact_of_no_change(tmp_path: Path) -> None:
    shutil.copytree(shipped.rulesets(), tmp_path / "copy")
    code, told = run("rules", "impact", tmp_path / "copy", "--sites", shipped.sites(), "--as-of", "2026-11-25")
    assert (code, "Findings that come out otherwise: 0." in told) == (0, True)


def test_a_site_that_cannot_be_read_is_a_line_and_not_the_end(tmp_path: Path) -> None:
    sites = tmp_path / "sites"
    shutil.copytree(shipped.sites(), sites)
    (sites / "broken.yaml").write_text("id: [", encoding="utf-8")
    copy = edited(tmp_path, US_FIRE, "{walk: 50 ft, rating: 1}", "{walk: 10 ft, rating: 1}")
    code, told = run("rules", "impact", copy, "--sites", sites, "--as-of", "2026-11-25")
    assert code == 2
    assert "broken.yaml" in "".join(told.split())
    assert "fire.class-b-walk" in told


def test_a_new_region_is_seen_where_it_is_named(tmp_path: Path) -> None:
    copy = edited(tmp_path, US_FIRE, "{walk: 50 ft, rating: 1}", "{walk: 50 ft, rating: 1}")
    (copy / "us-xx").mkdir()
    layer = 'name: us-xx\ntitle: A state\nextends: us\nversion: "1.0"\nauthorities: [workplace law]\n'
    (copy / "us-xx" / "layer.yaml").write_text(layer, encoding="utf-8")
    asked = (
        "provisions:\n  - rule: fire.class-b-walk\n    authority: workplace law\n    limit: {walk: 10 ft, rating: 1}\n"
        "    source: {ref: osha-1910.157, clause: made up, status: secondary}\n"
    )
    (copy / "us-xx" / "fire.yaml").write_text(asked, encoding="utf-8")
    asking = ("rules", "impact", copy, "--sites", shipped.sites(), "--as-of", "2026-11-25")
    assert "Findings that come out otherwise: 0." in run(*asking)[1]
    code, told = run(*asking, "--region", "us-xx")
    assert code == 0
    assert "fire.class-b-walk" in told
