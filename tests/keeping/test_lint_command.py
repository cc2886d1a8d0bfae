"""`rules lint` and the options of `rules list`: what they write, and the number they exit with."""

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from checker import shipped
from checker.cli import main
from checker.keeping.listing import Wanted, listed
from checker.rules import read_rulesets
from tests.rules import shelf

RIGHT = {
    "sources.yaml": "sources:\n  - {id: act-1, kind: law, designation: Act 1, title: An act that we made up}\n",
    "common/layer.yaml": 'name: common\ntitle: Common\nversion: "1.0"\nauthorities: [workplace law]\n',
    "common/fire.yaml": """\
rules:
  - id: fire.charged
    title: Each extinguisher is charged
    reason: An empty one puts out nothing.
    each: extinguisher
    require: extinguisher.charged
    severity: major
    acts: shop
    closes_with: a photo of the gauge
    cases:
      - {given: {extinguisher.charged: yes}, outcome: met}
      - {given: {extinguisher.charged: no}, outcome: not met}
      - {given: {}, outcome: undetermined}
provisions:
  - {rule: fire.charged, authority: workplace law, source: {ref: act-1, clause: "1", status: verified}}
""",
}


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(main, ["rules", *map(str, arguments)], prog_name="checker")


@pytest.fixture
def rulesets(tmp_path: Path) -> Path:
    return Path(shutil.copytree(shipped.rulesets(), tmp_path / "rulesets"))


def test_a_source_more_is_one_thing_more_to_mend(rulesets: Path) -> None:
    before = run("lint", "--rulesets", rulesets).stdout
    path = rulesets / "sources.yaml"
    added = "  - {id: act-of-nobody, kind: law, designation: Act of Nobody, title: An act that we made up}\n"
    path.write_text(path.read_text(encoding="utf-8").rstrip() + f"\n{added}", encoding="utf-8")
    done = run("lint", "--rulesets", rulesets)
    assert done.exit_code == 1
    assert "act-of-nobody" in done.stdout
    assert "act-of-nobody" not in before


def test_what_is_right_exits_with_0(tmp_path: Path) -> None:
    done = run("lint", "--rulesets", shelf.write(tmp_path / "rulesets", RIGHT))
    assert (done.stdout, done.exit_code) == ("Nothing to mend. Rules read: 1.\n", 0)


def test_a_remark_is_told_and_nothing_to_mend(tmp_path: Path) -> None:
    files = dict(RIGHT)
    case = "{limit.most: 20 A, circuit.breaker: %s}, outcome: %s}"
    rule = files["common/fire.yaml"].partition("provisions:")[0].replace("extinguisher.charged", "circuit.x")
    rule = rule.replace("each: extinguisher", "each: circuit\n    limit: {most: current}")
    rule = rule.replace("require: circuit.x", "require: circuit.breaker <= limit.most")
    rule = (
        rule.partition("    cases:\n")[0]
        + "    cases:\n"
        + "".join(
            f"      - {{given: {case % each}\n" for each in (("20 A", "met"), ("19 A", "met"), ("21 A", "not met"))
        )
        + "      - {given: {limit.most: 20 A}, outcome: undetermined}\n"
    )
    asked = "  - {rule: fire.charged, authority: %s, limit: {most: %s}, source: {ref: act-1, status: verified}}\n"
    files["common/fire.yaml"] = f"{rule}provisions:\n{asked % ('workplace law', '20 A')}{asked % ('standard', '16 A')}"
    files["common/layer.yaml"] = files["common/layer.yaml"].replace("[workplace law]", "[workplace law, standard]")
    done = run("lint", "--rulesets", shelf.write(tmp_path / "rulesets", files))
    assert done.exit_code == 0
    assert done.stdout.startswith("Nothing to mend. Rules read: 1.\n\nTo know, not to mend: 1\n")
    assert "16 A of standard" in done.stdout


def test_what_cannot_be_read_exits_with_2(rulesets: Path) -> None:
    (rulesets / "common" / "fire.yaml").write_text("rules: [", encoding="utf-8")
    done = run("lint", "--rulesets", rulesets)
    assert (done.stdout, done.exit_code) == ("", 2)
    assert done.stderr.startswith("checker: ")


def test_lint_fits_the_page(tmp_path: Path) -> None:
    done = run("lint", "--rulesets", shelf.write(tmp_path / "rulesets", shelf.RIGHT))
    assert done.exit_code == 1
    assert max(map(len, done.stdout.splitlines())) <= 80


@pytest.mark.parametrize(
    "options, wanted",
    [
        (["--severity", "critical"], Wanted(severity="critical")),
        (["--layer", "us", "--status", "secondary"], Wanted(layer="us", status="secondary")),
        (["--topic", "fire", "--authority", "fire code"], Wanted(topic="fire", authority="fire code")),
        (["--source", "osha-1910.157"], Wanted(source="osha-1910.157")),
    ],
)
def test_the_options_of_list_narrow_it(options: list[str], wanted: Wanted) -> None:
    book = read_rulesets(shipped.rulesets())
    names = {each.rule.id for each in listed(book, wanted)}
    shown = run("list", *options).stdout
    assert {name for name in book.rules if f"{name}: " in shown} == names
    assert 0 < len(names) < len(book.rules)


@pytest.mark.parametrize(
    "option, word, near",
    [
        ("--topic", "fier", "fire"),
        ("--severity", "critcal", "critical"),
        ("--layer", "comon", "common"),
        ("--authority", "fire-code", "fire code"),
        ("--status", "memry", "memory"),
        ("--source", "eh40-2006", "eh40-2005"),
    ],
)
def test_a_word_that_is_none_gets_the_nearest(option: str, word: str, near: str) -> None:
    done = run("list", option, word)
    assert (done.exit_code, done.stderr) == (2, f"checker: no {option[2:]} {word}; did you mean {near}?\n")


def test_a_rule_that_is_like_none_is_not_answered_with_all_of_them() -> None:
    done = run("show", "zzz.xyxyxy")
    assert (done.exit_code, done.stderr) == (
        2,
        "checker: no rule zzz.xyxyxy; `checker rules list` shows all\n",
    )
