"""The commands about rules. Rooms are imported inside each, so that help starts at once."""

import datetime as dt
import re
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from checker.commands import (
    NOT_PROVED,
    UNREADABLE,
    Told,
    as_of_option,
    complain,
    must_hold,
    rulesets_option,
    with_option,
)
from checker.commands import rulebook as open_rulebook

if TYPE_CHECKING:
    from checker.rules import Rulebook
    from checker.vocabulary import Status


STATUSES = ("verified", "secondary", "memory", "common practice")


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
    from checker.vocabulary import Authority, Severity, Status

    book = _filled_rulebook(rulesets)
    must_hold("topic", wanted["topic"], {rule.topic for rule in book.rules.values()})
    must_hold("severity", wanted["severity"], get_args(Severity))
    must_hold("layer", wanted["layer"], book.layers)
    must_hold("authority", wanted["authority"], get_args(Authority))
    must_hold("status", wanted["status"], get_args(Status))
    must_hold("source", wanted["source"], book.sources)
    click.echo(drawn(listed(book, Wanted(**wanted))), nl=False)


@rules.command("show")
@click.argument("name", metavar="ID")
@click.option("--region", metavar="CODE", help="Only what is asked in this region.")
@as_of_option
@rulesets_option
def rules_show(name: str, region: str | None, as_of: dt.date, rulesets: Path | None) -> None:
    """Show one rule, why it is there, and everybody who asks it: anywhere and ever, or in a region on a day."""
    from checker.keeping.easing import operators
    from checker.report import reference
    from checker.report.sentences import say

    rulebook = _filled_rulebook(rulesets)
    must_hold("rule", name, rulebook.rules)
    if region:
        asked, not_heard = rulebook.provisions(name, region, as_of), rulebook.not_heard(name, region, as_of)
        where = say("provisions_where", region=rulebook.held_region(region), day=as_of)
    else:
        asked, not_heard = tuple(one for one in rulebook.all_provisions if one.rule == name), ()
        where = say("provisions_anywhere")
    shown = rulebook.rules[name]
    click.echo(reference.rule(shown, asked, where, not_heard, operators(shown)), nl=False)


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

    Exit code 0: nothing to mend, whatever there is to know. 1: something. 2: a file cannot be read.
    """
    from checker import shipped
    from checker.commands import reading
    from checker.keeping.lint import lint
    from checker.keeping.unused import table_places
    from checker.report.lint import lint as drawn

    book = open_rulebook(rulesets)
    with reading():
        tables = table_places(rulesets or shipped.rulesets())
    flaws = lint(book, tables)
    click.echo(drawn(flaws, len(book.rules)), nl=False)
    ctx.exit(0 if all(flaw.remark for flaw in flaws) else NOT_PROVED)


@rules.command("diff")
@click.argument("old", type=click.Path(path_type=Path), metavar="OLD")
@click.argument("new", type=click.Path(path_type=Path), metavar="NEW")
@click.pass_context
def rules_diff(ctx: click.Context, old: Path, new: Path) -> None:
    """Tell what changed from one folder of rulesets to another, and what that asks of the version of each layer.

    Exit code 0: every version rose as far as its layer's changes ask. 1: one did not. 2: a file cannot be read.
    """
    from checker.keeping.diff import diff
    from checker.report.changes import changes

    found = diff(open_rulebook(old), open_rulebook(new))
    click.echo(changes(found, str(old), str(new)), nl=False)
    ctx.exit(0 if all(version.enough for version in found.versions) else NOT_PROVED)


@rules.command("impact")
@click.argument("new", type=click.Path(path_type=Path), metavar="NEW")
@click.option("--sites", type=click.Path(path_type=Path), required=True, metavar="DIR", help="Folder of site files.")
@click.option("--region", metavar="CODE", help="Judge every site by this region; replaces the one in each file.")
@as_of_option
@with_option
@rulesets_option
@click.pass_context
def rules_impact(
    ctx: click.Context,
    new: Path,
    sites: Path,
    region: str | None,
    as_of: dt.date,
    laid: Sequence[str],
    rulesets: Path | None,
) -> None:
    """Tell what the rulesets in NEW would change at every site below a folder, and why.

    They are held against those of --rulesets, else against those that came with the program. A layer that --with
    names is laid on both where both hold it: where only NEW does, this tells what it would change to lay it on.

    A new region is no site's own yet: name it with --region to see what it would change.

    Exit code 0: every site was judged, whatever would change. 2: a file cannot be read or judged.
    """
    from checker import shipped
    from checker.keeping.impact import impact, sites_below
    from checker.report.impact import impact as drawn

    after, before = open_rulebook(new, laid), open_rulebook(rulesets)
    before = before.with_layers(tuple(name for name in after.laid if name in before.layers))
    read, not_read = sites_below(sites)
    if not (read or not_read):
        raise Told(f"{sites}: no site file in this folder; name one with .yaml, .yml or .json files in it")
    found = impact(read, before, after, as_of=as_of, region=region, not_read=not_read)
    click.echo(drawn(found, str(rulesets or shipped.rulesets().name), str(new), as_of), nl=False)
    ctx.exit(UNREADABLE if found.not_judged else 0)


@rules.command("sources")
@click.option("--status", type=click.Choice(STATUSES), help="Only what is known in this way.")
@rulesets_option
def rules_sources(status: "Status | None", rulesets: Path | None) -> None:
    """Tell what rests on each source, what is still from memory, and sources nobody uses."""
    from checker.keeping.sources import sources_of
    from checker.report.bibliography import sources as drawn

    click.echo(drawn(sources_of(open_rulebook(rulesets), status), status), nl=False)


@rules.command("new")
@click.argument("rule", required=False, metavar="[ID]")
@click.option("--layer", metavar="LAYER", help="The layer that the rule and its provision stand in.")
@click.option("--each", metavar="KIND", help="The kind of thing that the rule is about; shows what can be read of it.")
@click.option(
    "-o", "--output", type=click.Path(path_type=Path), metavar="FILE", help="Write the rule here; nothing is replaced."
)
@click.option("--region", metavar="CODE", help="Make the layer of a region instead, a folder in that of --rulesets.")
@click.option("--extends", default="common", show_default=True, metavar="LAYER", help="What the region stands on.")
@rulesets_option
def rules_new(
    rule: str | None,
    layer: str | None,
    each: str | None,
    output: Path | None,
    region: str | None,
    extends: str,
    rulesets: Path | None,
) -> None:
    """Begin a rule with its provision and cases (ID and --layer), or the layer of a region (--region).

    What comes says of each place what belongs there. Without -o a rule is only shown.
    """
    if (rule is None) == (region is None):
        raise Told("name a rule to begin, such as fire.sand-bucket with --layer common, or --region CODE")
    if region is not None:
        _new_region(region, extends, rulesets)
    else:
        _new_rule(rule or "", layer, each, output, rulesets)


def _new_rule(name: str, layer: str | None, each: str | None, output: Path | None, rulesets: Path | None) -> None:
    from checker.keeping.template import is_rule_id, rule_template
    from checker.quantities import kinds
    from checker.report.begun import begun
    from checker.rules.files import MARK

    book = _filled_rulebook(rulesets)
    if not is_rule_id(name):
        raise Told(f"{name}: is no id of a rule; write its topic, a dot and its name, such as fire.sand-bucket")
    if name in book.rules:
        at = book.rules[name].location
        raise Told(f"{name}: this rule stands already in {at.file}, line {at.line}; choose another id")
    if layer is None:
        raise Told(f"say with --layer where the rule stands; there are {', '.join(sorted(book.layers))}")
    must_hold("layer", layer, book.layers)
    must_hold("kind of thing", each, [kind for kind in kinds() if "." not in kind])
    made = rule_template(name, book.layers[layer], each)
    if output is None:
        click.echo(made, nl=False)
        return
    _make(output, made, "; without -o the rule is shown, to copy into it")
    click.echo(begun(str(output), MARK, _prove(rulesets), region=False), nl=False)


def _new_region(name: str, extends: str, rulesets: Path | None) -> None:
    from checker.keeping.template import is_layer_name, region_template
    from checker.report.begun import begun
    from checker.rules.files import MARK

    book = _filled_rulebook(rulesets)
    if not is_layer_name(name):
        raise Told(f"{name}: is no code of a region; write small letters, digits and hyphens, such as us-tx")
    if rulesets is None:
        raise Told("say with --rulesets in which folder of rulesets the folder of the region is made")
    must_hold("region to stand on", extends, book.regions())
    file = rulesets / name / "layer.yaml"
    _make(file, region_template(name, book.layers[extends]), folder=True)
    click.echo(begun(str(file), MARK, _prove(rulesets), region=True), nl=False)


def _filled_rulebook(rulesets: Path | None) -> "Rulebook":
    """The rulebook of a folder. Raises Told, in short where a template in it is still to be filled in."""
    from checker.reading import Unreadable
    from checker.report.begun import to_finish
    from checker.rules.files import MARK

    try:
        return open_rulebook(rulesets)
    except Told as told:
        if not isinstance(told.__cause__, Unreadable):
            raise
        problems = told.__cause__.problems
        open_places = [each for each in problems if MARK in each.found]
        if not open_places:
            raise
        marked = [(one.file, one.line, word) for one in open_places for word in re.findall(rf"{MARK}\w*", one.found)]
        raise Told(*to_finish(marked, len(problems) - len(open_places), _prove(rulesets))) from None


def _make(file: Path, text: str, instead: str = "", *, folder: bool = False) -> None:
    """Write a file that is not there yet; `folder`: make its folder where that is not there either. Raises Told."""
    try:
        if folder:
            file.parent.mkdir(exist_ok=True)
        with file.open("x", encoding="utf-8", newline="\n") as made:
            made.write(text)
    except FileExistsError:
        raise Told(f"{file}: is there already and stays as it is{instead}") from None
    except OSError as refused:
        raise Told(f"{file}: could not be written: {refused.strerror}") from refused


def _prove(rulesets: Path | None) -> str:
    return "checker rules prove" + (f" --rulesets {rulesets}" if rulesets else "")
