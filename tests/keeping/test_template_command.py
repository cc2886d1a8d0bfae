"""`checker rules new`: shows a rule or writes it, makes a region, and never replaces a file."""

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from checker.cli import main
from tests.keeping.test_template import filled
from tests.rules.shelf import RIGHT, write


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write(tmp_path / "rulesets", RIGHT)


def new(folder: Path | None, *arguments: str | Path) -> Result:
    where = [] if folder is None else ["--rulesets", str(folder)]
    return CliRunner().invoke(main, ["rules", "new", *map(str, arguments), *where], prog_name="checker")


def prove(folder: Path) -> Result:
    return CliRunner().invoke(main, ["rules", "prove", "--rulesets", str(folder)])


def test_what_is_shown_and_what_is_written_are_the_same(folder: Path) -> None:
    file = folder / "us" / "clearances.yaml"
    asked = ("clearances.headroom", "--layer", "us", "--each", "room")
    shown = new(folder, *asked)
    written = new(folder, *asked, "-o", file)
    assert (shown.exit_code, written.exit_code) == (0, 0)
    assert file.read_text(encoding="utf-8") == shown.stdout
    assert written.stdout == (
        f"{file}: written.\n"
        "Replace every word in it that begins with FILL_.\n"
        "Then ask whether all is right:\n"
        f"    checker rules prove --rulesets {folder}\n"
    )


def test_from_the_command_to_the_proof(folder: Path) -> None:
    file = folder / "us" / "clearances.yaml"
    new(folder, "clearances.headroom", "--layer", "us", "--each", "room", "-o", file)
    open_places = prove(folder)
    assert open_places.exit_code == 2
    assert f"checker: {file}:" in open_places.stderr
    assert "Found FILL_TITLE; write one sentence: what is asked" in open_places.stderr
    file.write_text(filled(file.read_text(encoding="utf-8")), encoding="utf-8")
    assert "6 cases of 3 rules proved" in prove(folder).stdout


def test_while_a_template_is_open_nothing_more_is_begun_and_its_places_are_named(folder: Path) -> None:
    first = folder / "us" / "clearances.yaml"
    new(folder, "clearances.headroom", "--layer", "us", "--each", "room", "-o", first)
    lines = first.read_text(encoding="utf-8").splitlines()
    at = {
        word: next(n for n, line in enumerate(lines, 1) if f": {word}" in line)
        for word in ("FILL_TITLE", "FILL_REASON")
    }
    for asked in (("noise.loud", "--layer", "us", "--each", "room"), ("--region", "us-tx", "--extends", "us")):
        done = new(folder, *asked)
        said, places, then = done.stderr.splitlines()
        assert (done.exit_code, done.stdout) == (2, "")
        assert said == "checker: Something that was begun is still to be filled in. Finish it first:"
        assert places.startswith(
            f"checker: {first}: line {at['FILL_TITLE']} FILL_TITLE, line {at['FILL_REASON']} FILL_REASON, line "
        )
        assert places.endswith("FILL_STATUS")
        assert then == f"checker: `checker rules prove --rulesets {folder}` says what belongs in each place."
    for shown in (("list",), ("show", "fire.walk")):
        done = CliRunner().invoke(main, ["rules", *shown, "--rulesets", str(folder)], prog_name="checker")
        assert (done.exit_code, done.stderr.splitlines()) == (2, [said, places, then])
    first.write_text(filled(first.read_text(encoding="utf-8")), encoding="utf-8")
    assert new(folder, "noise.loud", "--layer", "us", "--each", "room").exit_code == 0


def test_what_is_wrong_besides_an_open_template_is_counted(folder: Path) -> None:
    new(folder, "clearances.headroom", "--layer", "us", "--each", "room", "-o", folder / "us" / "clearances.yaml")
    fire = folder / "us" / "fire.yaml"
    fire.write_text(fire.read_text(encoding="utf-8").replace("walk: 40 ft", "walk: 40 lb"), encoding="utf-8")
    assert "What else is wrong: 3." in new(folder, "noise.loud", "--layer", "us").stderr


def test_a_fault_that_is_no_open_template_is_told_in_full(folder: Path) -> None:
    fire = folder / "us" / "fire.yaml"
    fire.write_text(
        fire.read_text(encoding="utf-8").replace("limit: {walk: 40 ft", "limit: {walk: 40 lb"), encoding="utf-8"
    )
    done = new(folder, "noise.loud", "--layer", "us")
    assert done.exit_code == 2
    assert f"{fire}:" in done.stderr
    assert "still to be filled in" not in done.stderr


def test_a_region_is_a_folder_of_its_own(folder: Path) -> None:
    done = new(folder, "--region", "us-tx", "--extends", "us")
    file = folder / "us-tx" / "layer.yaml"
    assert done.exit_code == 0
    assert done.stdout.startswith(f"{file}: written.\n")
    assert "name: us-tx\n" in file.read_text(encoding="utf-8")


def test_nothing_is_replaced(folder: Path) -> None:
    file = folder / "us" / "fire.yaml"
    done = new(folder, "fire.sand", "--layer", "us", "-o", file)
    assert done.exit_code == 2
    assert done.stderr == (
        f"checker: {file}: is there already and stays as it is; without -o the rule is shown, to copy into it\n"
    )
    again = new(folder, "--region", "us", "--extends", "common")
    assert again.exit_code == 2
    assert again.stderr == f"checker: {folder / 'us' / 'layer.yaml'}: is there already and stays as it is\n"
    assert {name: (folder / name).read_text(encoding="utf-8") for name in RIGHT} == RIGHT


@pytest.mark.parametrize(
    "asked, told",
    [
        ((), "name a rule to begin, such as fire.sand-bucket with --layer common, or --region CODE"),
        (("fire.sand", "--region", "us-tx"), "name a rule to begin"),
        (("sand", "--layer", "us"), "sand: is no id of a rule; write its topic, a dot and its name"),
        (("fire.walk", "--layer", "us"), "fire.walk: this rule stands already in rulesets/common/fire.yaml, line 2"),
        (("fire.sand",), "say with --layer where the rule stands; there are common, us\n"),
        (("fire.sand", "--layer", "u"), "no layer u; did you mean us?\n"),
        (("fire.sand", "--layer", "us", "--each", "rom"), "no kind of thing rom; did you mean room?\n"),
        (("fire.sand", "--layer", "us", "-o", "no folder/fire.yaml"), "fire.yaml: could not be written: "),
        (("--region", "US"), "US: is no code of a region; write small letters, digits and hyphens"),
        (("--region", "../x"), "../x: is no code of a region"),
        (("--region", "us-tx", "--extends", "uss"), "no region to stand on uss; did you mean us?\n"),
    ],
)
def test_what_cannot_be_begun_is_said_with_what_would_be_right(folder: Path, asked: tuple[str, ...], told: str) -> None:
    done = new(folder, *asked)
    assert done.exit_code == 2
    assert done.stderr.startswith("checker: ")
    assert told in done.stderr
    assert {path.name for path in folder.iterdir()} == {"common", "us", "sources.yaml"}


def test_no_region_is_made_among_the_rulesets_of_the_program_unless_named() -> None:
    done = new(None, "--region", "us-tx", "--extends", "us")
    assert (done.exit_code, done.stderr) == (
        2,
        "checker: say with --rulesets in which folder of rulesets the folder of the region is made\n",
    )
