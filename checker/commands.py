"""What the commands share: options, opening files, and telling the user what to mend."""

import contextlib
import datetime as dt
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from checker import shipped

if TYPE_CHECKING:
    from checker.rules import Rulebook
    from checker.written_files import File

NOT_PROVED, UNREADABLE = 1, 2


class Told(Exception):
    """Something the user has to mend: its arguments are lines for the error stream. Leads to exit code 2."""


def complain(*lines: str) -> None:
    """Write lines to the error stream, each with the program's name before it."""
    from checker.report.page import clean

    for line in lines:
        for one in line.splitlines():
            click.echo(f"checker: {clean(one)}", err=True)


@contextlib.contextmanager
def reading() -> Iterator[None]:
    """Turns all problems of a file into lines for the user."""
    from checker.reading import Unreadable

    try:
        yield
    except Unreadable as unreadable:
        raise Told(*map(str, unreadable.problems)) from unreadable


def cache_folder() -> Path:
    """The user's own folder for what is kept between runs."""
    import platformdirs

    return platformdirs.user_cache_path("dyno-facility-checker", appauthor=False)


def ruleset_folders(folder: Path | None, laid: Sequence[str]) -> tuple[Path, ...]:
    """The folder of rulesets, and of what is laid on them the folders that lie elsewhere."""
    beside = (path for name in laid if ((path := Path(name)) / "layer.yaml").is_file())
    return folder or shipped.rulesets(), *beside


def rulebook(folder: Path | None, laid: Sequence[str] = (), files: "Mapping[Path, File] | None" = None) -> "Rulebook":
    """The rulebook of a folder, or of the rulesets that came with the program. Raises Told.

    Each of `laid` names a layer that it holds, or a folder of its own with a layer.yaml. `files` are all that lie
    there, if they have been looked up.
    """
    from checker.rules import read_rulesets
    from checker.rules.rulebook import NoLayer

    held, *beside = ruleset_folders(folder, laid)
    with reading():
        book = read_rulesets(held, cache_folder(), tuple(beside), files)
    try:
        return book.with_layers(tuple(Path(name).name for name in laid))
    except NoLayer as unknown:
        raise Told(
            f"{unknown.name}: no such layer can be laid on a region; held are {', '.join(unknown.held)}"
        ) from None


class Day(click.ParamType):  # type: ignore[type-arg]  # no type takes one before click 8.2
    """A day as the calendar has it."""

    name = "day"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> dt.date:
        """The day; tells the user where there is none of that name."""
        try:
            return value if isinstance(value, dt.date) else _day(value)
        except ValueError:
            self.fail(f"{value!r} is no day; write one as 2026-11-25", param, ctx)


def _day(written: str) -> dt.date:
    day = dt.date.fromisoformat(written)
    if day.isoformat() != written:  # weeks and days without hyphens are read as well
        raise ValueError(written)
    return day


def as_of_option(command: Callable[..., Any]) -> Callable[..., Any]:
    """The option --as-of."""
    return click.option(
        "--as-of",
        type=Day(),
        default=lambda: dt.date.today().isoformat(),
        show_default="today",
        metavar="DAY",
        help="The day to judge on, as YYYY-MM-DD.",
    )(command)


def rulesets_option(command: Callable[..., Any]) -> Callable[..., Any]:
    """The option --rulesets."""
    return click.option(
        "--rulesets",
        type=click.Path(path_type=Path),
        metavar="DIR",
        help="Folder of rulesets; those that came with the program if not given.",
    )(command)


def with_option(command: Callable[..., Any]) -> Callable[..., Any]:
    """The option --with."""
    return click.option(
        "--with",
        "laid",
        multiple=True,
        metavar="LAYER",
        help="Lay the layer of a house, an insurer, a landlord or a maker on the region: its name, or its folder.",
    )(command)


def must_hold(what: str, name: str | None, held: Iterable[str]) -> None:
    """Raises Told where a name that was given is none of those held, with the nearest."""
    from difflib import get_close_matches

    if name is None or name in held:
        return
    near = get_close_matches(name, sorted(held), n=1)
    all_held = "`checker rules list` shows all" if what == "rule" else f"there are {', '.join(sorted(held))}"
    right = f"did you mean {near[0]}?" if near else all_held
    raise Told(f"no {what} {name}; {right}")
