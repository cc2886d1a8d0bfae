"""Edge distance and spacing of anchors from their places on the plan of the slab."""

from math import hypot

import pytest

from checker.quantities import Missing, Thing, facts
from checker.reading import read_text
from checker.site import read_site

MACHINE = """\
id: shop
dynos:
  - id: d1
    anchors:
      kind: bonded
      places: [[1 m, 0.5 m], [4 m, 0.5 m], [4 m, 2 m], [1 m, 2 m]]
      slab: [[0 m, 0 m], [9 m, 6 m]]
      joints: [{line: [[0 m, 2.3 m], [9 m, 2.3 m]]}]
"""


def anchors(text: str) -> Thing:
    group: Thing = facts(read_site(read_text(text, "shop.yaml"))).things("dyno")[0]["anchors"]
    return group


def test_a_joint_is_an_edge() -> None:
    assert float(anchors(MACHINE)["edge_distance"]) == pytest.approx(0.3)
    none = MACHINE.replace("[{line: [[0 m, 2.3 m], [9 m, 2.3 m]]}]", "none")
    assert float(anchors(none)["edge_distance"]) == pytest.approx(0.5)


def test_the_closest_two_give_the_spacing() -> None:
    assert float(anchors(MACHINE)["spacing"]) == pytest.approx(1.5)
    turned = MACHINE.replace("[1 m, 2 m]]", "[1.3 m, 0.9 m]]")
    assert float(anchors(turned)["spacing"]) == pytest.approx(hypot(0.3, 0.4))


def test_what_was_measured_counts_before_the_plan() -> None:
    text = MACHINE + "      edge_distance: {value: 280 mm, evidence: measured}\n"
    assert float(anchors(text)["edge_distance"]) == pytest.approx(0.28)


@pytest.mark.parametrize(
    ("was", "now", "path"),
    [
        ("      joints: [{line: [[0 m, 2.3 m], [9 m, 2.3 m]]}]\n", "", "dynos[d1].anchors.joints"),
        ("      slab: [[0 m, 0 m], [9 m, 6 m]]\n", "", "dynos[d1].anchors.slab"),
        ("[4 m, 2 m]", "[40 m, 2 m]", "dynos[d1].anchors.places"),
    ],
)
def test_what_is_not_known_or_cannot_be_leaves_it_open(was: str, now: str, path: str) -> None:
    with pytest.raises(Missing) as raised:
        anchors(MACHINE.replace(was, now))["edge_distance"]
    assert path in [need.path for need in raised.value.needs]
