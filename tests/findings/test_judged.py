"""What is taken over from an earlier judgement is what a new one gives, whatever changed in the rulesets."""

import datetime as dt
from collections.abc import Callable
from decimal import Decimal
from functools import cache
from random import Random
from typing import Any

import pytest
from msgspec.msgpack import Decoder, encode
from msgspec.structs import replace

from checker import shipped
from checker.answers.remedies import with_remedies
from checker.findings.check import judged
from checker.findings.judged import Judged
from checker.reading import read_file
from checker.rules import Rulebook, read_rulesets
from checker.rules.rulebook import NoRegion
from checker.site import Site, read_site
from tests.findings.test_kept import difference

DAY = dt.date(2026, 11, 25)
Edit = Callable[[Rulebook, Random], Rulebook]


@cache
def held() -> Rulebook:
    return read_rulesets(shipped.rulesets())


@cache
def sites() -> tuple[Site, ...]:
    return tuple(read_site(read_file(path)) for path in sorted(shipped.sites().glob("*.yaml")))


def found(site: Site, book: Rulebook, before: Judged | None, region: str | None = None) -> Judged:
    return judged(site, book, region=region, as_of=DAY, program_version="1", kept=None, before=before)


def kept(site: Site, one: Judged) -> Judged:
    """As it comes back from where it was kept, with remedies on it as a command keeps it."""
    whole = replace(one, result=with_remedies(site, one.result))
    return Decoder(Judged).decode(encode(whole))


def _provision(book: Rulebook, random: Random, change: Callable[[Any], Any]) -> Rulebook:
    provisions = list(book.all_provisions)
    number = random.randrange(len(provisions))
    changed = change(provisions[number])
    provisions[number : number + 1] = [] if changed is None else [changed]
    return replace(book, all_provisions=tuple(provisions))


def _rule(book: Rulebook, random: Random, change: Callable[[Any], Any]) -> Rulebook:
    name = random.choice(sorted(book.rules))
    return replace(book, rules={**book.rules, name: change(book.rules[name])})


def _scaled(provision: Any) -> Any:
    limits = {
        name: replace(limit, value=limit.value * Decimal("1.5"), written=f"more than {limit.written}")
        for name, limit in provision.limit.items()
        if isinstance(limit.value, Decimal)
    }
    return replace(provision, limit={**provision.limit, **limits})


def _noted(provision: Any) -> Any:
    return replace(provision, source=replace(provision.source, note="read again"))


def _by_another_table(provision: Any) -> Any:
    tables = {name: replace(table, rows=tuple(reversed(table.rows[:-1]))) for name, table in provision.tables.items()}
    return replace(provision, tables=tables)


EDITS: list[Edit] = [
    lambda book, random: _provision(book, random, _scaled),
    lambda book, random: _provision(book, random, _noted),
    lambda book, random: _provision(book, random, _by_another_table),
    lambda book, random: _provision(book, random, lambda _: None),
    lambda book, random: _provision(book, random, lambda each: replace(each, until=DAY)),
    lambda book, random: _provision(book, random, lambda each: replace(each, from_=DAY + dt.timedelta(9))),
    lambda book, random: _provision(book, random, lambda each: replace(each, judges="new work", until=DAY)),
    lambda book, random: _provision(book, random, lambda each: replace(each, layer=random.choice(["common", "us"]))),
    lambda book, random: _provision(book, random, lambda each: replace(each, authority="guidance")),
    lambda book, random: _rule(book, random, lambda each: replace(each, title=f"{each.title}, asked again")),
    lambda book, random: _rule(book, random, lambda each: replace(each, severity="observation", evidence="measured")),
    lambda book, random: _rule(book, random, lambda each: replace(each, when=None, when_tree=None)),
    lambda book, random: _rule(book, random, lambda each: replace(each, require_tree=["not", each.require_tree])),
    lambda book, _: replace(book, layers={**book.layers, "us": replace(book.layers["us"], extends=None)}),
    lambda book, _: book.with_layers(("example-house",)),
]


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("number", range(len(sites())), ids=[site.id for site in sites()])
def test_what_is_taken_over_is_what_is_found_anew(number: int, seed: int) -> None:
    random, site = Random(f"{number} {seed}"), sites()[number]
    book, before, taken, changed = held(), kept(site, found(site, held(), None)), 0, 0
    for edit in random.sample(EDITS, 5):
        book = edit(book, random)
        anew = found(site, book, None)
        again = found(site, book, before)
        assert difference(again, anew) == ""
        same = [rule for rule, of in anew.rules.items() if before.rules.get(rule) == of]
        taken, changed = taken + len(same), changed + len(anew.rules) - len(same)
        before = kept(site, again)
    assert taken > changed > 0


@pytest.mark.parametrize("site", sites(), ids=lambda site: site.id)
def test_nothing_is_taken_over_of_another_region(site: Site) -> None:
    before = found(site, held(), None, region="gb")
    assert difference(found(site, held(), before, region="us"), found(site, held(), None, region="us")) == ""


def test_of_the_same_rules_everything_is_taken_over(monkeypatch: pytest.MonkeyPatch) -> None:
    site = sites()[0]
    before = kept(site, found(site, held(), None))

    def never(*_: object) -> None:
        raise AssertionError("judged anew")

    monkeypatch.setattr("checker.findings.check.finding_for", never)
    monkeypatch.setattr("checker.findings.check.for_the_list", never)
    assert found(site, held(), before).rules == before.rules


def test_where_no_region_is_named_nothing_is_found(tmp_path: Any) -> None:
    path = tmp_path / "unit.yaml"
    path.write_text("id: unit\n", encoding="utf-8")
    with pytest.raises(NoRegion):
        found(read_site(read_file(path)), held(), None)
