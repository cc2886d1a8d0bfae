"""What is not known, as a list of things to look at: a line a path, the worst first, under the thing it lies in."""

from collections.abc import Iterable, Iterator, Sequence

from checker.findings.exit_code import SEVERITIES
from checker.findings.result import Finding
from checker.report.content import Row, Rows, Section
from checker.report.entry import place
from checker.report.looks import Look, by_reason, look_words, looks, reason_words
from checker.report.path_words import Labels, place_words, thing_above
from checker.report.sentences import capital, say

_MOST_RULES_NAMED = 6


def unknown(findings: Sequence[Finding], labels: Labels) -> Iterator[Section]:
    """Lists of all that the undetermined findings need."""
    if places := tuple(rows for head, group in _by_place(looks(findings)) for rows in _place(head, group, labels)):
        yield Section("looks", say("unknown_list"), places)
    if unplaced := tuple(_unplaced(finding) for finding in findings if not finding.needs):
        yield Section("unplaced", say("unknown_unplaced"), (Rows(unplaced),))


def _place(head: str, group: Sequence[Look], labels: Labels) -> Iterator[Rows]:
    """What to look at in one place; what is open for one reason stands together, below that reason."""
    place = capital(place_words(head, labels))
    groups = by_reason(group)
    alone = {reason for reason, looks in groups.items() if len(looks) == 1}
    single = [look for look in group if not reason_words(look.need) or reason_words(look.need) in alone]
    if single:
        yield Rows(tuple(_row(look, head, labels, told_why=True) for look in single), lead=place)
    for reason, together in groups.items():
        if reason and reason not in alone:
            rows = tuple(_row(look, head, labels, told_why=False) for look in together)
            yield Rows(rows, lead=say("todo_reason", place=place, because=reason))


def _row(look: Look, head: str, labels: Labels, *, told_why: bool) -> Row:
    told, reason = look_words(look, labels, head), reason_words(look.need)
    if told_why and reason:
        told = say("need_because", need=told, because=reason)
    line = say("todo_line", need=told, rules=_rules(look.waiting.values()))
    return Row(say(f"severity {SEVERITIES[look.rank[0]]}"), (line,))


def _by_place(found: Sequence[Look]) -> list[tuple[str, list[Look]]]:
    """The looks by the path of the thing they lie in; empty for what belongs to the site itself."""
    places: dict[str, list[Look]] = {}
    for look in found:
        places.setdefault(thing_above(look.need.path), []).append(look)
    ordered = [(head, sorted(group, key=lambda look: look.rank)) for head, group in places.items()]
    return sorted(ordered, key=lambda item: item[1][0].rank)


def _rules(findings: Iterable[Finding]) -> str:
    by_topic: dict[str, dict[str, None]] = {}
    for finding in findings:
        by_topic.setdefault(finding.topic, {})[finding.rule.removeprefix(f"{finding.topic}.")] = None
    count = sum(map(len, by_topic.values()))
    if count <= _MOST_RULES_NAMED:
        named = (say("todo_topic", topic=topic, rules=say("list").join(rules)) for topic, rules in by_topic.items())
        return say("list").join(named)
    counted = (say("todo_topic_count", topic=topic, count=len(rules)) for topic, rules in by_topic.items())
    return say("todo_count", count=count, topics=say("list").join(counted))


def _unplaced(finding: Finding) -> Row:
    told = say("unplaced_line", place=place(finding), title=finding.title)
    if finding.because:
        told = say("need_because", need=told, because=say(f"because {finding.because}"))
    return Row(say(f"severity {finding.severity}"), (told,))
