"""What a rule can read of a thing, as a person who writes one looks for it: numbers with their kinds, words, days."""

from collections.abc import Iterator, Mapping

from checker.quantities import Attribute, kinds


def names_of(kind: str) -> list[tuple[str, list[str]]]:
    """The names below a kind of thing by what they give, those of its groups as dotted names; what is empty left out.

    A number is followed by its kind in brackets, a word by the words it may hold, a list by what it holds.
    """
    found: dict[str, list[str]] = {what: [] for what in _WHAT.values()}
    for attribute, name in _attributes(kind):
        found[_WHAT[attribute.type]].append(name + _said(attribute))
    return [(what, names) for what, names in found.items() if names]


_WHAT: Mapping[str, str] = {
    "number": "numbers, with their kind",
    "function": "computed from what the rule hands over, with what comes out",
    "answer": "yes or no",
    "word": "words",
    "date": "days",
    "period": "periods",
    "text": "text",
    "list": "lists, for all, any, count and sum",
    "thing": "things of their own, with names of their own",
}


def _attributes(kind: str, before: str = "") -> Iterator[tuple[Attribute, str]]:
    for name, attribute in kinds()[kind].items():
        group = f"{kind}.{name}"
        if attribute.type == "thing" and attribute.thing == group:
            yield from _attributes(group, f"{before}{name}.")
        elif attribute.type == "thing" and before:
            continue  # from a group back to what it is a part of
        else:
            yield attribute, before + name


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
