"""What the documents promise is what the program does."""

import re
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from checker.cli import main

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def commands(group: click.Group, words: str = "checker") -> list[str]:
    """Every command below a group, as it is typed."""
    found, context = [], click.Context(group)
    for name in group.list_commands(context):
        command = group.get_command(context, name)
        typed = f"{words} {name}"
        found += commands(command, typed) if isinstance(command, click.Group) else [typed]
    return found


@pytest.mark.parametrize("excerpt", re.findall(r"```text\n(.*?)```", README, re.DOTALL))
def test_an_excerpt_is_what_the_terminal_shows(excerpt: str) -> None:
    asked = ["check", "sites/ridgeway-motorcycles.yaml", "--as-of", "2026-11-25"]
    assert excerpt in CliRunner().invoke(main, asked).output


@pytest.mark.parametrize("typed", commands(main))
def test_every_command_is_in_the_readme(typed: str) -> None:
    listed = README.replace("site\\|ruleset\\|result", "site")
    assert typed in listed


@pytest.mark.parametrize("typed", sorted(set(re.findall(r"checker (check|rules \w+|quantities|schema \w+)", README))))
def test_every_command_of_the_readme_is_there(typed: str) -> None:
    assert CliRunner().invoke(main, [*typed.split(), "--help"]).exit_code == 0


@pytest.mark.parametrize("option", sorted(set(re.findall(r"(--[a-z][a-z-]+)", README + DEVELOPERS))))
def test_every_option_named_is_there(option: str) -> None:
    outside = {"--quiet", "--check", "--strict"}
    helps = "".join(CliRunner().invoke(main, [*typed.split()[1:], "--help"]).output for typed in commands(main))
    assert option in helps or option in outside


def test_the_readme_names_rooms_and_files_that_are_there() -> None:
    for name in re.findall(r"`((?:checker|rulesets|sites|tests)/[\w./-]+)`", README + DEVELOPERS):
        assert (ROOT / name).exists(), name
