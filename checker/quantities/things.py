"""Things of a site as rules see them: names looked up in a dict, values read on first use.

What is not there raises Missing, and is remembered as missing. Two things are equal only if they are the same one.
"""

import datetime
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from checker.quantities.missing import Missing, Need
from checker.site.entries import Entry
from checker.site.parts import Part

if TYPE_CHECKING:
    from checker.quantities.survey import Survey
    from checker.quantities.working import Computed

Reader = Callable[["Thing"], Any]
MarkPath = tuple[str | int, ...]


class OpenList(tuple["Thing", ...]):
    """A list that may hold more than was recorded."""

    open_because: Need
    """What stood in the way of the rest."""

    def __new__(cls, members: tuple["Thing", ...], open_because: Need) -> "OpenList":
        """The members that were recorded, and why there may be more."""
        made = super().__new__(cls, members)
        made.open_because = open_because
        return made


class Thing(dict[str, Any]):
    """One thing or group of a site; its items are its facts."""

    __slots__ = (
        "_readers",
        "behind",
        "entries",
        "gaps",
        "id",
        "kind",
        "label",
        "mark_path",
        "parent",
        "part",
        "path",
        "survey",
        "working",
    )

    def __init__(
        self,
        kind: str,
        path: str,
        mark_path: MarkPath,
        part: object,
        parent: "Thing | None",
        readers: Mapping[str, Reader],
        survey: "Survey",
    ) -> None:
        """Keep what was recorded; nothing is read yet."""
        super().__init__()
        self.kind = kind
        """dyno; of a group: dyno.capture."""
        self.path = path
        """dynos[d1].capture; empty for the site itself."""
        self.mark_path = mark_path
        """The same place in the document: ("dynos", 0, "capture")."""
        self.part = part
        """The part of the site model; of a group also None, NotReached or NOTHING."""
        self.parent = parent
        self.survey = survey
        self.entries: Mapping[str, Entry] = (
            {name: value for name, value in part.__dict__.items() if type(value) is Entry}
            if isinstance(part, Part)
            else {}
        )
        """What was recorded, by field."""
        own: str = getattr(part, "id", "")
        self.id: str = own or (parent.id if parent is not None else "")
        """Its id, or its parent's where it is a group."""
        name = self.entries.get("name")
        self.label: str = (
            f"{name.value} ({own})" if name and own else own or (parent.label if parent is not None else "")
        )
        """For people: Dyno 1 (d1)."""
        self.working: dict[str | tuple[Any, ...], Computed] = {}
        """What was computed, by name; by name and arguments where a rule hands some."""
        self.behind: dict[tuple[str, bool], Any] = {}
        """What its facts rest on, once it was looked up; whether as a part of the floor plan."""
        self._readers = readers
        self.gaps: dict[str | tuple[Any, ...], tuple[Need, ...]] = {}
        """What is missing of what was asked for in vain, by the same."""

    def __missing__(self, name: str) -> Any:
        """The value of a fact that is read for the first time; raises Missing, KeyError for a name it never has."""
        if name in self.gaps:
            raise Missing.of(*self.gaps[name])
        try:
            value = self[name] = self._readers[name](self)
        except Missing as missing:
            self.gaps[name] = missing.needs
            raise
        return value

    def has(self, name: str) -> bool:
        """Whether the thing's kind has such a name at all, recorded or not."""
        return name in self._readers

    def at(self, name: str) -> str:
        """The path of one of its fields."""
        return f"{self.path}.{name}" if self.path else name

    def evidence(self, name: str) -> str:
        """The word that weighs a recorded field, the survey's own where the entry has none."""
        return self.entries[name].evidence or self.survey.evidence

    def found_on(self, name: str) -> datetime.date | None:
        """The day a recorded field was found, the survey's own where the entry has none."""
        return self.entries[name].on or self.survey.on

    __eq__ = object.__eq__
    __ne__ = object.__ne__
    __hash__ = object.__hash__  # type: ignore[assignment]

    def __repr__(self) -> str:
        """Kind and path: short enough for a traceback."""
        return f"<{self.kind} {self.path or self.id}>"
