"""JSON: as strict as YAML, with the same tree and the same places."""

import json
import time

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from checker.reading import Problem, Unreadable, read_text
from checker.reading.scalars import unprintable


def problems(text: str, file: str = "site.json") -> tuple[Problem, ...]:
    with pytest.raises(Unreadable) as refusal:
        read_text(text, file)
    return refusal.value.problems


@pytest.mark.parametrize(
    "text, place, path, says, found, wanted",
    [
        (
            '{"a": 1,\n "a": 2}',
            (2, 2),
            "a",
            "this key stands here for the second time, first on line 1",
            "a",
            "each key once",
        ),
        (
            '{"b": [{"a": 1, "a": 2}]}',
            (1, 17),
            "b[0].a",
            "this key stands here for the second time, first on line 1",
            "a",
            "each key once",
        ),
        ('{"a": NaN}', (1, 7), "a", "there is no such number", "NaN", "a number, or the word in quotes"),
        (
            '{"a": [1, -Infinity]}',
            (1, 11),
            "a[1]",
            "there is no such number",
            "-Infinity",
            "a number, or the word in quotes",
        ),
        ('{"a": 1e999}', (1, 7), "a", "there is no such number", "1e999", "a number, or the word in quotes"),
        (
            f'{{"a": {"1" * 5000}}}',
            (1, 7),
            "a",
            "a number takes at most 60 characters",
            "1" * 59 + "…",
            "a shorter one",
        ),
        ('{"": 1}', (1, 2), "", "a key has a name", '""', "a word"),
        (
            '{"a": "\\u0000"}',
            (1, 7),
            "a",
            "this text holds a character that cannot be printed",
            "\\x00",
            "it without that character",
        ),
        (
            '{"a": "\\ud800"}',
            (1, 7),
            "a",
            "this text holds a character that cannot be printed",
            "\\ud800",
            "it without that character",
        ),
        ("[" * 51, (1, 51), "", "a file is at most 50 levels deep", "a deeper one", "fewer levels"),
        ("null", (1, 1), "", "the file says nothing", "", "its keys and values"),
        (
            "",
            (1, 1),
            "",
            "this is not JSON (the parser: Expecting value)",
            "the end of the file",
            "a value: text in quotes, a number, true, false or a bracket",
        ),
        (
            '{"a": 1} x',
            (1, 10),
            "",
            "this is not JSON (the parser: Extra data)",
            "x",
            "everything within the outermost brackets",
        ),
        (
            "{'a': 1}",
            (1, 2),
            "",
            "this is not JSON (the parser: Expecting property name enclosed in double quotes)",
            "'a': 1}",
            'a key in quotes such as "id"; no comma after the last value',
        ),
    ],
)
def test_a_refusal_names_place_and_remedy(
    text: str,
    place: tuple[int, int],
    path: str,
    says: str,
    found: str,
    wanted: str,
) -> None:
    (problem,) = problems(text)
    assert problem == Problem("site.json", *place, path, found, wanted, says)


def test_all_problems_come_at_once() -> None:
    text = '{"a": NaN, "b": {"c": 1, "c": -Infinity},\n "a": 1e400, "": 1}'
    assert [(p.line, p.column, p.path) for p in problems(text)] == [
        (1, 7, "a"),
        (1, 26, "b.c"),
        (1, 31, "b.c"),
        (2, 2, "a"),
        (2, 7, "a"),
        (2, 14, ""),
    ]


@pytest.mark.parametrize(
    "text, data",
    [
        ('{"a": 1e3}', {"a": 1000.0}),
        ('{"a": "\\ud83d\\ude00\\n"}', {"a": "😀\n"}),
        ('{"1": "yes"}', {"1": "yes"}),
        ("\ufeff[1, -0.5, true, null]", [1, -0.5, True, None]),
        ("[" * 50 + "]" * 50, json.loads("[" * 50 + "]" * 50)),
    ],
)
def test_json_that_is_read(text: str, data: object) -> None:
    assert read_text(text, "SITE.JSON").data == data


TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=12).filter(lambda text: not unprintable(text))
KEYS = TEXTS.filter(lambda key: bool(key.strip()) and key.isprintable())
NUMBERS = st.integers(-(10**20), 10**20) | st.decimals(-(10**6), 10**6, places=4).map(float).filter(
    lambda number: "e" not in repr(number)
)
TREES = st.recursive(
    st.none() | st.booleans() | NUMBERS | TEXTS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(KEYS, inner, max_size=4),
    max_leaves=12,
).filter(lambda tree: tree is not None)


@given(TREES, st.sampled_from([None, 2]))
def test_json_text_is_one_tree_to_both_readers(tree: object, indent: int | None) -> None:
    """JSON text, read as JSON or as YAML, gives the tree it was written from, and the same places."""
    text = json.dumps(tree, ensure_ascii=False, indent=indent)
    as_json, as_yaml = read_text(text, "site.json"), read_text(text, "site.yaml")
    assert same(as_json.data, tree)
    assert same(as_yaml.data, tree)
    for path in paths(tree):
        assert as_json.mark(path) == as_yaml.mark(path)
        assert as_json.key_mark(path) == as_yaml.key_mark(path)


@given(TREES)
def test_the_same_tree_in_block_form_reads_the_same(tree: object) -> None:
    """What PyYAML writes in lines, every text quoted, gives the tree that the JSON text gives."""
    text = yaml.dump(tree, Dumper=Quoting, allow_unicode=True, default_flow_style=False, sort_keys=False)
    assert same(read_text(text, "site.yaml").data, read_text(json.dumps(tree), "site.json").data)


@given(TREES)
def test_escapes_change_nothing(tree: object) -> None:
    """JSON with every foreign character escaped gives the same tree."""
    assert same(read_text(json.dumps(tree), "site.json").data, tree)


class Quoting(yaml.SafeDumper):
    """Writes texts in quotes, and repeats nothing by reference."""

    def ignore_aliases(self, data: object) -> bool:
        return True


Quoting.add_representer(str, lambda dumper, text: dumper.represent_scalar("tag:yaml.org,2002:str", text, style='"'))


def same(one: object, other: object) -> bool:
    """Equal, and of the same types throughout: 1, 1.0 and True differ."""
    return one == other and repr(one) == repr(other)


def paths(tree: object, at: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    inner = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()
    return [at, *(path for key, value in inner for path in paths(value, (*at, key)))]


BOMBS = {
    "small values": "[" + "1," * 490_000 + "1]",
    "small keys": json.dumps({f"k{i}": 1 for i in range(70_000)}),
    "deep brackets": "[" * 900_000,
    "quotes": '"' * 900_000,
    "escaped quotes": '"' + '\\"' * 450_000,
    "loose escapes": '\\"' * 450_000,
    "repeated keys": "{" + ",".join(['"a":1'] * 120_000) + "}",
}


@pytest.mark.parametrize("text", BOMBS.values(), ids=BOMBS)
def test_a_hostile_file_is_refused_in_good_time(text: str) -> None:
    start = time.process_time()
    assert problems(text)
    assert time.process_time() - start < 2
