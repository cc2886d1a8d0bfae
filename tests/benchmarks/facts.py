"""A made-up site as each kind of evaluator wants its facts."""

import json
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from checker.quantities import Missing
from checker.units import GRID
from tests.benchmarks.workload import Site


class Record(dict[str, Any]):
    """Facts of one thing as the program's own evaluator sees them: what is not there raises Missing."""

    __slots__ = ("path",)

    def __init__(self, path: str, known: Mapping[str, Any]) -> None:
        super().__init__(known)
        self.path = path

    def __missing__(self, name: str) -> Any:
        raise Missing(f"{self.path}.{name}", "not recorded")


def records(site: Any, path: str = "") -> Any:
    """A site as records, tuples and exact decimals."""
    if isinstance(site, dict):
        return Record(path, {name: records(value, f"{path}.{name}") for name, value in site.items()})
    if isinstance(site, list):
        return tuple(records(each, f"{path}[{each['id']}]") for each in site)
    return GRID.create_decimal(repr(site)) if type(site) is float else site


class Seen:
    """A thing as a typed rule-engine reads it, with an accessor that is quick when something is not there."""

    __slots__ = ("known",)

    def __init__(self, known: Mapping[str, Any]) -> None:
        self.known = known


class Absent(Exception):
    """Nothing stands there."""


def read_seen(thing: Seen, name: str) -> Any:
    """The accessor: what stands in a field. Raises Absent."""
    try:
        return thing.known[name]
    except KeyError:
        raise Absent(name) from None


def seen(site: Any) -> Any:
    """A site as things of that kind, with tuples and decimals."""
    if isinstance(site, dict):
        return Seen({name: seen(value) for name, value in site.items()})
    if isinstance(site, list):
        return tuple(map(seen, site))
    return Decimal(repr(site)) if type(site) is float else site


def celpy_values(site: Site) -> Any:
    """A site in the values of cel-python."""
    from celpy.adapter import json_to_cel

    return {name: json_to_cel(value) for name, value in site.items()}


def cel_context(site: Site) -> Any:
    """A site taken over by common-expression-language, once for all rules."""
    import cel

    context = cel.Context(variables=site)
    cel.compile("true").execute(context)  # the context takes the facts over at its first use
    return context


def datalogic_handle(site: Site) -> Any:
    """A site parsed by datalogic-py, once for all rules."""
    import datalogic_py

    return datalogic_py.DataHandle(json.dumps(site))


def as_is(site: Site) -> Site:
    """A site as JSON holds it."""
    return site
