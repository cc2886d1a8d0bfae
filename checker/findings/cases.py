"""What a case of a rule gives, as the facts that the evaluator reads."""

import datetime as dt
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from checker.findings.due import due
from checker.findings.judge import Asked, facts_for
from checker.quantities import Attribute, Broken, Missing, kinds
from checker.rules.model import Case, Rule
from checker.units import GRID, NOT_ASKED, Period, UnitProblem, read

DEFAULT_DAY = dt.date(2026, 1, 1)
"""The day of cases that name none."""
NONE = ("none", False)


class CaseFault(Exception):
    """A case gives something that its rule has no name for, or in a wrong kind; its text says what."""


class Given(dict[str, Any]):
    """A thing of a case: what is given is there, the rest is not recorded."""

    def __init__(self, kind: str, path: str) -> None:
        """Nothing is given yet."""
        super().__init__()
        self.kind, self.path = kind, path

    def __missing__(self, name: str) -> Any:
        """What is not given. Raises Missing; Broken below something given as none."""
        attribute = kinds()[self.kind][name]
        path = f"{self.path}.{name}"
        if name.startswith("has_") and name[4:] in kinds()[self.kind]:
            raise Missing(f"{self.path}.{name[4:]}", "not recorded")
        if attribute.type == "thing" and attribute.thing is not None:
            if self.get(f"has_{name}") is False:
                raise Broken(f"{path} is none")
            return Given(attribute.thing, path)
        if attribute.type == "function":
            return _gap(path)
        raise Missing(path, "not recorded")

    __hash__ = object.__hash__  # type: ignore[assignment]


def _gap(path: str) -> Any:
    def call(*_: object) -> Any:
        raise Missing(path, "not recorded")

    return call


def case_facts(rule: Rule, case: Case) -> dict[str, Any]:
    """The facts that a case gives. Raises CaseFault."""
    subject = Given(rule.each, rule.each)
    site = subject if rule.each == "site" else Given("site", "site")
    limits: dict[str, Any] = {}
    tables: dict[str, dict[str, Any]] = {name: {} for name in rule.tables}
    for name, written in case.given.items():
        match name.split("."):
            case ["limit", limit] if limit in rule.limit:
                limits[limit] = _number(written, rule.limit[limit], name)
            case ["table", table, column] if table in rule.tables and column in rule.tables[table].columns:
                cell = _number(written, rule.tables[table].columns[column], name)
                tables[table][column] = cell if cell == NOT_ASKED else _always(cell)
            case [first, *rest] if rest and first in (rule.each, "site"):
                _give(subject if first == rule.each else site, rest, written, name)
            case _:
                raise CaseFault(f"{name} is no limit, table or field that {rule.id} could read")
    day = case.as_of or DEFAULT_DAY
    held = {name: _Columns(name, columns) for name, columns in tables.items()}
    return facts_for(rule, subject, site, Asked("limit", limits), Asked("table", held), day, due)


class _Columns(dict[str, Any]):
    def __init__(self, table: str, columns: Mapping[str, Any]) -> None:
        super().__init__(columns)
        self.table = table

    def __missing__(self, column: str) -> Any:
        return _gap(f"table.{self.table}.{column}")


def _always(value: Any) -> Any:
    return lambda *_: value


def _give(thing: Given, names: list[str], written: object, said: str) -> None:
    attribute = kinds()[thing.kind].get(names[0])
    if attribute is None:
        raise CaseFault(f"{said}: a {thing.kind} has no {names[0]}")
    if len(names) > 1:
        if attribute.type != "thing" or attribute.thing is None:
            raise CaseFault(f"{said}: {names[0]} has no parts")
        if attribute.maybe_none:
            thing[f"has_{names[0]}"] = True
        inner = thing.setdefault(names[0], Given(attribute.thing, f"{thing.path}.{names[0]}"))
        _give(inner, names[1:], written, said)
    elif attribute.type == "thing":
        if not attribute.maybe_none or written not in NONE:
            raise CaseFault(f"{said}: only `none` can be given for the whole of {names[0]}")
        thing[f"has_{names[0]}"] = False
    elif attribute.type == "list":
        thing[names[0]] = tuple(_members(attribute, thing, written, said))
    else:
        thing[names[0]] = _value(attribute, written, said)


def _members(attribute: Attribute, thing: Given, written: object, said: str) -> list[Given]:
    if written in NONE or written == []:
        return []
    if not isinstance(written, list) or attribute.thing is None:
        raise CaseFault(f"{said}: a list or `none` is wanted")
    members = []
    for number, fields in enumerate(written):
        if not isinstance(fields, dict):
            raise CaseFault(f"{said}: each member gives its fields")
        member = Given(attribute.thing, f"{thing.path}.{attribute.name}[{number}]")
        for name, value in fields.items():
            _give(member, name.split("."), value, f"{said}[{number}].{name}")
        members.append(member)
    return members


def _value(attribute: Attribute, written: object, said: str) -> Any:
    match attribute.type:
        case "number":
            return _number(written, attribute.quantity_kind or "number", said)
        case "function":
            if attribute.returns == "answer":
                return _always(written)
            return _always(_number(written, attribute.quantity_kind or "number", said))
        case "answer" if isinstance(written, bool):
            return written
        case "date" if written == "never":
            return dt.date.min
        case "date" if isinstance(written, str):
            try:
                return dt.date.fromisoformat(written)
            except ValueError as fault:
                raise CaseFault(f"{said}: {written} is no day") from fault
        case "word" | "text" if isinstance(written, str):
            if attribute.choices and written not in attribute.choices:
                raise CaseFault(f"{said}: {written!r} is not one of {', '.join(sorted(attribute.choices))}")
            return written
    raise CaseFault(f"{said}: {written!r} is no {attribute.type}")


def _number(written: object, kind: str, said: str) -> Decimal | Period | str:
    if kind == "word":
        return str(written)
    try:
        value = read(written, kind).value
    except UnitProblem as problem:
        raise CaseFault(f"{said}: {problem} (found {problem.found}; write {problem.wanted})") from problem
    return value if isinstance(value, Period) else GRID.plus(value)
