import pytest

from checker.quantities.paths import PathStep, path_from


@pytest.mark.parametrize(
    "text, steps, many, gaps",
    [
        ("height", (PathStep("height"),), False, False),
        ("readings.noise_level", (PathStep("readings"), PathStep("noise_level")), False, False),
        ("dynos[*].highest_power", (PathStep("dynos", True), PathStep("highest_power")), True, False),
        (
            "fans[moves=out of the room].flow",
            (PathStep("fans", True, (("moves", "out of the room"),)), PathStep("flow")),
            True,
            False,
        ),
        (
            "straps[pulls=rearward,sound=yes].rise",
            (PathStep("straps", True, (("pulls", "rearward"), ("sound", True))), PathStep("rise")),
            True,
            False,
        ),
        ("walks[*].distance?", (PathStep("walks", True), PathStep("distance")), True, True),
    ],
)
def test_what_is_read(text: str, steps: tuple[PathStep, ...], many: bool, gaps: bool) -> None:
    path = path_from(text)
    assert (path.steps, path.many, path.gaps) == (steps, many, gaps)


@pytest.mark.parametrize("text", ["", "Height", "a..b", "fans[].flow", "fans[moves=]", "fans[moves=in,]", "a b"])
def test_what_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="is no path of an input"):
        path_from(text)
