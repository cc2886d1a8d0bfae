"""The clocks of a finding, a line each: when each falls due, counted from what, and what is not known of it."""

from collections.abc import Iterable, Sequence

from checker.findings.result import Finding, Part
from checker.report.part_words import part_name
from checker.report.parts import part_line
from checker.report.path_words import spaced
from checker.report.sentences import say
from checker.report.words import Country, margin_words, value_words


def clock_lines(finding: Finding, country: Country) -> tuple[str, ...]:
    """A line for each clock, what falls due first before what does later, and for what else is asked beside them.

    Clocks that only another authority asks are among them. None where there are no two.
    """
    own = {_line(together, country): together for together in _by_clock(finding.parts)}
    lines = {_decides(line, together): _due(together) for line, together in own.items() if line}
    clocks = sum(together[0].clock is not None for together in own.values())
    for asked in finding.provisions:
        for together in _by_clock(asked.parts):
            line = _line(together, country)
            if line and line not in own and together[0].clock:
                lines[say("part_of", part=line, authority=asked.authority)] = _due(together)
                clocks += 1
    told = sorted(lines, key=lines.__getitem__)
    open_ = dict.fromkeys(part_name(part.text) for part in finding.parts if _is_condition(part) and part.holds is None)
    if open_:
        told.append(say("parts_open", names=say("list").join(open_)))
    return tuple(told) if clocks > 1 else ()


def _line(together: Sequence[Part], country: Country) -> str | None:
    if together[0].clock:
        return _clock(together, country)
    return None if _is_condition(together[0]) else part_line(together[0], country)


def _is_condition(part: Part) -> bool:
    """Whether it only says which clocks run, and does not decide: those that run tell it."""
    return part.clock is None and bool(part.either) and (part.holds is None or not part.governs)


def _decides(line: str, together: Sequence[Part]) -> str:
    return say("part_governs", part=line) if together[0].clock and any(part.governs for part in together) else line


def _due(together: Sequence[Part]) -> tuple[bool, str]:
    """What falls due first, first; what was never done before all; what is not known last."""
    lead = next((part.measured for part in together if part.clock and part.clock.leads and part.measured), None)
    return lead is None, "" if lead is None or lead.value == "never" else str(lead.value)


def _by_clock(parts: Iterable[Part]) -> Iterable[Sequence[Part]]:
    """The parts of each clock together; every other one alone; nothing of what stands aside as a whole."""
    groups: dict[int, list[Part]] = {}
    for number, part in enumerate(parts):
        groups.setdefault(part.clock.number if part.clock else -1 - number, []).append(part)
    return [together for together in groups.values() if any(part.either != "aside" for part in together)]


def _clock(parts: Sequence[Part], country: Country) -> str:
    """When it falls due, counted from what, and what is not known of it."""
    lead = next(part for part in parts if part.clock and part.clock.leads)
    clock = lead.clock
    assert clock is not None
    name, every = spaced(clock.name), clock.every and value_words(clock.every, None, country)
    unknown = say("list").join(spaced(part.clock.since) for part in parts if part.clock and part.holds is None)
    if lead.measured is None or not every or lead.holds is None:
        return say("clock_unknown" if every else "clock_unknown_period", name=name, unknown=unknown, every=every)
    since = spaced(clock.since)
    if lead.measured.value == "never":
        told = say("clock_never", name=name, since=since, every=every)
    else:
        assert clock.on is not None
        assert lead.margin is not None
        on, due = (value_words(each, None, country) for each in (clock.on, lead.measured))
        margin = margin_words(lead.margin, lead.measured, lead.limit, lead.operator, country)
        told = say("clock", name=name, due=due, since=since, on=on, every=every, margin=margin)
    return say("clock_unless", told=told, unknown=unknown) if unknown and not lead.holds else told
