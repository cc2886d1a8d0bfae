"""The command line: reads words, calls the rooms, writes, and exits. It decides nothing.

Every import of a room stands inside the command that needs it, so that help and completion start at once.
"""

import datetime as dt
import os
import sys
from collections.abc import Callable, Iterator, Sequence
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from checker import __version__
from checker.commands import (
    UNREADABLE,
    Told,
    as_of_option,
    complain,
    rulesets_option,
    with_option,
)
from checker.report import FORMATS, Drawing

if TYPE_CHECKING:
    from checker.findings.result import Result
    from checker.vocabulary import Severity

SEVERITIES = ("critical", "major", "minor", "observation")


class Program(click.Group):
    """The group of all commands: turns what went wrong into lines that begin with the program's name.

    The commands about rules are imported when one of them is asked for.
    """

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names of all commands."""
        return sorted((*super().list_commands(ctx), "rules"))

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of a name."""
        if cmd_name == "rules":
            from checker.cli_rules import rules

            return rules
        return super().get_command(ctx, cmd_name)

    def invoke(self, ctx: click.Context) -> Any:
        """Run a command. Python's own development mode (`python -X dev -m checker`) shows a fault of ours in full."""
        _speak_utf8()
        try:
            return super().invoke(ctx)
        except Told as told:
            complain(*told.args)
        except (click.exceptions.Exit, click.ClickException, click.Abort, BrokenPipeError):
            raise
        except OSError as refused:
            complain(f"{refused.filename or 'what was to be written'}: {refused.strerror or refused}")
        except Exception as fault:
            if sys.flags.dev_mode:
                raise
            complain(f"a fault of the program itself, not of your files: {type(fault).__name__}: {fault}")
        ctx.exit(UNREADABLE)


def _speak_utf8() -> None:
    """A console or pipe of another encoding gets UTF-8, so that no sign makes the program fail."""
    for stream in (sys.stdout, sys.stderr):
        encoding = (getattr(stream, "encoding", None) or "").lower().replace("-", "")
        if encoding != "utf8" and hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")


@click.group(cls=Program, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="checker")
def main() -> None:
    """Check a dynamometer workshop against what binds it, and show the working.

    A screening aid: local codes, the authority having jurisdiction and licensed people decide.
    """


@main.command()
@click.argument("sites", nargs=-1, required=True, metavar="SITE...")
@click.option("--region", metavar="CODE", help="Region whose law and codes apply; replaces the one in the site file.")
@as_of_option
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
@click.option(
    "--upcoming",
    type=click.IntRange(1, 3660),
    metavar="DAYS",
    help="List as well what changes that are decided already will turn within so many days.",
)
@with_option
@rulesets_option
@click.pass_context
def check(
    ctx: click.Context,
    sites: Sequence[str],
    region: str | None,
    as_of: dt.date,
    form: str,
    output: Path | None,
    fail_on: "Severity",
    details: bool,
    upcoming: int | None,
    laid: Sequence[str],
    rulesets: Path | None,
) -> None:
    """Judge one or more site files.

    Exit code 0: nothing of the chosen severity is not met, and nothing critical is undetermined. 1: something is. 2: a
    file cannot be read, or a rule broke.
    """
    from checker.findings.exit_code import exit_code
    from checker.judging import Judging, NoRulebook

    judging = Judging(rulesets, laid, region, as_of, upcoming)
    codes: list[int] = []

    def judged() -> "Iterator[Result]":
        for site in sites:
            try:
                result = judging.result(site)
            except NoRulebook:
                raise
            except Told as told:
                complain(*told.args)
                codes.append(UNREADABLE)
            else:
                codes.append(exit_code([result], fail_on))
                yield result

    on_terminal = output is None and sys.stdout.isatty() and "NO_COLOR" not in os.environ
    found = judged()
    if (first := next(found, None)) is not None:
        _write(FORMATS[form](chain([first], found), Drawing(colour=on_terminal, details=details)), output)
    ctx.exit(max(codes))


def _write(text: str, output: Path | None) -> None:
    if output is None:
        click.echo(text, nl=False)
        return
    target = output.resolve()
    if target.exists() and not target.is_file():
        raise Told(f"{output}: is no file to write to; name one")
    if not target.parent.is_dir():
        raise Told(f"{output}: there is no folder {output.parent}; make it first, or name another")
    from checker.kept_files import write_whole

    try:
        write_whole(target, text.encode())
    except OSError as refused:
        raise Told(f"{output}: could not be written: {refused.strerror}") from refused


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
