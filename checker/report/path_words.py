"""A path of the site file in words: the thing it lies in, and what its field says, as the model describes it."""

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache

from msgspec import Struct

from checker.findings.result import Result
from checker.report.sentences import has, say
from checker.site.model import Site
from checker.site.parts import FieldOf, Many, Part, fields_of

Labels = Mapping[str, str]
"""By its path, what each thing is called."""
_STEP = re.compile(r"([a-z][a-z0-9_]*)(?:\[([^\]]*)\])?")
_LOWERED = re.compile(r"[A-Z](?=[a-z ])")


class Told(Struct, frozen=True):
    """A path in words."""

    thing: str
    """The thing and the part of it, outermost place first; empty for what the site or `within` itself has."""
    what: str
    """What is to be known of it."""


class _Step(Struct, frozen=True):
    path: str
    name: str
    which: str
    field: FieldOf | None


def labels_of(result: Result) -> Labels:
    """What the things of a result are called."""
    return {
        one.subject.path: one.subject.label
        for one in result.findings
        if one.subject.path.endswith("]") or not one.subject.path
    }


def path_told(path: str, labels: Labels, within: str = "") -> Told:
    """The words of a path; what lies in the thing whose path is `within` is told from there.

    A path that leads nowhere in a site file stands as it is.
    """
    steps = _steps(path)
    if not steps:
        table = path.removeprefix("table ")
        return Told("", path if table == path else say("path_table", name=table.replace("-", " ")))
    last = steps[-1]
    things: list[str] = []
    for step in steps:
        if step.which and step.path == within:
            things = []
        elif step.which or step is not last:
            things.append(_thing(step, labels) if step.which else spaced(step.name))
    what = say("path_whole") if last.which else _field(last)
    return Told(say("place_separator").join(things), what)


def path_words(path: str, labels: Labels, within: str = "", others: Sequence[str] = ()) -> str:
    """The thing and what is to be known of it, in one line; `others`: paths any one of which would do as well."""
    by_thing: dict[str, dict[str, None]] = {}
    for each in (path, *others):
        told = path_told(each, labels, within)
        by_thing.setdefault(told.thing, {})[told.what] = None
    whats = ((thing, say("path_or").join(told)) for thing, told in by_thing.items())
    return say("path_or_else").join(say("path_of", thing=thing, what=what) if thing else what for thing, what in whats)


def place_words(path: str, labels: Labels, within: str = "") -> str:
    """What a path leads to by its names: the labels of things and the names of fields, from `within` on."""
    steps = [step for step in _steps(path) if len(step.path) > len(within) or not within.startswith(step.path)]
    if not path:
        return labels.get(path, "")
    names = [_thing(step, labels) if step.which else spaced(step.name) for step in steps]
    return say("place_separator").join(names) or path


def may_be_none(path: str) -> bool:
    """Whether a path leads to a list, or to a part of which there may be none."""
    steps = _steps(path)
    return bool(steps) and not steps[-1].which and steps[-1].field is not None and steps[-1].field.part is not None


def thing_above(path: str) -> str:
    """The path of the outermost thing that a path leads through; empty for what the site itself has."""
    steps = _steps(path)
    return steps[0].path if steps and steps[0].which else ""


def spaced(name: str) -> str:
    """A name as words."""
    return name.replace("_", " ").replace(".", " ")


@lru_cache(maxsize=4096)
def _steps(path: str) -> tuple[_Step, ...]:
    """The steps of a path with the fields they are; none where it is no path from the site."""
    steps: list[_Step] = []
    model: type[Part] | None = Site
    for written in path.split("."):
        found = _STEP.fullmatch(written)
        field = fields_of(model).get(found[1]) if found and model else None
        if found is None or not (steps or field):
            return ()
        above = f"{steps[-1].path}." if steps else ""
        steps.append(_Step(above + written, found[1], found[2] or "", field))
        model = field.part if field else None
    return tuple(steps)


def _thing(step: _Step, labels: Labels) -> str:
    label = labels.get(step.path, step.which)
    if label != step.which:
        return label
    part = step.field.part if step.field else None
    kind = getattr(part, "kind_of_thing", None)
    if step.which == "*":
        return say("path_every", kind=spaced(kind)) if kind else say("path_each", name=spaced(step.name))
    if kind:
        return say("thing_unnamed", kind=spaced(kind), id=step.which)
    if step.which.isdecimal():
        return say("path_member", name=spaced(step.name), which=int(step.which) + 1)
    key = f"path_member {step.name}"
    return say(key if has(key) else "path_member", name=spaced(step.name), which=step.which)


def _field(step: _Step) -> str:
    if step.field is not None:
        return _said(step.field)
    elsewhere = fields_of(Site).get(step.name)
    if elsewhere is not None and isinstance(elsewhere.marker, Many):
        return say("path_there", what=_said(elsewhere))
    return spaced(step.name)


def _said(field: FieldOf) -> str:
    """What a field is, as far as the first half of its description tells."""
    said = field.description.partition(";")[0].rstrip(".")
    return said[0].lower() + said[1:] if _LOWERED.match(said) else said
