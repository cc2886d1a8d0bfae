"""Site files that went wrong, by number: parts of the demonstration sites and drawn sites, mutated; and trash."""

import copy
import json
import re
from dataclasses import dataclass
from functools import cache
from random import Random
from typing import Any

from checker import shipped
from checker.findings.check import check
from checker.reading import Unreadable, read_text
from checker.rules import Rulebook, read_rulesets
from checker.site import read_site
from tests.fuzz import trash
from tests.fuzz.mutations import mutated_data, mutated_text, places
from tests.properties.sites import drawn_site
from tests.test_laws import DAY, Shown, nodes, shown

EXTREMES = (1e-9, 1e-3, 0.5, 1, 1, 1, 1, 1, 1, 1, 2, 1e3, 1e6)
"""What the numbers of a drawn site are multiplied by."""
NEEDS = {"room": "rooms", "circuit": "circuits", "supply": "supplies", "dyno": "dynos", "air_system": "air_systems",
         "walks": "extinguishers"}  # fmt: skip
"""The list that a field leads into."""


@dataclass(frozen=True)
class Base:
    """A site that can be read, and what was found of it."""

    text: str
    data: Any
    region: str
    found: dict[str, Shown]


@dataclass(frozen=True)
class Input:
    """One file: how it came to be, its name and bytes, and what it was before."""

    kind: str
    file: str
    content: bytes
    base: Base | None = None


@cache
def rulebook() -> Rulebook:
    return read_rulesets(shipped.rulesets())


def site_input(number: int) -> Input:
    """The input of a number: the same on every machine and in every run."""
    random = Random(f"site {number}")
    chance = random.random()
    if chance < 0.28:
        base = random.choice(_parts())
        return Input("part of a demonstration", "site.yaml", _bytes(mutated_text(random, base.text)), base)
    if chance < 0.285:
        base = random.choice(_wholes())
        return Input("whole demonstration", "site.yaml", _bytes(mutated_text(random, base.text)), base)
    if chance < 0.38:
        base = random.choice(_parts())
        return Input("values changed", "site.json", _json(_changed_values(random, base.data)), base)
    if chance < 0.46:
        base = random.choice(_parts())
        return Input("fields taken out", "site.json", _json(_taken_out(random, base.data)), base)
    if chance < 0.6:
        base = random.choice(_parts())
        return Input("data mutated", "site.json", _json(mutated_data(random, base.data)), base)
    if chance < 0.64:
        return Input("drawn site mutated", "site.json", _json(mutated_data(random, drawn_site(random))))
    if chance < 0.74:
        return Input("drawn site of extremes", "site.json", _json(drawn_site(random, EXTREMES)))
    makers = {
        "yaml": trash.yaml_of_nothing,
        "json": trash.json_of_nothing,
        "tree": trash.tree_of_nothing,
        "bytes": trash.bytes_of_nothing,
    }
    name = random.choice(list(makers))
    file = random.choice(("site.yaml", "site.json")) if name in ("bytes", "tree") else f"site.{name}"
    return Input(f"trash: {name}", file, makers[name](random))


def _taken_out(random: Random, data: Any) -> Any:
    """A copy of a site without some of its fields and groups; no list loses a member."""
    fields = [path for path in nodes(data) if isinstance(path[-1], str)]
    left = copy.deepcopy(data)
    for path in random.sample(fields, min(len(fields), random.choice((1, 2, 5, 20)))):
        holder = left
        for step in path[:-1]:
            holder = holder.get(step, {}) if isinstance(holder, dict) else holder[step] if holder else {}
        holder.pop(path[-1], None)
    return left


def _changed_values(random: Random, data: Any) -> Any:
    """A copy of a site with a few numbers before their units and a few answers changed."""
    left = copy.deepcopy(data)
    values = [
        (holder, step)
        for holder, step in places(left)
        if isinstance(holder[step], bool) or re.fullmatch(r"[0-9.]+ .+", str(holder[step]))
    ]
    for holder, step in random.sample(values, min(len(values), random.choice((1, 2, 5)))):
        value = holder[step]
        number, space, unit = str(value).partition(" ")
        changed = float(number) * random.choice((0.001, 0.3, 0.9, 1.1, 3, 1000)) if space else 0.0
        holder[step] = not value if isinstance(value, bool) else f"{changed:.6g} {unit}"
    return left


def _bytes(text: str) -> bytes:
    return text.encode("utf-8", "surrogatepass")


def _json(data: Any) -> bytes:
    return json.dumps(data, ensure_ascii=False, indent=1).encode("utf-8", "surrogatepass")


@cache
def _demonstrations() -> tuple[str, ...]:
    return tuple(path.read_text(encoding="utf-8") for path in sorted(shipped.sites().glob("*.yaml")))


@cache
def _wholes() -> tuple[Base, ...]:
    return tuple(_base(text) for text in _demonstrations())


@cache
def _parts() -> tuple[Base, ...]:
    """Small sites: rooms and a few lists of a demonstration, each readable by itself."""
    random = Random("parts")
    made: dict[str, Base] = {}
    while len(made) < 60:
        text = _part(random, random.choice(_demonstrations()))
        try:
            made[text] = made.get(text) or _base(text)
        except Unreadable:
            continue
    return tuple(made.values())


def _part(random: Random, text: str) -> str:
    """The head of a site file with some of its lists, and the lists that these lead into."""
    blocks = {block.partition(":")[0]: block for block in re.split(r"^(?=\w+:)", text, flags=re.M)}
    wanted = {"id", "region", "rooms", *random.sample(sorted(blocks), min(len(blocks), 3))} & set(blocks)
    while True:
        held = "".join(blocks[name] for name in wanted)
        more = {name for field, name in NEEDS.items() if re.search(rf"\b{field}:", held) and name in blocks}
        if more <= wanted:
            return "".join(block for name, block in blocks.items() if name in wanted)
        wanted |= more


def _base(text: str) -> Base:
    document = read_text(text, "site.yaml")
    region = str(document.data["region"])
    result = check(read_site(document), rulebook(), region=None, as_of=DAY, program_version="0")
    return Base(text, document.data, region, shown({finding.id: finding for finding in result.findings}))
