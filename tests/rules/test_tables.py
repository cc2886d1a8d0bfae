"""Tables: bands and words find one row, what no row covers is outside the range, rows that overlap are found out."""

from decimal import Decimal
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.quantities import Missing
from checker.rules.tables import Band, Key, Row, Table

D = Decimal


def only(number: int | str) -> Band:
    return Band(D(number), D(number))


def row(*keys: Key, walk: int = 1) -> Row:
    return Row(keys, {"walk": D(walk)}, {"walk": f"{walk} m"})


def table(*rows: Row) -> Table:
    keys = {f"key{number}": "length" for number in range(len(rows[0].keys))}
    return Table("near", "us", keys, {"walk": "length"}, rows)


EDGES = [
    (Band(D(1), D(3)), [False, True, True, True, False]),
    (Band(D(1), D(3), holds_low=False), [False, False, True, True, False]),
    (Band(D(1), D(3), holds_high=False), [False, True, True, False, False]),
    (Band(D(1), D(3), holds_low=False, holds_high=False), [False, False, True, False, False]),
    (Band(None, D(3)), [True, True, True, True, False]),
    (Band(None, D(3), holds_high=False), [True, True, True, False, False]),
    (Band(D(1), None), [False, True, True, True, True]),
    (Band(D(1), None, holds_low=False), [False, False, True, True, True]),
    (Band(None, None), [True, True, True, True, True]),
]


@pytest.mark.parametrize("band, held", EDGES)
def test_a_band_holds_its_ends_as_written(band: Band, held: list[bool]) -> None:
    assert [band.holds(D(number)) for number in range(5)] == held


ends = st.none() | st.integers(0, 4).map(Decimal)
bands = st.builds(Band, ends, ends, st.booleans(), st.booleans()).filter(
    lambda band: any(band.holds(D(number) / 2) for number in range(-2, 12))
)


@given(bands, bands)
def test_bands_overlap_where_some_number_lies_in_both(one: Band, other: Band) -> None:
    shared = any(one.holds(D(number) / 2) and other.holds(D(number) / 2) for number in range(-2, 12))
    assert one.overlaps(other) is other.overlaps(one) is shared


LADDER = table(row(Band(D(0), D(150)), walk=1), row(Band(D(150), D(600), holds_low=False), walk=2),
               row(only(1000), walk=3))  # fmt: skip


@pytest.mark.parametrize("asked, walk", [("0", 1), ("150", 1), ("150.000001", 2), ("600", 2), ("1000", 3)])
def test_a_number_finds_the_row_of_its_band(asked: str, walk: int) -> None:
    assert LADDER.find((D(asked),)).cells["walk"] == walk
    assert LADDER.called()["walk"](D(asked)) == walk


@pytest.mark.parametrize("asked", ["-1", "600.000001", "999", "1001"])
def test_a_number_that_no_row_covers_is_outside_the_range(asked: str) -> None:
    with pytest.raises(Missing) as gap:
        LADDER.column("walk")(D(asked))
    assert (gap.value.path, gap.value.because, gap.value.why) == (
        "table near",
        "outside range",
        f"no row for key0 {asked}",
    )


def test_words_are_found_as_written() -> None:
    words = table(row("light", walk=1), row("extra", walk=2))
    assert words.find(("extra",)).written == {"walk": "2 m"}
    with pytest.raises(Missing, match="no row for key0 Light"):
        words.find(("Light",))


def test_several_keys_go_together() -> None:
    both = table(
        row("red", Band(D(0), D(1)), walk=1), row("red", Band(D(2), D(3)), walk=2), row("blue", only(1), walk=3)
    )
    assert [both.find(asked).cells["walk"] for asked in [("red", D(1)), ("red", D(2)), ("blue", D(1))]] == [1, 2, 3]
    with pytest.raises(Missing, match="no row for key0 blue, key1 2"):
        both.find(("blue", D(2)))


OVERLAPS: list[tuple[list[Row], list[tuple[int, int]]]] = [
    ([row("red"), row("blue")], []),
    ([row("red"), row("blue"), row("red")], [(0, 2)]),
    ([row("red"), row("red"), row("red")], [(0, 1), (0, 2), (1, 2)]),
    ([row(Band(D(0), D(1))), row(Band(D(1), D(2)))], [(0, 1)]),
    ([row(Band(D(0), D(1))), row(Band(D(1), D(2), holds_low=False))], []),
    ([row(Band(D(0), D(1), holds_high=False)), row(Band(D(1), D(2)))], []),
    ([row(Band(None, D(5))), row(Band(D(4), None))], [(0, 1)]),
    ([row(Band(D(0), D(1))), row(only(1))], [(0, 1)]),
    ([row(only(1)), row(Band(D(0), D(1), holds_high=False))], []),
    ([row(only(1)), row(only("1.0"))], [(0, 1)]),
    ([row("red", Band(D(0), D(1))), row("blue", Band(D(0), D(1)))], []),
    ([row("red", Band(D(0), D(1))), row("red", Band(D(2), D(3)))], []),
    ([row("red", Band(D(0), D(2))), row("red", Band(D(2), D(3)))], [(0, 1)]),
]


@pytest.mark.parametrize("rows, pairs", OVERLAPS)
def test_rows_that_answer_the_same_keys_are_found(rows: list[Row], pairs: list[tuple[int, int]]) -> None:
    assert list(table(*rows).overlapping()) == pairs


@given(st.lists(st.tuples(st.sampled_from(["red", "blue"]), bands), min_size=1, max_size=4))
def test_a_table_without_overlap_answers_with_one_row_at_most(keys: list[tuple[str, Band]]) -> None:
    made = table(*(row(*key) for key in keys))
    asked = list(product(["red", "blue"], [D(number) / 2 for number in range(-2, 12)]))
    most = max(sum(each.answers(key) for each in made.rows) for key in asked)
    assert (most > 1) is bool(list(made.overlapping()))
