"""A site as text, ready as facts."""

from collections.abc import Callable
from textwrap import dedent

import pytest

from checker.quantities import Facts, facts
from checker.reading import read_text
from checker.site import read_site

FactsOf = Callable[[str], Facts]


@pytest.fixture(scope="session")
def facts_of() -> FactsOf:
    """Facts of a site file that is written in the test; its id may be left out."""

    def read(text: str) -> Facts:
        return facts(read_site(read_text("id: shop\n" + dedent(text), "shop.yaml")))

    return read
