"""The commands about rules. Rooms are imported inside each, so that help starts at once."""

import datetime as dt
from pathlib import Path

import click

from checker.commands import NOT_PROVED, as_of_option, complain, must_hold, rulesets_option
from checker.commands import rulebook as open_rulebook


@click.group()
def rules() -> None:
    """Show and prove the rules."""


@rules.command("list")
@click.option("--topic", help="Only the rules of this topic.")
@click.option("--layer", help="Only the rules that stand in this layer.")
@rulesets_option
def rules_list(topic: str | None, layer: str | None, rulesets: Path | None) -> None:
    """List the rules by topic."""
    from checker.report.reference import rules_list as drawn

    held = open_rulebook(rulesets).rules.values()
    must_hold("topic", topic, {rule.topic for rule in held})
    must_hold("layer", layer, {rule.layer for rule in held})
    chosen = (rule for rule in held if topic in (None, rule.topic) and layer in (None, rule.layer))
    click.echo(drawn(sorted(chosen, key=lambda rule: (rule.topic, rule.id))), nl=False)


@rules.command("show")
@click.argument("name", metavar="ID")
@click.option("--region", metavar="CODE", help="Only what is asked in this region.")
@as_of_option
@rulesets_option
def rules_show(name: str, region: str | None, as_of: dt.datetime, rulesets: Path | None) -> None:
    """Show one rule, why it is there, and everybody who asks it: anywhere and ever, or in a region on a day."""
    from checker.report import reference
    from checker.report.sentences import say

    rulebook, day = open_rulebook(rulesets), as_of.date()
    must_hold("rule", name, rulebook.rules)
    if region:
        asked = rulebook.provisions(name, region, day)
        where = say("provisions_where", region=rulebook.held_region(region), day=day)
    else:
        asked = tuple(one for one in rulebook.all_provisions if one.rule == name)
        where = say("provisions_anywhere")
    click.echo(reference.rule(rulebook.rules[name], asked, where), nl=False)


@rules.command("prove")
@rulesets_option
@click.pass_context
def rules_prove(ctx: click.Context, rulesets: Path | None) -> None:
    """Run every case that stands beside a rule, and try each rule where what it asks of is none."""
    from checker.findings.prove import prove

    proof = prove(open_rulebook(rulesets))
    for one in proof.failures:
        at = f"{one.location.file}:{one.location.line}:{one.location.column}"
        why = f" ({one.why})" if one.why else ""
        complain(f"{at}: {one.rule}, case {one.case_number}: expected {one.expected}, got {one.got}{why}")
    for each in proof.unguarded:
        at = f"{each.location.file}:{each.location.line}:{each.location.column}"
        complain(f"{at}: {each.rule} breaks where {each.group} is none; ask {each.guard} first ({each.why})")
    proved = proof.cases - len(proof.failures)
    failed = f", {len(proof.failures)} not" if proof.failures else ""
    lacking = f", {len(proof.unguarded)} guards missing" if proof.unguarded else ""
    click.echo(f"{proved} cases of {proof.rules} rules proved{failed}{lacking}")
    ctx.exit(NOT_PROVED if proof.failures or proof.unguarded else 0)
