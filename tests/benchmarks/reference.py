"""What each rule says of each site, by Kleene's strong three-valued logic, and the digest of it that is kept.

Written from the meaning of the neutral form; it shares no code with any evaluator that is measured. `and` is the
least and `or` the greatest of false < unknown < true; `all` and `any` are the same over the members of a list;
a comparison or a count over anything unknown is unknown (S. C. Kleene, Introduction to Metamathematics, 1952,
section 64; from memory, to be confirmed).

    python -m tests.benchmarks.reference            compares with expected.json
    python -m tests.benchmarks.reference --write    writes it
"""

import hashlib
import json
import operator
import sys
from collections.abc import Iterable
from itertools import islice
from pathlib import Path
from typing import Any, Final

from tests.benchmarks import workload
from tests.benchmarks.workload import Rule, Site

FALSE, UNKNOWN, TRUE = 0, 1, 2
Verdict = bool | None
SAID: Final[tuple[Verdict, ...]] = (False, None, True)
EXPECTED: Final = Path(__file__).with_name("expected.json")
REDUCED: Final = 200
"""Sites of the reduced run."""

_ABSENT: Final = object()
_COMPARE: Final = {word: getattr(operator, word) for word in ("eq", "ne", "lt", "le", "gt", "ge")}


def verdicts(rules: Iterable[Rule], site: Site) -> list[Verdict]:
    """What each rule says of a site: True, False, None for unknown."""
    return [SAID[_truth(rule, site, {})] for rule in rules]


def _truth(rule: Rule, site: Site, member: Site) -> int:
    match rule:
        case ["and", parts]:
            return min(_truth(part, site, member) for part in parts)
        case ["or", parts]:
            return max(_truth(part, site, member) for part in parts)
        case ["not", part]:
            return TRUE - _truth(part, site, member)
        case ["is", path]:
            found = _found(path, site, member)
            return UNKNOWN if found is _ABSENT else TRUE * bool(found)
        case ["in", path, words]:
            found = _found(path, site, member)
            return UNKNOWN if found is _ABSENT else TRUE * (found in words)
        case ["cmp", op, left, right]:
            sides = [_value(side, site, member) for side in (left, right)]
            return UNKNOWN if _ABSENT in sides else TRUE * _COMPARE[op](*sides)
        case ["all", path, condition, body]:
            return min(max(TRUE - _chosen(condition, each), _truth(body, site, each)) for each in site[path[0]])
        case ["any", path, condition, body]:
            return max(min(_chosen(condition, each), _truth(body, site, each)) for each in site[path[0]])
    raise AssertionError(rule)


def _chosen(condition: Rule | None, member: Site) -> int:
    return TRUE if condition is None else _truth(condition, {}, member)


def _value(side: Any, site: Site, member: Site) -> Any:
    match side:
        case ["num" | "word", value]:
            return value
        case ["get", path]:
            return _found(path, site, member)
        case ["calc", op, *sides]:
            left, right = (_value(each, site, member) for each in sides)
            return _ABSENT if _ABSENT in (left, right) else left * right if op == "mul" else left + right
        case ["count", path, condition]:
            chosen = [_chosen(condition, each) for each in site[path[0]]]
            return _ABSENT if UNKNOWN in chosen else chosen.count(TRUE)
    raise AssertionError(side)


def _found(path: list[str], site: Site, member: Site) -> Any:
    if path[0] == "own":
        return member.get(path[1], _ABSENT)
    group, name, field = path
    return site[group][name].get(field, _ABSENT)


def digest(verdicts_of_sites: Iterable[list[Verdict]]) -> dict[str, Any]:
    """How many verdicts of each kind, and the SHA-256 of all of them in order, a letter each."""
    letters = "".join(
        "u" if verdict is None else "m" if verdict else "n" for one in verdicts_of_sites for verdict in one
    )
    return {
        "met": letters.count("m"),
        "not met": letters.count("n"),
        "unknown": letters.count("u"),
        "sha256": hashlib.sha256(letters.encode()).hexdigest(),
    }


def expected() -> dict[str, Any]:
    """What expected.json holds."""
    held: dict[str, Any] = json.loads(EXPECTED.read_text(encoding="utf-8"))
    return held


def made(count: int = workload.SITES) -> dict[str, Any]:
    """The same, made anew: digests of the rules, of the sites and of the verdicts; of the reduced run as well."""
    rules, sites = workload.rules(), list(workload.sites(count))
    found = [verdicts(rules, site) for site in sites]
    return {
        "seed": workload.SEED,
        "rules": {"count": len(rules), "sha256": _sha(rules)},
        "sites": {"count": len(sites), "sha256": _sha(sites)},
        "verdicts": digest(found),
        "verdicts of the reduced run": {"sites": REDUCED} | digest(islice(found, REDUCED)),
    }


def _sha(value: Any) -> str:
    return hashlib.sha256(json.dumps(value, sort_keys=True).encode()).hexdigest()


if __name__ == "__main__":
    new = made()
    if "--write" in sys.argv:
        EXPECTED.write_text(json.dumps(new, indent=2) + "\n", encoding="utf-8", newline="\n")
    print(json.dumps(new, indent=2))
    sys.exit(new != expected())
