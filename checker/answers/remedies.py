"""What would mend a walk that is too long: how much floor is out of reach, and where on a wall one more unit helps."""

from collections.abc import Callable
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any, Final

from msgspec.structs import replace

from checker.findings.result import Figure, Finding, Remedy, Result, Value
from checker.quantities import Missing, Reading, facts
from checker.site import Site
from checker.units import on_grid

NEAR: Final = 0.05
"""m. Half the side of the square that stands for a place from which one walks."""

PlanOf = Callable[[Reading, str], Any]


def with_remedies(site: Site, result: Result, kept: Path | None = None) -> Result:
    """The result with a remedy on each finding that is not met because the walk to an extinguisher is too long."""
    if not any(_walk_too_long(finding) for finding in result.findings):
        return result

    @cache
    def plan_of(reading: Reading, room: str) -> Any:
        known = facts(site, reading, kept)
        return next(each for each in known.things("room") if each.id == room)["plan"]

    return replace(result, findings=tuple(_with_remedy(finding, plan_of) for finding in result.findings))


def _walk_too_long(finding: Finding) -> Figure | None:
    """The walk that a finding fails by, where it was measured on a plan and ends at an extinguisher."""
    if finding.outcome != "not met" or finding.limit is None or finding.operator not in ("le", "lt"):
        return None
    for step in finding.working:
        if step.figure and step.figure.ends_at == "extinguisher" and step.result == finding.measured:
            return step.figure
    return None


def _with_remedy(finding: Finding, plan_of: PlanOf) -> Finding:
    figure = _walk_too_long(finding)
    if figure is None or finding.limit is None or not isinstance(finding.limit.value, Decimal):
        return finding
    from checker.plan import NotOnFloor, UnusablePlan

    try:
        plan = plan_of("longest" if finding.taken else "recorded", figure.room)
        return replace(finding, remedy=_remedy(plan, figure, float(finding.limit.value)))
    except (Missing, UnusablePlan, NotOnFloor):
        return finding


def _remedy(plan: Any, figure: Figure, limit: float) -> Remedy:
    from checker.plan import reach, suggest

    whole = figure.what == "farthest walk"
    within = plan.outline if whole else _square(figure.points[0])
    found = suggest(plan.plan, figure.targets, limit, within, kept=plan.kept)
    beyond = reach(plan.plan, figure.targets, limit, plan.outline, kept=plan.kept) if whole else None
    return Remedy(
        room=figure.room,
        place=found.place,
        walk_then=None if found.then is None or found.then.least is None else _value(found.then.least, "length"),
        beyond_area=None if beyond is None else _value(beyond.beyond_area, "area"),
        beyond_share=None if beyond is None else _value(beyond.beyond_share, "ratio"),
        contour=() if beyond is None else beyond.contour,
    )


def _square(place: tuple[float, float]) -> tuple[tuple[float, float], ...]:
    x, y = place
    return ((x - NEAR, y - NEAR), (x + NEAR, y - NEAR), (x + NEAR, y + NEAR), (x - NEAR, y + NEAR))


def _value(number: float, kind: str) -> Value:
    from checker.findings.values import value

    made = value(on_grid(number), kind)
    assert made is not None
    return made
