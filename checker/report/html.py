"""A result as one HTML file that needs nothing else: no script, nothing fetched, no way out of it."""

import re
from collections.abc import Iterable, Iterator
from functools import cache
from importlib import resources

from jinja2 import Environment, StrictUndefined, Template
from markupsafe import Markup

from checker.findings.result import Result
from checker.report import Drawing
from checker.report.advice import as_html
from checker.report.blocks import content
from checker.report.content import Content, Entry, Part, Row, Section
from checker.report.page import clean
from checker.report.plan_model import FloorPlan
from checker.report.plan_svg import svg
from checker.report.sentences import say

_NOT_IN_A_NAME = re.compile(r"[^A-Za-z0-9./*_-]+")
_LONGEST_NAME = 200
_LONGEST_RUNNING_HEAD = 100


def render(result: Result, details: bool = False) -> str:
    """The whole report of one site. `details` shows the full working of what is fine as well."""
    return render_all([result], Drawing(details=details))


def render_all(results: Iterable[Result], drawing: Drawing) -> str:
    """One document with a part for each site, in print each from a new page on."""
    sites = [content(result, drawing.details) for result in results]
    words = {
        "language": say("language"),
        "title": say("list").join(clean(site.running_head, _LONGEST_RUNNING_HEAD) for site in sites),
        "contents": say("contents"),
        "contents_sites": say("contents_sites", count=len(sites)),
        "working": say("label_working"),
        "plans": say("plans"),
        "plan_caution": say("plan_caution"),
        "plan_key": say("plan_key"),
        "plan_measured": say("plan_measured"),
        "plan_not_placed": say("plan_not_placed_lead"),
    }
    return _template().render(sites=sites, words=words, style=Markup(_text("page.css")), anchor=_Anchors())


class _Anchors:
    """The name of each place of one document, made of what it is about; a second of the same name gets a number."""

    def __init__(self) -> None:
        self._given: dict[int, str] = {}
        self._taken: dict[str, int] = {}

    def __call__(self, place: Content | Entry | Section | FloorPlan, site: Content) -> str:
        if id(place) not in self._given:
            self._given[id(place)] = self._new(_name(place, site))
        return self._given[id(place)]

    def _new(self, name: str) -> str:
        name = _NOT_IN_A_NAME.sub("-", name[:_LONGEST_NAME])
        count = self._taken[name] = self._taken.get(name, 0) + 1
        return name if count == 1 else f"{name}--{count}"


def _name(place: Content | Entry | Section | FloorPlan, site: Content) -> str:
    match place:
        case Entry():
            return place.id
        case Section() | FloorPlan():
            return f"{site.site}/{place.name}"
        case Content():
            return place.site


def _drawn(plan: FloorPlan, anchor: str) -> Markup:
    """The plan as SVG; no name of a place holds the sign that parts the names of its patterns from it."""
    return Markup(svg(plan, anchor))


def _measured(plan: FloorPlan) -> tuple[Row, ...]:
    """What was measured on a plan and where one more unit would help, each beside its name there."""
    helps = tuple(Row(say("label_suggested"), (each.told,)) for each in plan.suggested)
    return (*(Row(line.label, line.told) for line in plan.lines), *helps)


def _keyed(plan: FloorPlan) -> tuple[Row, ...]:
    return tuple(Row(str(mark.number), (mark.told,)) for mark in plan.marks)


def _css_text(text: str) -> Markup:
    """The text as CSS writes it (CSS Syntax Level 3, 4.3.5 and 4.3.7), every sign but letters and digits by number."""
    told = clean(text, _LONGEST_RUNNING_HEAD)
    signs = (one if one.isascii() and one.isalnum() else f"\\{ord(one):x} " for one in told)
    return Markup('"' + "".join(signs) + '"')


def _listed(section: Section) -> Iterator[Entry]:
    """What the contents name one by one: all that is wrong, and what is critical and not known."""
    for part in section.parts:
        if isinstance(part, Section):
            yield from _listed(part)
        elif isinstance(part, Entry) and (section.name == "wrong" or part.severity == "critical"):
            yield part


def _kind(part: Part) -> str:
    return type(part).__name__


def _markdown(row: Row) -> Markup:
    return Markup(as_html(row.markdown))


def _steps(entry: Entry) -> str:
    count = len(entry.working)
    return say("working_steps" if count != 1 else "working_steps_one", count=count)


def _harmless(value: object) -> object:
    """Every text that the template prints goes through here before it is escaped."""
    return clean(value) if isinstance(value, str) and not isinstance(value, Markup) else value


def _text(name: str) -> str:
    return resources.files("checker.report").joinpath(name).read_text(encoding="utf-8")


@cache
def _template() -> Template:
    environment = Environment(
        autoescape=True,
        undefined=StrictUndefined,
        finalize=_harmless,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters |= {
        "css_text": _css_text,
        "drawn": _drawn,
        "keyed": _keyed,
        "measured": _measured,
        "not_drawn": lambda plan: say("plan_not_drawn", count=plan.not_drawn),
        "kind": _kind,
        "listed": _listed,
        "markdown": _markdown,
        "steps": _steps,
    }
    return environment.from_string(_text("page.html.jinja"))
