"""What is not known, as a list of things to look at: a line a path, the worst first, under the thing it belongs to."""

from collections.abc import Iterable, Sequence

from checker.findings.exit_code import SEVERITIES
from checker.findings.result import Finding
from checker.report.entry import place
from checker.report.looks import Look, look_words, looks
from checker.report.page import Page
from checker.report.sentences import say

_MOST_RULES_NAMED = 6
_ACROSS = 12


def draw(page: Page, findings: Sequence[Finding], labels: dict[str, str]) -> None:
    """Adds the list of all that the undetermined findings need. `labels` names things by their path."""
    places = _by_place(looks(findings))
    if places:
        page.gap()
        page.text(say("unknown_list"), bold=True)
    for head, group in places:
        named = head in labels and "[" in head
        page.text(say("todo_place", path=head, label=labels[head]) if named else head, indent=2)
        for look in group:
            severity = say(f"severity {SEVERITIES[look.rank[0]]}")
            told = say("todo_line", need=look_words(look, head), rules=_rules(look.waiting.values()))
            page.row(severity, told, 4, _ACROSS)
    _unplaced(page, [finding for finding in findings if not finding.needs])


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


def _unplaced(page: Page, findings: Sequence[Finding]) -> None:
    if findings:
        page.gap()
        page.text(say("unknown_unplaced"), bold=True)
    for finding in findings:
        told = say("unplaced_line", place=place(finding), title=finding.title)
        if finding.because:
            told = say(f"because {finding.because}", need=told)
        page.row(say(f"severity {finding.severity}"), told, 4, _ACROSS)
