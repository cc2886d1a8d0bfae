from collections.abc import Callable
from decimal import Decimal

import pytest

from checker.quantities import Facts, Missing, Thing

FactsOf = Callable[[str], Facts]

NEAR = "{id: near, rating: '2-A:10-B:C', rating_system: UL 711}"
FAR = "{id: far, rating: '4-A:80-B:C', rating_system: UL 711}"
SMALL = "{id: near, rating: '1-A:5-B:C', rating_system: UL 711}"
UNRATED = "{id: near}"
UNRATED_FAR = "{id: far}"
GAS = "{id: near, rating: '10-B:C', rating_system: UL 711}"
EUROPEAN = "{id: near, rating: '21A 113B C', rating_system: EN 3}"

WALKS = "[{to: near, distance: 5 m}, {to: far, distance: 20 m}]"


def hazard_of(facts_of: FactsOf, extinguishers: str, walks: str) -> Thing:
    return facts_of(f"extinguishers: {extinguishers}\nhazards: [{{id: bench, walks: {walks}}}]").things("hazard")[0]


@pytest.mark.parametrize(
    "units, fire_class, rating, metres",
    [
        ([NEAR, FAR], "B", 10, 5),
        ([NEAR, FAR], "B", 11, 20),
        ([NEAR, FAR], "A", 2, 5),
        ([NEAR, FAR], "A", 3, 20),
        ([SMALL, FAR], "B", 10, 20),
        ([GAS, FAR], "A", 1, 20),
        ([EUROPEAN, FAR], "B", 113, 5),
        pytest.param([NEAR, UNRATED_FAR], "B", 10, 5, id="what is farther cannot matter"),
    ],
)
def test_shortest_walk(facts_of: FactsOf, units: list[str], fire_class: str, rating: int, metres: int) -> None:
    hazard = hazard_of(facts_of, f"[{', '.join(units)}]", WALKS)
    assert hazard["walk_to_extinguisher"](fire_class, Decimal(rating)) == metres
    assert hazard["has_extinguisher"](fire_class, Decimal(rating)) is True


@pytest.mark.parametrize(
    "units, walks, paths",
    [
        pytest.param(
            [UNRATED, FAR],
            WALKS,
            ["extinguishers[near].rating", "extinguishers[near].rating_system"],
            id="might be nearer",
        ),
        pytest.param([NEAR, FAR], "[{to: near}]", ["hazards[bench].walks[near].distance"], id="no distance"),
        pytest.param([NEAR, FAR], "", ["hazards[bench].walks"], id="no walks recorded"),
    ],
)
def test_what_would_have_to_be_known(facts_of: FactsOf, units: list[str], walks: str, paths: list[str]) -> None:
    hazard = hazard_of(facts_of, f"[{', '.join(units)}]", walks)
    with pytest.raises(Missing) as caught:
        hazard["walk_to_extinguisher"]("B", Decimal(10))
    assert [need.path for need in caught.value.needs] == paths
    assert {need.because for need in caught.value.needs} == {"not recorded"}


@pytest.mark.parametrize("walks", ["none", WALKS])
def test_no_walk_leads_to_one_that_serves(facts_of: FactsOf, walks: str) -> None:
    hazard = hazard_of(facts_of, f"[{SMALL}, {FAR}]", walks)
    with pytest.raises(Missing) as caught:
        hazard["walk_to_extinguisher"]("B", Decimal(100))
    (need,) = caught.value.needs
    assert (need.path, need.because) == ("hazards[bench].walks", "outside range")
    assert need.why == "no recorded walk leads to an extinguisher rated 100 or more for class B"


@pytest.mark.parametrize(
    "units, rating, answer",
    [
        ("none", 1, False),
        (f"[{SMALL}]", 10, False),
        (f"[{SMALL}, {FAR}]", 10, True),
        (f"[{UNRATED}, {FAR}]", 10, True),
    ],
)
def test_whether_anything_serves(facts_of: FactsOf, units: str, rating: int, answer: bool) -> None:
    assert hazard_of(facts_of, units, "")["has_extinguisher"]("B", Decimal(rating)) is answer


def test_an_unrated_extinguisher_might_serve(facts_of: FactsOf) -> None:
    hazard = hazard_of(facts_of, f"[{UNRATED}]", "")
    with pytest.raises(Missing, match=r"extinguishers\[near\]\.rating: not recorded"):
        hazard["has_extinguisher"]("B", Decimal(1))


def test_a_list_that_was_not_reached_might_hold_one_that_serves(facts_of: FactsOf) -> None:
    text = (
        "survey: {not_reached: [{about: extinguishers, why: dark}]}\nextinguishers: ["
        + SMALL
        + "]\nhazards: [{id: bench}]"
    )
    hazard = facts_of(text).things("hazard")[0]
    with pytest.raises(Missing, match="extinguishers: dark"):
        hazard["has_extinguisher"]("B", Decimal(10))


def test_a_class_without_numbers(facts_of: FactsOf) -> None:
    hazard = hazard_of(facts_of, f"[{NEAR}, {FAR}]", WALKS)
    with pytest.raises(Missing, match="class D has no number in a rating; A and B have"):
        hazard["walk_to_extinguisher"]("D", Decimal(1))


@pytest.mark.parametrize(
    "unit, a, b",
    [(NEAR, 2, 10), (GAS, 0, 10), (EUROPEAN, 21, 113), ("{id: near, rating: '2-A', rating_system: UL 711}", 2, 0)],
)
def test_ratings(facts_of: FactsOf, unit: str, a: int, b: int) -> None:
    extinguisher = facts_of(f"extinguishers: [{unit}]").things("extinguisher")[0]
    assert (extinguisher["class_a_rating"], extinguisher["class_b_rating"]) == (a, b)
