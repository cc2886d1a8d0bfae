"""Where the rulesets and demonstration sites that come with the program lie.

A wheel carries them inside the package; a checkout, and an editable install of one, keeps them beside it.
"""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def rulesets() -> Path:
    """The folder that holds one folder a layer, and `sources.yaml`."""
    return _folder("rulesets")


def sites() -> Path:
    """The folder of demonstration site files."""
    return _folder("sites")


def _folder(name: str) -> Path:
    in_wheel = _PACKAGE / "_data"
    return (in_wheel if in_wheel.is_dir() else _PACKAGE.parent) / name
