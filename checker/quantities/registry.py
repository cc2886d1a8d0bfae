"""The table of quantities: what each is called, what it needs, how it is computed, and where that is written.

A formula is a pure function of SI numbers; `quantity` stands above it and says the rest. Nothing here reads a site.
"""

from collections.abc import Callable, Iterable, Mapping
from functools import cache
from types import MappingProxyType
from typing import Any, Literal

from msgspec import Struct
from msgspec.structs import replace

from checker.quantities.paths import Path, path_from
from checker.units import KINDS

Formula = Callable[..., Any]
MOST_ARGUMENTS = 3
Status = Literal["verified", "secondary", "memory", "definition"]
"""As of a value of a code; a definition, or plain arithmetic, needs no source."""


class Bounds(Struct, frozen=True):
    """The numbers for which a formula holds."""

    low: float | None = None
    high: float | None = None
    among: tuple[float, ...] = ()
    low_included: bool = True
    unit: str = ""

    def hold(self, number: float) -> bool:
        """Whether the formula holds for the number."""
        if self.among:
            return number in self.among
        if self.low is not None and (number < self.low or (number == self.low and not self.low_included)):
            return False
        return self.high is None or number <= self.high

    def __str__(self) -> str:
        """The bounds in words: from 40 mm to 635 mm."""
        unit = f" {self.unit}" if self.unit else ""
        if self.among:
            return " or ".join(f"{number:g}" for number in self.among) + unit
        words = []
        if self.low is not None:
            words.append(f"{'from' if self.low_included else 'above'} {self.low:g}{unit}")
        if self.high is not None:
            words.append(f"to {self.high:g}{unit}" if words else f"at most {self.high:g}{unit}")
        return " ".join(words)


def above(low: float, unit: str = "") -> Bounds:
    """Every number greater than `low`."""
    return Bounds(low=low, low_included=False, unit=unit)


def between(low: float, high: float, unit: str = "") -> Bounds:
    """Every number from `low` to `high`, both included."""
    return Bounds(low=low, high=high, unit=unit)


def among(*numbers: float) -> Bounds:
    """One of a few numbers."""
    return Bounds(among=numbers)


class Argument(Struct, frozen=True):
    """What only a rule knows and hands to a quantity."""

    name: str
    kind: str
    """A kind of checker.units, or "word"."""
    choices: frozenset[str] | None = None
    """The words it may be, where it is a word."""


class Way(Struct, frozen=True):
    """One way to compute a quantity."""

    formula: str
    """For people: floor area × height."""
    inputs: Mapping[str, Path]
    """Name of the function's parameter: path from the thing."""
    function: Formula
    source: str
    status: Status
    """How the formula and its constants are known; the weakest of them counts."""
    leaves_out: str
    range: Mapping[str, Bounds]
    """Name of an input or argument: for which numbers, in SI, the formula holds."""

    @property
    def range_in_words(self) -> str:
        """The stated range for people; empty where the formula holds for every number that can be recorded."""
        return "; ".join(f"{name.replace('_', ' ')} {bounds}" for name, bounds in self.range.items())


class Quantity(Struct, frozen=True):
    """One entry of the table."""

    name: str
    gives: str
    """A kind of checker.units, or "answer"."""
    arguments: tuple[Argument, ...]
    ways: tuple[Way, ...]
    """In the order in which they are tried."""
    doc: str
    """What it gives, in one line."""

    @property
    def owner(self) -> str:
        """The kind of thing it belongs to: room, dyno.capture."""
        return self.name.rpartition(".")[0]

    @property
    def attribute(self) -> str:
        """What the thing calls it: air_changes."""
        return self.name.rpartition(".")[2]


_QUANTITIES: dict[str, Quantity] = {}
_OF: dict[str, dict[str, Quantity]] = {}
"""The same by the kind of thing they belong to."""
REGISTERED: Mapping[str, Quantity] = MappingProxyType(_QUANTITIES)
"""Every quantity by its name."""


class RegistryError(Exception):
    """A quantity was registered in a way that cannot be right. Raised at import."""


def quantity(
    name: str,
    *,
    gives: str,
    inputs: Mapping[str, str],
    formula: str,
    source: str,
    status: Status,
    leaves_out: str = "",
    range: Mapping[str, Bounds] | None = None,
    arguments: tuple[Argument, ...] = (),
) -> Callable[[Formula], Formula]:
    """Register the function below as the quantity `name`; raises RegistryError where the name is taken."""

    def register(function: Formula) -> Formula:
        if name in _QUANTITIES:
            raise RegistryError(f"{name} is registered twice; choose another name")
        if len(arguments) > MOST_ARGUMENTS:
            raise RegistryError(f"{name} takes {len(arguments)} arguments; at most {MOST_ARGUMENTS} are allowed")
        for kind in (gives, *(argument.kind for argument in arguments)):
            if kind not in KINDS and kind not in ("answer", "word"):
                raise RegistryError(f"{name} speaks of {kind!r}, which is no kind of quantity")
        doc = (function.__doc__ or "").partition("\n")[0]
        way = _way(inputs, formula, function, source, status, leaves_out, range)
        _keep(Quantity(name, gives, arguments, (way,), doc))
        return function

    return register


def other_way(
    name: str,
    *,
    inputs: Mapping[str, str],
    formula: str,
    source: str,
    status: Status,
    leaves_out: str = "",
    range: Mapping[str, Bounds] | None = None,
) -> Callable[[Formula], Formula]:
    """Register the function below as what is tried when the earlier ways of `name` lack an input."""

    def register(function: Formula) -> Formula:
        if name not in _QUANTITIES:
            raise RegistryError(f"{name} has no first way yet; register it with quantity")
        known = _QUANTITIES[name]
        way = _way(inputs, formula, function, source, status, leaves_out, range)
        _keep(replace(known, ways=(*known.ways, way)))
        return function

    return register


def _keep(known: Quantity) -> None:
    _QUANTITIES[known.name] = _OF.setdefault(known.owner, {})[known.name] = known


def _way(
    inputs: Mapping[str, str],
    formula: str,
    function: Formula,
    source: str,
    status: Status,
    leaves_out: str,
    range: Mapping[str, Bounds] | None,
) -> Way:
    paths = {label: path_from(text) for label, text in inputs.items()}
    return Way(formula, paths, function, source, status, leaves_out, dict(range or {}))


def quantities_of(owner: str) -> Iterable[Quantity]:
    """The quantities of one kind of thing."""
    return _OF.get(owner, {}).values()


@cache
def on_the_plan() -> frozenset[str]:
    """What quantities that are measured on a floor plan are called."""
    return frozenset(
        known.attribute
        for known in _QUANTITIES.values()
        for way in known.ways
        for path in way.inputs.values()
        if path.steps[-1].name == "plan"
    )


class CatalogueLine(Struct, frozen=True):
    """One way of one quantity, for people."""

    name: str
    gives: str
    unit: str
    formula: str
    inputs: tuple[str, ...]
    range: str
    source: str
    status: Status
    leaves_out: str
    arguments: tuple[Argument, ...]
    doc: str


def catalogue() -> list[CatalogueLine]:
    """Every way of every registered quantity, by name, then in the order in which ways are tried."""
    return [
        CatalogueLine(
            name=known.name,
            gives=known.gives,
            unit=KINDS[known.gives].si if known.gives in KINDS else "",
            formula=way.formula,
            inputs=tuple(path.text for path in way.inputs.values()),
            range=way.range_in_words,
            source=way.source,
            status=way.status,
            leaves_out=way.leaves_out,
            arguments=known.arguments,
            doc=known.doc,
        )
        for _, known in sorted(_QUANTITIES.items())
        for way in known.ways
    ]
