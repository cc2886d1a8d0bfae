"""What the program knows, apart from any site: rules, their provisions, and formulas, as people read them."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby
from types import MappingProxyType

from checker.report.advice import paragraphs, with_limits_named
from checker.report.asked_words import asked_words, span_words
from checker.report.page import Page
from checker.report.sentences import has, say
from checker.report.shapes import Formula, Listed, Provision, Rule
from checker.report.words import cited_words


def rules_list(listed: Iterable[Listed], width: int = 80) -> str:
    """Two lines a rule, by topic in the order given: id, severity and who asks it; title."""
    page = Page(width)
    topics = [(topic, list(group)) for topic, group in groupby(listed, key=lambda each: each.rule.topic)]
    for topic, group in topics:
        page.heading(topic)
        across = max(len(each.rule.id) for each in group) + 2
        for each in group:
            severity = say(f"severity {each.rule.severity}")
            line = say("rule_line", severity=severity, asked=_askers(each.asked))
            page.row(say("rule_id", id=each.rule.id), line, indent=0, across=across)
            page.text(each.rule.title, indent=3)
    if not topics:
        page.text(say("rules_none"))
    return str(page)


def _askers(provisions: Sequence[Provision]) -> str:
    """The authorities that ask, layer by layer."""
    by_layer: dict[str, set[str]] = {}
    for one in provisions:
        by_layer.setdefault(one.layer, set()).add(one.authority)
    asked = (
        say("rule_asked", authorities=say("list").join(sorted(authorities)), layer=layer)
        for layer, authorities in sorted(by_layer.items())
    )
    return say("parted").join(asked) or say("rule_asked_nobody")


def rule(
    rule: Rule,
    provisions: Sequence[Provision],
    where: str,
    not_heard: Sequence[Provision] = (),
    operators: Mapping[str, str] = MappingProxyType({}),
    width: int = 80,
) -> str:
    """Everything about one rule, and every provision with file and line; `where` names the region and the day.

    `not_heard` are provisions that a nearer layer or a stronger authority replaces, `operators` how the rule compares
    each limit.
    """
    page = Page(width)
    page.text(rule.id, bold=True)
    page.text(rule.title)
    page.gap()
    page.row(say("label_why"), rule.reason)
    page.row(say("label_severity"), say(f"severity {rule.severity}"))
    page.row(say("label_each"), rule.each)
    if rule.when:
        page.row(say("label_when"), rule.when)
    page.row(say("label_require"), rule.require)
    page.rows(say("label_limits"), (say("rule_limit", name=name, kind=kind) for name, kind in rule.limit.items()))
    if rule.evidence:
        page.row(say("label_evidence"), say("rule_evidence", evidence=rule.evidence))
    page.rows(say("label_do"), (first + text for first, text in paragraphs(with_limits_named(rule.advice))))
    page.row("", say(f"acts_{rule.acts}" if has(f"acts_{rule.acts}") else "acts", acts=rule.acts))
    page.rows(say("label_meanwhile"), (first + text for first, text in paragraphs(with_limits_named(rule.meanwhile))))
    page.row(say("label_proof"), rule.closes_with)
    page.row(say("label_cases"), say("rule_cases", count=len(rule.cases)))
    page.row(say("label_place"), say("location", file=rule.location.file, line=rule.location.line))
    page.heading(say("provisions", count=len(provisions), where=where))
    if not provisions:
        page.text(say("provisions_none"))
    for provision in provisions:
        _provision(page, provision, operators)
    if not_heard:
        page.heading(say("provisions_not_heard", count=len(not_heard)))
    for provision in not_heard:
        _provision(page, provision, operators)
    return str(page)


def _provision(page: Page, provision: Provision, operators: Mapping[str, str]) -> None:
    page.text(say("rule_provision", authority=provision.authority, layer=provision.layer), first="- ")
    if asked := asked_words(provision, operators):
        page.row(say("label_limits"), asked)
    page.row(say("label_source"), cited_words(provision.source))
    if provision.source.note:
        page.row(say("label_note"), provision.source.note)
    page.row(say("label_judges"), provision.judges)
    page.row(say("label_in_force"), span_words(provision.from_, provision.until))
    at = provision.location
    page.row(say("label_place"), say("location", file=at.file, line=at.line))
    page.gap()


def formulas(catalogue: Iterable[Formula], width: int = 80) -> str:
    """One paragraph a formula: name with arguments, unit, formula, inputs, range, source, what it leaves out."""
    page = Page(width)
    for one in catalogue:
        page.gap()
        arguments = (say("rule_limit", name=argument.name, kind=argument.kind) for argument in one.arguments)
        name = say(
            "quantity_called" if one.arguments else "quantity", name=one.name, arguments=say("list").join(arguments)
        )
        page.text(name, bold=True)
        if one.doc:
            page.text(one.doc, indent=3)
        page.row(say("label_gives"), say("quantity_unit" if one.unit else "quantity", name=one.gives, unit=one.unit))
        page.row(say("label_formula"), one.formula)
        page.row(say("label_needs"), say("list").join(one.inputs))
        if one.range:
            page.row(say("label_range"), one.range)
        page.row(say("label_source"), one.source)
        if one.leaves_out:
            page.row(say("label_leaves_out"), one.leaves_out)
    return str(page)
