"""The law of silence on sites drawn at random, which hold what no demonstration site does."""

from collections import Counter
from random import Random

import pytest

from checker.reading import Document, Unreadable
from checker.site import read_site
from tests.properties.sites import Data, drawn_site
from tests.test_laws import broken, judged, nodes, shown, without

SITES = 60
PAIRS = 4
REGIONS = ("us", "gb", "common")


def readable_site(random: Random, refused: Counter[str]) -> Data:
    while True:
        data = drawn_site(random)
        try:
            read_site(Document("site.json", data, "{}"))
        except Unreadable as unreadable:
            refused[unreadable.problems[0].says] += 1
            continue
        return data


@pytest.mark.parametrize("seed", range(4))
def test_recording_a_value_where_nothing_spoke_changes_nothing_that_was_settled(seed: int) -> None:
    """Of a drawn site with gaps, each with one thing more: what was met, not met or not applicable stays so."""
    random = Random(seed)
    outcomes: Counter[str] = Counter()
    refused: Counter[str] = Counter()
    wrong, faults = [], []
    for _ in range(SITES):
        data, region = readable_site(random, refused), random.choice(REGIONS)
        every = [path for path in nodes(data) if path != ("survey",) or "not_reached" not in data["survey"]]
        share = random.choice((0.0, 0.05, 0.2, 0.5))
        left_out = [path for path in every if random.random() < share] or [random.choice(every)]
        less = judged(without(data, *left_out), region)
        faults += [f"{finding.id}: {finding.fault}" for finding in less.values() if finding.fault]
        outcomes.update(finding.because or finding.outcome for finding in less.values())
        for more in random.sample(left_out, min(PAIRS, len(left_out))):
            fuller = judged(without(data, *(path for path in left_out if path != more)), region)
            if found := broken(shown(less), shown(fuller)):
                wrong.append((more, found, data))
    print(dict(outcomes), "refused:", sum(refused.values()), refused.most_common(3))
    assert wrong[:1] == []
    assert min(outcomes["met"], outcomes["not met"], outcomes["not applicable"]) >= 0.02 * outcomes.total(), outcomes
    assert faults == []
    assert sum(refused.values()) <= 2 * SITES
