"""A rule begun from the template proves once it is filled; the bibliography says who uses what."""

import re
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from checker import cli, shipped
from checker.cli_rules import STATUSES
from checker.findings.prove import prove
from checker.keeping.sources import sources_of
from checker.rules import read_rulesets
from checker.vocabulary import Status

FILLED = {
    "TITLE": "Each extinguisher weighs enough to be worth having",
    "REASON": "A toy puts nothing out.",
    "NAME": "gross_mass",
    "KIND": "mass",
    "SEVERITY": "minor",
    "TRADE": "shop",
    "PROOF": "photo of the label",
    "ADVICE": "Buy a unit of at least this mass.",
    "AT": "2 kg",
    "LESS": "1.9 kg",
    "MORE": "2.1 kg",
    "AUTHORITY": "standard",
    "VALUE": "2 kg",
}


def run(*arguments: object) -> tuple[int, str]:
    done = CliRunner().invoke(cli.main, [str(one) for one in arguments])
    return done.exit_code, done.output


def filled(template: str) -> str:
    """The template without its remarks, every marked word replaced by what somebody would write."""
    lines = [line for line in template.splitlines() if not line.lstrip().startswith("#")]
    text = re.sub(r"FILL_([A-Z_]+)", lambda found: FILLED.get(found[1], found[0]), "\n".join(lines))
    return re.sub(
        r"source:.*?(?=\n\S|\Z)", "source: {ref: bs-5306-3, clause: made up, status: secondary}", text, flags=re.DOTALL
    )


def test_a_template_proves_once_it_is_filled(tmp_path: Path) -> None:
    code, template = run("rules", "new", "weights.enough", "--layer", "common", "--each", "extinguisher")
    assert code == 0
    copy = tmp_path / "rulesets"
    shutil.copytree(shipped.rulesets(), copy)
    (copy / "common" / "weights.yaml").write_text(filled(template) + "\n", encoding="utf-8")
    book = read_rulesets(copy)
    assert book.rules["weights.enough"].require == "extinguisher.gross_mass >= limit.least"
    assert [failure for failure in prove(book).failures if failure.rule == "weights.enough"] == []


def test_a_template_that_is_not_filled_names_what_is_left(tmp_path: Path) -> None:
    _, template = run("rules", "new", "weights.enough", "--layer", "common", "--each", "extinguisher")
    copy = tmp_path / "rulesets"
    shutil.copytree(shipped.rulesets(), copy)
    (copy / "common" / "weights.yaml").write_text(template, encoding="utf-8")
    code, told = run("rules", "prove", "--rulesets", copy)
    assert code == 2
    assert "FILL_SEVERITY" in told


def test_a_region_begins_with_a_layer_of_its_own(tmp_path: Path) -> None:
    copy = tmp_path / "rulesets"
    shutil.copytree(shipped.rulesets(), copy)
    code, _ = run("rules", "new", "--region", "gb-sct", "--extends", "gb", "--rulesets", copy)
    assert code == 0
    template = (copy / "gb-sct" / "layer.yaml").read_text(encoding="utf-8")
    assert "name: gb-sct" in template
    assert "extends: gb" in template


@pytest.mark.parametrize(
    "arguments, says",
    [
        ((), "name a rule to begin"),
        (("a.b", "--region", "x"), "name a rule to begin"),
        (("a.b", "--layer", "usa"), "did you mean us?"),
        (("a.b", "--layer", "us", "--each", "extinguishr"), "did you mean extinguisher?"),
    ],
)
def test_what_is_asked_for_wrongly_is_told(arguments: tuple[str, ...], says: str) -> None:
    code, told = run("rules", "new", *arguments)
    assert code == 2
    assert says in told


def test_nothing_is_replaced(tmp_path: Path) -> None:
    file = tmp_path / "mine.yaml"
    file.write_text("mine", encoding="utf-8")
    code, told = run("rules", "new", "a.b", "--layer", "us", "-o", file)
    assert (code, file.read_text(encoding="utf-8")) == (2, "mine")
    assert "is there already" in told


def test_every_provision_rests_somewhere_once() -> None:
    book = read_rulesets(shipped.rulesets())
    found = sources_of(book)
    resting = [one for each in found.used for one in each.provisions] + list(found.common_practice)
    assert len(resting) == len(book.all_provisions)
    assert {one.source.status for one in found.to_confirm} == {"memory"}
    assert found.unused == ()


def test_the_work_list_of_what_is_from_memory() -> None:
    code, told = run("rules", "sources", "--status", "memory")
    assert code == 0
    assert "From memory, to be confirmed" in told
    assert "electrical.conductor-protected" in told
    assert max(map(len, told.splitlines())) <= 80


def test_the_words_of_the_option_are_those_of_the_model() -> None:
    assert set(Status.__args__) == set(STATUSES)  # type: ignore[attr-defined]
