"""How much the extinguishers of a storey put out together, counted as each region's text counts it."""

import math
from bisect import bisect_right
from collections.abc import Callable, Mapping, Sequence
from typing import Final

from checker.quantities.fire import Known, in_system
from checker.quantities.missing import Missing
from checker.quantities.registry import Argument, above, quantity
from checker.site.ratings import SYSTEMS, read_rating

UNITS_BY_A: Final = {5: 1, 8: 2, 13: 4, 21: 6, 27: 9, 34: 10, 43: 12, 55: 15}
"""Extinguishing units by class A rating of EN 3."""
UNITS_BY_B: Final = {21: 1, 34: 2, 55: 3, 70: 4, 89: 5, 113: 6, 144: 9, 183: 12, 233: 15}
"""Extinguishing units by class B rating of EN 3."""
BURNS: Final = ("A", "A and B")
"""What can burn on a storey: solids alone, or liquids as well."""
HARMLESS_TO_ELECTRICS: Final = ("carbon dioxide", "powder", "clean agent")
"""Agents that do not conduct."""

_RATED: Final = {
    "rooms": "site.extinguishers[*].room.storey?",
    "ratings": "site.extinguishers[*].class_a_rating?",
    "systems": "site.extinguishers[*].rating_system?",
}
_SYSTEM: Final = Argument("system", "word", frozenset(SYSTEMS))
_NOT_COUNTED: Final = "whether units are charged, serviced and in reach"
_ASR: Final = "ASR A2.2, tables 2 and 3 and point 5.2 (secondary; rows read in a copy of its annex 2)"
_IFC: Final = "IFC 2018 table 906.3(1) with notes a and c, as adopted in Minnesota 2020 (verified in a copy)"


@quantity(
    "storey.floor_area",
    gives="area",
    inputs={"name": "name", "storeys": "site.rooms[*].storey?", "areas": "site.rooms[*].floor_area?"},
    formula="sum of the floor areas of the rooms that lie on the storey",
    source="definition",
    status="definition",
    leaves_out="walls between rooms, and floor that lies in no recorded room",
)
def area_of_storey(name: str, storeys: Sequence[str | Missing], areas: Sequence[Known]) -> float:
    """The floor area of a storey in m2. Missing where a room may lie on it whose area is not known."""
    return math.fsum(on_storey(name, storeys, areas, lambda area: area))


def on_storey(
    name: str,
    storeys: Sequence[str | Missing],
    values: Sequence[Known],
    counts: Callable[[float], float],
) -> list[float]:
    """What each thing on a storey counts; things elsewhere, and those that count 0, are left out.

    Raises Missing with all that would have to be known of things that may lie on it and may count.
    """
    found: list[float] = []
    doubtful: list[Missing] = []
    for storey, value in zip(storeys, values, strict=True):
        elsewhere = not isinstance(storey, Missing) and storey != name
        if elsewhere or (not isinstance(value, Missing) and counts(value) == 0):
            continue
        gaps = [each for each in (storey, value) if isinstance(each, Missing)]
        if isinstance(value, Missing) or gaps:
            doubtful += gaps
        else:
            found.append(counts(value))
    if doubtful:
        raise Missing.together(doubtful)
    return found


@quantity(
    "storey.class_a_total",
    gives="number",
    inputs={"name": "name", **_RATED},
    arguments=(_SYSTEM,),
    formula="sum of the class A ratings of the extinguishers on the storey that are rated in that system",
    source="BS 5306-8:2012, 8.2 (secondary)",
    status="secondary",
    leaves_out=_NOT_COUNTED,
)
def class_a_total(
    name: str, rooms: Sequence[str | Missing], ratings: Sequence[Known], systems: Sequence[str | Missing], system: str
) -> float:
    """The class A ratings of a storey's extinguishers, added up."""
    return math.fsum(on_storey(name, rooms, in_system(ratings, systems, system), float))


@quantity(
    "storey.class_a_units",
    gives="count",
    inputs={"name": "name", **_RATED},
    arguments=(_SYSTEM,),
    formula="number of extinguishers on the storey with a class A rating in that system",
    source="definition",
    status="definition",
    leaves_out=_NOT_COUNTED,
)
def class_a_units(
    name: str, rooms: Sequence[str | Missing], ratings: Sequence[Known], systems: Sequence[str | Missing], system: str
) -> float:
    """How many extinguishers of a storey are rated for solid fuels."""
    return len(on_storey(name, rooms, in_system(ratings, systems, system), float))


@quantity(
    "storey.class_a_counted",
    gives="number",
    inputs={
        "name": "name",
        **_RATED,
        "agents": "site.extinguishers[*].agent?",
    },
    arguments=(Argument("smallest", "number"), Argument("most", "number"), Argument("pair", "number")),
    formula=(
        "sum of min(rating, most) over the storey's units of UL 711 rated at least `smallest`; two water units rated "
        "`pair` count as one of twice that rating"
    ),
    source=_IFC,
    status="verified",
    leaves_out=f"{_NOT_COUNTED}; that a 2½ gallon water unit is rated 2-A is from memory",
)
def class_a_counted(
    name: str,
    rooms: Sequence[str | Missing],
    ratings: Sequence[Known],
    systems: Sequence[str | Missing],
    agents: Sequence[str | Missing],
    smallest: float,
    most: float,
    pair: float,
) -> float:
    """The A that a storey's units count together; a `pair` of 0 says that small units never count in pairs.

    A unit stronger than `most` A counts as `most`: no unit covers more floor than that.
    """
    own = in_system(ratings, systems, "UL 711")
    total = math.fsum(on_storey(name, rooms, own, lambda rating: min(rating, most) if rating >= smallest else 0.0))
    small = [_in_a_pair(rating, agent, pair) for rating, agent in zip(own, agents, strict=True)]
    pairs = len(on_storey(name, rooms, small, float)) // 2 if 0 < pair < smallest else 0
    return total + pairs * min(2 * pair, most)


def _in_a_pair(rating: Known, agent: str | Missing, pair: float) -> Known:
    """1 for a water unit that may count with another one, else 0; a gap where that is not known."""
    if (not isinstance(rating, Missing) and rating != pair) or (not isinstance(agent, Missing) and agent != "water"):
        return 0.0
    gaps = [each for each in (rating, agent) if isinstance(each, Missing)]
    return Missing.together(gaps) if gaps else 1.0


@quantity(
    "storey.steps_above",
    gives="count",
    inputs={"floor": "floor_area"},
    arguments=(Argument("area", "area"), Argument("step", "area")),
    formula="(floor area − area) ÷ step, rounded up; 0 up to that area",
    source="definition; the last row of ASR A2.2, table 3, is written so (secondary)",
    status="secondary",
    range={"step": above(0, "m2")},
)
def steps_above(floor: float, area: float, step: float) -> float:
    """How many steps, the last one begun, a floor goes beyond an area; m2."""
    return float(math.ceil(max(floor - area, 0.0) / step))


@quantity(
    "extinguisher.extinguishing_units",
    gives="number",
    inputs={"a": "class_a_rating", "b": "class_b_rating", "system": "rating_system"},
    arguments=(Argument("burns", "word", frozenset(BURNS)),),
    formula="extinguishing units of its class A rating; where liquids burn too, the lower of those of A and of B",
    source=_ASR,
    status="secondary",
)
def extinguishing_units(a: float, b: float, system: str, burns: str) -> float:
    """The German extinguishing units of a rating of EN 3; 0 for units of another system, which have none."""
    if system != "EN 3":
        return 0.0
    of_a = units_of(a, UNITS_BY_A)
    return of_a if burns == "A" else min(of_a, units_of(b, UNITS_BY_B))


def units_of(rating: float, table: Mapping[int, int]) -> float:
    """The units of the highest rating in the table that is not above this one; 0 below the first."""
    ratings = list(table)
    row = bisect_right(ratings, rating)
    return float(table[ratings[row - 1]]) if row else 0.0


@quantity(
    "storey.extinguishing_units",
    gives="number",
    inputs={
        "name": "name",
        **_RATED,
        "b_ratings": "site.extinguishers[*].class_b_rating?",
    },
    arguments=(Argument("burns", "word", frozenset(BURNS)), Argument("smallest", "number")),
    formula="sum of the extinguishing units of the storey's extinguishers that have at least `smallest` each",
    source=_ASR,
    status="secondary",
    leaves_out=_NOT_COUNTED,
)
def units_of_storey(
    name: str,
    rooms: Sequence[str | Missing],
    ratings: Sequence[Known],
    systems: Sequence[str | Missing],
    b_ratings: Sequence[Known],
    burns: str,
    smallest: float,
) -> float:
    """The extinguishing units of a storey; ratings themselves are never added."""
    units = [_units(a, b, system, burns) for a, b, system in zip(ratings, b_ratings, systems, strict=True)]
    return math.fsum(on_storey(name, rooms, units, lambda each: each if each >= smallest else 0.0))


def _units(a: Known, b: Known, system: str | Missing, burns: str) -> Known:
    if not isinstance(system, Missing) and system != "EN 3":
        return 0.0
    gaps = [each for each in (a, b, system) if isinstance(each, Missing)]
    if isinstance(a, Missing) or isinstance(b, Missing) or isinstance(system, Missing):
        return Missing.together(gaps)
    units: float = extinguishing_units(a, b, system, burns)
    return units


@quantity(
    "extinguisher.safe_on_electrics",
    gives="answer",
    inputs={"rating": "rating", "system": "rating_system", "agent": "agent"},
    formula="its rating says so (C of UL 711, E of AS/NZS 1850); EN 3 has no letter for it: the agent does not conduct",
    source="UL 711, EN 2, AS/NZS 1850 (from memory); agents: BS 5306-8:2012, 5.4.2 (secondary)",
    status="memory",
    leaves_out="how far one keeps away and the voltage up to which that holds: read the label, switch off first",
)
def safe_on_electrics(rating: str, system: str, agent: str) -> bool:
    """Whether an extinguisher may be used on electrical equipment that is live."""
    letters = read_rating(rating, system)
    return {"UL 711": letters.c, "AS/NZS 1850": letters.e}.get(system, agent in HARMLESS_TO_ELECTRICS)


@quantity(
    "room.liquid",
    gives="volume",
    inputs={"volumes": "fuels[*].volume"},
    formula="sum of the volumes of the fuels kept in the room, tanks of vehicles among them where they are recorded",
    source="definition; that fuel in vehicles counts towards the level of hazard is for the authority to say",
    status="definition",
    leaves_out="oil, solvent and waste that are not recorded as fuels",
)
def liquid_in_room(volumes: Sequence[float]) -> float:
    """How much fuel is in a room, in m3."""
    return math.fsum(volumes)
