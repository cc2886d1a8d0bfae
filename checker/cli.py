"""The command line: reads words, calls the rooms, writes, and exits. It decides nothing.

Every import of a room stands inside the command that needs it, so that help and completion start at once.
"""

import contextlib
import datetime as dt
import os
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from checker import __version__, shipped
from checker.report import FORMATS, Drawing

if TYPE_CHECKING:
    from checker.findings.result import Result
    from checker.reading import Document
    from checker.rules import Rulebook
    from checker.rules.vocabulary import Severity

SEVERITIES = ("critical", "major", "minor", "observation")
NOT_PROVED, UNREADABLE = 1, 2


class Told(Exception):
    """Something the user has to mend: its arguments are lines for the error stream. Leads to exit code 2."""


class Program(click.Group):
    """The group of all commands: turns what went wrong into lines that begin with the program's name."""

    def invoke(self, ctx: click.Context) -> Any:
        """Run a command. Python's own development mode (`python -X dev -m checker`) shows a fault of ours in full."""
        _speak_utf8()
        try:
            return super().invoke(ctx)
        except Told as told:
            _complain(*told.args)
        except (click.exceptions.Exit, click.ClickException, click.Abort, BrokenPipeError):
            raise
        except Exception as fault:
            if sys.flags.dev_mode:
                raise
            _complain(f"a fault of the program itself, not of your files: {type(fault).__name__}: {fault}")
        ctx.exit(UNREADABLE)


def _complain(*lines: str) -> None:
    from checker.report.page import clean

    for line in lines:
        for one in line.splitlines():
            click.echo(f"checker: {clean(one)}", err=True)


def _speak_utf8() -> None:
    """A console or pipe of another encoding gets UTF-8, so that no sign makes the program fail."""
    for stream in (sys.stdout, sys.stderr):
        encoding = (getattr(stream, "encoding", None) or "").lower().replace("-", "")
        if encoding != "utf8" and hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")


@contextlib.contextmanager
def _reading() -> Iterator[None]:
    """Turns all problems of a file into lines for the user."""
    from checker.reading import Unreadable

    try:
        yield
    except Unreadable as unreadable:
        raise Told(*map(str, unreadable.problems)) from unreadable


def _rulebook(folder: Path | None) -> "Rulebook":
    import platformdirs

    from checker.rules import read_rulesets

    with _reading():
        return read_rulesets(
            folder or shipped.rulesets(), platformdirs.user_cache_path("dyno-facility-checker", appauthor=False)
        )


def _as_of(command: Callable[..., Any]) -> Callable[..., Any]:
    return click.option(
        "--as-of",
        type=click.DateTime(formats=["%Y-%m-%d"]),
        default=lambda: dt.date.today().isoformat(),
        show_default="today",
        metavar="DAY",
        help="The day to judge on, as YYYY-MM-DD.",
    )(command)


def _rulesets(command: Callable[..., Any]) -> Callable[..., Any]:
    return click.option(
        "--rulesets",
        type=click.Path(path_type=Path),
        metavar="DIR",
        help="Folder of rulesets; those that came with the program if not given.",
    )(command)


@click.group(cls=Program, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="checker")
def main() -> None:
    """Check a dynamometer workshop against what binds it, and show the working.

    A screening aid: local codes, the authority having jurisdiction and licensed people decide.
    """


@main.command()
@click.argument("sites", nargs=-1, required=True, metavar="SITE...")
@click.option("--region", metavar="CODE", help="Region whose law and codes apply; replaces the one in the site file.")
@_as_of
@click.option("--format", "form", type=click.Choice(list(FORMATS)), default="text", show_default=True)
@click.option(
    "-o", "--output", type=click.Path(path_type=Path), metavar="FILE", help="Write here, whole or not at all."
)
@click.option(
    "--fail-on",
    type=click.Choice(SEVERITIES),
    default="minor",
    show_default=True,
    help="Exit with 1 when something of this severity or worse is not met.",
)
@click.option("--details", is_flag=True, help="Show the working of everything, and what does not apply.")
@_rulesets
@click.pass_context
def check(
    ctx: click.Context,
    sites: Sequence[str],
    region: str | None,
    as_of: dt.datetime,
    form: str,
    output: Path | None,
    fail_on: "Severity",
    details: bool,
    rulesets: Path | None,
) -> None:
    """Judge one or more site files.

    Exit code 0: nothing of the chosen severity is not met, and nothing critical is undetermined. 1: something is. 2: a
    file cannot be read, or a rule broke.
    """
    from checker.findings.exit_code import exit_code

    rulebook = _rulebook(rulesets)
    results, code = [], 0
    for site in sites:
        try:
            results.append(_result(site, rulebook, region, as_of.date()))
        except Told as told:
            _complain(*told.args)
            code = UNREADABLE
    if results:
        on_terminal = output is None and sys.stdout.isatty() and "NO_COLOR" not in os.environ
        _write(FORMATS[form](results, Drawing(colour=on_terminal, details=details)), output)
    ctx.exit(max(code, exit_code(results, fail_on)))


def _result(name: str, rulebook: "Rulebook", region: str | None, as_of: dt.date) -> "Result":
    from checker.findings.check import check as judge
    from checker.rules.rulebook import NoRegion
    from checker.site import read_site

    with _reading():
        site = read_site(_document(name))
    try:
        return judge(site, rulebook, region=region, as_of=as_of, program_version=__version__)
    except NoRegion as none:
        raise Told(f"{name}: names no region; write one in it or give --region: {', '.join(none.held)}") from none


def _document(name: str) -> "Document":
    """The file of that name, else the demonstration site of that name. Raises Unreadable."""
    from checker.reading import read_file, read_text

    given = Path(name)
    held = shipped.sites() / f"{given.name.removesuffix('.yaml')}.yaml"
    if given.exists() or not held.exists():
        return read_file(given)
    return read_text(held.read_bytes(), f"sites/{held.name}")


def _write(text: str, output: Path | None) -> None:
    if output is None:
        click.echo(text, nl=False)
        return
    target = output.resolve()
    if target.exists() and not target.is_file():
        raise Told(f"{output}: is no file to write to; name one")
    if not target.parent.is_dir():
        raise Told(f"{output}: there is no folder {output.parent}; make it first, or name another")
    part = target.with_name(f".{target.name}.{os.getpid()}")
    try:
        part.write_text(text, encoding="utf-8", newline="\n")
        os.replace(part, target)
    except OSError as refused:
        part.unlink(missing_ok=True)
        raise Told(f"{output}: could not be written: {refused.strerror}") from refused


@main.group()
def rules() -> None:
    """Show and prove the rules."""


@rules.command("list")
@click.option("--topic", help="Only the rules of this topic.")
@click.option("--layer", help="Only the rules that stand in this layer.")
@_rulesets
def rules_list(topic: str | None, layer: str | None, rulesets: Path | None) -> None:
    """List the rules by topic."""
    from checker.report.reference import rules_list as drawn

    held = _rulebook(rulesets).rules.values()
    _must_hold("topic", topic, {rule.topic for rule in held})
    _must_hold("layer", layer, {rule.layer for rule in held})
    chosen = (rule for rule in held if topic in (None, rule.topic) and layer in (None, rule.layer))
    click.echo(drawn(sorted(chosen, key=lambda rule: (rule.topic, rule.id))), nl=False)


@rules.command("show")
@click.argument("name", metavar="ID")
@click.option("--region", metavar="CODE", help="Only what is asked in this region.")
@_as_of
@_rulesets
def rules_show(name: str, region: str | None, as_of: dt.datetime, rulesets: Path | None) -> None:
    """Show one rule, why it is there, and everybody who asks it: anywhere and ever, or in a region on a day."""
    from checker.report import reference
    from checker.report.sentences import say

    rulebook, day = _rulebook(rulesets), as_of.date()
    _must_hold("rule", name, rulebook.rules)
    if region:
        asked = rulebook.provisions(name, region, day)
        where = say("provisions_where", region=rulebook.held_region(region), day=day)
    else:
        asked = tuple(one for one in rulebook.all_provisions if one.rule == name)
        where = say("provisions_anywhere")
    click.echo(reference.rule(rulebook.rules[name], asked, where), nl=False)


def _must_hold(what: str, name: str | None, held: Iterable[str]) -> None:
    from difflib import get_close_matches

    if name is None or name in held:
        return
    near = get_close_matches(name, sorted(held), n=1)
    right = f"did you mean {near[0]}?" if near else f"there are {', '.join(sorted(held))}"
    raise Told(f"no {what} {name}; {right}")


@rules.command("prove")
@_rulesets
@click.pass_context
def rules_prove(ctx: click.Context, rulesets: Path | None) -> None:
    """Run every case that stands beside a rule, and try each rule where what it asks of is none."""
    from checker.findings.prove import prove

    proof = prove(_rulebook(rulesets))
    for one in proof.failures:
        at = f"{one.location.file}:{one.location.line}:{one.location.column}"
        why = f" ({one.why})" if one.why else ""
        _complain(f"{at}: {one.rule}, case {one.case_number}: expected {one.expected}, got {one.got}{why}")
    for each in proof.unguarded:
        at = f"{each.location.file}:{each.location.line}:{each.location.column}"
        _complain(f"{at}: {each.rule} breaks where {each.group} is none; ask {each.guard} first ({each.why})")
    proved = proof.cases - len(proof.failures)
    failed = f", {len(proof.failures)} not" if proof.failures else ""
    lacking = f", {len(proof.unguarded)} guards missing" if proof.unguarded else ""
    click.echo(f"{proved} cases of {proof.rules} rules proved{failed}{lacking}")
    ctx.exit(NOT_PROVED if proof.failures or proof.unguarded else 0)


@main.command()
def quantities() -> None:
    """Show every formula: what it needs, its unit, its range, its source, and what it leaves out."""
    from checker.quantities import catalogue
    from checker.report.reference import formulas

    click.echo(formulas(catalogue()), nl=False)


@main.command()
@click.argument("of", type=click.Choice(["site", "ruleset", "result"]))
def schema(of: str) -> None:
    """Show the JSON Schema of a site file, a ruleset file or a result."""
    import json

    from checker.findings.result_json import result_schema
    from checker.rules.schema import ruleset_schema
    from checker.site.schema import site_schema

    made: dict[str, Callable[[], object]] = {
        "site": site_schema,
        "ruleset": ruleset_schema,
        "result": result_schema,
    }
    click.echo(json.dumps(made[of](), indent=2, ensure_ascii=False))
