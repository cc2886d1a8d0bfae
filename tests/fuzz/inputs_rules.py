"""Folders of rulesets and single expressions that went wrong, by number."""

import json
import re
from dataclasses import dataclass
from functools import cache
from random import Random
from typing import Any

from checker import shipped
from checker.quantities import kinds
from checker.reading import read_file
from checker.rules.model import Rule
from checker.rules.types import Scope
from tests.fuzz import trash
from tests.fuzz.inputs_sites import rulebook
from tests.fuzz.mutations import ODD, SIGNS, mutated_data, mutated_text
from tests.rules.shelf import RIGHT

Files = dict[str, bytes]
RULE_ODD = (
    *ODD, "common practice", "memory", "verified", "fire code", "critical", "hazard", "site", "us", "common", "1.0",
    "x.y", "length", "period", "word", "1 year", {"over": "1 m"}, {"from": "1 m", "to": "0 m"}, "limit.x", "true",
    "1 == 1", "as_of",
)  # fmt: skip
GLUE = (
    "and", "or", "not", "(", ")", "[", "]", "==", "!=", "<", "<=", ">", ">=", "in", "+", "-", "*", "/", ".", ",",
    "for", "if", "all", "any", "count", "sum", "due", "as_of", "limit", "table", "site", "1", "0.5", '"x"',
    "12 months", "1 year", "=~", "**", "?", ":", "==", "null", "true", "$", "$now", "&.", "%", "//", "<<", "0x10",
    "1e9", "{", "}", "'", '"',
)  # fmt: skip


@dataclass(frozen=True)
class Expression:
    """A text and the names it may use."""

    written: str
    scope: Scope


def expression_input(number: int) -> Expression:
    """The expression of a number: a shipped one with its words changed, or words and signs in any order."""
    random = Random(f"expression {number}")
    rules = _rules()
    rule = rules[random.randrange(len(rules))]
    scope = Scope(rule.each, rule.limit, rule.tables, kinds())
    if random.random() < 0.85:
        return Expression(changed(random, random.choice((rule.require, rule.when or rule.require))), scope)
    words = [
        random.choice(random.choice((GLUE, GLUE, _words(), SIGNS))) for _ in range(random.choice((3, 10, 40, 400)))
    ]
    return Expression(random.choice((" ", "", "\n")).join(words), scope)


def changed(random: Random, written: str) -> str:
    """An expression after one to three changes to its words."""
    tokens = re.findall(r'\s+|"[^"]*"|\w+|[<>=!]=|.', written)
    for _ in range(random.choice((1, 1, 2, 3))):
        at = random.randrange(len(tokens)) if tokens else 0
        match random.randrange(6):
            case 0:
                del tokens[at : at + random.choice((1, 1, 2, 6))]
            case 1:
                tokens[at:at] = tokens[at : at + random.choice((1, 3, 9))]
            case 2:
                tokens[at:at] = [" ", random.choice(GLUE), " "]
            case 3:
                tokens[at : at + 1] = [random.choice(GLUE)]
            case 4:
                tokens[at : at + 1] = [random.choice(_words())]
            case 5:
                tokens = [*tokens, random.choice((" and ", " or ", " + ", " == ", " < ")), *tokens]
    return "".join(tokens)


@cache
def _rules() -> tuple[Rule, ...]:
    return tuple(rulebook().rules.values())


@cache
def _words() -> tuple[str, ...]:
    texts = " ".join(f"{rule.require} {rule.when or ''}" for rule in _rules())
    return tuple(sorted(set(re.findall(r'"[^"]*"|\w+', texts))))


def shelf_input(number: int) -> tuple[str, Files]:
    """How the folder of a number came to be, and its files by name."""
    random = Random(f"shelf {number}")
    files = {name: text.encode() for name, text in RIGHT.items()} if random.random() < 0.3 else _excerpt(random)
    topics = [name for name in files if "/" in name and not name.endswith(("layer.yaml", "sources.yaml"))]
    name = random.choice((*topics, *topics, *files))
    text = files[name].decode()
    chance = random.random()
    if chance < 0.35:
        files[name] = _bytes(mutated_text(random, text))
        return "text mutated", files
    if chance < 0.4:
        files[name] = random.choice((trash.bytes_of_nothing, trash.yaml_of_nothing, trash.tree_of_nothing))(random)
        return "trash", files
    path = next(iter(topics)) if chance > 0.75 else name
    data = json.loads(files[path]) if files[path].startswith(b"{") else _plain(path)
    if chance > 0.75 and data.get("rules"):
        rule = random.choice(data["rules"])
        field = random.choice([each for each in ("require", "when") if each in rule])
        rule[field] = changed(random, str(rule[field]))
        files[path] = _bytes(json.dumps(data, indent=1))
        return "expression changed", files
    files[path] = _bytes(json.dumps(mutated_data(random, data, RULE_ODD), ensure_ascii=False, indent=1))
    return "data mutated", files


def _bytes(text: str) -> bytes:
    return text.encode("utf-8", "surrogatepass")


@cache
def _plain_files() -> dict[str, Any]:
    from checker.reading import read_text

    return {name: read_text(text, name).data for name, text in RIGHT.items()}


def _plain(name: str) -> Any:
    return json.loads(json.dumps(_plain_files()[name]))


@cache
def _shipped() -> dict[str, Any]:
    folder = shipped.rulesets()
    return {path.relative_to(folder).as_posix(): read_file(path).data for path in sorted(folder.rglob("*.yaml"))}


def _excerpt(random: Random) -> Files:
    """A shelf with one or two rules of the shipped rulesets, what is asked of them, and what these need."""
    held = _shipped()
    where = random.choice([name for name, data in held.items() if "/" in name and data.get("rules")])
    topic = where.split("/")[1]
    ids = {rule["id"] for rule in random.choices(held[where]["rules"], k=2)}
    chosen: dict[str, Any] = {}
    layers = {"common", "us", where.split("/")[0]}
    for name, data in held.items():
        if name.split("/")[0] not in layers:
            continue
        if name.endswith(f"/{topic}"):
            provisions = [each for each in data.get("provisions", []) if each["rule"] in ids]
            tables = {table for each in provisions for table in each.get("table", {}).values()}
            chosen[name] = {
                "rules": [rule for rule in data.get("rules", []) if rule["id"] in ids],
                "tables": [table for table in data.get("tables", []) if table["id"] in tables],
                "provisions": provisions,
            }
        elif name.endswith("layer.yaml"):
            chosen[name] = {**data, "not_held": data.get("not_held", [])[:1]}
        elif name.endswith("/sources.yaml"):
            chosen[name] = data
    refs = set(re.findall(r'"ref": "([^"]+)"', json.dumps(chosen)))
    chosen["sources.yaml"] = {"sources": [each for each in held["sources.yaml"]["sources"] if each["id"] in refs]}
    return {name: _bytes(json.dumps(data, ensure_ascii=False, indent=1)) for name, data in chosen.items()}
