"""JSON as strictly as YAML: the standard library reads it, a scan of its tokens finds places and what it let pass."""

import json
import re
from bisect import bisect_right
from collections.abc import Callable
from typing import Any

from checker.reading.document import Place
from checker.reading.problems import Mark, Problem
from checker.reading.scalars import LONGEST_NUMBER, NotHeld, no_number, too_long
from checker.reading.tree import DEEPEST, LONGEST_KEY, MOST_VALUES, Stop, Tree

_BRACKETS = re.compile(r'"(?:[^"\\]++|\\.)*+(?:"|\Z)|([\[{])|([\]}])', re.DOTALL)
_TOKENS = re.compile(r'("(?:[^"\\]++|\\.)*+")|(-?[0-9][-+.0-9eE]*)|([\[{])|([\]}])|([-\w]+)|[:,\s]+', re.DOTALL)
_ESCAPES = re.compile(r"\\[ubf]").search
_WORDS = {"true": True, "false": False, "null": None}


class _Suspect(Exception):
    """Something the strict reader refuses; the scan finds out where."""


def read_json(text: str, file: str) -> Tree:
    """The tree of the text, with every problem found; its places are left out where there is no problem."""
    tree = Tree(file)
    if (deep := _too_deep(text)) is not None:
        mark = marks(text)(deep)
        says = f"a file is at most {DEEPEST} levels deep"
        tree.problems.append(Problem(file, mark.line, mark.column, "", "a deeper one", "fewer levels", says))
        return tree
    try:
        tree.data = json.loads(
            text, object_pairs_hook=_once, parse_constant=_suspect, parse_int=_int, parse_float=_float
        )
        suspect = _ESCAPES(text) or sum(map(text.count, ",[{")) > MOST_VALUES
    except _Suspect:
        suspect = True
    except json.JSONDecodeError as stop:
        return _no_json(tree, stop, text)
    if suspect and (error := _stops_later(text)) is not None:
        return _no_json(tree, error, text)
    return _scan(text, Tree(file)) if suspect else tree


def _stops_later(text: str) -> json.JSONDecodeError | None:
    """Where a text is no JSON at all, however little is asked of its values: the scan reads only JSON."""
    try:
        json.loads(text, parse_constant=str, parse_int=str, parse_float=str)
    except json.JSONDecodeError as error:
        return error
    return None


def places(text: str) -> Place:
    """Where everything stands in a text that read_json has read."""
    found = _scan(text, Tree("")).places
    assert found is not None
    return found


def marks(text: str) -> Callable[[int], Mark]:
    """A function from an offset in the text to its line and column."""
    starts = [0, *(end.end() for end in re.finditer(r"\r\n|\r|\n", text))]

    def mark(offset: int) -> Mark:
        line = bisect_right(starts, offset)
        return Mark(line, offset - starts[line - 1] + 1)

    return mark


def _too_deep(text: str) -> int | None:
    depth = 0
    for token in _BRACKETS.finditer(text):
        if token[1]:
            depth += 1
            if depth > DEEPEST:
                return token.start()
        elif token[2]:
            depth -= 1
    return None


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs) or not all(map(str.strip, found)) or max(map(len, found), default=0) > LONGEST_KEY:
        raise _Suspect
    return found


def _suspect(word: str) -> Any:
    raise _Suspect


def _int(text: str) -> int:
    if len(text) > LONGEST_NUMBER:
        raise _Suspect
    return int(text)


def _float(text: str) -> float:
    value = float(text)
    if len(text) > LONGEST_NUMBER or value in (float("inf"), float("-inf")):
        raise _Suspect
    return value


def _scan(text: str, tree: Tree) -> Tree:
    mark = marks(text)
    try:
        for token in _TOKENS.finditer(text):
            _take(tree, token, mark(token.start()))
    except Stop:
        pass
    return tree


def _take(tree: Tree, token: re.Match[str], mark: Mark) -> None:
    string, number, opening, closing, word = token.groups()
    if string:
        value = json.loads(string)
        tree.key(mark, value) if tree.wants_key else tree.text(mark, value)
    elif opening:
        tree.open(mark, {} if opening == "{" else [])
    elif closing:
        tree.close()
    elif number or word:
        try:
            tree.add(mark, _number(number) if number else _word(word))
        except NotHeld as refusal:
            tree.blame(mark, str(refusal), token[0], refusal.wanted)
            tree.add(mark, None)


def _number(text: str) -> int | float:
    try:
        return _float(text) if any(sign in text for sign in ".eE") else _int(text)
    except _Suspect:
        raise (too_long() if len(text) > LONGEST_NUMBER else no_number()) from None


def _word(text: str) -> bool | None:
    if text not in _WORDS:
        raise no_number()
    return _WORDS[text]


_HINTS = (
    ("',' delimiter", "a comma between two values, or the closing bracket"),
    ("':' delimiter", "a colon between key and value"),
    ("property name", 'a key in quotes such as "id"; no comma after the last value'),
    ("trailing comma", "no comma after the last value"),
    ("Expecting value", "a value: text in quotes, a number, true, false or a bracket"),
    ("Unterminated", "the closing quote"),
    ("escape", "\\\\ for one \\"),
    ("control character", r"the whole text on one line, \n where a line ends"),
    ("Extra data", "everything within the outermost brackets"),
)


def _no_json(tree: Tree, error: json.JSONDecodeError, text: str) -> Tree:
    mark = marks(text)(error.pos)
    rest = text[error.pos :].split("\n", 1)[0].strip()
    found = rest or ("the end of the line" if text[error.pos :].strip() else "the end of the file")
    wanted = next((hint for part, hint in _HINTS if part in error.msg), "")
    tree.problems.append(
        Problem(tree.file, mark.line, mark.column, "", found, wanted, f"this is not JSON (the parser: {error.msg})")
    )
    return tree
