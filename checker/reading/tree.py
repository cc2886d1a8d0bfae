"""From a stream of keys and values to a tree with places; repeated keys, depth and size are refused here."""

from typing import Any

from checker.reading.document import Path, Place, spell
from checker.reading.problems import TOP, Mark, Problem
from checker.reading.scalars import unprintable
from checker.units import visible

DEEPEST = 50
MOST_VALUES = 50_000
_MOST_PROBLEMS = 100
LONGEST_KEY = 200


class Stop(Exception):
    """There is no use in reading on; the problems say why."""


class _Level:
    """A mapping or list that is still open."""

    __slots__ = ("data", "dropped", "key", "key_mark", "wants_key", "within")

    def __init__(self, data: Any, within: Any) -> None:
        self.data, self.within = data, within
        self.wants_key = isinstance(data, dict)
        self.key, self.key_mark, self.dropped = "", TOP, False


class Tree:
    """Takes keys, values, openings and closings in the order of the text."""

    def __init__(self, file: str) -> None:
        """An empty tree; `data` and `places` hold the whole once everything is closed."""
        self.file = file
        self.data: Any = None
        self.places: Place | None = None
        self.problems: list[Problem] = []
        self._levels: list[_Level] = []
        self._values = 0

    @property
    def wants_key(self) -> bool:
        """Whether a key of a mapping comes next."""
        return bool(self._levels) and self._levels[-1].wants_key

    def key(self, mark: Mark, name: str) -> None:
        """The key of the value that comes next."""
        level = self._levels[-1]
        level.key, level.key_mark, level.wants_key = name, mark, False
        level.dropped = True
        if name in level.within:
            first = level.within[name].key
            says = f"this key stands here for the second time, first on line {first.line}"
            self.blame(mark, says, name, "each key once")
        elif not name.strip():
            self.blame(mark, "a key has a name", f'"{name}"', "a word")
        elif len(name) > LONGEST_KEY:
            self.blame(mark, f"a key takes at most {LONGEST_KEY} characters", name, "a word")
        elif "\n" in name or unprintable(name):
            self.blame(mark, "a key holds a character that cannot be printed", name, "a word")
        else:
            level.dropped = False

    def no_key(self, mark: Mark, says: str, found: str, wanted: str, name: str = "") -> None:
        """Something that cannot be a key stands where one should; its value is read and dropped."""
        level = self._levels[-1]
        level.key, level.key_mark, level.wants_key, level.dropped = name, mark, False, True
        self.blame(mark, says, found, wanted)

    def text(self, mark: Mark, value: str) -> None:
        """A text that was quoted, so that escapes may have put anything into it."""
        if unprintable(value):
            self.blame(mark, "this text holds a character that cannot be printed", value, "it without that character")
        self.add(mark, value)

    def add(self, mark: Mark, value: Any, within: Any = None) -> None:
        """A value, under the last key or as the next member of a list."""
        self._values += 1
        if self._values > MOST_VALUES:
            self.blame(mark, f"a file holds at most {MOST_VALUES} values", "more", "several files")
            raise Stop
        if not self._levels:
            self.data, self.places = value, Place(mark, mark, within)
            return
        level = self._levels[-1]
        if isinstance(level.data, list):
            level.data.append(value)
            level.within.append(Place(mark, mark, within))
            return
        if not level.dropped:
            level.data[level.key] = value
            level.within[level.key] = Place(mark, level.key_mark, within)
        level.wants_key = True

    def open(self, mark: Mark, data: dict[str, Any] | list[Any]) -> None:
        """A mapping or a list starts; everything up to its `close` belongs to it."""
        within: dict[str, Place] | list[Place] = {} if isinstance(data, dict) else []
        if self.wants_key:
            self.no_key(mark, "a key is one word", "a list or a group of keys", "a word")
        else:
            self.add(mark, data, within)
        self._levels.append(_Level(data, within))
        if len(self._levels) > DEEPEST:
            self.blame(mark, f"a file is at most {DEEPEST} levels deep", "a deeper one", "fewer levels")
            raise Stop

    def close(self) -> None:
        """The mapping or list that was opened last ends."""
        self._levels.pop()

    def blame(self, mark: Mark, says: str, found: str, wanted: str) -> None:
        """Note a problem. Raises Stop when there are more than anyone would mend at once."""
        path = spell(self._path())
        self.problems.append(Problem(self.file, mark.line, mark.column, path, visible(found), wanted, says))
        if len(self.problems) >= _MOST_PROBLEMS:
            says = "there may be more problems than these; mend these first"
            self.problems.append(Problem(self.file, mark.line, mark.column, "", "", "", says))
            raise Stop

    def _path(self) -> Path:
        path: list[str | int] = []
        for level in self._levels:
            last = level is self._levels[-1]
            if isinstance(level.data, list):
                path.append(len(level.data) - (not last))
            elif level.key and not (last and level.wants_key):
                path.append(level.key)
        return tuple(path)
