"""Tables of a ruleset: looked up by words and by bands of numbers; what no row covers is outside the range."""

from collections.abc import Callable, Iterator, Mapping
from decimal import Decimal

from msgspec import Struct

from checker.quantities import Missing
from checker.units import NOT_ASKED, Period

Cell = Decimal | Period


class Band(Struct, frozen=True, array_like=True):
    """A band of numbers; None: no end on that side. One number alone is the band from it to it."""

    low: Decimal | None
    high: Decimal | None
    holds_low: bool = True
    holds_high: bool = True

    def holds(self, number: Decimal) -> bool:
        """Whether a number lies in the band."""
        above = self.low is None or number > self.low or (self.holds_low and number == self.low)
        below = self.high is None or number < self.high or (self.holds_high and number == self.high)
        return above and below

    def overlaps(self, other: "Band") -> bool:
        """Whether some number lies in both bands."""
        return not (_ends_before(self, other) or _ends_before(other, self))


def _ends_before(one: Band, other: Band) -> bool:
    if one.high is None or other.low is None:
        return False
    return one.high < other.low or (one.high == other.low and not (one.holds_high and other.holds_low))


Key = str | Band


class Row(Struct, frozen=True, array_like=True):
    """One row: what its keys must be, and its cells by column."""

    keys: tuple[Key, ...]
    cells: Mapping[str, Cell]
    written: Mapping[str, str]

    def answers(self, asked: tuple[Decimal | str, ...]) -> bool:
        """Whether the row is the one for these keys."""
        return all(_fits(key, value) for key, value in zip(self.keys, asked, strict=True))

    def overlaps(self, other: "Row") -> bool:
        """Whether some keys would find both rows."""
        return all(_meet(a, b) for a, b in zip(self.keys, other.keys, strict=True))


def _fits(key: Key, value: Decimal | str) -> bool:
    return key.holds(value) if isinstance(key, Band) and isinstance(value, Decimal) else key == value


def _meet(a: Key, b: Key) -> bool:
    return a.overlaps(b) if isinstance(a, Band) and isinstance(b, Band) else a == b


class Table(Struct, frozen=True, array_like=True):
    """Rows with named, typed keys and columns."""

    id: str
    layer: str
    keys: Mapping[str, str]
    columns: Mapping[str, str]
    rows: tuple[Row, ...]
    """None at all where nothing of it is asked."""

    def find(self, asked: tuple[Decimal | str, ...]) -> Row:
        """The row for these keys. Raises Missing (outside range) when there is none."""
        for row in self.rows:
            if row.answers(asked):
                return row
        said = ", ".join(f"{name} {value}" for name, value in zip(self.keys, asked, strict=True))
        raise Missing(f"table {self.id}", "outside range", f"no row for {said}")

    def column(self, name: str) -> Callable[..., Cell]:
        """The look-up that an expression calls: keys in order to one cell."""
        return lambda *asked: self.find(asked).cells[name]

    def called(self) -> dict[str, Callable[..., Cell] | Period]:
        """All look-ups by column, as the facts of an evaluation hold them.

        Of a column in which nothing is asked it is the period alone: no key has to be known to say so.
        """
        return {name: self.column(name) if self._asks(name) else NOT_ASKED for name in self.columns}

    def _asks(self, column: str) -> bool:
        return any(row.cells[column] != NOT_ASKED for row in self.rows)

    def overlapping(self) -> Iterator[tuple[int, int]]:
        """Pairs of row numbers that some keys would both find."""
        for later, row in enumerate(self.rows):
            yield from ((earlier, later) for earlier in range(later) if self.rows[earlier].overlaps(row))
