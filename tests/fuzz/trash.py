"""Texts that somebody or something made who does not know the format: structure without meaning, drawn from a seed."""

import json
from random import Random
from typing import Any

from checker.site.model import LISTS, Site
from checker.site.parts import fields_of
from tests.fuzz.mutations import NUMBERS, ODD, SIGNS, UNITS, WORDS

KEYS = sorted({name for model in (Site, *LISTS.values()) for name in fields_of(model)})
YAML = (*WORDS, *SIGNS, "\n", "\n", "\n  ", "\n- ", ": ", ": ", ", ", "\n    ", "#", "|-\n")
JSON = (
    "{",
    "}",
    "[",
    "]",
    ",",
    ":",
    '"',
    "true",
    "null",
    "NaN",
    "-",
    "1e5",
    "\\u0000",
    "\\ud800",
    " ",
    "\n",
    '"id"',
    '"a":',
)


def bytes_of_nothing(random: Random) -> bytes:
    """Random bytes, or text after a mark of another encoding."""
    raw = random.randbytes(random.randrange(300))
    return random.choice((b"", b"\xff\xfe", b"\xef\xbb\xbf", b"id: x\n")) + raw


def yaml_of_nothing(random: Random) -> bytes:
    """Words and signs of YAML in any order, with the keys of a site among them."""
    parts = [random.choice(random.choice((YAML, KEYS, KEYS, NUMBERS, UNITS))) for _ in range(random.randrange(60))]
    return "".join(parts).encode("utf-8", "surrogatepass")


def json_of_nothing(random: Random) -> bytes:
    """Signs of JSON in any order."""
    parts = [random.choice(random.choice((JSON, JSON, NUMBERS))) for _ in range(random.randrange(60))]
    return "".join(parts).encode()


def tree_of_nothing(random: Random) -> bytes:
    """JSON that can be read, with the keys of a site where they do not belong."""
    data = {"id": "x", "region": "us", **tree(random, 4)} if random.random() < 0.7 else tree(random, 4)
    return json.dumps(data, ensure_ascii=random.random() < 0.5).encode("utf-8", "surrogatepass")


def tree(random: Random, depth: int) -> dict[str, Any]:
    """Fields of a site, each holding anything."""
    return {random.choice(KEYS): _anything(random, depth - 1) for _ in range(random.randrange(5))}


def _anything(random: Random, depth: int) -> Any:
    match random.randrange(4) if depth > 0 else 3:
        case 0:
            return tree(random, depth)
        case 1:
            return [_anything(random, depth - 1) for _ in range(random.randrange(3))]
        case 2:
            return [{"id": random.choice("abc"), **tree(random, depth)} for _ in range(random.randrange(3))]
    return random.choice((*ODD, f"{random.choice(NUMBERS)} {random.choice(UNITS)}"))
