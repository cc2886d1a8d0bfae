"""What to look at: the needs of findings, each thing once, with everything that waits for it."""

from collections.abc import Iterable

from msgspec import Struct, field
from msgspec.structs import replace

from checker.findings.exit_code import SEVERITIES
from checker.findings.result import Finding, Need
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


def look_words(look: Look, within: str = "") -> str:
    """What to look at, and why it does not settle the matter yet where it is more than unrecorded.

    Paths below the thing `within` are told from there.
    """
    need = look.need
    path, *instead = (one.removeprefix(f"{within}.") for one in (need.path, *need.instead))
    told = say("todo_itself") if path == within else path
    if instead:
        told = say("need_or", path=told, instead=say("or").join(instead))
    if look.fields:
        told = say("need_with", need=told, fields=say("list").join(look.fields))
    if need.because != "not recorded":
        told = say(f"because {need.because}", need=told)
    return say("because_why", because=told, why=need.why) if need.why else told
