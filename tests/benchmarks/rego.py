"""The neutral rules as one Rego policy (openpolicyagent.org/docs, Rego v1; from memory, to be confirmed).

What is missing is undefined in Rego. Each part therefore gets a name of its own that is true, false or undefined, and
what joins parts says for itself when it is false; only so can a false answer be told from an unknown one.
"""

from dataclasses import dataclass, field
from typing import Any, Final

from tests.benchmarks.dialects import CALC, MEMBER, OPS
from tests.benchmarks.workload import Rule

PACKAGE: Final = "bench"
VERDICTS: Final = f"data.{PACKAGE}.verdict"


def policy(rules: list[Rule]) -> str:
    """All rules; `verdict` maps the number of each to what it says, if anything."""
    written = _Policy()
    for number, rule in enumerate(rules):
        written.lines.append(f'verdict["{number}"] := {written.name(rule, "")}')
    return "\n".join([f"package {PACKAGE}", "", *written.lines]) + "\n"


@dataclass
class _Policy:
    lines: list[str] = field(default_factory=list)
    names: int = 0

    def name(self, rule: Rule, of: str) -> str:
        """Write a rule down, of a member if `of` is `(x)`; give the name it is called by."""
        self.names += 1
        own = f"p{self.names}{of}"
        match rule:
            case ["and" | "or" as word, parts]:
                self._joined(own, word, [self.name(part, of) for part in parts])
            case ["not", part]:
                self.lines.append(f"{own} := {self.name(part, of)} == false")
            case ["all" | "any" as word, path, condition, body]:
                self._over(own, word, path, body if condition is None else _with(word, condition, body))
            case _:
                self.lines.append(f"{own} := {self._simple(rule)}")
        return own

    def _joined(self, own: str, word: str, parts: list[str]) -> None:
        decisive, other = ("false", "true") if word == "and" else ("true", "false")
        self.lines.append(f"{own} := {other} if {{ {'; '.join(f'{part} == {other}' for part in parts)} }}")
        self.lines += [f"{own} := {decisive} if {part} == {decisive}" for part in parts]

    def _over(self, own: str, word: str, path: list[str], body: Rule) -> None:
        decisive, other = ("false", "true") if word == "all" else ("true", "false")
        part, members = self.name(body, f"({MEMBER})"), _path(path)
        self.lines.append(f"{own} := {other} if {{ every {MEMBER} in {members} {{ {part} == {other} }} }}")
        self.lines.append(f"{own} := {decisive} if {{ some {MEMBER} in {members}; {part} == {decisive} }}")

    def _simple(self, rule: Rule) -> str:
        match rule:
            case ["is", path]:
                return _path(path)
            case ["in", path, words]:
                return f"{_path(path)} in [{', '.join(map(_quoted, words))}]"
            case ["cmp", op, left, right]:
                return f"{self._value(left)} {OPS[op]} {self._value(right)}"
        raise AssertionError(rule)

    def _value(self, side: Any) -> str:
        match side:
            case ["num", number]:
                return str(number)
            case ["word", word]:
                return _quoted(word)
            case ["get", path]:
                return _path(path)
            case ["calc", op, left, right]:
                return f"{self._value(left)} {CALC[op]} {self._value(right)}"
            case ["count", path, condition]:
                part = self.name(condition, f"({MEMBER})")
                return f"count([1 | some {MEMBER} in {_path(path)}; {part}])"
        raise AssertionError(side)


def _with(word: str, condition: Rule, body: Rule) -> Rule:
    return ["or", [["not", condition], body]] if word == "all" else ["and", [condition, body]]


def _path(path: list[str]) -> str:
    return ".".join([MEMBER, *path[1:]] if path[0] == "own" else ["input", *path])


def _quoted(word: str) -> str:
    return f'"{word}"'
