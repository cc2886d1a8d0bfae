"""What every test shares: property tests draw the same examples each run, and have no deadline, and nothing is kept."""

import os
from collections.abc import Iterator

import pytest
from hypothesis import settings

settings.register_profile("ci", derandomize=True, deadline=None)
settings.load_profile("ci")


@pytest.fixture(scope="session", autouse=True)
def nothing_kept_before(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """The folder for what is kept between runs is empty at first; the processes of one run share it."""
    with pytest.MonkeyPatch.context() as patch:
        own = tmp_path_factory.getbasetemp()
        folder = (own.parent if "PYTEST_XDIST_WORKER" in os.environ else own) / "kept"
        for name in ("XDG_CACHE_HOME", "LOCALAPPDATA"):
            patch.setenv(name, str(folder))
        yield
