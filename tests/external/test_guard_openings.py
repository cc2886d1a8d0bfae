"""Guard openings as the shipped rules judge them, against the tables as they are printed.

The rules hold the widest opening for each distance. ISO 13857 prints the least distance for each opening (reaching
through regular openings, 14 years and older; seen on a third party's page: secondary), and 29 CFR 1910.217 Table O-10
the widest opening for each distance (secondary).
"""

import datetime as dt
from decimal import Decimal
from functools import cache

import pytest

from checker import shipped
from checker.findings.check import check
from checker.reading import read_text
from checker.rules import Rulebook, read_rulesets
from checker.site import read_site

ISO = """
4 2 2 2
6 10 5 5
8 20 15 5
10 80 25 20
12 100 80 80
20 120 120 120
30 850 120 120
40 850 200 120
120 850 850 850
"""
"""Opening up to, in mm; least distance for a slot, a square, a round hole, in mm."""
PRINTED = [
    (shape, int(opening), int(distances[number]))
    for opening, *distances in (line.split() for line in ISO.split("\n") if line)
    for number, shape in enumerate(("slot", "square", "round"))
]


@cache
def rulebook() -> Rulebook:
    """The shipped rules."""
    return read_rulesets(shipped.rulesets())


def outcome(region: str, authority: str, shape: str, opening: str, distance: str) -> str:
    """What an authority says of one guard."""
    guard = f"{{id: g, kind: fixed guard, opening_shape: {shape}, opening: {opening}, distance: {distance}}}"
    site = read_site(read_text(f"id: shop\nguards: [{guard}]\n", "shop.yaml"))
    result = check(site, rulebook(), region=region, as_of=dt.date(2026, 11, 25), program_version="0")
    (found,) = (each for each in result.findings if each.rule == "guarding.openings")
    (said,) = (each for each in found.provisions if each.authority == authority)
    return said.outcome


@pytest.mark.parametrize("shape, opening, distance", PRINTED)
def test_an_opening_is_allowed_from_the_printed_distance_on(shape: str, opening: int, distance: int) -> None:
    assert outcome("gb", "standard", shape, f"{opening} mm", f"{distance} mm") == "met"
    nearer = outcome("gb", "standard", shape, f"{opening} mm", f"{Decimal(distance) - Decimal('0.1')} mm")
    assert nearer == ("undetermined" if distance == 2 else "not met")


@pytest.mark.parametrize(
    "opening, distance, press_rule, standard",
    [
        pytest.param("5/8 in", "4 in", "met", "not met", id="one guard, two verdicts (own arithmetic)"),
        pytest.param("3/4 in", "5 in", "not met", "met", id="over 5/8 in; 19 mm at 127 mm (own arithmetic)"),
        pytest.param("1/4 in", "1/4 in", "met", "not met", id="too narrow for the press rule to ask (secondary)"),
        pytest.param("3/8 in", "1 1/2 in", "not met", "not met", id="where two bands meet the smaller opening counts"),
        pytest.param("2 1/8 in", "31 1/2 in", "met", "not met", id="the end of Table O-10"),
        pytest.param("1 in", "40 in", "undetermined", "met", id="beyond Table O-10"),
    ],
)
def test_a_slot_by_the_press_rule_and_by_the_standard(
    opening: str, distance: str, press_rule: str, standard: str
) -> None:
    assert outcome("us", "guidance", "slot", opening, distance) == press_rule
    assert outcome("us", "standard", "slot", opening, distance) == standard
