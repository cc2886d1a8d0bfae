"""Results as JSON: an object for one site, an object a line for several. Same result, same bytes."""

import re
from collections.abc import Iterable
from itertools import chain

from checker.findings.result import Result
from checker.findings.result_json import result_json
from checker.report import Drawing

_COMMANDS = re.compile("[\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]")
"""What JSON lets stand in a text though a terminal may obey it."""


def render(result: Result) -> str:
    """One object, indented, keys in the order of the model."""
    return _dump(result, indent=2)


def render_all(results: Iterable[Result], drawing: Drawing) -> str:
    """The one object, or one compact object a line. The drawing changes nothing: other programs read this."""
    others = iter(results)
    first, second = next(others, None), next(others, None)
    if first is not None and second is None:
        return render(first)
    held = (result for result in (first, second) if result is not None)
    return "".join(_dump(result, indent=None) for result in chain(held, others))


def _dump(result: Result, indent: int | None) -> str:
    return _COMMANDS.sub(_escaped, result_json(result, indent)) + "\n"


def _escaped(character: re.Match[str]) -> str:
    return f"\\u{ord(character[0]):04x}"
