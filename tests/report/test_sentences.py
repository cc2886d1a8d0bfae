"""Words for people stand in one table, and all of them are used."""

import ast
import re
from pathlib import Path
from string import Formatter
from typing import get_args

import pytest

from checker.report.sentences import SENTENCES, say
from checker.units import KINDS
from checker.vocabulary import Because, Outcome, Status

ROOM = Path(__file__).resolve().parents[2] / "checker" / "report"
MODULES = sorted(path for path in ROOM.glob("*.py") if not path.name.startswith("sentences"))


def texts(path: Path) -> list[str]:
    """The literal texts of a module, docstrings left out; a formatted text with {} where a value goes."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    docstrings = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    inner = {id(part) for node in ast.walk(tree) if isinstance(node, ast.JoinedStr) for part in node.values}
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            found.append("".join(p.value if isinstance(p, ast.Constant) else "{}" for p in node.values))
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and not {id(node)} & (docstrings | inner):
            found.append(node.value)
    return found


def test_every_sentence_is_used() -> None:
    written = {text for path in MODULES for text in texts(path)}
    for command in ROOM.parent.glob("c*.py"):
        written |= set(texts(command))
    built = [
        re.compile(re.escape(text).replace(r"\{\}", ".+")) for text in written if text.strip("{} ") and "{}" in text
    ]
    suffixed = {"valid_from", "valid_until", "valid_from_until", "span_from", "span_until", "span_from_until"}
    unused = {
        key
        for key in SENTENCES
        if key not in written | suffixed and not any(pattern.fullmatch(key) for pattern in built)
    }
    assert unused == set()


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.stem)
def test_no_module_but_the_table_says_a_sentence(path: Path) -> None:
    of_changes = {"not held", "not asked", "rule not asked", "layer of rule"}
    words_of_the_model = {*get_args(Outcome), *get_args(Because), *get_args(Status), *of_changes}
    units_and_keys = {symbol for kind in KINDS.values() for symbol in kind.symbols} | set(SENTENCES)
    keys_of_evidence = {key.removeprefix("by ") for key in SENTENCES}
    said = {text for text in texts(path) if re.search(r"[a-z]{2,} [a-z]{2,}", text)}
    assert said - words_of_the_model - units_and_keys - keys_of_evidence == set()


@pytest.mark.parametrize("key", SENTENCES)
def test_a_sentence_names_its_fields(key: str) -> None:
    fields = [name for _, name, _, _ in Formatter().parse(SENTENCES[key]) if name is not None]
    assert all(name.isidentifier() for name in fields)


def test_braces_in_a_field_are_text() -> None:
    assert say("named", name="{0}", value="{value.__class__}") == "{0} {value.__class__}"
