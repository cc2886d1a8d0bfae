"""Faults of the facts that were mended, one test each."""

import pytest

from checker.quantities import Missing, facts
from checker.reading import read_text
from checker.site import read_site


def test_a_walk_whose_end_was_not_reached_is_a_gap() -> None:
    """It broke the rule that asked for the walk: what was not reached has no value to name the walk by."""
    written = """
        id: shop
        extinguishers: [{id: near, rating: "4-A:40-B:C", rating_system: UL 711}]
        hazards: [{id: bench, walks: [{to: {not_reached: behind the lift}, distance: 3 m}]}]
    """
    (bench,) = facts(read_site(read_text(written, "shop.yaml"))).things("hazard")
    with pytest.raises(Missing) as missing:
        bench["walk_to_extinguisher"]("B", 10)
    assert [(need.path, need.because, need.why) for need in missing.value.needs] == [
        ("hazards[bench].walks[0].to", "not reached", "behind the lift")
    ]
