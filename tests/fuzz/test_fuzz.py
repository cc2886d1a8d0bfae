"""Thousands of files that went wrong, through the real readers and evaluators, in two processes with two hash seeds.

Whatever a file holds, it is refused in words or judged, within a second, with a result that keeps to its schema;
nothing that only lost something is met where it was not met before; and both processes give the same answers. A failure
shows its input, which `python -m tests.fuzz.run` tries again by its number.
"""

import json
import os
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.fuzz.inputs_sites import Input
from tests.fuzz.run import FORMS, Answer, Wrong, cut_down, only_lost, plain, site_answer, timed
from tests.fuzz.trash import KEYS

ROOT = Path(__file__).resolve().parents[2]
HASH_SEEDS = ("1", "4242")
INPUTS = {"sites": 9_000, "shelves": 4_000, "expressions": 8_000}
SHARED = 150
"""Inputs that both processes try."""
LEAST = {
    "sites": {"judged": 500, "judged, only lost something": 500},
    "shelves": {"judged": 300},
    "expressions": {"read": 150},
}
"""How many inputs at least got past the readers."""


def test_there_are_enough_inputs() -> None:
    assert sum(INPUTS.values()) >= 20_000
    assert len(FORMS) >= 2


MORE = {
    "survey": {"on": "x"},
    "rooms": [{"id": "a", "height": {"value": "3 m", "evidence": "told"}, "readings": {"co_8h": "1 ppm"}}],
}


@pytest.mark.parametrize(
    "less, lost",
    [
        (MORE, True),
        ({"rooms": MORE["rooms"]}, True),
        ({"rooms": [{"id": "a", "readings": {}}]}, True),
        ({"rooms": [{"id": "a", "height": {"value": "3 m"}}]}, False),
        ({"rooms": [{"id": "a", "height": "3 m"}]}, False),
        ({"rooms": [{"id": "a", "width": "3 m"}]}, False),
        ({"rooms": []}, False),
        ({"survey": None}, False),
    ],
)
def test_what_only_lost_something_is_known(less: Any, lost: bool) -> None:
    assert only_lost(less, MORE) is lost


def test_a_failing_input_is_cut_down_to_what_fails() -> None:
    lines = [b"line %d\n" % number for number in range(500)]
    assert (
        cut_down(b"".join(lines), lambda text: {lines[3], lines[400]} <= set(text.splitlines(True)))
        == lines[3] + lines[400]
    )


def test_what_may_not_be_answered_is_wrong() -> None:
    for said in ("", "a\x1b[2J", "\u202e"):
        with pytest.raises(Wrong):
            plain(said)


def test_what_takes_too_long_is_wrong() -> None:
    def slow() -> Answer:
        until = time.process_time() + 1.01
        while time.process_time() < until:
            pass
        return Answer("refused", "late")

    with pytest.raises(Wrong, match="it took"):
        timed(slow)


@pytest.mark.parametrize("what", INPUTS)
def test_every_input_is_refused_in_words_or_judged(what: str) -> None:
    each = INPUTS[what] // len(HASH_SEEDS)
    running = [
        subprocess.Popen(
            [
                sys.executable,
                "-m",
                "tests.fuzz.run",
                what,
                str(SHARED + at * each),
                str(SHARED + (at + 1) * each),
                str(SHARED),
            ],
            cwd=ROOT,
            env=os.environ | {"PYTHONHASHSEED": seed, "PYTHONIOENCODING": "utf-8"},
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            encoding="utf-8",
        )
        for at, seed in enumerate(HASH_SEEDS)
    ]
    told: list[dict[str, Any]] = []
    ended = [(*process.communicate(timeout=600), process.returncode) for process in running]
    for out, err, code in ended:
        assert code == 0, err
        told.append(json.loads(out))
    counts = {kind: sum(one["counts"].get(kind, 0) for one in told) for one in told for kind in sorted(one["counts"])}
    print(counts, "slowest:", *(f"{one['slowest']:.2f} s" for one in told))
    assert [failure for one in told for failure in one["failures"]] == []
    assert sum(number for kind, number in counts.items() if ":" in kind) == len(HASH_SEEDS) * (each + SHARED)
    assert told[0]["answers"] == told[1]["answers"]
    for outcome, least in LEAST[what].items():
        assert counts[outcome] >= least, counts


LEAVES = (
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=20)
    | st.sampled_from(["3 m", "none", "x", "2026-11-25"])
)
FIELDS = st.sampled_from(KEYS) | st.text(max_size=5)
ANYTHING = st.recursive(
    LEAVES, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(FIELDS, inner, max_size=4), max_leaves=12
)
SITES = st.fixed_dictionaries(
    {"id": st.just("x"), "region": st.just("us")}, optional=dict.fromkeys(sorted({*KEYS} - {"id", "region"}), ANYTHING)
)


@settings(max_examples=300)
@given(SITES | ANYTHING, st.sampled_from(["site.json", "site.yaml"]))
def test_any_tree_is_refused_in_words_or_judged(data: Any, file: str) -> None:
    content = json.dumps(data, ensure_ascii=False).encode("utf-8", "surrogatepass")
    site_answer(Input("any tree", file, content))


@settings(max_examples=300)
@given(st.text() | st.text(alphabet="id: x\n-[]{},&*!|>'\"#%@`?~0.e"), st.sampled_from(["site.json", "site.yaml"]))
def test_any_text_is_refused_in_words_or_judged(text: str, file: str) -> None:
    site_answer(Input("any text", file, text.encode("utf-8", "surrogatepass")))
