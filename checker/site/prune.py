"""A site file without what was refused in it, so that the rest can be read and its mistakes be named as well."""

import copy
from typing import Any

from checker.site.entries import Path
from checker.site.model import Site
from checker.site.parts import FieldOf, Many, Part, Thing, fields_of
from checker.site.walk import spot_at


def without(data: dict[str, Any], paths: list[Path]) -> tuple[dict[str, Any], list[Path]]:
    """The tree without what stands at the paths, and what was taken out or stands in as something else.

    Members of lists keep their places, since the file's positions go by place; what they cannot be without is replaced.
    """
    kept = copy.deepcopy(data)
    taken: list[Path] = []
    for path in paths:
        taken += _take(kept, path, f"unnamed-{len(taken) + 1}")
    return kept, taken


def _take(data: dict[str, Any], path: Path, unnamed: str) -> list[Path]:
    spot = spot_at(path)
    field = spot.field
    if field is None:
        return _fill(data, (), Site, unnamed) if not path else _drop(data, path)
    if field.part is None:
        return _replace(data, spot.path, field, unnamed) if field.required else _drop(data, spot.path)
    if not isinstance(field.marker, Many) or not spot.rest or not isinstance(spot.rest[0], int):
        return _drop(data, path[: len(spot.path) + 1])
    if len(spot.rest) > 1:
        return _drop(data, path[: len(spot.path) + 2])
    return _fill(data, path, field.part, unnamed)


def _drop(data: Any, path: Path) -> list[Path]:
    holder = _at(data, path[:-1])
    if isinstance(holder, dict):
        holder.pop(path[-1], None)
    return [path]


def _replace(data: Any, path: Path, field: FieldOf, unnamed: str) -> list[Path]:
    holder = _at(data, path[:-1])
    if isinstance(holder, dict):
        holder[field.name] = unnamed if field.name == "id" else field.examples[0]
    return [path if field.name == "id" else path[:-1]]


def _fill(data: Any, path: Path, model: type[Part], unnamed: str) -> list[Path]:
    """Give a member, or the site, what it cannot be without."""
    part = _at(data, path)
    whole = not isinstance(part, dict)
    if whole:
        part = {}
        _at(data, path[:-1])[path[-1]] = part
    missing = [field for field in fields_of(model).values() if field.required and part.get(field.name) is None]
    for field in missing:
        part[field.name] = unnamed if field.name == "id" else field.examples[0]
    return [path] if whole or not issubclass(model, Thing) else [(*path, field.name) for field in missing]


def _at(data: Any, path: Path) -> Any:
    for step in path:
        try:
            data = data[step]
        except (KeyError, IndexError, TypeError):
            return None
    return data
