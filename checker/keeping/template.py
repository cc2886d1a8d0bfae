"""Ruleset files to fill in: a rule with a provision, its source and its cases; the layer of a region.

What a template says of a field is the field's own description. A word that begins with the mark is to be replaced; no
file that holds one is read.
"""

import textwrap
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Final

from pydantic_core import ValidationError

from checker.keeping.names import Condition, condition_for, names_of, owners_of
from checker.rules.files import MARK, LayerName, RuleId
from checker.rules.forms import reader_of
from checker.rules.model import Layer
from checker.rules.schema import ruleset_schema

WIDTH: Final = 80
_RULE_HEAD: Final = (
    f"A rule to fill in. Replace every word that begins with {MARK}, wherever it stands; the same word stands for the "
    "same thing. What you do not need, strike. `checker rules prove` names each place that is still to be filled in, "
    "then tries the cases. A text that holds a colon stands in quotes. The lines with # are for you: strike them when "
    "you are done.",
    "Where it goes: into rulesets/{layer}/{topic}.yaml. If that file is there already, put the entry below `rules:` "
    "under its `rules:`, and the entry below `provisions:` under its `provisions:`. A rule stands in the highest layer "
    "where its words hold, usually common; a provision in the layer of its authority. A rule is in force only where a "
    "provision gives every limit that it declares.",
)
_ANSWER: Final = (
    f"This asks for a number. At most: write <= and a limit most, and let {MARK}MORE be not met and {MARK}LESS met. A "
    "question of yes or no has no limit: write only the name, and strike `limit` here, in the cases and in the "
    "provision. Before a name after a name such as plate.voltage ask whether there is one: has_plate and …. The "
    "names to choose from stand at the end."
)
_WHEN: Final = "For example, to ask only where this holds; each case below then has to say whether it does:"
_WITH_WHEN: Final = "if you use `when`, add to what is given in each case above: {name}: {holds}"
_SOURCE_HEAD: Final = (
    "If the source is new, enter it in rulesets/sources.yaml, or in rulesets/{layer}/sources.yaml, under `sources:`. "
    "`checker rules sources` shows those that are held. Then ask somebody who has not seen your entry to add the value "
    "to tests/external/values.csv from the source."
)
_NAMES_HEAD: Final = (
    "What each name means that a site records: `checker schema site`. How each computed one comes about, and what has "
    "to be recorded for it: `checker quantities`."
)
_REGION_HEAD: Final = (
    f"The layer of a region. Replace every word that begins with {MARK}. Beside this file goes one file a topic, with "
    "what the authorities of the region ask under `provisions:`; what {extends} asks holds here too, until an "
    "authority of this layer speaks of the same rule. `checker rules prove` names each place that is still to be "
    "filled in. The lines with # are for you: strike them when you are done.",
)
_RULE: Final[Mapping[str, str]] = {
    "title": f"{MARK}TITLE",
    "reason": f"{MARK}REASON",
    "each": "{each}",
    "when": "",
    "require": f"{{each}}.{MARK}NAME >= limit.least",
    "limit": f"{{{{least: {MARK}KIND}}}}",
    "evidence": "",
    "severity": f"{MARK}SEVERITY",
    "acts": f"{MARK}TRADE",
    "closes_with": f"{MARK}PROOF",
    "advice": f"|\n      {MARK}ADVICE",
    "meanwhile": "",
    "cases": "",
}
"""The fields of a rule that a template holds; those with nothing are shown as a remark, to use where needed."""
_CASES: Final = (
    ("at the limit", f"{{{{limit.least: {MARK}AT, {{each}}.{MARK}NAME: {MARK}AT}}}}", "met"),
    ("just beside it", f"{{{{limit.least: {MARK}AT, {{each}}.{MARK}NAME: {MARK}MORE}}}}", "met"),
    ("just beside it, on the other side", f"{{{{limit.least: {MARK}AT, {{each}}.{MARK}NAME: {MARK}LESS}}}}", "not met"),
    ("not recorded", f"{{{{limit.least: {MARK}AT}}}}", "undetermined"),
)

_SOURCE: Final[Mapping[str, str]] = {
    "ref": f"{MARK}REF",
    "clause": f'"{MARK}CLAUSE"',
    "status": f"{MARK}STATUS",
    "read_in": "",
    "note": "",
}


def is_rule_id(name: str) -> bool:
    """Whether a rule can have this id."""
    return _fits(RuleId, name)


def is_layer_name(name: str) -> bool:
    """Whether a layer can have this name."""
    return _fits(LayerName, name)


def _fits(form: Any, name: str) -> bool:
    try:
        reader_of(form).validate_python(name)
    except ValidationError:
        return False
    return True


def rule_template(rule_id: str, layer: Layer, each: str | None) -> str:
    """A topic file with one rule of that id, its cases and a provision in a layer; `each`: the kind of thing."""
    parts = ruleset_schema()["$defs"]
    kind = each or f"{MARK}EACH"
    condition = condition_for(each) if each is not None else None
    topic = rule_id.partition(".")[0]
    lines = list(_head(_RULE_HEAD, layer=layer.name, topic=topic))
    lines += ["rules:", *_remark(_said(parts["RulePart"], "id"), 2), f"  - id: {rule_id}"]
    for name, written in _RULE.items():
        if name == "cases":
            lines += _cases(parts, kind, condition)
            continue
        lines += _remark(_said(parts["RulePart"], name), 4)
        if name == "require":
            lines += _remark(_ANSWER, 4)
        if name == "when" and condition is not None:
            lines += [*_remark(_WHEN, 4), f"    # when: {condition.written}"]
            continue
        lines.append(f"    {name}: {written.format(each=kind)}" if written else f"    # {name}: …")
    lines += ["", "provisions:", *_provision(parts, rule_id, layer), "", *_source_entry(parts, layer)]
    if each is not None:
        lines += ["", *_names(each)]
    return "\n".join(lines) + "\n"


def region_template(name: str, extends: Layer) -> str:
    """The layer.yaml of a region that stands on another layer."""
    parts = ruleset_schema()["$defs"]
    lines = list(_head(_REGION_HEAD, extends=extends.name))
    layer, not_held = parts["LayerFile"], parts["NotHeldPart"]
    written = {
        "name": name,
        "title": f"{MARK}TITLE",
        "extends": extends.name,
        "version": '"1.0"',
        "authorities": f"[{MARK}AUTHORITY]",
    }
    for field, value in written.items():
        lines += [*_remark(_said(layer, field), 0), f"{field}: {value}"]
    lines += [*_remark(_said(layer, "not_held"), 0), "not_held:"]
    for number, field in enumerate(not_held["properties"]):
        words = _remark(_said(not_held, field), 4)
        lines += [*words, f"  {'  ' if number else '- '}{field}: {MARK}{field.upper()}"]
    return "\n".join(lines) + "\n"


def _cases(parts: Mapping[str, Any], kind: str, condition: Condition | None) -> Iterator[str]:
    yield from _remark(_said(parts["RulePart"], "cases"), 4)
    yield "    cases:"
    for remark, given, outcome in _CASES:
        yield f"      # {remark}"
        yield f"      - given: {given.format(each=kind)}"
        yield f"        outcome: {outcome}"
    if condition is not None:
        yield from _remark(_WITH_WHEN.format(name=condition.name, holds=condition.holds), 6)
    yield from _remark("and use this one, in which it does not apply", 6)
    given = f"{condition.name}: {condition.fails}" if condition else f"{kind}.…: …"
    yield f"      # - given: {{{given}}}"
    yield "      #   outcome: not applicable"


def _provision(parts: Mapping[str, Any], rule_id: str, layer: Layer) -> Iterator[str]:
    provision, source = parts["ProvisionPart"], parts["SourcePart"]
    authority = layer.authorities[0] if len(layer.authorities) == 1 else f"{MARK}AUTHORITY"
    yield f"  - rule: {rule_id}"
    yield from _remark(f"who asks; in this layer: {', '.join(layer.authorities)}", 4)
    yield f"    authority: {authority}"
    yield from _remark(_said(provision, "limit"), 4)
    yield f"    limit: {{least: {MARK}AT}}"
    for field in ("from", "until", "judges"):
        yield from _remark(_said(provision, field), 4)
        yield f"    # {field}: …"
    yield from _remark(_said(provision, "source"), 4)
    yield "    source:"
    for field, written in _SOURCE.items():
        yield from _remark(_said(source, field), 6)
        yield f"      {field}: {written}" if written else f"      # {field}: …"


def _source_entry(parts: Mapping[str, Any], layer: Layer) -> Iterator[str]:
    entry = parts["SourceEntryPart"]
    yield from _remark(_SOURCE_HEAD.format(layer=layer.name), 0)
    for number, field in enumerate(entry["properties"]):
        yield from textwrap.wrap(
            f"{field}: … ({_said(entry, field)})",
            WIDTH,
            initial_indent=f"#   {'  ' if number else '- '}",
            subsequent_indent="#         ",
        )


def _names(kind: str) -> Iterator[str]:
    spaced = kind.replace("_", " ")
    yield from _remark(_NAMES_HEAD, 0)
    yield "#"
    yield from _remark(f"What a rule can read of a {spaced}, each name after {kind} and a dot:", 0)
    yield from _listed(kind)
    for name, owner in owners_of(kind):
        yield "#"
        yield from _remark(f"and of its {name.replace('_', ' ')}, each name after {kind}.{name} and a dot:", 0)
        yield from _listed(owner)


def _listed(kind: str) -> Iterator[str]:
    for what, names in names_of(kind):
        yield from textwrap.wrap(
            f"{what}: {', '.join(names)}",
            WIDTH,
            initial_indent="# - ",
            subsequent_indent="#   ",
            break_on_hyphens=False,
            break_long_words=False,
        )


def _said(part: Mapping[str, Any], field: str) -> str:
    """The description of a field, and the words it may hold."""
    shape = part["properties"][field]
    words = list(_words(shape))
    return f"{shape['description']}; one of: {', '.join(words)}" if words else str(shape["description"])


def _words(shape: Any) -> Iterator[str]:
    if isinstance(shape, dict):
        yield from shape.get("enum", ())
        inside = [*shape.get("anyOf", ()), shape.get("additionalProperties"), shape.get("items")]
        for each in inside:
            yield from _words(each)


def _head(texts: Sequence[str], **fields: str) -> Iterator[str]:
    for text in texts:
        yield from _remark(text.format(**fields), 0)
        yield "#"


def _remark(text: str, indent: int) -> list[str]:
    lead = " " * indent + "# "
    return textwrap.wrap(text, WIDTH, initial_indent=lead, subsequent_indent=lead, break_on_hyphens=False)
