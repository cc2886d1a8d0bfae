"""What to look at: the needs of findings, each thing once, with everything that waits for it."""

from collections.abc import Iterable, Iterator

from msgspec import Struct, field
from msgspec.structs import replace

from checker.findings.exit_code import SEVERITIES
from checker.findings.result import Finding, Need
from checker.report.path_words import Labels, may_be_none, path_words, spaced
from checker.report.sentences import say


class Look(Struct):
    """One thing to look at and the findings that wait for it."""

    need: Need
    fields: list[str] = field(default_factory=list)
    """What would be recorded below it, where nothing of it is recorded yet."""
    waiting: dict[str, Finding] = field(default_factory=dict)

    @property
    def rank(self) -> tuple[int, int]:
        """The worst first: severity, then how much waits."""
        worst = min(SEVERITIES.index(finding.severity) for finding in self.waiting.values())
        return worst, -len(self.waiting)


def looks(findings: Iterable[Finding]) -> list[Look]:
    """What the findings need, each thing once; parts of a thing of which nothing is recorded stand with the thing."""
    whole: list[Look] = []
    for look in sorted(_by_need(findings), key=lambda look: look.need.path.count(".")):
        above = next((known for known in whole if _holds(known.need, look.need)), None)
        if above is None:
            whole.append(look)
        else:
            above.fields.append(look.need.path.removeprefix(f"{above.need.path}."))
            above.waiting |= look.waiting
    return whole


def _by_need(findings: Iterable[Finding]) -> Iterable[Look]:
    merged: dict[tuple[str, str, str], Look] = {}
    for finding in findings:
        for need in finding.needs:
            look = merged.setdefault((need.path, need.because, need.why), Look(need))
            look.waiting[finding.id] = finding
            instead = dict.fromkeys((*look.need.instead, *need.instead))
            look.need = replace(look.need, instead=tuple(instead))
    return merged.values()


def _holds(outer: Need, inner: Need) -> bool:
    return outer.because == inner.because == "not recorded" and inner.path.startswith(f"{outer.path}.")


def look_words(look: Look, labels: Labels, within: str = "") -> str:
    """What to look at, told from the thing whose path is `within`."""
    need = look.need
    told = path_words(need.path, labels, within, need.instead)
    none = need.because == "not recorded" and not need.instead and may_be_none(need.path)
    if look.fields:
        fields = say("list").join(map(spaced, look.fields))
        return say("need_or_none_with" if none else "need_with", need=told, fields=fields)
    return say("need_or_none", need=told) if none else told


def reason_words(need: Need) -> str:
    """Why something does not settle the matter yet; empty where it is only unrecorded."""
    told = say(f"because {need.because}")
    if need.why:
        return say("because_why", because=told, why=need.why)
    return told if need.because != "not recorded" else ""


def by_reason(found: Iterable[Look]) -> dict[str, list[Look]]:
    """Looks by the words for why they are open, in the order of the first of each."""
    groups: dict[str, list[Look]] = {}
    for look in found:
        groups.setdefault(reason_words(look.need), []).append(look)
    return groups


def look_lines(finding: Finding, labels: Labels) -> Iterator[str]:
    """What one finding needs, a line each; what is open for the same reason stands in one."""
    for reason, group in by_reason(looks([finding])).items():
        told = [look_words(look, labels, finding.subject.path) for look in group]
        if reason:
            yield say("need_because", need=say("parted").join(told), because=reason)
        else:
            yield from told
