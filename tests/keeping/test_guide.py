"""The guide to changing rules without programming, followed step by step as it stands."""

import re
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from checker import shipped
from checker.cli import main
from checker.rules.parse import parse
from tests.keeping.test_template import filled

DEVELOPERS = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
GUIDE = DEVELOPERS.partition("## Change the rules without programming\n")[2].partition("\n## ")[0]
FILES = {name: f"{text}" for name, text in re.findall(r"```yaml\n# (\S+)\n(.*?)```", GUIDE, re.DOTALL)}
COMMANDS = re.findall(r"^    checker (.+)$", GUIDE, re.MULTILINE)
WORDS = {
    **dict(re.findall(r"`FILL_([A-Z]+)`\s+by\s+`([^`]+)`", GUIDE)),
    "TITLE": "A person can pass the door upright",
    "AUTHORITY": "fire code",
    "REF": "state-fire-code",
    "CLAUSE": "1010.1",
}


def typed(command: str) -> Result:
    return CliRunner().invoke(main, command.split(), prog_name="checker")


def test_the_guide_holds_what_is_followed_here() -> None:
    assert list(FILES) == ["us-xx/layer.yaml", "us-xx/sources.yaml", "us-xx/fire.yaml", "us-xx/egress.yaml"]
    assert [command.split()[:2] for command in COMMANDS] == [
        ["rules", "new"], ["rules", "list"], ["rules", "show"], ["rules", "new"], ["rules", "prove"],
        ["rules", "lint"], ["rules", "diff"], ["rules", "impact"], ["check", "sites/ridgeway-motorcycles.yaml"],
    ]  # fmt: skip
    assert {"NAME", "KIND", "AT", "MORE", "LESS"} < set(WORDS)


def test_the_expressions_in_the_guide_can_be_read() -> None:
    text = re.sub(r"```.*?```", "", GUIDE, flags=re.DOTALL)
    said = {each for each in re.findall(r"`([^`]+)`", text) if re.match(r"door\.\S+( ==| in \[|$)", each)}
    assert len(said) > len(("one", "word", "question"))
    for each in said:
        parse(each)


def test_who_follows_the_guide_has_a_region_that_judges(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copytree(shipped.rulesets(), tmp_path / "rulesets")
    shutil.copytree(shipped.rulesets(), tmp_path / "my-rulesets")
    shutil.copytree(shipped.sites(), tmp_path / "sites")
    monkeypatch.chdir(tmp_path)
    region, list_, show, rule, prove, lint, diff, impact, check = COMMANDS

    assert typed(region).exit_code == 0
    begun = Path("my-rulesets/us-xx/layer.yaml").read_text(encoding="utf-8")
    left = [line for line in FILES["us-xx/layer.yaml"].splitlines() if ": " in line and not line.startswith(" ")]
    assert [line.partition(":")[0] for line in left] == re.findall(r"^(\w+): ", begun, re.MULTILINE)
    refused = typed(rule)
    assert (refused.exit_code, refused.stderr.count("FILL_TITLE")) == (2, 1)
    assert (typed(list_).exit_code, typed(list_).stderr) == (2, refused.stderr)
    *before_the_rule, (_, finished) = FILES.items()
    for name, text in before_the_rule:
        Path("my-rulesets", name).write_text(text, encoding="utf-8")

    assert "fire.class-b-walk: " in typed(list_).stdout
    assert "- fire code (us-xx)" in typed(show).stdout
    assert typed(rule).exit_code == 0
    assert typed(prove).exit_code == 2
    egress = Path("my-rulesets/us-xx/egress.yaml")
    template = egress.read_text(encoding="utf-8")
    assert "# when: door.room.engines_run\n" in template
    for text in (filled(template, **WORDS), finished):
        egress.write_text(text, encoding="utf-8")
        assert (typed(prove).exit_code, typed(prove).stderr) == (0, "")
        assert "us-xx/" not in typed(lint).stdout

    told = " ".join(typed(diff).stdout.split())
    assert "us-xx: a new layer, at 1.0" in told
    assert 'When door.room.kind == "running room" and door.room.engines_run Requires door.height >=' in told
    assert "State fire code, 2025; from memory, to be confirmed" in told
    assert "906.4" not in told
    assert typed(impact).exit_code == 0
    report = " ".join(typed(f"{check} --as-of 2026-11-25").stdout.split())
    assert "raise the frame to 78 in or more" in typed(f"{check} --as-of 2026-11-25 --format json").stdout
    assert "A state (made up) 1.0 (us-xx)" in report
    assert "State fire code 2025" in report
    assert WORDS["TITLE"] in report
