"""Answers kept on disk come back as they were, import no geometry, and never come back wrong."""

import os
import subprocess
import sys
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from msgspec.structs import replace

from checker.plan import (
    Answers,
    Area,
    Disc,
    Face,
    Line,
    NotOnFloor,
    Plan,
    Walk,
    edge_distances,
    farthest,
    faults_of,
    gap,
    gap_to_outline,
    reach,
    rectangle,
    shared_start,
    strips,
    suggest,
    swept_by,
    walk,
    walks_from_edge,
    working_space,
)
from checker.plan import (
    kept as kept_module,
)
from checker.plan.digest import digest_of
from tests.plan.plans import hall, two_rooms

ROOT = Path(__file__).resolve().parents[2]
PLAN = two_rooms()
SLIDING = replace(PLAN.doors[0], swing="in")
QUESTIONS: list[Callable[[Answers], object]] = [
    lambda kept: faults_of(PLAN, kept=kept),
    lambda kept: walk(PLAN, (2, 9), [(18, 9)], kept=kept),
    lambda kept: walk(two_rooms(locked=True), (2, 9), [(18, 9)], kept=kept),
    lambda kept: walks_from_edge(PLAN, rectangle((2, 2), 2, 2), [(18, 9)], kept=kept),
    lambda kept: farthest(two_rooms(locked=True), [(2, 9)], kept=kept),
    lambda kept: reach(PLAN, [(2, 9)], 8, kept=kept),
    lambda kept: suggest(PLAN, [(2, 9)], 12, kept=kept),
    lambda kept: shared_start(PLAN, (2, 9), [(18, 9), (0, 0)], kept=kept),
    lambda kept: gap(Disc((0, 0), 1), Area(rectangle((3, 0), 1, 1)), kept=kept),
    lambda kept: gap_to_outline(Disc((2, 2), 1), rectangle((0, 0), 5, 5), kept=kept),
    lambda kept: swept_by(SLIDING, PLAN, kept=kept),
    lambda kept: working_space(PLAN, Face((0, 5), 1, 0), 1, 1, {"lamp": Disc((0.5, 5), 0.1)}, kept=kept),
    lambda kept: strips(PLAN, rectangle((2, 2), 1, 2), 0, kept=kept),
    lambda kept: edge_distances([(1, 1)], rectangle((0, 0), 5, 5), [Line(((2, 0), (2, 5)))], kept=kept),
]


@pytest.mark.parametrize("ask", QUESTIONS)
def test_an_answer_comes_back_as_it_was(
    ask: Callable[[Answers], object], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    answers = Answers(tmp_path / "kept")
    first = ask(answers)
    monkeypatch.setitem(sys.modules, "checker.plan.answering", None)
    assert ask(answers) == first


def test_a_kept_answer_imports_no_geometry(tmp_path: Path) -> None:
    program = f"""
import sys
from pathlib import Path
from checker.plan import Answers, farthest
from tests.plan.plans import hall
print(farthest(hall(9, 7), [(0, 0)], kept=Answers(Path({str(tmp_path)!r}))).least)
print(sorted({{"numpy", "shapely"}} & set(sys.modules)))
"""

    def run() -> list[str]:
        done = subprocess.run(
            [sys.executable, "-c", program], cwd=ROOT, check=True, capture_output=True, text=True, encoding="utf-8"
        )
        return done.stdout.splitlines()

    first, second = run(), run()
    assert first[1] == "['numpy', 'shapely']"
    assert second == [first[0], "[]"]


@pytest.mark.parametrize(
    "spoil",
    [
        lambda text: b"",
        lambda text: text[:-1],
        lambda text: text.replace(b"17.9", b"17.8"),
        lambda text: b"\xff\xfe" + text,
        lambda text: text.partition(b"\n")[2],
        lambda text: signed(b"[" * 100_000),
        lambda text: signed(b'[false,[["Walk",1]]]'),
        lambda text: signed(b'[false,[["Nothing"]]]'),
        lambda text: signed(b"[false,[]]"),
        lambda text: signed(b'[false,[["Gap",1.0,[0.0,0.0],[0.0,0.0]]]]'),
        lambda text: signed(b"null"),
    ],
)
def test_a_spoilt_file_is_passed_over_and_mended(spoil: Callable[[bytes], bytes], tmp_path: Path) -> None:
    answers = Answers(tmp_path)
    first = walk(PLAN, (2, 9), [(18, 9)], kept=answers)
    (file,) = tmp_path.iterdir()
    sound = file.read_bytes()
    file.write_bytes(spoil(sound))
    assert file.read_bytes() != sound
    assert walk(PLAN, (2, 9), [(18, 9)], kept=answers) == first
    assert file.read_bytes() == sound


def signed(body: bytes) -> bytes:
    """A body with the digest that belongs to it."""
    import hashlib

    return hashlib.sha256(body).hexdigest().encode() + b"\n" + body


@pytest.mark.parametrize("distance", [float("inf"), float("nan")])
def test_what_would_not_come_back_is_not_kept(distance: float, tmp_path: Path) -> None:
    answers = Answers(tmp_path)
    answers.keep("question", Walk(distance, (), None))
    assert answers.held("question") is None


def test_a_file_too_large_to_be_an_answer_is_not_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    answers = Answers(tmp_path)
    walk(PLAN, (2, 9), [(18, 9)], kept=answers)
    monkeypatch.setattr(kept_module, "LARGEST", 10)
    assert answers.held(["walk", PLAN, (2, 9), ((18, 9),), 0.0]) is None


@pytest.mark.parametrize("folder", ["a file", "a/path/below/a file"])
def test_a_folder_that_cannot_be_written_is_left_alone(folder: str, tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    for name in ("a file", "a/path"):
        (tmp_path / name).write_text("in the way", encoding="utf-8")
    assert walk(PLAN, (2, 9), [(18, 9)], kept=Answers(tmp_path / folder)).distance is not None
    assert (tmp_path / "a file").read_text(encoding="utf-8") == "in the way"


def test_many_writers_of_one_answer_leave_one_whole_file(tmp_path: Path) -> None:
    answers, answer = Answers(tmp_path), Walk(1.5, ((0.0, 0.0), (1.5, 0.0)), 0)

    def write_and_read(_: int) -> object:
        answers.keep("question", answer)
        return answers.held("question")

    with ThreadPoolExecutor(8) as pool:
        assert set(pool.map(write_and_read, range(200))) == {answer}
    assert len(os.listdir(tmp_path)) == 1


def test_the_oldest_answers_go_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(kept_module, "MOST_KEPT", 10)
    answers = Answers(tmp_path)
    for number in range(11):
        answers.keep(number, Walk(float(number), (), None))
        (newest,) = set(tmp_path.iterdir()) - {path for path in tmp_path.iterdir() if path.stat().st_mtime < 1e9}
        os.utime(newest, (number, number))
    assert [answers.held(number) is not None for number in range(11)] == [False] * 6 + [True] * 5


@pytest.mark.parametrize(
    "one, other",
    [(2, 2.0), ((1, 2), [1.0, 2.0]), (0.0, -0.0), ({"a": 1, "b": 2}, {"b": 2, "a": 1}), (hall(2, 3), hall(2.0, 3.0))],
)
def test_the_same_question_has_the_same_digest(one: object, other: object) -> None:
    assert digest_of(one) == digest_of(other)


@pytest.mark.parametrize(
    "one, other",
    [
        (1, "1"),
        (1, True),
        (None, False),
        ((1, (2, 3)), ((1, 2), 3)),
        (Disc((0, 0), 1), {"centre": (0, 0), "radius": 1}),
        (hall(2, 3), hall(3, 2)),
        (two_rooms(locked=None), two_rooms(locked=False)),
        (0.1 + 0.2, 0.3),
    ],
)
def test_another_question_has_another_digest(one: object, other: object) -> None:
    assert digest_of(one) != digest_of(other)


def test_a_digest_is_the_same_in_every_run() -> None:
    assert digest_of(["walk", Disc((0, 0.5), 2), None]) == (
        "76fed02e2d81f7364748fa39367ada2e99227b575d673ba614209ae59d44b707"
    )


@pytest.mark.parametrize("what", [float("nan"), float("inf"), [1, float("-inf")]])
def test_no_number_is_no_question(what: object) -> None:
    with pytest.raises(ValueError, match="is no number"):
        digest_of(what)


def test_what_is_no_data_is_no_question() -> None:
    with pytest.raises(TypeError, match="set is no part of a question"):
        digest_of({1})
    assert Plan((), ()) == Plan(())


def test_that_there_is_no_answer_is_kept_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    plan, kept = hall(10, 6), Answers(tmp_path)
    for _ in range(2):
        with pytest.raises(NotOnFloor, match="20 m") as raised:
            walk(plan, (20, 3), [(1, 1)], kept=kept)
        assert raised.value.place == (20, 3)
        monkeypatch.setattr("checker.plan.answering.walk", None)
