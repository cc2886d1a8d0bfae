"""What a part of a rule is about, in words, as its expression names it."""

import re

from checker.report.path_words import spaced
from checker.report.sentences import say

_PLAIN = re.compile(r"(?:not )?(?!limit|table)[a-z_]+\.([a-z0-9_.]+)(?: (?:[<>=!]=?|in) .*)?")
"""A name and what it is compared with, as most parts are."""
_COMPARISON = re.compile(r"<=|>=|==|!=|<|>|\bin\b")
_DUE = re.compile(r"due\((?P<day>.+), (?P<period>[^,]+)\)")
_OF_A_LIST = re.compile(
    r"(?P<word>all|any|count|sum)\(\[(?P<body>.*) for \w+ in (?P<members>[\w.]+)(?: if (?P<only>.*))?\]\)"
)
_ASKED = re.compile(r'limit\.|table\.|as_of\b|["\d]')
_ARGUMENTS = re.compile(r"(?<=\w)\([^()]*\)")
_TOKEN = re.compile(
    r"(?P<name>[a-z_]\w*(?:\.\w+)+)|\"(?P<text>[^\"]*)\"|(?:in )?(?P<words>\[\"[^\]]*\])"
    r"|(?P<sign><=|>=|==|!=|<|>|\*|/)"
    r"|(?P<word>\b(?:and|as_of)\b)"
)
_USUAL = ("every", "most", "oldest", "least")
"""Names of limits that need not be told, since nothing is asked beside them."""


def part_name(text: str) -> str:
    """What is measured in a part: its name, or what is counted, summed or due, in words."""
    if plain := _PLAIN.fullmatch(text):
        return spaced(plain[1])
    measured, _, rest = _parted(text)
    if rest and _ASKED.match(measured):
        measured = rest
    return _told(measured.removeprefix("not "))


def is_there(text: str) -> str | None:
    """The words for the thing of which a part asks only whether there is one; None for any other part."""
    found = re.fullmatch(r"(?:\w+\.)+has_(\w+)", text)
    return spaced(found[1]) if found else None


def _parted(text: str) -> tuple[str, str, str]:
    """The sides of the comparison that the whole text is, parted where no bracket or quotation is open."""
    depth, quoted = 0, False
    for place, sign in enumerate(text):
        quoted ^= sign == '"'
        depth += (sign in "([") - (sign in ")]")
        if not quoted and not depth and (found := _COMPARISON.match(text, place)):
            return text[:place].strip(), found[0], text[found.end() :].strip()
    return text.strip(), "", ""


def _told(expression: str) -> str:
    if due := _DUE.fullmatch(expression):
        name = due["period"].partition("(")[0].rpartition(".")[2]
        key = "part_due" if name in _USUAL else "part_due_by"
        return say(key, day=_told(due["day"]), period=spaced(name))
    if listed := _OF_A_LIST.fullmatch(expression):
        of = spaced(listed["members"].partition(".")[2])
        if listed["only"]:
            of = say("part_only", members=of, only=_told(listed["only"]))
        return say(f"part_{listed['word']}", members=of, body=_told(listed["body"]))
    while (bare := _ARGUMENTS.sub("", expression)) != expression:
        expression = bare
    return " ".join(_TOKEN.sub(_token, expression).replace(" ,", ",").split())


def _token(found: re.Match[str]) -> str:
    if name := found["name"]:
        first, _, rest = name.partition(".")
        return spaced(rest.rpartition(".")[2] if first == "table" else rest)
    if found["words"]:
        return say("or").join(re.findall(r'"([^"]*)"', found["words"]))
    if found["text"] is not None:
        return found["text"]
    return say(f"part {found['sign'] or found['word']}")
