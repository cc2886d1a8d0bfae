"""From a read document to the parts of a ruleset file: every misfit a problem with place, finding and remedy."""

import re
from collections.abc import Iterable, Iterator
from difflib import get_close_matches
from typing import Any, TypeVar

from pydantic_core import ValidationError

from checker.reading import Document, Problem
from checker.rules.files import MARK, Part
from checker.rules.forms import description, fields_of, part_in, reader_of

Whole = TypeVar("Whole", bound=Part)
PathParts = tuple[str | int, ...]


def fit(document: Document, form: type[Whole]) -> tuple[Whole | None, list[Problem]]:
    """A document's data in its form, or the problems that keep it from being one."""
    problems = [
        problem(document, path, "this is still to be filled in", found, _described(form, path) or "it", key=key)
        for path, found, key in _marked(document.data)
    ]
    marked = {(each.line, each.column) for each in problems}
    try:
        part: Whole = reader_of(form).validate_python(document.data)
    except ValidationError as error:
        misfits = [_problem(document, form, detail) for detail in error.errors(include_url=False)]
        return None, problems + [each for each in misfits if (each.line, each.column) not in marked]
    return (None if problems else part), problems


def problem(document: Document, path: PathParts, says: str, found: str, wanted: str, *, key: bool = False) -> Problem:
    """A problem at a path of a document."""
    mark = document.key_mark(path) if key else document.mark(path)
    return Problem(document.file, mark.line, mark.column, document.place(path), found, wanted, says)


def _marked(data: object, path: PathParts = ()) -> Iterator[tuple[PathParts, str, bool]]:
    """Each text that holds a mark of a template: its path, the text, whether it is a key."""
    match data:
        case dict():
            for key, value in data.items():
                if isinstance(key, str) and MARK in key:
                    yield (*path, key), key, True
                yield from _marked(value, (*path, key))
        case list():
            for number, value in enumerate(data):
                yield from _marked(value, (*path, number))
        case str() if MARK in data:
            yield path, data, False


def near(word: str, known: Iterable[str]) -> str:
    """What may have been meant: the nearest name where one is near, else the first dozen."""
    names = sorted(known)
    if meant := get_close_matches(word, names, 1):
        return meant[0]
    return f"one of {', '.join(names[:12])}{' …' if len(names) > 12 else ''}" if names else "none is held"


def _problem(document: Document, form: type[Part], detail: Any) -> Problem:
    path = tuple(part for part in detail["loc"] if part != "[key]")
    found, context = detail["input"], detail.get("ctx", {})
    match detail["type"]:
        case "extra_forbidden":
            known = _known_keys(form, path[:-1])
            return problem(document, path, "there is no such key", str(path[-1]), near(str(path[-1]), known), key=True)
        case "missing":
            return problem(document, path[:-1], "a key is missing", "nothing", f"{path[-1]}: …")
        case "string_type" if isinstance(found, int | float):
            written = _written(document, path)
            said = written if isinstance(found, bool) else f"the number {written}"
            return problem(document, path, "words are wanted here", said, f'"{written}" in quotes')
        case "string_type" if path == ("extends",):
            return problem(document, path, "a layer stands on one other", _shown(found), "the name of one layer")
        case "string_type":
            return problem(document, path, "words are wanted here", _shown(found), "text")
        case "literal_error":
            words = [word.strip("'") for word in str(context["expected"]).replace(" or ", ", ").split(", ")]
            return problem(document, path, "this word is not one of those held", _shown(found), near(str(found), words))
        case "string_pattern_mismatch":
            return problem(document, path, "this has another form", _shown(found), _example(context["pattern"]))
        case "string_too_short" | "too_short":
            return problem(document, path, "this may not be empty", _shown(found), "at least one")
        case "list_type" | "dict_type":
            wanted = "a list" if detail["type"] == "list_type" else "keys and values"
            return problem(document, path, "this has another form", _shown(found), wanted)
    return problem(document, path, "this cannot be read", _shown(found), str(detail["msg"]).lower())


def _described(form: type[Part], path: PathParts) -> str:
    """What the description of the last field on a path says."""
    said, part = "", form
    for name in path:
        if isinstance(name, str) and (field := fields_of(part).get(name)) is not None:
            said = description(field) or said
            part = part_in(field) or part
    return said


def _known_keys(form: type[Part], path: PathParts) -> set[str]:
    """The keys of the part that a path leads to."""
    part = form
    for name in path:
        if isinstance(name, str) and (field := fields_of(part).get(name)) is not None:
            part = part_in(field) or part
    return set(fields_of(part))


def _written(document: Document, path: PathParts) -> str:
    """A bare value as it stands in the file: 1031.10 is not 1031.1."""
    mark = document.mark(path)
    return re.split(r"[\s,\]}#]", document.source_line(mark.line)[mark.column - 1 :], maxsplit=1)[0]


def _shown(found: object) -> str:
    match found:
        case None:
            return "nothing"
        case bool():
            return "yes" if found else "no"
        case dict():
            return "keys and values"
        case list():
            return "a list"
    return str(found)


_EXAMPLES = {
    r"^\d{4}-\d{2}-\d{2}$": "a day such as 2026-11-25",
    r"^\d+\.\d+$": 'two numbers in quotes such as "3.2"',
    r"^[a-z][a-z0-9-]*\.[a-z0-9-]+$": "an id such as fire.class-b-walk",
    r"^[a-z][a-z0-9_]*$": "a name in small letters such as walk",
}


def _example(pattern: str) -> str:
    return _EXAMPLES.get(pattern, "small letters, digits and hyphens")
