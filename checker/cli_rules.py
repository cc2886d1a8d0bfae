"""The commands about rules. Rooms are imported inside each, so that help starts at once."""

import datetime as dt
from pathlib import Path

import click

from checker.commands import NOT_PROVED, as_of_option, complain, must_hold, rulesets_option
from checker.commands import rulebook as open_rulebook


@click.group()
def rules() -> None:
    """Show, prove and keep the rules."""


@rules.command("list")
@click.option("--topic", help="Only the rules of this topic.")
@click.option("--severity", help="Only the rules of this severity.")
@click.option("--layer", help="Only what is asked in this layer.")
@click.option("--authority", help="Only what this authority asks.")
@click.option("--status", help="Only what rests on values of this status, such as memory.")
@click.option("--source", metavar="ID", help="Only what rests on this source.")
@rulesets_option
def rules_list(rulesets: Path | None, **wanted: str | None) -> None:
    """List the rules by topic, each with who asks it: all of them, or those of which every option given is true.

    Layer, authority, status and source are those of one provision: what us asks from memory.
    """
    from typing import get_args

    from checker.keeping.listing import Wanted, listed
    from checker.report.reference import rules_list as drawn
    from checker.rules.vocabulary import Authority, Severity, Status

    book = open_rulebook(rulesets)
    must_hold("topic", wanted["topic"], {rule.topic for rule in book.rules.values()})
    must_hold("severity", wanted["severity"], get_args(Severity))
    must_hold("layer", wanted["layer"], book.layers)
    must_hold("authority", wanted["authority"], get_args(Authority))
    must_hold("status", wanted["status"], get_args(Status))
    must_hold("source", wanted["source"], {each.source.source.id for each in book.all_provisions if each.source.source})
    click.echo(drawn(listed(book, Wanted(**wanted))), nl=False)


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


@rules.command("lint")
@rulesets_option
@click.pass_context
def rules_lint(ctx: click.Context, rulesets: Path | None) -> None:
    """Find what is wrong with rules that can be read: cases that lack, what is never asked, used or true.

    Exit code 0: nothing to mend. 1: something. 2: a file cannot be read.
    """
    from checker import shipped
    from checker.commands import reading
    from checker.keeping.entries import entries
    from checker.keeping.lint import lint
    from checker.report.lint import lint as drawn

    book = open_rulebook(rulesets)
    with reading():
        held = entries(rulesets or shipped.rulesets())
    flaws = lint(book, held)
    click.echo(drawn(flaws, len(book.rules)), nl=False)
    ctx.exit(NOT_PROVED if flaws else 0)
