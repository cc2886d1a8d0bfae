"""Limits named in a rule's advice: `{limit.walk}` stands for the value of the provision that governs, as written."""

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import Final

ADVISING: Final = ("advice", "meanwhile")
"""The fields of a rule that may name its limits."""
_NAMED: Final = re.compile(r"\{([^{}]*)\}?|\}")
_EVERY_ONE: Final = re.compile(r"(?<=\bevery) 1(?= (?:day|week|month|year)\b)")
"""What nobody says: every 1 year."""
_LIMIT: Final = re.compile(r"\{limit\.([a-z][a-z0-9_]*)\}")


def misnamed(text: str, limits: Iterable[str]) -> Iterator[str]:
    """What stands in braces in a text and names none of the limits; a brace without its other one too."""
    known = set(limits)
    for found in _NAMED.finditer(text):
        limit = _LIMIT.fullmatch(found[0])
        if limit is None or limit[1] not in known:
            yield found[0]


def with_limits(text: str, written: Mapping[str, str]) -> str:
    """The text with each limit that it names as the provision writes it; `the limit` where none is given."""
    if "{" not in text:
        return text
    return _EVERY_ONE.sub("", _LIMIT.sub(lambda found: written.get(found[1], "the limit"), text))
