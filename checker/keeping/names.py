"""What a rule can read of a thing, as a person who writes one looks for it: numbers with their kinds, words, days."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from checker.quantities import Attribute, kinds
from checker.quantities.registry import REGISTERED
from checker.quantities.shapes import shapes


def names_of(kind: str) -> list[tuple[str, list[str]]]:
    """The names below a kind of thing by what they give, those of its groups as dotted names; what is empty left out.

    A number is followed by its kind in brackets, a word by the words it may hold, a list by what it holds. What a site
    never records, since a formula gives it, stands apart.
    """
    found: dict[str, list[str]] = {what: [] for what in (*_WHAT.values(), *_COMPUTED.values())}
    for attribute, name, computed in _attributes(kind):
        said = _COMPUTED.get(attribute.type) if computed else None
        found[said or _WHAT[attribute.type]].append(name + _said(attribute))
    return [(what, names) for what, names in found.items() if names]


def owners_of(kind: str) -> list[tuple[str, str]]:
    """The things that a thing stands in or belongs to, as name and kind of thing; the site left out."""
    named = ((name, attribute.thing or "") for name, attribute in kinds()[kind].items() if attribute.type == "thing")
    return [(name, thing) for name, thing in named if "." not in thing and thing != "site"]


class Condition(NamedTuple):
    """A condition that a rule may have, with what is recorded where it holds and where it does not."""

    written: str
    name: str
    holds: str
    fails: str


def condition_for(kind: str) -> Condition | None:
    """An example of a condition: a question of the thing's room, else one of its own, else a word; None: neither."""
    for owner, path in [("room", f"{kind}.room")] * ("room" in kinds()[kind]) + [(kind, kind)]:
        for name, attribute in kinds()[owner].items():
            if attribute.type == "answer" and not name.startswith("has_"):
                return Condition(f"{path}.{name}", f"{path}.{name}", "yes", "no")
    for name, attribute in kinds()[kind].items():
        if attribute.type == "word" and attribute.choices:
            word, other, *_ = sorted(attribute.choices)
            return Condition(f'{kind}.{name} == "{word}"', f"{kind}.{name}", word, other)
    return None


_WHAT: Mapping[str, str] = {
    "number": "numbers, with their kind",
    "answer": "yes or no",
    "word": "words",
    "date": "days",
    "period": "periods",
    "text": "text",
    "list": "lists, for all, any, count and sum",
    "thing": "things of their own, with names of their own",
    "function": "computed from what the rule hands over, with what comes out",
}
_COMPUTED: Mapping[str, str] = {
    "number": "computed numbers, with their kind",
    "answer": "computed, yes or no",
}


def _attributes(kind: str, before: str = "") -> Iterator[tuple[Attribute, str, bool]]:
    """Each with its name, and whether it is computed only."""
    recorded = shapes()[kind].fields
    for name, attribute in kinds()[kind].items():
        group = f"{kind}.{name}"
        if attribute.type == "thing" and attribute.thing == group:
            yield from _attributes(group, f"{before}{name}.")
        elif attribute.type == "thing" and before:
            continue  # from a group back to what it is a part of
        else:
            yield attribute, before + name, f"{kind}.{name}" in REGISTERED and name not in recorded


def _said(attribute: Attribute) -> str:
    match attribute.type:
        case "number":
            return f" ({attribute.quantity_kind})"
        case "function":
            asked = ", ".join(argument.name for argument in attribute.arguments or ())
            return f"({asked}) ({attribute.quantity_kind or 'yes or no'})"
        case "word" if attribute.choices:
            return f" ({', '.join(sorted(attribute.choices))})"
        case "list" | "thing" if attribute.thing:
            return f" ({attribute.thing})"
    return ""
