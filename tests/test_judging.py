"""What a command judges anew, and what it takes from the run before."""

import datetime as dt
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from checker import shipped
from checker.commands import Told
from checker.findings.judged import Judged
from checker.judging import Judging, NoRulebook

ROOT = Path(__file__).resolve().parents[1]
DAY = dt.date(2026, 11, 25)
SITE = "id: unit\nregion: gb\nrooms: none\n"


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "kept"))
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path / "kept"))
    path = tmp_path / "unit.yaml"
    path.write_text(SITE, encoding="utf-8")
    return path


@pytest.fixture
def judged(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The regions of the sites that were judged and not taken from what was kept."""
    from checker.findings import check as room

    found: list[str] = []
    real = room.judged

    def noting(*arguments: object, **named: object) -> Judged:
        made = real(*arguments, **named)  # type: ignore[arg-type]
        found.append(made.result.region)
        return made

    monkeypatch.setattr(room, "judged", noting)
    return found


def judging(
    rulesets: Path | None = None, *laid: str, region: str | None = None, upcoming: int | None = None
) -> Judging:
    return Judging(rulesets, laid, region, DAY, upcoming)


def test_the_second_time_nothing_is_judged(site: Path, judged: list[str]) -> None:
    first = judging().result(str(site))
    assert judging().result(str(site)) == first
    assert judged == ["gb"]


def test_a_region_or_layer_of_the_command_is_another_question(site: Path, judged: list[str]) -> None:
    for asks in (judging(), judging(region="us"), judging(None, "example-house"), judging(upcoming=30)):
        asks.result(str(site))
    assert judged == ["gb", "us", "gb", "gb"]


def test_a_site_that_changed_is_judged_anew(site: Path, judged: list[str]) -> None:
    judging().result(str(site))
    site.write_text(SITE.replace("gb", "us"), encoding="utf-8")
    assert judging().result(str(site)).region == "us"
    assert judged == ["gb", "us"]


def test_after_a_ruleset_changed_every_site_is_judged_anew(site: Path, judged: list[str], tmp_path: Path) -> None:
    rulesets = Path(shutil.copytree(shipped.rulesets(), tmp_path / "rulesets"))
    before = judging(rulesets).result(str(site))
    layer = rulesets / "gb" / "layer.yaml"
    layer.write_text(layer.read_text(encoding="utf-8").replace('version: "', 'version: "9'), encoding="utf-8")
    after = judging(rulesets).result(str(site))
    assert len(judged) == 2
    assert [each.version for each in before.layers] != [each.version for each in after.layers]


def test_so_it_is_after_a_layer_in_a_folder_of_its_own_changed(site: Path, judged: list[str], tmp_path: Path) -> None:
    house = tmp_path / "our-house"
    house.mkdir()
    (house / "layer.yaml").write_text(
        'name: our-house\ntitle: Ours\nversion: "1.0"\nauthorities: [house]\n', encoding="utf-8"
    )
    judging(None, str(house)).result(str(site))
    (house / "layer.yaml").write_text(
        'name: our-house\ntitle: Ours\nversion: "1.1"\nauthorities: [house]\n', encoding="utf-8"
    )
    after = judging(None, str(house)).result(str(site))
    assert {each.name: each.version for each in after.layers}["our-house"] == "1.1"
    assert len(judged) == 2


def test_a_rulebook_that_cannot_be_used_stops_everything_though_a_result_was_kept(site: Path, tmp_path: Path) -> None:
    rulesets = Path(shutil.copytree(shipped.rulesets(), tmp_path / "rulesets"))
    judging(rulesets).result(str(site))
    (rulesets / "gb" / "layer.yaml").write_text("name: [", encoding="utf-8")
    with pytest.raises(NoRulebook, match="gb/layer"):
        judging(rulesets).result(str(site))


@pytest.mark.parametrize("content", ["", "id: [", "id: unit\nrooms: none\n", None])
def test_what_is_refused_is_refused_again(site: Path, content: str | None) -> None:
    judging().result(str(site))
    site.unlink() if content is None else site.write_text(content, encoding="utf-8")
    said = []
    for _ in range(2):
        with pytest.raises(Told) as told:
            judging().result(str(site))
        said.append(told.value.args)
    assert said[0] == said[1]
    assert all(line.startswith(str(site)) for line in said[0])


ROOMS = (
    "pydantic_core",
    "yaml",
    "jsonschema_rs",
    "rule_engine",
    "checker.quantities",
    "checker.rules",
    "checker.reading",
)


def test_what_was_kept_is_drawn_without_the_rooms_that_made_it(tmp_path: Path) -> None:
    program = (
        "import sys; from checker.cli import main\n"
        "try: main(['check', 'sites/ridgeway-motorcycles.yaml', '--as-of', '2026-11-25'])\n"
        "except SystemExit: pass\n"
        f"print([name for name in {ROOMS} if name in sys.modules], file=sys.stderr)"
    )
    environment = {**os.environ, "XDG_CACHE_HOME": str(tmp_path), "LOCALAPPDATA": str(tmp_path), "HOME": str(tmp_path)}
    runs = [
        subprocess.run(
            [sys.executable, "-c", program], cwd=ROOT, env=environment, capture_output=True, text=True, encoding="utf-8"
        )
        for _ in range(2)
    ]
    assert [run.stderr.strip() for run in runs] == [str(list(ROOMS)), "[]"]
    assert runs[0].stdout == runs[1].stdout
