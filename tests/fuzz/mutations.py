"""What happens to files: small changes to a text and to the data in it, drawn from a seed."""

import copy
import re
from collections.abc import Callable, Sequence
from random import Random
from typing import Any

from checker.units import KINDS

UNITS = sorted({unit for kind in KINDS.values() for unit in kind.units})
NUMBERS = (
    "0", "-1", "1e400", "1e-400", "-0", "007", "9" * 30, "9" * 70, "0.1", "1,5", "1 000", "NaN", ".inf", "½", "1/0",
    "1/2", "0x10", "1_000", "३", "12:30",
)  # fmt: skip
WORDS = (
    "none", "never", "null", "~", "yes", "NO", "true", "[]", "{}", "''", '""', "|", ">", "{not_reached: locked}",
    "not_reached", "{value: 1}", "2026-02-30", "2026-11-25", "0001-01-01", "9999-12-31", "!!int 3", "&a x", "*a",
    "<<: {a: 1}", "- - -", "? x", "---", "...", "[[0 m, 0 m], [1 m, 0 m]]",
    "{value: 3 m, evidence: measured, plus_minus: 1 m}", "outside", "assumed", "%TAG",
)  # fmt: skip
SIGNS = (
    "\u202e", "\u200b", "\ufeff", "\u0000", "\u001b[2J", "\ud800", "é", "e\u0301", "汉", "🔥", "\u2028", "\x85",
    "\u00a0", "\t", "\r", "\u0130", "ß", "ﬁ", "\U0010ffff", "\ufffe", '"', "'", "\\", ":", "#", "{", "}", "[", "]",
    ",", "&", "*", "!", "@", "`", "%",
)  # fmt: skip
ODD: tuple[Any, ...] = (
    None, True, False, 0, -1, 1, 1.5, 10**30, "", "none", "never", "yes", "x", "3 m", "3 ft", "-3 m", "1e9 m",
    "0 m", "5 cfm", "0 s", "100 psi", "240 V", [], {}, [[]], [{}], [None], {"id": "x"}, {"value": 3},
    {"value": "3 m", "evidence": "measured"}, {"value": None}, {"not_reached": "locked"}, {"not_reached": ""},
    {"not_reached": None}, "2026-11-25", "9999-12-31", "1000-01-01", "\u202e", "a" * 3000, ["0 m", "0 m"],
    [["0 m", "0 m"], ["1 m", "0 m"], ["0 m", "1 m"]], "4-A:80-B:C", "21A 113B C", "8 AWG", "outside",
)  # fmt: skip


def mutated_text(random: Random, text: str) -> str:
    """A text after one to three changes."""
    for _ in range(random.choice((1, 1, 1, 2, 3))):
        text = random.choice(CHANGES)(random, text)
    return text


def _lines(change: Callable[[Random, list[str], int], None]) -> Callable[[Random, str], str]:
    def changed(random: Random, text: str) -> str:
        lines = text.splitlines(keepends=True)
        if lines:
            change(random, lines, random.randrange(len(lines)))
        return "".join(lines)

    return changed


def _delete(random: Random, lines: list[str], at: int) -> None:
    del lines[at : at + random.choice((1, 1, 1, 2, 5))]


def _double(random: Random, lines: list[str], at: int) -> None:
    lines[at:at] = lines[at : at + random.choice((1, 1, 3))]


def _swap(random: Random, lines: list[str], at: int) -> None:
    other = random.randrange(len(lines))
    lines[at], lines[other] = lines[other], lines[at]


def _move_in(random: Random, lines: list[str], at: int) -> None:
    lines[at] = random.choice((" ", "  ", "- ", "\t")) + lines[at]


def _move_out(random: Random, lines: list[str], at: int) -> None:
    lines[at] = lines[at].removeprefix(random.choice((" ", "  ", "    ")))


def _value(random: Random, lines: list[str], at: int) -> None:
    key, colon, _ = lines[at].partition(":")
    deep = random.choice((45, 60, 2000))
    lines[at] = f"{key}{colon or ':'} {random.choice((*WORDS, '[' * deep + ']' * deep, '{a: ' * deep + '}' * deep))}\n"


def _key(random: Random, lines: list[str], at: int) -> None:
    keys = re.findall(r"\w+(?=:)", "".join(lines))
    if keys:
        lines[at] = re.sub(r"\w+(?=:)", random.choice(keys), lines[at], count=1)


def _unit(random: Random, text: str) -> str:
    return _one_of(random, text, r"(?<=\d )[a-zA-Z°/2-3()]+", UNITS)


def _number(random: Random, text: str) -> str:
    return _one_of(
        random, text, r"\d+(\.\d+)?", (*NUMBERS, str(random.randrange(1000)), f"{random.uniform(0, 50):.3g}")
    )


def _word(random: Random, text: str) -> str:
    words = re.findall(r"[a-z_]{3,}", text) or ["x"]
    return _one_of(random, text, r"[a-z_]{3,}", (random.choice(words), random.choice(WORDS)))


def _one_of(random: Random, text: str, pattern: str, others: Sequence[str]) -> str:
    found = list(re.finditer(pattern, text))
    if not found:
        return text
    match = random.choice(found)
    return text[: match.start()] + random.choice(others) + text[match.end() :]


def _sign(random: Random, text: str) -> str:
    at = random.randrange(len(text) + 1)
    return text[:at] + random.choice(SIGNS) * random.choice((1, 1, 1, 40)) + text[at:]


def _cut(random: Random, text: str) -> str:
    return text[: random.randrange(len(text) + 1)]


CHANGES: tuple[Callable[[Random, str], str], ...] = (
    *map(_lines, (_delete, _delete, _delete, _double, _swap, _move_in, _move_out, _value, _key)),
    *(_unit, _unit, _number, _number, _number, _number, _word, _sign, _cut),
)


def mutated_data(random: Random, data: Any, odd: Sequence[Any] = ODD) -> Any:
    """A copy of plain data after one to three changes: nodes replaced, renamed, doubled, taken out or swapped."""
    data = copy.deepcopy(data)
    for _ in range(random.choice((1, 1, 2, 3))):
        nodes = places(data)
        if not nodes:
            return data
        holder, step = random.choice(nodes)
        other, step_there = random.choice(nodes)
        match random.randrange(6):
            case 0:
                del holder[step]
            case 1 if isinstance(holder, dict):
                holder[str(step_there)] = holder.pop(step)
            case 2 if isinstance(holder, list):
                holder.insert(step, copy.deepcopy(holder[step]))
            case 3:
                holder[step] = copy.deepcopy(other[step_there])
            case _:
                holder[step] = copy.deepcopy(random.choice(odd))
    return data


def places(data: Any) -> list[tuple[Any, Any]]:
    """Every node of plain data, as its holder and its step there."""
    found: list[tuple[Any, Any]] = []
    waiting = [data]
    while waiting:
        node = waiting.pop()
        if isinstance(node, dict | list):
            steps = list(node) if isinstance(node, dict) else list(range(len(node)))
            found += [(node, step) for step in steps]
            waiting += [node[step] for step in steps]
    return found
