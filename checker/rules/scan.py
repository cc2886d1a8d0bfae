"""The words of an expression, looked at before anything parses it: what the language lacks is refused where it stands.

rule-engine works out constant parts while it parses, so a shift, a power or a pattern between constants could run for
hours. Nothing of the kind reaches it.
"""

import re
from typing import Final

from checker.rules.faults import Fault, Refused

LONGEST: Final = 2000
MOST_WORDS: Final = 800
_A_PAIR: Final = 2
DEEPEST: Final = 30
LANGUAGE: Final = "names, numbers, words, comparisons, and, or, not, + - * /, calls, due, all, any, count, sum"

_WORDS: Final = re.compile(
    r"""
    (?P<space>[ \t\n]+)
    | (?P<off>\w+["'][^"']*["']? | \*\* | // | << | >> | [=!]~~? | => | =< | <> | &[&.]? | \?\?? | \|\|? | \$\w*)
    | (?P<quoted>"[^"\\\n]*" | '[^'"\\\n]*')
    | (?P<number>[0-9](?:[\w.]*[eE][-+][0-9]+|[\w.]*))
    | (?P<name>[a-z][a-z0-9_]*(?!\w))
    | (?P<sign>[=!<>]= | [-+*/<>().,\[\]])
    | (?P<other>"(?:[^"\\]|\\.)*"? | '(?:[^'\\]|\\.)*'? | \w+ | .)
    """,
    re.VERBOSE | re.DOTALL | re.ASCII,
)
_NUMBER: Final = re.compile(r"[0-9]{1,30}(?:\.[0-9]{1,30})?(?:[eE][-+]?[0-9]{1,2})?")
_LACKS: Final = frozenset({"true", "false", "yes", "no", "is", "null", "inf", "nan", "elif", "else", "while"})
_JOINS: Final = frozenset({"and", "or", "not", "in", "for", "if", "is"})
_PERIODS: Final = frozenset(f"{unit}{ending}" for unit in ("day", "week", "month", "year") for ending in ("", "s"))
_BESIDE_A_NUMBER: Final = _PERIODS | (_JOINS - {"in"})
_INSTEAD: Final = {
    "is": "== for `is`, != for `is not`",
    "true": "the name alone",
    "yes": "the name alone",
    "false": "`not` before the name",
    "no": "`not` before the name",
    "null": "has_NAME, where there may be none",
    "=": "==",
    "=>": ">=",
    "=<": "<=",
    "<>": "!=",
    "!": "not",
    "&": "and",
    "&&": "and",
    "|": "or",
    "||": "or",
}


def look_over(text: str) -> None:
    """Raise Refused with every word that is not in the language, or when there is too much of it to read."""
    if len(text) > LONGEST:
        raise Refused([Fault(0, "the expression is too long", f"{len(text)} characters", f"at most {LONGEST}")])
    faults: list[Fault] = []
    run: list[re.Match[str]] = []
    words = depth = 0
    before = ""
    for found in _WORDS.finditer(text):
        if found.lastgroup == "space":
            continue
        word = found[0]
        words += 1
        depth += (word in ("(", "[")) - (word in (")", "]"))
        if depth > DEEPEST:
            says = "brackets are nested too deeply"
            raise Refused([*faults, Fault(found.start(), says, f"{depth} levels", f"at most {DEEPEST}")])
        if fault := _fault(found, word, before):
            faults.append(fault)
        before = word
        if found.lastgroup == "name" and word not in _JOINS:
            run.append(found)
        else:
            faults += _side_by_side(text, run)
            run = []
    faults += _side_by_side(text, run)
    if words > MOST_WORDS:
        raise Refused([Fault(0, "the expression is too large", f"{words} words", f"at most {MOST_WORDS}")])
    if faults:
        raise Refused(faults)


def _side_by_side(text: str, names: list[re.Match[str]]) -> list[Fault]:
    """The fault of names with nothing between them: mostly words that lack their quotation marks."""
    if len(names) < _A_PAIR:
        return []
    start, end = names[0].start(), names[-1].end()
    written = " ".join(name[0] for name in names)
    if text[:start].endswith(".") or text[end:].startswith((".", "(")):
        return [Fault(start, "nothing joins these names", written, "==, and, or another sign between them")]
    return [Fault(start, "words stand in quotes", written, f'"{written}"')]


def _fault(found: re.Match[str], word: str, before: str) -> Fault | None:
    at = found.start()
    match found.lastgroup:
        case "number" if not _NUMBER.fullmatch(word):
            return Fault(at, "a number has another form", word, "digits with a point, as in 0.5")
        case "other" if word[0] in "\"'":
            return Fault(at, "a word holds no quotation mark and no backslash", word, 'a word in plain quotes: "B"')
        case "other" if word.lower() in _JOINS:
            return Fault(at, "this is written in small letters", word, word.lower())
        case "name" if word not in _BESIDE_A_NUMBER and before[0:1].isdigit():
            says = "a value with its unit stands in a provision, not in an expression"
            return Fault(at, says, f"{before} {word}", "limit.NAME, and the value under `limit` of the provision")
        case "other" if word[0].isalpha() or word[0] == "_":
            return Fault(at, "a name has small letters, digits and _, and begins with a letter", word, "a name")
        case "off" | "other":
            return Fault(at, "this is not in the language", word, _INSTEAD.get(word, LANGUAGE))
        case "name" if word in _LACKS:
            return Fault(at, "this is not in the language", word, _INSTEAD.get(word, LANGUAGE))
        case "sign" if word == "[" and before not in ("in", "("):
            return Fault(at, "a list is looked through as a whole", "[", "all, any, count or sum; or `in` before it")
        case "sign" if word == "." and not re.search(r"[\w\]]$", before):
            return Fault(at, "a dot stands between names, or between digits", ".", "thing.field, or 0.5")
    return None
