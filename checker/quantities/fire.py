"""Extinguishers: what their ratings say, and how far it is to one that serves."""

from collections.abc import Mapping, Sequence

from checker.quantities.missing import Missing, OutsideRange
from checker.quantities.registry import Argument, quantity
from checker.site.ratings import SYSTEMS, read_rating

Known = float | Missing
"""A value, or why it is not there."""

CLASSES = ("A", "B")
ARGUMENTS = (Argument("fire_class", "word", frozenset(CLASSES)), Argument("rating", "number"))
LETTERS = ("C", "D")
"""Classes without a number in a rating."""
LETTERED = (Argument("letter", "word", frozenset(LETTERS)), Argument("system", "word", frozenset(SYSTEMS)))
RATED = (*ARGUMENTS, Argument("system", "word", frozenset(SYSTEMS)))
_RATINGS = "the rating as marked: UL 711 or EN 3-7 (secondary)"
SYSTEMS_APART = "that the two rating systems count differently: the rule must ask for one of them"


@quantity(
    "extinguisher.class_a_rating",
    gives="number",
    inputs={"rating": "rating", "system": "rating_system"},
    formula="the number at A in the marked rating, 0 where there is none",
    source=_RATINGS,
    status="secondary",
    leaves_out=SYSTEMS_APART,
)
def class_a_rating(rating: str, system: str) -> float:
    """The number an extinguisher is rated for on solid fuels; 0 where it is not rated for them."""
    return float(read_rating(rating, system).a)


@quantity(
    "extinguisher.class_b_rating",
    gives="number",
    inputs={"rating": "rating", "system": "rating_system"},
    formula="the number at B in the marked rating, 0 where there is none",
    source=_RATINGS,
    status="secondary",
    leaves_out=SYSTEMS_APART,
)
def class_b_rating(rating: str, system: str) -> float:
    """The number an extinguisher is rated for on liquid fuels; 0 where it is not rated for them."""
    return float(read_rating(rating, system).b)


@quantity(
    "hazard.walk_to_extinguisher",
    gives="length",
    inputs={
        "distances": "walks[*].distance?",
        "a": "walks[*].to.class_a_rating?",
        "b": "walks[*].to.class_b_rating?",
    },
    arguments=ARGUMENTS,
    formula="the shortest recorded walk to an extinguisher rated for the class at least that high",
    source="definition",
    status="definition",
    leaves_out=f"walks that were not recorded; whether the unit is charged and can be seen; {SYSTEMS_APART}",
)
def shortest_walk(
    distances: Sequence[Known], a: Sequence[Known], b: Sequence[Known], fire_class: str, rating: float
) -> float:
    """The shortest walk in m to an extinguisher that serves.

    A unit of unknown rating, or at an unknown distance, matters only where it could be nearer than the nearest one
    known: then Missing says what to record. OutsideRange where no recorded walk leads to a unit that serves.
    """
    ratings = of_class(fire_class, {"A": a, "B": b})
    walks = list(zip(distances, ratings, strict=True))
    nearest = min(
        (d for d, r in walks if not isinstance(d, Missing) and not isinstance(r, Missing) and r >= rating),
        default=None,
    )
    doubtful = [doubt for d, r in walks if (doubt := _doubt(d, r, rating, nearest))]
    if doubtful:
        raise Missing.together(doubtful)
    if nearest is None:
        raise OutsideRange(f"no recorded walk leads to an extinguisher rated {rating:g} or more for class {fire_class}")
    return nearest


def _doubt(distance: Known, rating: Known, wanted: float, nearest: float | None) -> Missing | None:
    """What would have to be known of one walk, where it could be the shortest."""
    if not isinstance(rating, Missing) and rating < wanted:
        return None
    if not isinstance(distance, Missing):
        if not isinstance(rating, Missing) or (nearest is not None and distance >= nearest):
            return None
        return rating
    return Missing.together(known for known in (distance, rating) if isinstance(known, Missing))


@quantity(
    "hazard.has_extinguisher",
    gives="answer",
    inputs={"a": "site.extinguishers[*].class_a_rating?", "b": "site.extinguishers[*].class_b_rating?"},
    arguments=ARGUMENTS,
    formula="any extinguisher of the site is rated for the class at least that high",
    source="definition",
    status="definition",
    leaves_out=SYSTEMS_APART,
)
def any_serves(a: Sequence[Known], b: Sequence[Known], fire_class: str, rating: float) -> bool:
    """Whether the site has an extinguisher that serves at all; Missing where only unknown ones could."""
    ratings = of_class(fire_class, {"A": a, "B": b})
    if any(not isinstance(known, Missing) and known >= rating for known in ratings):
        return True
    unknown = [known for known in ratings if isinstance(known, Missing)]
    if unknown:
        raise Missing.together(unknown)
    return False


@quantity(
    "hazard.walk_to_rated_extinguisher",
    gives="length",
    inputs={
        "distances": "walks[*].distance?",
        "a": "walks[*].to.class_a_rating?",
        "b": "walks[*].to.class_b_rating?",
        "systems": "walks[*].to.rating_system?",
    },
    arguments=RATED,
    formula="the shortest recorded walk to an extinguisher rated for the class at least that high in that system",
    source="definition",
    status="definition",
    leaves_out="walks that were not recorded; whether the unit is charged and can be seen",
)
def shortest_rated_walk(
    distances: Sequence[Known],
    a: Sequence[Known],
    b: Sequence[Known],
    systems: Sequence[str | Missing],
    fire_class: str,
    rating: float,
    system: str,
) -> float:
    """As shortest_walk, where the rating was given in one system only; units of the other system do not serve."""
    in_a, in_b = in_system(a, systems, system), in_system(b, systems, system)
    nearest: float = shortest_walk(distances, in_a, in_b, fire_class, rating)
    return nearest


@quantity(
    "hazard.has_rated_extinguisher",
    gives="answer",
    inputs={
        "a": "site.extinguishers[*].class_a_rating?",
        "b": "site.extinguishers[*].class_b_rating?",
        "systems": "site.extinguishers[*].rating_system?",
    },
    arguments=RATED,
    formula="any extinguisher of the site is rated for the class at least that high in that system",
    source="definition",
    status="definition",
)
def any_rated_serves(
    a: Sequence[Known],
    b: Sequence[Known],
    systems: Sequence[str | Missing],
    fire_class: str,
    rating: float,
    system: str,
) -> bool:
    """As any_serves, where the rating was given in one system only."""
    serves: bool = any_serves(in_system(a, systems, system), in_system(b, systems, system), fire_class, rating)
    return serves


@quantity(
    "hazard.walk_to_lettered_extinguisher",
    gives="length",
    inputs={
        "distances": "walks[*].distance?",
        "labels": "walks[*].to.rating?",
        "systems": "walks[*].to.rating_system?",
    },
    arguments=LETTERED,
    formula="the shortest recorded walk to an extinguisher whose rating of that system has the letter",
    source=_RATINGS,
    status="secondary",
    leaves_out="walks that were not recorded; whether the unit is charged and can be seen",
)
def shortest_lettered_walk(
    distances: Sequence[Known],
    labels: Sequence[str | Missing],
    systems: Sequence[str | Missing],
    letter: str,
    system: str,
) -> float:
    """The shortest walk in m to a unit for class C or D, which have no number. OutsideRange where none leads to one."""
    lettered = with_letter(labels, systems, letter, system)
    try:
        nearest: float = shortest_walk(distances, lettered, lettered, "A", 1)
    except OutsideRange:
        raise OutsideRange(f"no recorded walk leads to an extinguisher for class {letter} of {system}") from None
    return nearest


@quantity(
    "hazard.has_lettered_extinguisher",
    gives="answer",
    inputs={"labels": "site.extinguishers[*].rating?", "systems": "site.extinguishers[*].rating_system?"},
    arguments=LETTERED,
    formula="the rating of any extinguisher of the site, of that system, has the letter",
    source=_RATINGS,
    status="secondary",
)
def any_lettered(labels: Sequence[str | Missing], systems: Sequence[str | Missing], letter: str, system: str) -> bool:
    """Whether the site has a unit for class C or D at all; Missing where only unknown ones could be."""
    lettered = with_letter(labels, systems, letter, system)
    serves: bool = any_serves(lettered, lettered, "A", 1)
    return serves


def with_letter(
    labels: Sequence[str | Missing], systems: Sequence[str | Missing], letter: str, wanted: str
) -> list[Known]:
    """1 where a rating of the wanted system has the letter, else 0; a gap where that is not known."""
    found: list[Known] = []
    for label, system in zip(labels, systems, strict=True):
        if not isinstance(system, Missing) and system != wanted:
            found.append(0.0)
        elif isinstance(system, Missing) or isinstance(label, Missing):
            found.append(Missing.together(each for each in (label, system) if isinstance(each, Missing)))
        else:
            rating = read_rating(label, system)
            found.append(float({"C": rating.c, "D": rating.d}[letter]))
    return found


def in_system(ratings: Sequence[Known], systems: Sequence[str | Missing], wanted: str) -> list[Known]:
    """The ratings as one system counts them: 0 where a unit is rated in another, a gap where that is not known."""
    return [
        own if isinstance(own, Missing) else rating if own == wanted else 0.0
        for rating, own in zip(ratings, systems, strict=True)
    ]


def of_class(fire_class: str, ratings: Mapping[str, Sequence[Known]]) -> Sequence[Known]:
    """The ratings for one class; OutsideRange where the class has no number."""
    if fire_class not in ratings:
        raise OutsideRange(f"class {fire_class} has no number in a rating; {' and '.join(CLASSES)} have")
    return ratings[fire_class]
