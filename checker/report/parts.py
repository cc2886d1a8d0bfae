"""The parts of what a rule asks, a line each, as far as they say something of what came out."""

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from msgspec.structs import replace

from checker.findings.result import Finding, Part
from checker.report.part_words import is_there, part_name
from checker.report.sentences import say
from checker.report.words import Country, compared, margin_words, operator_words

_OF_NO_USE: Mapping[str, tuple[bool | None, ...]] = MappingProxyType(
    {"met": (False, None), "undetermined": (False,), "not met": (), "not applicable": ()}
)
"""Parts that hold so far belong, by the outcome, to a way that was not taken."""


def part_lines(finding: Finding, country: Country) -> tuple[str, ...]:
    """The parts in words; none where one comparison is all there is, which is told by its value and limit."""
    parts = tuple(_telling(finding)) if len(finding.parts) > 1 else ()
    told = parts
    if finding.outcome == "not met":
        told = tuple(part for part in parts if part.holds is not None or part.measured is not None)
    lines = [part_line(part, country) for part in told]
    if open_ := [part_name(part.text) for part in parts if part not in told]:
        lines.append(say("parts_open", names=say("list").join(dict.fromkeys(open_))))
    return tuple(dict.fromkeys(lines)) if len(lines) > 1 else ()


def not_there(finding: Finding) -> Iterator[str]:
    """The names of the things that are asked for and were recorded as none."""
    for part in finding.parts:
        name = is_there(part.text)
        if name is not None and part.holds is False and _answered(part, yes=False):
            yield name


def _telling(finding: Finding) -> Iterator[Part]:
    """The parts without what says nothing.

    Left out are the ways that were not taken, that there is a thing of which other parts speak, and what is not known
    of one that is not there. Words any of which would do are one part.
    """
    absent = tuple(f".{name.replace(' ', '_')}." for name in not_there(finding))
    held = {part_name(part.text) for part in finding.parts if part.holds and _is_of_words(part)}
    words: dict[str | int, Part] = {}
    for number, part in enumerate(finding.parts):
        if part.holds in _OF_NO_USE[finding.outcome] or (is_there(part.text) and _answered(part, yes=True)):
            continue
        if part.holds is None and any(name in part.text for name in absent):
            continue
        one_word = part.operator == "eq" and part.limit is not None and part.limit.kind == "word"
        if part.holds is False and not part.governs and _is_of_words(part) and part_name(part.text) in held:
            continue
        key = part_name(part.text) if one_word else number
        words[key] = _either(words[key], part) if key in words else part
    yield from words.values()


def _is_of_words(part: Part) -> bool:
    return part.measured is not None and part.measured.kind == "word"


def _answered(part: Part, *, yes: bool) -> bool:
    return part.measured is not None and part.measured.value is yes


def _either(one: Part, other: Part) -> Part:
    """Two words that would do, as one part."""
    if one.holds or other.holds or one.limit is None or other.limit is None:
        return one if one.holds else other
    words = say("or").join((str(one.limit.value), str(other.limit.value)))
    return replace(one, limit=replace(one.limit, value=words, as_written=None), governs=one.governs or other.governs)


def part_line(part: Part, country: Country) -> str:
    """One part: what was found, what is asked, and whether it decides."""
    measured, limit = compared(part.measured, part.limit, country)
    asked = operator_words(part.operator, limit, part.limit.kind) if part.operator and part.limit and limit else None
    if (thing := is_there(part.text)) is not None:
        name, measured = thing, measured and say("part_there" if _answered(part, yes=True) else "part_none")
    else:
        name = part_name(part.text)
    if part.holds is None:
        return _unknown(name, measured, asked)
    holds = say("holds" if part.holds else "fails")
    if measured is None:
        told = say("part_holds", name=name, holds=holds)
    elif not asked or _says_it_alone(part):
        told = say("part_answer", name=name, measured=measured, holds=holds)
    elif part.margin:
        margin = margin_words(part.margin, part.measured, part.limit, part.operator, country)
        told = say("part_margin", name=name, measured=measured, limit=asked, margin=margin)
    else:
        told = say("part", name=name, measured=measured, limit=asked)
    return say("part_governs", part=told) if part.governs and (part.margin or not part.holds) else told


def _unknown(name: str, measured: str | None, asked: str | None) -> str:
    if measured is None:
        return say("part_unknown_limit" if asked else "part_unknown", name=name, limit=asked)
    return say("part_weak", part=say("part" if asked else "part_value", name=name, measured=measured, limit=asked))


def _says_it_alone(part: Part) -> bool:
    """Whether a word is the one that was asked, or is the very one that was not to be."""
    return part.limit is not None and part.limit.kind == "word" and (part.operator == "ne" or bool(part.holds))
