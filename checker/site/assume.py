"""Values taken for granted: where nothing was recorded, `assumed` fills the field and says so."""

from collections.abc import Iterator
from typing import Any

from checker.site.entries import Path, Refused, nearest, one_of, shown
from checker.site.fields import Scalar
from checker.site.flaws import Flaw, flaw_of
from checker.site.model import Site
from checker.site.parts import FieldOf, Group, Many, Part, fields_of
from checker.site.paths import Step, steps


def with_assumptions(data: dict[str, Any]) -> tuple[dict[str, Any], list[Flaw]]:
    """The tree with assumed values filled in where a field is absent, and what is wrong with the assumptions.

    Nothing recorded gives way. Where two assumptions speak of one field the first is kept. Parts that were not recorded
    are not made up.
    """
    assumed = data.get("assumed")
    if not isinstance(assumed, list):
        return data, []
    filled: dict[str, Any] = _copied(data)
    flaws: list[Flaw] = []
    for place, assumption in enumerate(assumed):
        try:
            _fill(filled, assumption)
        except Refused as refusal:
            flaws.append(flaw_of(("assumed", place), refusal))
    return filled, flaws


def _copied(node: Any) -> Any:
    """A tree of plain values of its own; several times as fast as copy.deepcopy."""
    if isinstance(node, dict):
        return {key: _copied(value) for key, value in node.items()}
    return [_copied(member) for member in node] if isinstance(node, list) else node


def _fill(data: dict[str, Any], assumption: dict[str, Any]) -> None:
    field, holders = field_named(data, assumption["about"])
    if not isinstance(field.marker, Scalar):
        raise Refused(
            "Only a single value can be taken for granted", shown(assumption["about"]), "a path to one field"
        ).within("about")
    try:
        field.marker.read(assumption["value"])
    except Refused as refusal:
        raise refusal.within("value") from None
    for holder in holders:
        if holder.get(field.name) is None:
            holder[field.name] = {"value": assumption["value"], "evidence": "assumed", "note": assumption["why"]}


def field_named(data: dict[str, Any], about: str) -> tuple[FieldOf, list[dict[str, Any]]]:
    """The field that a path names, and the recorded parts that may hold it; raises Refused at `about`."""
    model: type[Part] = Site
    holders = [data]
    *way, end = steps(about)
    for step in way:
        field = _field(model, step, about)
        if field.part is None:
            raise _names_nothing(about, f"{step.name} has no fields of its own", "the path without what follows it")
        if isinstance(field.marker, Many) and step.which is None:
            raise _names_nothing(about, f"{step.name} is a list", f"{step.name}[*] or {step.name}[its id]")
        holders = list(_inside(holders, field, step, about))
        model = field.part
    field = _field(model, end, about)
    if end.which is not None:
        _ = list(_inside(holders, field, end, about))
    return field, holders


def _field(model: type[Part], step: Step, about: str) -> FieldOf:
    fields = fields_of(model)
    if step.name not in fields or step.name == "id":
        near = nearest(step.name, fields)
        wanted = f"{near} in its place" if near else one_of(list(fields)[1:13])
        raise _names_nothing(about, f"There is no field called {step.name} there", wanted)
    if step.which is not None and not isinstance(fields[step.name].marker, Many):
        raise _names_nothing(about, f"{step.name} is no list", step.name)
    return fields[step.name]


def _inside(holders: list[dict[str, Any]], field: FieldOf, step: Step, about: str) -> Iterator[dict[str, Any]]:
    if isinstance(field.marker, Group):
        yield from (part for holder in holders if isinstance(part := holder.get(field.name), dict))
        return
    lists = (members for holder in holders if isinstance(members := holder.get(field.name), list))
    members = [member for held in lists for member in held if isinstance(member, dict)]
    if step.which == "*":
        yield from members
        return
    found = [member for member in members if member.get("id") == step.which]
    if not found:
        ids = [str(member["id"]) for member in members if "id" in member]
        near = nearest(str(step.which), ids)
        wanted = (
            f"{step.name}[{near}]" if near else one_of(ids[:8]) if ids else f"the id of something under {step.name}"
        )
        raise _names_nothing(about, f"Nothing under {step.name} has the id {step.which}", wanted)
    yield from found


def _names_nothing(about: str, says: str, wanted: str) -> Refused:
    return Refused(says, shown(about), wanted, ("about",))


def unreached_flaws(data: dict[str, Any]) -> Iterator[Flaw]:
    """What is wrong with the paths under survey: not_reached."""
    survey = data.get("survey")
    unreached = survey.get("not_reached") if isinstance(survey, dict) else None
    for place, member in enumerate(unreached if isinstance(unreached, list) else ()):
        path: Path = ("survey", "not_reached", place)
        about = member["about"]
        try:
            if "[*]" in about:
                raise _names_nothing(
                    about, "What was not reached is named one by one", "the whole list, or the id of one member"
                )
            field_named(data, about)
        except Refused as refusal:
            yield flaw_of(path, refusal)
