"""A refusal of the schema in the words of the person who wrote the file. Imported only when a file was refused."""

import re
from collections.abc import Iterator
from functools import cache
from typing import Any

from jsonschema import Draft202012Validator, FormatChecker, ValidationError
from jsonschema.validators import extend

from checker.site.commas import cut_at_commas
from checker.site.entries import Path, Refused, nearest, one_of, shown
from checker.site.fields import EVIDENCE_FIELDS, REASON, Scalar
from checker.site.flaws import Flaw, flaw_of
from checker.site.gate import shipped_schema
from checker.site.parts import Anything, FieldOf, Group, Many, Plain, Texts, fields_of
from checker.site.walk import Spot, spot_at


def flaws_in(data: object) -> list[Flaw]:
    """Everything that the schema refuses in a plain tree."""
    errors = list(_validator().iter_errors(data))
    cut = [flaw for error in errors if error.validator == "additionalProperties" for flaw in _cut(error)]
    told = {path for flaw in cut for path in (flaw.path, *flaw.along)}
    others = (flaw for error in errors for flaw in _flaws(error, data) if flaw.path not in told)
    return list(dict.fromkeys([*cut, *others]))


@cache
def _validator() -> Any:
    """jsonschema for the site schema; $ means the end of a text, as it does elsewhere."""
    strict = extend(  # type: ignore[no-untyped-call]
        Draft202012Validator, {"pattern": _pattern}
    )
    return strict(shipped_schema(), format_checker=FormatChecker(["date"]))


def _pattern(validator: Any, pattern: str, instance: object, schema: Any) -> Iterator[ValidationError]:
    if isinstance(instance, str) and not re.search(re.sub(r"\$$", r"\\Z", pattern), instance):
        yield ValidationError(f"does not match {pattern}")


def _flaws(error: ValidationError, data: object) -> Iterator[Flaw]:
    path = tuple(error.absolute_path)
    if error.validator == "additionalProperties":
        known = error.schema["properties"]  # type: ignore[index]
        unknown = [key for key in error.instance if key not in known]  # type: ignore[union-attr]
        title = str(error.schema["title"]).lower()  # type: ignore[index]
        return (_unknown((*path, key), title, known, len(error.instance) > 1) for key in unknown)  # type: ignore[arg-type]
    if error.validator == "required":
        return (_missing(path, key, error.instance) for key in error.validator_value if key not in error.instance)  # type: ignore[union-attr, operator]
    return iter([_refused(spot_at(path), error.instance, error.message)])


def _cut(error: ValidationError) -> Iterator[Flaw]:
    """One flaw for the two that a comma within braces makes of a value; its field says how the value is written."""
    path = tuple(error.absolute_path)
    for cut in cut_at_commas(error.instance, error.schema["properties"]):  # type: ignore[arg-type, index]
        spot = spot_at((*path, cut.key))
        wanted = f'"{cut.written}" in quotes'
        try:
            if spot.field:
                _read_at(spot, spot.field, cut.written)
        except Refused as refusal:
            wanted = refusal.wanted
        yield Flaw((*path, cut.key), "A comma ends a value in braces", cut.written, wanted, along=((*path, cut.rest),))


def _unknown(path: Path, title: str, known: Any, in_company: bool) -> Flaw:
    key = str(path[-1])
    if title == "not reached" and in_company:
        return Flaw(
            path,
            "What could not be reached has no other fields",
            shown(key),
            "not_reached alone, or the fields without it",
            True,
        )
    if key == "not_reached":
        wanted = "its path under survey: not_reached"
        return Flaw(path, f"A {title} that could not be reached is named in the survey", shown(key), wanted, True)
    names = [name for name in known if name not in ("was", "note")]
    wanted = nearest(key, known) or one_of(names if len(names) <= 12 else [*names[:12], "another field of the schema"])
    return Flaw(path, f"There is no such field under {title}", shown(key), wanted, True)


def _missing(path: Path, key: str, instance: object) -> Flaw:
    spot = spot_at(path)
    if key == "value":
        scalar = _scalar(spot)
        example = scalar.schema().get("examples", ["…"])[0] if scalar else "…"
        return Flaw(path, "The value itself is missing", shown(instance), f"value: {shown(example).strip(chr(34))}")
    field = _fields_at(spot)[key]
    says = "Every thing has an id" if key == "id" else f"{key} is missing"
    return Flaw(path, says, shown(instance), f"{key}: {field.examples[0]}")


def _fields_at(spot: Spot) -> Any:
    from checker.site.model import Site

    return fields_of(spot.field.part if spot.field and spot.field.part else Site)


def _scalar(spot: Spot) -> Scalar | None:
    marker = spot.field.marker if spot.field else None
    return marker if isinstance(marker, Scalar) else marker.field if isinstance(marker, Plain) else None


def _refused(spot: Spot, instance: object, message: str) -> Flaw:
    """The words for a value of the wrong shape: the field's own, since it reads the same shapes."""
    path = (*spot.path, *spot.rest)
    if spot.field is None:
        return Flaw(
            path,
            "A site file is a set of fields",
            shown(instance),
            "id: and the other fields, each on a line of its own",
        )
    if instance is None and spot.field.required and not spot.rest:
        name = spot.field.name
        return Flaw(path, f"{name} is missing", shown(instance), f"{name}: {spot.field.examples[0]}")
    try:
        _read_at(spot, spot.field, instance)
    except Refused as refusal:
        return flaw_of(path, refusal)
    return Flaw(path, "The schema of site files refuses this", shown(instance), message[:200])


def _read_at(spot: Spot, field: FieldOf, instance: object) -> None:
    marker, rest = field.marker, spot.rest
    match marker:
        case Group():
            _read_reason(rest, instance)
            raise Refused(
                f"{field.name} has fields of its own", shown(instance), f"its fields below {field.name}, or none"
            )
        case Many():
            _read_reason(rest, instance)
            if rest:
                begin = f"{next(iter(fields_of(field.part)))}: and its other fields" if field.part else ""
                raise Refused(f"Each member of {field.name} is a set of fields", shown(instance), begin)
            raise Refused(f"{field.name} is a list", shown(instance), "its members, each beginning with -, or none")
        case Texts():
            (REASON if rest else marker).read(instance)
        case Plain():
            marker.field.read(instance)
        case Anything():
            marker.read(instance)
        case Scalar():
            _read_scalar(marker, rest, instance)


def _read_reason(rest: Path, instance: object) -> None:
    if rest[-1:] == ("not_reached",):
        REASON.read(instance)


def _read_scalar(field: Scalar, rest: Path, instance: object) -> None:
    if not rest:
        field.record(instance)
    elif rest == ("not_reached",):
        REASON.read(instance)
    elif rest == ("plus_minus",):
        if field.uncertainty is None:
            raise Refused("Only a quantity has an uncertainty", shown(instance), "the value without plus_minus")
        field.uncertainty.read(instance)
    elif rest[0] in EVIDENCE_FIELDS:
        EVIDENCE_FIELDS[str(rest[0])].read(instance)
    else:
        for step in rest[1:] if rest[0] == "value" else rest:
            field = field.member(step)
        field.read(instance)
