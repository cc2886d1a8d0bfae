"""YAML: what a scalar means, and every refusal with its place and words."""

import time

import pytest

from checker.reading import Mark, Problem, Unreadable, read_text


def problems(text: str | bytes, file: str = "site.yaml") -> tuple[Problem, ...]:
    with pytest.raises(Unreadable) as refusal:
        read_text(text, file)
    return refusal.value.problems


@pytest.mark.parametrize(
    "written, value",
    [
        ("", None),
        ("~", None),
        ("null", None),
        ("Null", "Null"),
        ("none", "none"),
        ("never", "never"),
        ("yes", True),
        ("true", True),
        ("no", False),
        ("false", False),
        ("NO", "NO"),
        ("No", "No"),
        ("Yes", "Yes"),
        ("True", "True"),
        ("on", "on"),
        ("off", "off"),
        ("y", "y"),
        ("3", 3),
        ("-3", -3),
        ("0", 0),
        ("3.70", 3.7),
        ("-0.5", -0.5),
        ("123456789012345678901", 123456789012345678901),
        ("010", "010"),
        ("00", "00"),
        ("0x1F", "0x1F"),
        ("0o17", "0o17"),
        ("1e3", "1e3"),
        ("1.5e3", "1.5e3"),
        ("1_000", "1_000"),
        ("12.", "12."),
        (".5", ".5"),
        ("+5", "+5"),
        ("12:30", "12:30"),
        ("2026-11-03", "2026-11-03"),
        ("12 ft", "12 ft"),
        ("85 %", "85 %"),
        ("3.10.2", "3.10.2"),
        ("-", "-x"),
        ("2 1/2 in", "2 1/2 in"),
        ('"3"', "3"),
        ("'yes'", "yes"),
        ('""', ""),
        ('"NaN"', "NaN"),
        ('"*a"', "*a"),
        ("5'6", "5'6"),
        ("|\n  two\n  lines", "two\nlines\n"),
        (">-\n  one\n  line", "one line"),
        ("[]", []),
        ("{}", {}),
    ],
)
def test_a_scalar_means_what_is_written(written: str, value: object) -> None:
    text = f"key: {written}\n" if written != "-" else "key: -x\n"
    found = read_text(text, "site.yaml").data["key"]
    assert (found, type(found)) == (value, type(value))


@pytest.mark.parametrize(
    "text, place, path, says, found, wanted",
    [
        (
            "rooms:\n- height: 1\n  width: 2\n  height: 3\n",
            (4, 3),
            "rooms[0].height",
            "this key stands here for the second time, first on line 2",
            "height",
            "each key once",
        ),
        ("a: &x 1\n", (1, 4), "a", "names for repeated parts are not read", "&x", "the value without it"),
        ("- &x [1]\n", (1, 3), "[0]", "names for repeated parts are not read", "&x", "the value without it"),
        (
            "a:\n  b: *x\n",
            (2, 6),
            "a.b",
            "repeats of another part are not read",
            "*x",
            "the value itself, or the text in quotes",
        ),
        (
            "*x : 1\n",
            (1, 1),
            "",
            "repeats of another part are not read",
            "*x",
            "the value itself, or the text in quotes",
        ),
        (
            "a: !!python/name:os.system x\n",
            (1, 4),
            "a",
            "types are not named in a file",
            "!!python/name:os.system",
            "the value without it",
        ),
        ("a: !!str 1\n", (1, 4), "a", "types are not named in a file", "!!str", "the value without it"),
        ("a: ! x\n", (1, 4), "a", "types are not named in a file", "!", "the value without it"),
        ("!!map {a: 1}\n", (1, 1), "", "types are not named in a file", "!!map", "the value without it"),
        ("a: {<<: {b: 1}}\n", (1, 5), 'a["<<"]', "keys are not merged in from elsewhere", "<<", "the keys themselves"),
        ("a: 1\n---\nb: 2\n", (2, 1), "", "a file holds one document", "a second one after ---", "a file for each"),
        ("a: .nan\n", (1, 4), "a", "there is no such number", ".nan", "a number, or the word in quotes"),
        ("a: [1, -.inf]\n", (1, 8), "a[1]", "there is no such number", "-.inf", "a number, or the word in quotes"),
        ("a: Infinity\n", (1, 4), "a", "there is no such number", "Infinity", "a number, or the word in quotes"),
        (f"a: {'1' * 61}\n", (1, 4), "a", "a number takes at most 60 characters", "1" * 59 + "…", "a shorter one"),
        ("1: x\n", (1, 1), '["1"]', "a key is a word", "1", '"1" in quotes if the word is meant'),
        ("a:\n  no: x\n", (2, 3), "a.no", "a key is a word", "no", '"no" in quotes if the word is meant'),
        ("a:\n  ?\n  : 1\n", (2, 4), "a", "a key is a word", "nothing", "a word"),
        ("'': 1\n", (1, 1), "", "a key has a name", '""', "a word"),
        ("? [a, b]\n: 1\n", (1, 3), "", "a key is one word", "a list or a group of keys", "a word"),
        ('"a\\nb": 1\n', (1, 1), '["a\\nb"]', "a key holds a character that cannot be printed", "a\\nb", "a word"),
        (f"? {'k' * 201}\n: 1\n", (1, 3), "k" * 201, "a key takes at most 200 characters", "k" * 59 + "…", "a word"),
        (
            'a: "x\\0"\n',
            (1, 4),
            "a",
            "this text holds a character that cannot be printed",
            "x\\x00",
            "it without that character",
        ),
        ("{a: " * 51, (1, 201), ".".join("a" * 50), "a file is at most 50 levels deep", "a deeper one", "fewer levels"),
        ("", (1, 1), "", "the file says nothing", "", "its keys and values"),
        ("# only a remark\n", (1, 1), "", "the file says nothing", "", "its keys and values"),
        ("---\n", (1, 1), "", "the file says nothing", "", "its keys and values"),
        ("a: x\x07\n", (1, 5), "", "this character does not belong in a text", "U+0007", "the text without it"),
        ("a: x\n\0", (2, 1), "", "this character does not belong in a text", "U+0000", "the text without it"),
        ("a: \u2028\n", (1, 4), "", "this character does not belong in a text", "U+2028", "the text without it"),
        ("a: \ud800\n", (1, 4), "", "this is not UTF-8 text", "the byte 0xed", "the file as UTF-8"),
        (b"a: 1\nb: \xff", (2, 4), "", "this is not UTF-8 text", "the byte 0xff", "the file as UTF-8"),
        ("a: 1\n".encode("utf-16"), (1, 1), "", "this is not UTF-8 text", "the byte 0xff", "the file as UTF-8"),
        ("#" * 1_000_001, (1, 1), "", "a file holds at most 1000000 bytes", "a larger one", "several files"),
    ],
)
def test_a_refusal_names_place_and_remedy(
    text: str | bytes,
    place: tuple[int, int],
    path: str,
    says: str,
    found: str,
    wanted: str,
) -> None:
    assert problems(text) == (Problem("site.yaml", *place, path, found, wanted, says),)


@pytest.mark.parametrize(
    "text, place, says, found, wanted",
    [
        ("a:\n\tb: 1\n", (2, 1), "a tab cannot set a line in", "b: 1", "spaces"),
        (
            "a: b: c\n",
            (1, 5),
            "a key cannot start here",
            ": c",
            "a text with a colon in quotes, a key on a line of its own",
        ),
        (
            "a: [1,\n",
            (2, 1),
            "a bracket is not closed, or a comma is missing",
            "the end of the file",
            "commas between the values, and both brackets",
        ),
        ("a: 'x\nb: 1\n", (1, 4), "this text in quotes does not end", "'x", "the closing quote"),
        ('a: "C:\\dyno"\n', (1, 7), "a \\ stands for nothing here", '\\dyno"', "\\\\ for one \\, or single quotes"),
        ("a: @x\n", (1, 4), "a value cannot start with this character", "@x", "the text in quotes"),
        (
            "- a\nb: 1\n",
            (2, 1),
            "this line is not as far in as its neighbours",
            "b: 1",
            "as many spaces as the lines beside it have",
        ),
        ("a: * x\n", (1, 5), "a * starts a repeat of another part, which is not read", "x", "the text in quotes"),
        ("[" * 1100, (1, 1001), "a file is at most 50 levels deep", "[" * 100, "fewer levels"),
    ],
)
def test_a_fault_of_syntax_is_told_in_plain_words(
    text: str,
    place: tuple[int, int],
    says: str,
    found: str,
    wanted: str,
) -> None:
    (problem,) = problems(text)
    ours, _, theirs = problem.says.partition(" (the parser: ")
    assert (problem.line, problem.column, ours, problem.found, problem.wanted) == (*place, says, found, wanted)
    assert theirs.endswith(")")


def test_all_problems_come_at_once_in_the_order_of_their_places() -> None:
    text = "a: &x 1\nb: *x\nrooms:\n- id: cell\n  id: other\n  no: 3\n  when: .nan\n- [!!int 3, {<<: 1}]\nlast: [\n"
    assert [(p.line, p.column, p.path) for p in problems(text)] == [
        (1, 4, "a"),
        (2, 4, "b"),
        (5, 3, "rooms[0].id"),
        (6, 3, "rooms[0].no"),
        (7, 9, "rooms[0].when"),
        (8, 4, "rooms[1][0]"),
        (8, 14, 'rooms[1][1]["<<"]'),
        (10, 1, ""),
    ]


def test_the_value_of_a_refused_key_is_looked_at_too() -> None:
    assert [p.path for p in problems("a: 1\na: {b: .nan, b: 2}\n")] == ["a", "a.b", "a.b"]
    assert [p.path for p in problems("? [*x, 1]\n: {c: .inf}\n")] == ["", "[0]", "c"]


def test_problems_end_where_nobody_would_read_on() -> None:
    found = problems("- *a\n" * 100_000)
    assert len(found) == 101
    assert found[-1].says == "there may be more problems than these; mend these first"


def test_a_byte_order_mark_is_no_part_of_the_text() -> None:
    document = read_text("\ufeffa: 1\n".encode(), "site.yaml")
    assert (document.data, document.key_mark(("a",))) == ({"a": 1}, Mark(1, 1))


BOMBS = {
    "small keys": "".join(f"k{i}: 1\n" for i in range(90_000)),
    "small values": "[" + "1," * 499_000 + "]",
    "deep brackets": "[" * 900_000,
    "deep groups": "{a: " * 10_000,
    "deep lists": "- " * 400_000,
    "deep lines": "".join(f"{' ' * i}a:\n" for i in range(1_300)),
    "deep keys": "? " * 400_000,
    "repeated keys": "a: 1\n" * 190_000,
    "repeats": "a: &a [x, x]\n" + "".join(f"b{i}: &b{i} [*a, *a]\n" for i in range(40_000)),
    "quotes": '"' * 900_000,
    "exclamation marks": "!" * 900_000,
    "documents": "---\n" * 200_000,
}


@pytest.mark.parametrize("text", BOMBS.values(), ids=BOMBS)
def test_a_hostile_file_is_refused_in_good_time(text: str) -> None:
    """A file of the largest size takes under a second; these take under half of one, with slack for a slow machine."""
    start = time.process_time()
    assert problems(text)
    assert time.process_time() - start < 2


def test_a_file_of_the_largest_number_of_values_is_read() -> None:
    assert len(read_text("- 1\n" * 49_999, "site.yaml").data) == 49_999
    (problem,) = problems("- 1\n" * 50_000)
    assert (problem.line, problem.says) == (50_000, "a file holds at most 50000 values")


def test_pyyaml_without_its_c_parser_reads_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    """Some machines have PyYAML without libyaml: same tree, same places, same refusals, only slower."""
    good = "a: 1\nrooms:\n- id: cell\n  height: 12 ft\n- {no-key: ~, b: [yes, 'x', \"y\\n\"]}\n"
    bad = "a: &x 1\nb: *x\nrooms:\n- id: cell\n  id: other\n  no: 3\n- [!!int 3, {<<: 1}, .inf]\n? [k]\n: 1\n"
    with_c, refused_with_c = read_text(good, "site.yaml"), problems(bad)
    monkeypatch.delattr("yaml.CSafeLoader")
    without = read_text(good, "site.yaml")
    assert without == with_c
    for path in ((), ("a",), ("rooms", 0, "height"), ("rooms", 1), ("rooms", 1, "no-key"), ("rooms", 1, "b", 2)):
        assert (without.mark(path), without.key_mark(path)) == (with_c.mark(path), with_c.key_mark(path))
    assert problems(bad) == refused_with_c
    assert problems("[" * 10_000)[0].says == "a file is at most 50 levels deep"
