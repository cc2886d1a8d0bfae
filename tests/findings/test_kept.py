"""Results kept on disk come back as they were, only for what they were made from, and never come back wrong."""

import contextlib
import datetime as dt
import hashlib
import os
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest
from msgspec import Struct
from msgspec.msgpack import encode
from msgspec.structs import replace

from checker import shipped
from checker.answers.upcoming import with_upcoming
from checker.findings import kept as kept_module
from checker.findings.check import check, judged
from checker.findings.judged import Judged
from checker.findings.kept import Asked, Results
from checker.findings.result import NO_NUMBERS, Result, Value
from checker.reading import Unreadable, read_file, read_text
from checker.report import FORMATS, Drawing
from checker.rules import Rulebook, read_rulesets
from checker.site import read_site
from tests.fuzz.inputs_sites import site_input

DAY = dt.date(2026, 11, 25)
ASKED = Asked("0" * 64, ("example-house",), "us", DAY, 30)
CONTENT, FILE = b"id: unit\n", "unit.yaml"


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return read_rulesets(shipped.rulesets())


def found(rulebook: Rulebook, name: str) -> Judged:
    site = read_site(read_file(shipped.sites() / name))
    made = judged(site, rulebook, region=None, as_of=DAY, program_version="1", kept=None, before=None)
    return replace(made, result=with_upcoming(site, rulebook, made.result, 400))


@pytest.fixture(scope="module")
def made(rulebook: Rulebook) -> Judged:
    return found(rulebook, "first-visit.yaml")


def difference(one: object, other: object, at: str = "") -> str:
    """Where two values differ in type or in how they are written; empty where they do nowhere."""
    if type(one) is not type(other):
        return f"{at}: {one!r} {other!r}"
    if isinstance(one, Struct):
        one, other = ({name: getattr(each, name) for name in each.__struct_fields__} for each in (one, other))
    if isinstance(one, dict) and isinstance(other, dict):
        one, other = tuple(one.items()), tuple(other.items())
    if isinstance(one, tuple) and isinstance(other, tuple):
        inner = (difference(a, b, f"{at}/{n}") for n, (a, b) in enumerate(zip(one, other, strict=True)))
        return next((each for each in inner if each), "")
    return "" if repr(one) == repr(other) else f"{at}: {one!r} {other!r}"


@pytest.mark.parametrize("name", sorted(path.name for path in shipped.sites().glob("*.yaml")))
def test_a_result_comes_back_as_it_was(rulebook: Rulebook, tmp_path: Path, name: str) -> None:
    made, kept = found(rulebook, name), Results(tmp_path, ASKED)
    kept.keep(CONTENT, FILE, made)
    back = kept.held(CONTENT, FILE)
    assert back is not None
    assert difference(made.result, back) == ""
    for form, draw in FORMATS.items():
        assert draw([made.result], Drawing(details=True)) == draw([back], Drawing(details=True)), form


def test_whatever_comes_out_comes_back(rulebook: Rulebook) -> None:
    compared = 0
    for number in range(60):
        with contextlib.suppress(Unreadable):
            site = read_site(read_text(site_input(number).content, "site.yaml"))
            made = check(site, rulebook, region="us", as_of=DAY, program_version="1")
            assert difference(made, kept_module.Decoder(Result).decode(encode(made))) == "", number
            compared += 1
    assert compared > 15


@pytest.mark.parametrize("number", ["0", "-0.5", "1E+2", "3.00", "123456789012345678901234567890.123"])
def test_a_number_keeps_its_digits(number: str) -> None:
    made = Value(value=Decimal(number), unit="m", kind="length")
    back = kept_module.Decoder(Value).decode(encode(made))
    assert repr(back) == repr(made)


@pytest.mark.parametrize("kind", sorted(NO_NUMBERS))
def test_a_word_stays_a_word(kind: str) -> None:
    made = Value(value="120", unit="", kind=kind)
    assert kept_module.Decoder(Value).decode(encode(made)).value == "120"


@pytest.mark.parametrize(
    "other",
    [
        {"rulesets": "1" * 64},
        {"laid": ()},
        {"laid": ("example", "house")},
        {"region": "us-ca"},
        {"region": None},
        {"as_of": dt.date(2026, 11, 26)},
        {"upcoming": 31},
        {"upcoming": None},
    ],
)
def test_another_question_has_no_answer(made: Judged, tmp_path: Path, other: dict[str, object]) -> None:
    Results(tmp_path, ASKED).keep(CONTENT, FILE, made)
    assert Results(tmp_path, replace(ASKED, **other)).held(CONTENT, FILE) is None
    assert Results(tmp_path, ASKED).held(CONTENT, FILE) == made.result


def test_what_other_rulesets_gave_is_found_for_the_same_site_asked_the_same(made: Judged, tmp_path: Path) -> None:
    Results(tmp_path, ASKED).keep(CONTENT, FILE, made)
    other = Results(tmp_path, replace(ASKED, rulesets="1" * 64))
    assert other.before(CONTENT, FILE) == made
    assert other.before(CONTENT + b"#", FILE) is None
    assert other.before(CONTENT, "other.yaml") is None
    for name, value in (("region", "gb"), ("as_of", dt.date(2026, 11, 26)), ("laid", ()), ("upcoming", None)):
        assert Results(tmp_path, replace(other.asked, **{name: value})).before(CONTENT, FILE) is None


@pytest.mark.parametrize("content, file", [(CONTENT + b"#", FILE), (CONTENT, "other.yaml"), (b"", FILE)])
def test_another_site_has_no_answer(made: Judged, tmp_path: Path, content: bytes, file: str) -> None:
    kept = Results(tmp_path, ASKED)
    kept.keep(CONTENT, FILE, made)
    assert kept.held(content, file) is None


def test_what_another_program_kept_is_not_taken(monkeypatch: pytest.MonkeyPatch, made: Judged, tmp_path: Path) -> None:
    kept = Results(tmp_path, ASKED)
    kept.keep(CONTENT, FILE, made)
    with monkeypatch.context() as patch:
        patch.setattr(kept_module, "program", lambda: "another")
        assert kept.held(CONTENT, FILE) is None
    assert kept.held(CONTENT, FILE) == made.result


def with_digest(body: bytes) -> bytes:
    return hashlib.sha256(body).hexdigest().encode() + b"\n" + body


DAMAGES: list[tuple[str, Callable[[bytes], bytes]]] = [
    ("empty", lambda _: b""),
    ("cut short", lambda whole: whole[:-1]),
    ("one bit", lambda whole: whole[:-1] + bytes([whole[-1] ^ 1])),
    ("no digest", lambda whole: whole[65:]),
    ("not msgpack", lambda _: with_digest(b"\xc1")),
    ("another shape", lambda _: with_digest(encode({"findings": []}))),
    ("fields too few", lambda _: with_digest(encode(["schema"]))),
    ("digits that are none", lambda whole: with_digest(whole[65:].replace(b"\xa40.25", b"\xa40.x5"))),
]


@pytest.mark.parametrize("damage", [damage for _, damage in DAMAGES], ids=[name for name, _ in DAMAGES])
def test_what_is_damaged_is_passed_over(made: Judged, tmp_path: Path, damage: Callable[[bytes], bytes]) -> None:
    kept = Results(tmp_path, ASKED)
    quarter = Value(value=Decimal("0.25"), unit="m", kind="length")
    first = replace(made.result.findings[0], limit=quarter)
    spoilt = replace(made.result, findings=(first, *made.result.findings[1:]))
    kept.keep(CONTENT, FILE, replace(made, result=spoilt))
    (file,) = tmp_path.iterdir()
    file.write_bytes(damage(file.read_bytes()))
    assert kept.held(CONTENT, FILE) is None


def test_what_is_too_large_is_passed_over(monkeypatch: pytest.MonkeyPatch, made: Judged, tmp_path: Path) -> None:
    kept = Results(tmp_path, ASKED)
    kept.keep(CONTENT, FILE, made)
    monkeypatch.setattr(kept_module, "LARGEST", 100)
    assert kept.held(CONTENT, FILE) is None


def test_a_folder_that_cannot_be_written_is_left_alone(made: Judged, tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file")
    kept = Results(tmp_path / "taken", ASKED)
    kept.keep(CONTENT, FILE, made)
    assert kept.held(CONTENT, FILE) is None


def test_of_a_site_asked_one_thing_only_the_last_are_kept(made: Judged, tmp_path: Path) -> None:
    for number in range(5):
        Results(tmp_path, replace(ASKED, rulesets=f"{number}" * 64)).keep(CONTENT, FILE, made)
        newest = max(tmp_path.iterdir(), key=lambda path: path.stat().st_mtime_ns)
        os.utime(newest, (number, number))
    kept = [Results(tmp_path, replace(ASKED, rulesets=f"{number}" * 64)).held(CONTENT, FILE) for number in range(5)]
    assert [each is not None for each in kept] == [False, False, False, True, True]


def test_only_so_many_are_kept(monkeypatch: pytest.MonkeyPatch, made: Judged, tmp_path: Path) -> None:
    monkeypatch.setattr(kept_module, "MOST_KEPT", 4)
    kept = Results(tmp_path, ASKED)
    for number in range(12):
        kept.keep(CONTENT, f"{number}.yaml", made)
        assert len(list(tmp_path.iterdir())) <= 4
    assert kept.held(CONTENT, "11.yaml") == made.result
