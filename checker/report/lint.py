"""What is wrong with rulesets, as those who keep them read it: where, which rule, what, and what would be right."""

from collections.abc import Mapping, Sequence
from itertools import groupby
from typing import Protocol

from checker.report.page import Page
from checker.report.sentences import say
from checker.report.shapes import Place


class Flaw(Protocol):
    """One thing to mend."""

    @property
    def kind(self) -> str:
        """Names its words."""

    @property
    def about(self) -> str:
        """The rule, table or source."""

    @property
    def location(self) -> Place:
        """Where it stands."""

    @property
    def fields(self) -> Mapping[str, str]:
        """What its words are filled with."""

    @property
    def remark(self) -> bool:
        """Whether it need not be mended."""


def lint(flaws: Sequence[Flaw], rules: int, width: int = 80) -> str:
    """One paragraph for each place with its flaws, in the order given, and how many there are in so many rules.

    Below stands what need not be mended.
    """
    page = Page(width)
    to_mend, remarks = ([flaw for flaw in flaws if flaw.remark is remark] for remark in (False, True))
    _told(page, to_mend)
    page.text(say("lint_count" if to_mend else "lint_none", count=len(to_mend), rules=rules))
    if remarks:
        page.heading(say("lint_remarks", count=len(remarks)))
        _told(page, remarks)
    return str(page)


def _told(page: Page, flaws: Sequence[Flaw]) -> None:
    for (file, line, about), here in groupby(flaws, key=lambda one: (one.location.file, one.location.line, one.about)):
        page.text(say("lint_place", file=file, line=line, about=about), bold=True)
        for flaw in here:
            fields = {name: say(f"near {text}") if name == "near" else text for name, text in flaw.fields.items()}
            page.text(say(f"lint {flaw.kind}", **fields), indent=3, first="- ")
            if not flaw.remark:
                page.row(say("label_right"), say(f"right {flaw.kind}", **fields), indent=5, across=7)
        page.gap()
