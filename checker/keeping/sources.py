"""Where values come from: each source with what rests on it, what is still from memory, and sources nobody uses."""

from collections.abc import Mapping
from typing import get_args

from msgspec import Struct

from checker.quantities import CatalogueLine, catalogue
from checker.rules import Rulebook
from checker.rules.model import Provision, Source
from checker.vocabulary import Status


class Resting(Struct, frozen=True):
    """A source, and the provisions whose values come from it, by layer and rule."""

    source: Source
    provisions: tuple[Provision, ...]


class Sources(Struct, frozen=True):
    """Who uses what; for one status, only what has that status."""

    by_status: Mapping[str, int]
    """How many provisions have each status, from verified to common practice."""
    used: tuple[Resting, ...]
    """By designation."""
    common_practice: tuple[Provision, ...]
    """What names no source."""
    to_confirm: tuple[Provision, ...]
    """What is remembered only, by source."""
    formulas_to_confirm: tuple[CatalogueLine, ...]
    """Formulas with a constant that is remembered only."""
    unused: tuple[Source, ...]
    """Sources on which nothing rests, of whatever status."""


def sources_of(rulebook: Rulebook, status: Status | None = None) -> Sources:
    """Who uses which source with which status: everything, or what has one status."""
    chosen = sorted(
        (one for one in rulebook.all_provisions if status in (None, one.source.status)),
        key=lambda one: (one.layer, one.rule, one.authority, str(one.from_ or "")),
    )
    resting: dict[str, list[Provision]] = {}
    for one in chosen:
        if one.source.source is not None:
            resting.setdefault(one.source.source.id, []).append(one)
    by_designation = sorted(rulebook.sources.values(), key=lambda source: (source.designation, source.id))
    used_at_all = {one.source.source.id for one in rulebook.all_provisions if one.source.source is not None}
    return Sources(
        by_status={each: sum(one.source.status == each for one in chosen) for each in get_args(Status)},
        used=tuple(Resting(each, tuple(resting[each.id])) for each in by_designation if each.id in resting),
        common_practice=tuple(one for one in chosen if one.source.source is None),
        to_confirm=tuple(one for each in by_designation for one in resting.get(each.id, ()) if _remembered(one)),
        formulas_to_confirm=tuple(each for each in catalogue() if each.status == "memory")
        if status in (None, "memory")
        else (),
        unused=tuple(each for each in by_designation if each.id not in used_at_all),
    )


def _remembered(one: Provision) -> bool:
    return one.source.status == "memory"
