"""Anchors against published examples of two standards and areas found with a geometry library."""

import pytest
from shapely import box, union_all

from checker.quantities import anchorage
from checker.quantities.anchorage import INCH, POUND_FORCE, PSI

FAR = 10.0
"""m: further than any cone reaches."""


@pytest.mark.parametrize(
    "embedment, edge, kips",
    [
        pytest.param(4.69, 12, 15.4170, id="ACI 349.2R-07 example A1 (secondary): N_cb"),
        pytest.param(6.63, 12, 25.9126, id="ACI 349.2R-07 example A3 (secondary): N_cb"),
    ],
)
def test_headed_stud_in_cracked_concrete(embedment: float, edge: float, kips: float) -> None:
    strength = anchorage.breakout_aci("cast-in bolt", 1, embedment * INCH, FAR, edge * INCH, 4000 * PSI, cracked=True)
    assert strength / POUND_FORCE / 1000 == pytest.approx(kips, abs=0.0001)


def test_expansion_anchor_in_cracked_concrete() -> None:
    """Own arithmetic on ACI 318-19 17.6.2.2 (secondary): 3.25 in deep, 3000 psi, no near edge: 5455.5 lb."""
    strength = anchorage.breakout_aci("expansion torque-controlled", 1, 3.25 * INCH, FAR, FAR, 3000 * PSI, cracked=True)
    assert strength / POUND_FORCE == pytest.approx(5455.5, abs=0.05)


def test_group_of_a_design_guide() -> None:
    """A design guide of October 2025 quoting ACI 318-19 (secondary): k 21, 4000 psi, 5.75 in deep, edge at 8 in."""
    assert anchorage.basic_breakout(21, 4000, 5.75) == pytest.approx(18_313, abs=0.5)
    assert anchorage.edge_factor(8.0, 5.75) == pytest.approx(0.978, abs=0.0005)


def test_cone_of_a_european_report() -> None:
    """EOTA TR 029 as tested in a finite-element library (secondary): k 10.1, 25 N/mm2, 210 mm, edge 135 mm, 2.1."""
    assert anchorage.basic_breakout(10.1, 25, 210) / 2.1 == pytest.approx(73_200, abs=50)
    assert anchorage.edge_factor(135, 210) == pytest.approx(0.828571, abs=1e-6)


@pytest.mark.parametrize("cracked, newtons", [(True, 26_986), (False, 38_551)])
def test_post_installed_anchor_in_european_form(cracked: bool, newtons: float) -> None:
    """Own arithmetic on EN 1992-4 with k 7.7 and 11.0 (from memory): 85 mm deep, C20/25, no near edge."""
    strength = anchorage.breakout_en("expansion torque-controlled", 1, 0.085, FAR, FAR, 20e6, cracked=cracked)
    assert strength == pytest.approx(newtons, abs=1)


def test_uncracked_concrete_near_an_edge_may_hold_less_than_cracked() -> None:
    """ACI 318-19 17.6.2.6 (secondary): an expansion anchor 4 in from an edge, critical edge 4 embedments."""
    near = {True: 0.0, False: 0.0}
    for cracked in near:
        near[cracked] = anchorage.breakout_aci(
            "expansion torque-controlled", 4, 3.25 * INCH, 8 * INCH, 4 * INCH, 3000 * PSI, cracked=cracked
        )
    assert near[False] / near[True] == pytest.approx(1.4 * 0.375)


@pytest.mark.parametrize(
    "spacing, embedment, square_inches",
    [
        pytest.param(8.0, 3.25, 315.0625, id="cones overlap"),
        pytest.param(12.0, 3.25, 380.25, id="cones apart"),
    ],
)
def test_concrete_of_four_anchors(spacing: float, embedment: float, square_inches: float) -> None:
    """Areas found with shapely: squares of one and a half embedments about each of four anchors, united."""
    reach = 1.5 * embedment
    squares = [box(x - reach, y - reach, x + reach, y + reach) for x in (0, spacing) for y in (0, spacing)]
    area = union_all(squares).area
    assert area == pytest.approx(square_inches)
    assert 4 * anchorage.area_ratio(4, embedment, spacing, FAR) * 9 * embedment**2 == pytest.approx(area)


@pytest.mark.parametrize("edge", [2.0, 3.5, 4.8, 20.0])
@pytest.mark.parametrize("spacing", [3.0, 8.0, 30.0])
def test_concrete_of_the_anchor_in_a_corner(spacing: float, edge: float) -> None:
    """Found with shapely: the square of the corner anchor, cut by the slab and half-way to its neighbours."""
    embedment, reach = 3.25, 4.875
    own = box(-reach, -reach, reach, reach).intersection(box(-edge, -edge, spacing / 2, spacing / 2))
    assert anchorage.area_ratio(4, embedment, spacing, edge) * 9 * embedment**2 == pytest.approx(own.area)


@pytest.mark.parametrize("edge", [2.0, 4.8, 20.0])
@pytest.mark.parametrize("spacing", [3.0, 8.0, 30.0])
def test_no_anchor_of_two_rows_of_three_has_less_concrete(spacing: float, edge: float) -> None:
    """Found with shapely for each of six anchors, edges all round: ours is the least of them or below."""
    embedment, reach = 3.25, 4.875
    slab = box(-edge, -edge, 2 * spacing + edge, spacing + edge)
    least = min(
        box(x - reach, y - reach, x + reach, y + reach)
        .intersection(slab)
        .intersection(
            box(
                x - (spacing / 2 if x else FAR * 100),
                y - (spacing / 2 if y else FAR * 100),
                x + (spacing / 2 if x < 2 * spacing else FAR * 100),
                y + (FAR * 100 if y else spacing / 2),
            )
        )
        .area
        for x in (0, spacing, 2 * spacing)
        for y in (0, spacing)
    )
    assert anchorage.area_ratio(6, embedment, spacing, edge) * 9 * embedment**2 <= least * (1 + 1e-9)
