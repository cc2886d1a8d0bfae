"""A site from its file, or every mistake in it at once."""

from typing import Any

from pydantic_core import ValidationError

from checker.reading import Document, Unreadable
from checker.site.assume import unreached_flaws, with_assumptions
from checker.site.checks import flaws_of
from checker.site.entries import Path, Refused, shown
from checker.site.flaws import Flaw, flaw_of, problem_of, unless_within
from checker.site.gate import lets_pass
from checker.site.model import Site

_ROUNDS = 8
"""How often what was refused is taken out before the rest is left alone."""


def read_site(document: Document) -> Site:
    """The site that a document describes. Raises reading.Unreadable with all that is wrong with it."""
    data: Any = document.data
    flaws: list[Flaw] = []
    refused: list[Path] = []
    site = None
    for _ in range(_ROUNDS):
        new, site = _attempt(data)
        flaws += unless_within(new, refused)
        if site is not None or not isinstance(data, dict):
            break
        from checker.site.prune import without

        data, taken = without(data, [path for flaw in new for path in (flaw.path, *flaw.along)])
        refused += taken
    if site is not None:
        flaws += unless_within(flaws_of(site, lambda path: document.mark(path).line, refused), refused)
    if flaws or site is None:
        problems = {problem_of(document, flaw): None for flaw in flaws}
        raise Unreadable(problems)
    object.__setattr__(site, "_document", document)
    return site


def _attempt(data: Any) -> tuple[list[Flaw], Site | None]:
    """The site, or why it cannot be built. Flaws of assumptions do not keep it from being built."""
    if not lets_pass(data):
        from checker.site.wording import flaws_in

        return flaws_in(data) or [
            Flaw((), "The schema of site files refuses this", shown(data), "what the schema allows")
        ], None
    filled, flaws = with_assumptions(data)
    flaws += unreached_flaws(data)
    try:
        return flaws, Site.of(filled)
    except ValidationError as problem:
        return [_flaw(dict(error)) for error in problem.errors(include_url=False)], None


def _flaw(error: dict[str, Any]) -> Flaw:
    """What a field refused although its shape is right: a pattern says less of a quantity than its reader."""
    path = tuple(error["loc"])
    refusal = error.get("ctx", {}).get("error")
    if isinstance(refusal, Refused):
        return flaw_of(path, refusal)
    return Flaw(path, "This cannot be read", shown(error.get("input")), str(error.get("msg", ""))[:200])
