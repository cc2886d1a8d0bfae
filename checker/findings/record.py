"""What a result says of the survey itself: its record, what it could not reach, what was taken for granted."""

from collections.abc import Iterator

from checker.findings.result import Need, Used, Value
from checker.site.entries import Entry, NotReached
from checker.site.model import Site
from checker.site.model_survey import Survey
from checker.site.walk import parts_of


def survey_record(site: Site) -> dict[str, str]:
    """The survey record, field by field, as written."""
    if not isinstance(site.survey, Survey):
        return {}
    record: dict[str, str] = {}
    for name in type(site.survey).declared:
        match getattr(site.survey, name):
            case Entry(written=written) | str(written):
                record[name] = written
            case (str(), *_) as several:
                record[name] = ", ".join(str(each) for each in several)
    return record


def limits_of_survey(site: Site) -> tuple[Need, ...]:
    """What was looked for and could not be reached, and why."""
    return tuple(_unreached(site))


def _unreached(site: Site) -> Iterator[Need]:
    if isinstance(site.survey, Survey) and isinstance(site.survey.not_reached, tuple):
        for each in site.survey.not_reached:
            yield Need(path=each.about, because="not reached", why=each.why)
    for located in parts_of(site):
        for name in type(located.part).declared:
            found = getattr(located.part, name)
            if isinstance(found, NotReached):
                path = site.document.place((*located.path, name))
                yield Need(path=path, because="not reached", why=found.why)


def bad_papers(site: Site) -> bool:
    """Whether any paper that is recorded found something unsatisfactory."""
    return any(
        isinstance(found, Entry) and found.result == "unsatisfactory"
        for located in parts_of(site)
        for found in located.part.__dict__.values()
    )


def assumed(site: Site) -> tuple[Used, ...]:
    """Values taken for granted, each with its reason."""
    members = site.assumed if isinstance(site.assumed, tuple) else ()
    return tuple(
        Used(
            path=each.about,
            of="",
            name=each.about.rpartition(".")[2],
            value=Value(value=_said(each.value), unit="", kind="text", as_written=_said(each.value)),
            evidence="assumed",
            note=each.why,
        )
        for each in members
    )


def _said(found: object) -> str:
    if isinstance(found, bool):
        return "yes" if found else "no"
    return str(found)
