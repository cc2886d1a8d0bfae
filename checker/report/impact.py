"""What another edition of the rulesets would change at sites: rule by rule with its reasons, then site by site."""

import datetime as dt
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from typing import Protocol

from checker.report.change_shapes import JudgedTwice
from checker.report.changes import reason
from checker.report.page import Page
from checker.report.sentences import has, say
from checker.report.shifts import Shift, draw_shifts, place_words, rank

_SEVEREST_FIRST = ("critical", "major", "minor", "observation")
_MOST_PROBLEMS = 3


class Move(JudgedTwice, Protocol):
    """One finding that comes out otherwise."""

    @property
    def file(self) -> str:
        """File of the site."""

    @property
    def before(self) -> str:
        """What it comes to by the old edition."""

    @property
    def after(self) -> str:
        """What it comes to by the new edition."""

    @property
    def asked_now(self) -> Sequence[tuple[str, str]]:
        """Authority and layer that only the new edition cites."""

    @property
    def asked_no_more(self) -> Sequence[tuple[str, str]]:
        """Authority and layer that only the old edition cites."""


class Judged(Protocol):
    """A site that was judged."""

    @property
    def site(self) -> str:
        """Its id."""

    @property
    def file(self) -> str:
        """Its file."""

    @property
    def region(self) -> str:
        """Its region."""

    @property
    def moves(self) -> Sequence[Move]:
        """What comes out otherwise."""

    @property
    def shifts(self) -> Sequence[Shift]:
        """What comes out the same by another limit or with another margin."""

    @property
    def idle(self) -> int:
        """What is asked now or no more where the rule does not apply."""

    @property
    def layers_before(self) -> Sequence[str]:
        """The layers of the old edition that judged it."""

    @property
    def layers_after(self) -> Sequence[str]:
        """Those of the new edition."""


class NotShown(Protocol):
    """A provision that changed and is not in force on the day."""

    @property
    def rule(self) -> str:
        """Id of the rule."""

    @property
    def authority(self) -> str:
        """Who asks."""

    @property
    def layer(self) -> str:
        """In which layer."""

    @property
    def begins(self) -> bool:
        """Whether it begins later; else it has ended."""

    @property
    def day(self) -> dt.date:
        """Its first day, or its last."""


class NotJudged(Protocol):
    """A file that was not judged."""

    @property
    def file(self) -> str:
        """Its name."""

    @property
    def problems(self) -> Sequence[object]:
        """What is wrong with it; each tells itself."""


class Impact(Protocol):
    """All sites."""

    @property
    def judged(self) -> Sequence[Judged]:
        """Those that were judged."""

    @property
    def not_judged(self) -> Sequence[NotJudged]:
        """Those that were not."""

    @property
    def regions_without_site(self) -> Sequence[str]:
        """Layers that ask otherwise where no site lies."""

    @property
    def not_laid(self) -> Sequence[str]:
        """Layers that ask otherwise and were not laid on."""

    @property
    def not_shown(self) -> Sequence[NotShown]:
        """What changed and is not in force on the day."""


def impact(impact: Impact, old: str, new: str, as_of: dt.date, width: int = 80) -> str:
    """In sum, rule by rule, site by site, what keeps its outcome by another limit, and what could not be judged.

    `old` and `new` name the folders.
    """
    page = Page(width)
    moves = [move for site in impact.judged for move in site.moves]
    shifts = [shift for site in impact.judged for shift in site.shifts]
    touched = sum(bool(site.moves) for site in impact.judged)
    page.text(say("impact", old=old, new=new, day=as_of))
    for layers in dict.fromkeys((tuple(site.layers_before), tuple(site.layers_after)) for site in impact.judged):
        if layers[0] != layers[1]:
            before, after = (say("list").join(names) for names in layers)
            page.text(say("impact_layers", before=before, after=after))
    page.text(say("impact_sum", findings=len(moves), touched=touched, sites=len(impact.judged)))
    for line in _in_sum(moves):
        page.text(line, indent=3)
    page.text(say("impact_shift_count", count=len(shifts)))
    if idle := sum(site.idle for site in impact.judged):
        page.text(say("impact_idle", count=idle))
    for one in impact.not_shown:
        key = "impact_begins" if one.begins else "impact_ended"
        page.text(say(key, rule=one.rule, authority=one.authority, layer=one.layer, day=one.day.isoformat()))
    for region in impact.regions_without_site:
        page.text(say("impact_no_site", region=region))
    for layer in impact.not_laid:
        page.text(say("impact_not_laid", layer=layer))
    _rule_by_rule(page, moves)
    if moves:
        page.heading(say("impact_sites"))
    for site in impact.judged:
        if site.moves:
            _site(page, site)
    draw_shifts(page, shifts)
    if impact.not_judged:
        page.heading(say("impact_not_judged", count=len(impact.not_judged)))
        for file in impact.not_judged:
            _not_judged(page, file)
    return str(page)


def _in_sum(moves: Iterable[Move]) -> Iterator[str]:
    counted = Counter((move.after, move.before) for move in moves)
    for after, before in sorted(counted, key=lambda pair: (rank(pair[0]), rank(pair[1]))):
        yield say("impact_move_count", before=_said(before), after=_said(after), count=counted[after, before])


def _said(outcome: str) -> str:
    return say(f"impact {outcome}") if has(f"impact {outcome}") else say(f"outcome {outcome}").lower()


def _rule_by_rule(page: Page, moves: Sequence[Move]) -> None:
    """The rules by what is worst about them: the outcome they come to, their severity, at how many things."""
    by_rule: dict[str, list[Move]] = {}
    for move in moves:
        by_rule.setdefault(move.rule, []).append(move)

    def order(rule: str) -> tuple[int, int, int, str]:
        worst = min(rank(move.after) for move in by_rule[rule])
        return worst, _SEVEREST_FIRST.index(by_rule[rule][0].severity), -len(by_rule[rule]), rule

    if by_rule:
        page.heading(say("impact_rules"))
    for rule in sorted(by_rule, key=order):
        first = by_rule[rule][0]
        page.gap()
        page.text(say("impact_rule", rule=rule, severity=say(f"severity {first.severity}"), acts=first.acts), bold=True)
        page.text(first.title)
        page.rows(say("label_why"), _why(by_rule[rule]))
        for before, after, group in _by_move(by_rule[rule]):
            at = Counter(move.site for move in group)
            page.text(say("impact_at", before=_said(before), after=_said(after), count=len(group)), indent=3)
            page.text(say("list").join(_times(site, count) for site, count in sorted(at.items())), indent=6)


def _times(site: str, count: int) -> str:
    return site if count == 1 else say("impact_times", site=site, count=count)


def _by_move(moves: Iterable[Move]) -> Iterator[tuple[str, str, list[Move]]]:
    ordered = sorted(moves, key=lambda move: (rank(move.after), rank(move.before)))
    for (before, after), group in groupby(ordered, key=lambda move: (move.before, move.after)):
        yield before, after, list(group)


def _why(moves: Iterable[Move]) -> list[str]:
    """Every reason once, in the order in which they are met."""
    told: dict[str, None] = {}
    for move in moves:
        told |= dict.fromkeys(map(reason, move.why))
        if not move.why:
            told |= {say("impact_asked_now", authority=who, layer=layer): None for who, layer in move.asked_now}
            told |= {say("impact_asked_no_more", authority=who, layer=layer): None for who, layer in move.asked_no_more}
    return list(told)


def _site(page: Page, site: Judged) -> None:
    page.gap()
    page.text(say("impact_site", site=site.site, region=site.region, file=site.file), bold=True)
    for before, after, group in _by_move(site.moves):
        page.text(say("impact_at", before=_said(before), after=_said(after), count=len(group)), indent=3)
        for move in group:
            place = place_words(move.place, site.site, move.subject) or say("impact_whole_site")
            page.text(say("impact_line", rule=move.rule, place=place), indent=6, first="- ")


def _not_judged(page: Page, file: NotJudged) -> None:
    if not file.problems:
        page.text(say("impact_no_region", file=file.file), first="- ")
        return
    for problem in file.problems[:_MOST_PROBLEMS]:
        page.text(str(problem), first="- ")
    if len(file.problems) > _MOST_PROBLEMS:
        more = len(file.problems) - _MOST_PROBLEMS
        page.text(say("impact_more_problems", count=more), indent=2)
