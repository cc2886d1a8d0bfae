"""The floor plans of a result in words and numbers: what is marked, what was measured, what has no place."""

from collections.abc import Iterable, Iterator, Sequence

from checker.findings.result import Figure, Finding, Result, Step
from checker.findings.storey import Corners, PlacedDoor, Storey
from checker.report.entry import place
from checker.report.plan_model import FloorPlan, Line, Mark, Suggested
from checker.report.plan_styles import AREAS, LINES
from checker.report.sentences import has, say
from checker.report.words import Country, country_of, value_words

MOST_LINES = 14
"""So many on one plan can still be told apart."""
_WORST_FIRST = ("not met", "undetermined", "met", "not applicable")
_MOST_TOLD = 3
_UNKNOWN = "not recorded"


def floor_plans(result: Result) -> tuple[FloorPlan, ...]:
    """The plans of a result, one a storey."""
    return tuple(_plan(number, storey, result) for number, storey in enumerate(result.storeys, 1))


def seen_on(plans: Sequence[FloorPlan]) -> dict[str, tuple[str, ...]]:
    """By the id of a finding, where on the plans that is drawn which it measured."""
    found: dict[str, list[str]] = {}
    for plan in plans:
        for line in plan.lines:
            name = say("plan_between", name=line.name, names=line.between) if line.between else line.name
            named = say("plan_seen_storey", plan=plan.heading, name=name) if len(plans) > 1 else name
            for finding in line.findings:
                found.setdefault(finding, []).append(named)
    return {finding: (say("plan_seen", names=say("list").join(names)),) for finding, names in found.items()}


def _plan(number: int, storey: Storey, result: Result) -> FloorPlan:
    country = country_of(result.region)
    rooms = {room.id for room in storey.rooms}
    groups = _measured(result.findings, rooms)
    drawn = groups[:MOST_LINES]
    return FloorPlan(
        name=f"plan-{number}",
        heading=say("plan_of", name=storey.name) if storey.name else say("plan_unnamed"),
        storey=storey,
        imperial=country == "us",
        marks=tuple(Mark(n, *each) for n, each in enumerate(_marks(storey), 1)),
        lines=tuple(_line(n, group, country) for n, group in enumerate(drawn, 1)),
        suggested=tuple(_suggested(result.findings, rooms, country)),
        not_placed=tuple(
            say("plan_not_placed", kind=_kind(each.kind), label=each.label, misses=_kind(each.misses))
            for each in storey.not_placed
        ),
        not_drawn=len(groups) - len(drawn),
    )


def _measured(findings: Iterable[Finding], rooms: set[str]) -> list[list[tuple[Finding, Step, Figure]]]:
    """What was measured in some rooms, each thing once with all its findings, the worst first."""
    groups: dict[object, list[tuple[Finding, Step, Figure]]] = {}
    for finding in findings:
        for step in finding.working:
            figure = step.figure
            if figure is not None and figure.room in rooms and figure.points:
                key = figure.what, figure.points, step.result.value
                groups.setdefault(key, []).append((finding, step, figure))
    return sorted(groups.values(), key=lambda group: min(_WORST_FIRST.index(one.outcome) for one, _, _ in group))


def _line(number: int, group: Sequence[tuple[Finding, Step, Figure]], country: Country) -> Line:
    _, step, figure = group[0]
    key = f"figure {figure.what}"
    name = say(key, number=number) if has(key) else say("figure", what=figure.what, number=number)
    length = step.result.kind == "length"
    label = say("figure_value", name=name, value=value_words(step.result, None, country)) if length else name
    findings = {one.id: one for one, _, _ in group}
    told = [
        say("plan_told", outcome=say(f"outcome {one.outcome}"), title=one.title, place=place(one))
        for one in findings.values()
    ]
    more = len(told) - _MOST_TOLD
    rings = _rings(figure.points)
    return Line(
        style=_style(figure.what.replace(" ", "-"), is_area=len(rings[0]) > 2),
        name=name,
        label=label,
        size=float(step.result.value) if length else None,
        outcome=min((one.outcome for one in findings.values()), key=_WORST_FIRST.index),
        rings=rings,
        between=figure.between,
        told=(
            *([say("step_between", names=figure.between)] if figure.between else []),
            *told[:_MOST_TOLD],
            *([say("plan_more", count=more)] if more > 0 else []),
        ),
        findings=frozenset(findings),
    )


def _style(what: str, *, is_area: bool) -> str:
    """What is measured across floor is drawn as the floor it was measured on, where its outline is given."""
    if what in AREAS or what == "gap":
        return "measure" if not is_area else "working-space" if what == "gap" else what
    return what if what in LINES else "other"


def _rings(points: Corners) -> tuple[Corners, ...]:
    """One line; several where outlines follow each other that each end where they began."""
    found: list[Corners] = []
    begun: list[tuple[float, float]] = []
    for point in points:
        begun.append(point)
        if len(begun) > 3 and point == begun[0]:
            found.append(tuple(begun[:-1]))
            begun = []
    return (*found, *((tuple(begun),) if begun else ()))


def _suggested(findings: Iterable[Finding], rooms: set[str], country: Country) -> Iterator[Suggested]:
    seen = set()
    for finding in findings:
        remedy = finding.remedy
        if remedy is None or remedy.room not in rooms or (remedy.place, remedy.contour) in seen:
            continue
        seen.add((remedy.place, remedy.contour))
        then = remedy.walk_then and value_words(remedy.walk_then, None, country)
        told = say("plan_suggested_then" if then else "plan_suggested", title=finding.title, then=then)
        yield Suggested(remedy.place, remedy.contour, told)


def _marks(storey: Storey) -> Iterator[tuple[str, str, str]]:
    """Kind, path and words of all that gets a number."""
    for machine in storey.machines:
        yield "machine", machine.path, _named("dyno", machine.label)
    for thing in storey.things:
        yield thing.kind, thing.path, _named(thing.kind, thing.label, thing.detail)
    labels = {room.id: room.label for room in storey.rooms}
    for door in storey.doors:
        yield "door", door.path, _door(door, labels)
    for obstacle in storey.obstacles:
        yield "obstacle", obstacle.path, _named("obstacle", obstacle.label)
    for partition in storey.partitions:
        stops = {True: "solid", False: "thin", None: "unknown"}[partition.solid]
        yield "partition", partition.path, say(f"plan_partition {stops}", label=partition.label)
    for zone in storey.clear_zones:
        yield "clear_zone", zone.path, _named("clear_zone", zone.label)


def _door(door: PlacedDoor, labels: dict[str, str]) -> str:
    to = labels.get(door.to, door.to) if door.to not in ("", "outside") else say(f"plan_to {door.to or _UNKNOWN}")
    locked = {True: "locked", False: "free", None: "unknown"}[door.locked]
    return say(f"plan_door {locked}", label=door.label, to=to)


def _named(kind: str, label: str, detail: str = "") -> str:
    words = f"plan_mark {kind}" if has(f"plan_mark {kind}") else "plan_mark_detail"
    return say(words if detail else "plan_mark", kind=_kind(kind), label=label, detail=detail)


def _kind(kind: str) -> str:
    return say(f"mark {kind}") if has(f"mark {kind}") else kind.rpartition(".")[2].replace("_", " ")
