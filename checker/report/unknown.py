"""What is not known, as a list of things to look at: a line a path, the worst first, under the thing it belongs to."""

from collections.abc import Iterable, Iterator, Sequence

from checker.findings.exit_code import SEVERITIES
from checker.findings.result import Finding
from checker.report.content import Row, Rows, Section
from checker.report.entry import place
from checker.report.looks import Look, look_words, looks
from checker.report.sentences import say

_MOST_RULES_NAMED = 6


def unknown(findings: Sequence[Finding], labels: dict[str, str]) -> Iterator[Section]:
    """Lists of all that the undetermined findings need. `labels` names things by their path."""
    if places := tuple(_place(head, group, labels) for head, group in _by_place(looks(findings))):
        yield Section("looks", say("unknown_list"), places)
    if unplaced := tuple(_unplaced(finding) for finding in findings if not finding.needs):
        yield Section("unplaced", say("unknown_unplaced"), (Rows(unplaced),))


def _place(head: str, group: Sequence[Look], labels: dict[str, str]) -> Rows:
    named = head in labels and "[" in head
    rows = (
        Row(
            say(f"severity {SEVERITIES[look.rank[0]]}"),
            (say("todo_line", need=look_words(look, head), rules=_rules(look.waiting.values())),),
        )
        for look in group
    )
    return Rows(tuple(rows), lead=say("todo_place", path=head, label=labels[head]) if named else head)


def _by_place(found: Sequence[Look]) -> list[tuple[str, list[Look]]]:
    places: dict[str, list[Look]] = {}
    for look in found:
        places.setdefault(look.need.path.partition(".")[0], []).append(look)
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
        told = say(f"because {finding.because}", need=told)
    return Row(say(f"severity {finding.severity}"), (told,))
