"""The command line: what it writes, where, and the number it exits with."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import get_args

import click
import pytest
from click.testing import CliRunner, Result
from jsonschema import Draft202012Validator

from checker import __version__, cli, commands, shipped
from checker.findings.exit_code import COMPLIES, DOES_NOT, UNRELIABLE
from checker.quantities.registry import REGISTERED
from checker.rules import read_rulesets
from checker.vocabulary import Severity

ROOT = Path(__file__).resolve().parents[1]
DAY = "--as-of=2026-11-25"
SITES = sorted(path.name for path in shipped.sites().glob("*.yaml"))


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(cli.main, [str(argument) for argument in arguments], prog_name="checker")


def process(*arguments: str, **environment: str) -> "subprocess.Popen[bytes]":
    return subprocess.Popen(
        [sys.executable, "-m", "checker", *arguments],
        cwd=ROOT,
        env={**os.environ, **environment},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )


@pytest.fixture
def site(tmp_path: Path) -> Path:
    path = tmp_path / "unit.yaml"
    path.write_text("id: unit\nregion: gb\nrooms: none\n", encoding="utf-8")
    return path


@pytest.fixture
def bad_site(tmp_path: Path) -> Path:
    path = tmp_path / "bad.yaml"
    path.write_text("id: bad\nregion: gb\nrooms:\n  - id: cell\n    height: 3,7 m\n    colour: red\n", encoding="utf-8")
    return path


@pytest.fixture
def rulesets(tmp_path: Path) -> Path:
    return Path(shutil.copytree(shipped.rulesets(), tmp_path / "rulesets"))


def test_severities_are_those_of_the_rules() -> None:
    assert get_args(Severity) == cli.SEVERITIES


def test_exit_codes_mean_the_same_everywhere() -> None:
    assert (COMPLIES, DOES_NOT, UNRELIABLE) == (0, commands.NOT_PROVED, commands.UNREADABLE) == (0, 1, 2)


def test_version() -> None:
    assert run("--version").output == f"checker, version {__version__}\n"


def test_run_as_a_module_help_imports_no_room() -> None:
    arguments = [sys.executable, "-X", "importtime", "-m", "checker", "check", "--help"]
    done = subprocess.run(arguments, cwd=ROOT, capture_output=True, text=True, encoding="utf-8", check=True)
    names = {line.rpartition("|")[2].strip() for line in done.stderr.splitlines()}
    assert done.stdout.startswith("Usage: checker check ")
    assert not {"pydantic", "yaml", "rule_engine", "jsonschema", "checker.site", "checker.findings"} & names


def typed_commands(group: click.Group, *before: str) -> list[tuple[str, ...]]:
    found: list[tuple[str, ...]] = []
    context = click.Context(group)
    for name in group.list_commands(context):
        command = group.get_command(context, name)
        found.append((*before, name))
        if isinstance(command, click.Group):
            found += typed_commands(command, *before, name)
    return found


@pytest.mark.parametrize("command", typed_commands(cli.main), ids=" ".join)
def test_every_command_explains_itself(command: tuple[str, ...]) -> None:
    done = run(*command, "--help")
    assert done.exit_code == 0
    assert len(done.output.splitlines()) > 4


def summed(done: Result) -> str:
    return done.stdout.rpartition("\nIn sum\n")[2]


@pytest.mark.parametrize("name", SITES)
def test_a_demonstration_site_by_path_and_by_name(name: str) -> None:
    by_path = run("check", shipped.sites() / name, DAY)
    by_name = run("check", name.removesuffix(".yaml"), DAY)
    assert by_path.exit_code == by_name.exit_code == DOES_NOT
    assert summed(by_path) == summed(by_name) != ""
    assert str(shipped.sites()) not in by_name.stdout


def test_a_blank_site_is_never_fine() -> None:
    done = run("check", "first-visit", DAY, "--fail-on", "critical")
    assert done.exit_code == DOES_NOT
    assert "undetermined: not shown to comply." in done.stdout


def test_json_is_one_object_or_an_object_a_line(site: Path) -> None:
    one = json.loads(run("check", site, DAY, "--format", "json").stdout)
    assert (one["site"]["id"], one["as_of"], one["region"]) == ("unit", "2026-11-25", "gb")
    several = run("check", site, "first-visit", DAY, "--format", "json").stdout.splitlines()
    assert [json.loads(line)["site"]["id"] for line in several] == ["unit", "first-visit"]


def test_region_given_replaces_the_one_in_the_file(site: Path) -> None:
    told = json.loads(run("check", site, DAY, "--format", "json", "--region", "us").stdout)
    assert told["region"] == "us"
    assert [layer["name"] for layer in told["layers"]] == ["us", "common"]


def test_no_region_is_an_error_that_lists_those_held(site: Path) -> None:
    site.write_text("id: unit\n", encoding="utf-8")
    done = run("check", site, DAY)
    assert done.exit_code == UNRELIABLE
    assert (
        done.stderr == f"checker: {site}: names no region; write one in it or give --region: "
        "au, ca, ca-on, ca-qc, common, de, eu, gb, us, us-ca, us-ny-nyc\n"
    )


def test_all_problems_of_a_file_are_told_and_the_other_sites_still_judged(site: Path, bad_site: Path) -> None:
    done = run("check", bad_site, site, DAY, "--format", "json")
    assert done.exit_code == UNRELIABLE
    assert json.loads(done.stdout)["site"]["id"] == "unit"
    lines = done.stderr.splitlines()
    assert all(line.startswith("checker: ") for line in lines)
    assert sum("bad.yaml:5:" in line for line in lines) == sum("bad.yaml:6:" in line for line in lines) == 1


def test_a_file_that_is_not_there_is_told_in_a_line(tmp_path: Path) -> None:
    done = run("check", tmp_path / "gone.yaml", DAY)
    assert done.exit_code == UNRELIABLE
    assert done.stderr.startswith("checker: ")
    assert "gone.yaml" in done.stderr
    assert done.stdout == ""


def test_output_is_written_whole(site: Path, tmp_path: Path) -> None:
    out = tmp_path / "report.txt"
    out.write_text("older and longer than nothing", encoding="utf-8")
    done = run("check", site, DAY, "-o", out)
    assert done.stdout == ""
    assert out.read_bytes() == run("check", site, DAY).stdout_bytes
    assert not list(tmp_path.glob(".*"))


def test_where_nothing_can_be_written_nothing_is(site: Path, bad_site: Path, tmp_path: Path) -> None:
    for target in (tmp_path, tmp_path / "no folder" / "report.txt"):
        done = run("check", site, DAY, "-o", target)
        assert done.exit_code == UNRELIABLE
        assert done.stderr.startswith(f"checker: {target}: ")
    out = tmp_path / "report.txt"
    assert run("check", bad_site, DAY, "-o", out).exit_code == UNRELIABLE
    assert not out.exists()


def test_text_from_a_site_cannot_command_the_terminal(site: Path) -> None:
    site.write_text('id: unit\nregion: gb\nname: "a \\e[2J b"\nheight: 1\n', encoding="utf-8")
    assert "\x1b" not in run("check", site, DAY).output
    site.write_text('id: unit\nregion: gb\nname: "a \\e[2J b"\n', encoding="utf-8")
    assert "\x1b" not in run("check", site, DAY).output


@pytest.mark.parametrize(
    "arguments", [["check"], ["check", "x", "--as-of", "tomorrow"], ["check", "x", "--fail-on", "all"]]
)
def test_wrong_use_exits_with_2(arguments: list[str]) -> None:
    assert run(*arguments).exit_code == UNRELIABLE


def test_rules_list_by_topic_and_layer() -> None:
    held = read_rulesets(shipped.rulesets()).rules
    assert all(f"{name}: " in run("rules", "list").stdout for name in held)
    fire = run("rules", "list", "--topic", "fire").stdout
    assert {name for name in held if f"{name}: " in fire} == {
        name for name, rule in held.items() if rule.topic == "fire"
    }
    done = run("rules", "list", "--topic", "fier")
    assert (done.exit_code, done.stderr) == (UNRELIABLE, "checker: no topic fier; did you mean fire?\n")


def test_rules_show_gives_every_provision_with_its_place() -> None:
    provisions = read_rulesets(shipped.rulesets()).all_provisions
    anywhere = " ".join(run("rules", "show", "fire.class-b-walk").stdout.split())
    lines = [
        f"{Path(one.location.file).name}, line {one.location.line}"
        for one in provisions
        if one.rule == "fire.class-b-walk"
    ]
    assert len(lines) > 1
    assert all(line in anywhere for line in lines)


def test_rules_show_for_a_region() -> None:
    told = run("rules", "show", "fire.class-b-walk", "--region", "us-tx", DAY).stdout
    assert "Who asks it, in us on 2026-11-25: 1\n" in told
    assert "walk at most 50 ft" in told


def test_rules_show_offers_the_nearest_name() -> None:
    done = run("rules", "show", "fire.class-b-wak")
    assert (done.exit_code, done.stderr) == (
        UNRELIABLE,
        "checker: no rule fire.class-b-wak; did you mean fire.class-b-walk?\n",
    )


def test_the_shipped_rules_prove() -> None:
    book = read_rulesets(shipped.rulesets())
    cases = sum(len(rule.cases) for rule in book.rules.values())
    done = run("rules", "prove")
    assert (done.exit_code, done.output) == (0, f"{cases} cases of {len(book.rules)} rules proved\n")


def test_a_case_that_fails_is_named_with_its_place(rulesets: Path) -> None:
    path = rulesets / "common" / "fire.yaml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("outcome: met", "outcome: not met", 1), encoding="utf-8")
    done = run("rules", "prove", "--rulesets", rulesets)
    assert done.exit_code == commands.NOT_PROVED
    assert "fire.yaml:" in done.stderr
    assert "expected not met, got met" in done.stderr
    assert ", 1 not\n" in done.stdout


def test_rulesets_that_cannot_be_read(rulesets: Path, tmp_path: Path) -> None:
    (rulesets / "common" / "fire.yaml").write_text("rules: [", encoding="utf-8")
    for command in (["rules", "prove"], ["rules", "list"], ["check", "first-visit"]):
        for folder in (rulesets, tmp_path / "none"):
            done = run(*command, "--rulesets", folder)
            assert done.exit_code == UNRELIABLE
            assert done.stderr.startswith("checker: ")


def test_quantities_show_every_formula() -> None:
    shown = {line for line in run("quantities").stdout.splitlines() if not line.startswith(" ")}
    assert {name for name in REGISTERED if any(line == name or line.startswith(f"{name} (") for line in shown)} == set(
        REGISTERED
    )


@pytest.mark.parametrize("of", ["site", "ruleset", "result"])
def test_schemas_are_schemas(of: str) -> None:
    schema = json.loads(run("schema", of).stdout)
    Draft202012Validator.check_schema(schema)
    assert not Draft202012Validator(schema).is_valid(["no mapping"])


def test_a_closed_pipe_is_no_fault() -> None:
    running = process("quantities")
    assert running.stdout
    assert running.stderr
    running.stdout.read(1)
    running.stdout.close()
    running.wait(timeout=60)
    assert running.stderr.read() == b""
    running.stderr.close()


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no full device")
def test_what_cannot_be_written_out_is_told(site: Path) -> None:
    with open("/dev/full", "wb") as full:
        done = subprocess.run(
            [sys.executable, "-m", "checker", "check", str(site)], cwd=ROOT, stdout=full, stderr=subprocess.PIPE
        )
    assert done.returncode == UNRELIABLE
    assert done.stderr.decode() == "checker: what was to be written: No space left on device\n"


def test_a_process_that_ends_at_once_has_written_everything(site: Path) -> None:
    running = process("check", str(site), DAY, "--format", "json")
    out, errors = running.communicate(timeout=60)
    assert (running.returncode, errors) == (DOES_NOT, b"")
    assert json.loads(out)["site"]["id"] == "unit"


def test_a_profiler_comes_to_its_say() -> None:
    profiled = [sys.executable, "-m", "cProfile", "-m", "checker", "--version"]
    done = subprocess.run(profiled, cwd=ROOT, capture_output=True, text=True, encoding="utf-8", check=True)
    assert "function calls" in done.stdout


def test_a_console_of_another_encoding_gets_every_sign() -> None:
    out, errors = process("quantities", PYTHONIOENCODING="ascii", PYTHONUTF8="0").communicate(timeout=60)
    assert errors == b""
    assert "×" in out.decode("utf-8")


def test_a_fault_of_ours_is_one_line_and_no_traceback(monkeypatch: pytest.MonkeyPatch, site: Path) -> None:
    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError("by \x1b[31mnought")

    monkeypatch.setattr("checker.findings.check.judged", broken)
    done = run("check", site, DAY)
    assert done.exit_code == UNRELIABLE
    assert done.stderr == (
        "checker: a fault of the program itself, not of your files: ZeroDivisionError: by <U+001B>[31mnought\n"
    )
