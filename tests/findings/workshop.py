"""Small rulesets and sites of our own making, written in a test and read as any other."""

import datetime as dt
import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from textwrap import dedent
from typing import Any, get_args

from checker.findings.cases import case_facts
from checker.findings.check import check
from checker.findings.judge import Judgement, compile_rules, judge
from checker.findings.result import Finding, Result
from checker.reading import read_text
from checker.rules import Rulebook, read_rulesets
from checker.rules.model import Case, Place, Rule
from checker.site import read_site
from checker.vocabulary import Authority

DAY = dt.date(2026, 11, 25)
SOURCES = [
    {"id": "act", "kind": "law", "designation": "Workshop Act", "title": "An act", "edition": "1999"},
    {
        "id": "fire-code",
        "kind": "code",
        "designation": "Fire Code",
        "title": "A code",
        "address": "https://example.org",
    },
    {"id": "norm", "kind": "standard", "designation": "Norm 7", "title": "A standard", "edition": "2020"},
    {"id": "leaflet", "kind": "guidance", "designation": "Leaflet", "title": "Guidance"},
    {"id": "book", "kind": "handbook", "designation": "Shop Handbook", "title": "A handbook"},
]

Part = dict[str, Any]


def rule(id: str, each: str, require: str, **more: Any) -> Part:
    """A rule with what a test does not speak of filled in. Its topic is `shop`."""
    filled: Part = {
        "title": "Something is asked",
        "reason": "It matters.",
        "severity": "major",
        "acts": "shop",
        "closes_with": "a photo",
        "cases": [{"given": {}, "outcome": "undetermined"}],
    }
    return filled | {"id": f"shop.{id}", "each": each, "require": require} | more


def asks(id: str, authority: str = "good practice", source: str | Part = "common practice", **more: Any) -> Part:
    """A provision on a rule; a source is an id of SOURCES or a whole part."""
    if isinstance(source, str) and source != "common practice":
        source = {"ref": source, "status": "verified"}
    return {"rule": f"shop.{id}", "authority": authority, "judges": "operation", "source": source, **more}


def rulebook(
    folder: Path,
    rules: Sequence[Part],
    provisions: Sequence[Part] | Mapping[str, Sequence[Part]],
    tables: Sequence[Part] = (),
    **common: Any,
) -> Rulebook:
    """Layers read from files. Provisions by layer; a bare list is for `common`. More keys go into its layer.yaml."""
    by_layer = provisions if isinstance(provisions, Mapping) else {"common": provisions}
    _write(folder / "sources.yaml", {"sources": SOURCES})
    for name in dict.fromkeys(["common", *by_layer]):
        layer = {"name": name, "title": f"Layer {name}", "version": "1.0", "authorities": list(get_args(Authority))}
        of_common: Part = {"rules": list(rules), "tables": list(tables)} if name == "common" else {}
        _write(folder / name / "layer.yaml", layer | (common if name == "common" else {"extends": "common"}))
        _write(folder / name / "shop.yaml", of_common | {"provisions": list(by_layer.get(name, ()))})
    return read_rulesets(folder)


def _write(path: Path, parts: Part) -> None:
    path.parent.mkdir(exist_ok=True, parents=True)
    path.write_text(json.dumps(parts, indent=1), encoding="utf-8")


def judged(held: Rulebook, site: str, region: str | None = "common", as_of: dt.date = DAY) -> Result:
    """All findings of a site that is written in the test."""
    document = read_text("id: dockside\n" + dedent(site), "dockside.yaml")
    return check(read_site(document), held, region=region, as_of=as_of, program_version="0.0")


def only(result: Result) -> Finding:
    """The one finding of a result."""
    (finding,) = result.findings
    return finding


def judgement(held: Rulebook, given: Mapping[str, object], as_of: dt.date = DAY) -> Judgement:
    """What the only rule says of what is given."""
    (one,) = held.rules.values()
    return judge(compile_rules([one])[one.id], case_facts(one, case(given, as_of)))


def case(given: Mapping[str, object], as_of: dt.date = DAY) -> Case:
    """A case that nobody expects anything of."""
    return Case(given, "met", as_of, Place("shop.yaml", 1, 1))


def the_rule(held: Rulebook) -> Rule:
    """The only rule."""
    (one,) = held.rules.values()
    return one
