"""What a word or a number without quotes means: the few forms of design section 2, everything else text as written."""

import re

LONGEST_NUMBER = 60

_WORDS: dict[str, bool | None] = {
    "": None,
    "~": None,
    "null": None,
    "true": True,
    "yes": True,
    "false": False,
    "no": False,
}
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(\.[0-9]+)?").fullmatch
_NO_NUMBER = re.compile(r"[-+]?(?:\.(?:nan|NaN|NAN|inf|Inf|INF)|NaN|Infinity)").fullmatch
_ODD_ASCII = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]").search
_ODD = tuple(
    re.compile(odd).search
    for odd in ("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f]", "[\u2028\u2029]", "[\ud800-\udfff]", "[\ufeff\ufffe\uffff]")
)
"""Apart, since one pattern of them all takes a hundred times as long to make."""


def unprintable(text: str) -> re.Match[str] | None:
    """The first character that does not belong in a text; None where all do."""
    if text.isascii():
        return _ODD_ASCII(text)
    return min((found for odd in _ODD if (found := odd(text))), key=re.Match.start, default=None)


class NotHeld(ValueError):
    """A number that is not held: its text says why, `wanted` what to write instead."""

    def __init__(self, says: str, wanted: str) -> None:
        """Why, and what to write instead."""
        self.wanted = wanted
        super().__init__(says)


def plain(text: str) -> str | int | float | bool | None:
    """The value of a scalar without quotes. Raises NotHeld for NaN, infinity and numbers of absurd length."""
    if text in _WORDS:
        return _WORDS[text]
    if text[0] in "-0123456789" and (match := _NUMBER(text)):
        if len(text) > LONGEST_NUMBER:
            raise too_long()
        return float(text) if match[1] else int(text)
    if text[0] in ".+-NI" and _NO_NUMBER(text):
        raise no_number()
    return text


def too_long() -> NotHeld:
    """The refusal of a number of absurd length."""
    return NotHeld(f"a number takes at most {LONGEST_NUMBER} characters", "a shorter one")


def no_number() -> NotHeld:
    """The refusal of NaN and infinity."""
    return NotHeld("there is no such number", "a number, or the word in quotes")
