"""What each authority asks, side by side; the strictest governs and every one that asks is cited."""

import re
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Final, Literal

from msgspec import Struct

from checker.findings.judge import Asked, Compiled, Judgement
from checker.findings.result import Citation, Location, Part, ProvisionResult, Value
from checker.findings.strictness import Strictness, strictness
from checker.findings.values import margin_kind, value
from checker.rules.advice import with_limits
from checker.rules.model import Provision, Rule, SourceUse
from checker.units import NOT_ASKED
from checker.vocabulary import Binding, Outcome, SourceKind, Status

WORST_FIRST: Final[tuple[Outcome, ...]] = ("not met", "undetermined", "met", "not applicable")
BINDS_MOST_FIRST: Final[tuple[Binding, ...]] = (
    *("law", "adopted code", "contract", "own standard", "manual", "standard", "guidance", "good practice"),
)
WEAKEST_FIRST: Final[tuple[Status, ...]] = ("memory", "secondary", "common practice", "verified")
ADOPTED = frozenset({"fire code", "building code", "mechanical code", "wiring rules"})
_BINDING: Final[dict[SourceKind, Binding]] = {
    "law": "law",
    "code": "adopted code",
    "standard": "standard",
    "guidance": "guidance",
    "handbook": "guidance",
    "contract": "contract",
    "own standard": "own standard",
    "manual": "manual",
}


class Demand(Struct, frozen=True):
    """What one authority asks, made ready to be applied to many things."""

    provision: Provision
    limits: Asked
    tables: Asked
    shown: Mapping[str, Value]
    advice: str
    """The rule's advice with each limit as the provision writes it; so `meanwhile`."""
    meanwhile: str
    source: Citation
    binding: Binding
    where_adopted: bool
    does_not_bind: Literal["", "nobody employed", "no code adopted"]
    adopted_edition: str | None
    location: Location


def strictest(demands: Sequence[Demand], judgements: Mapping[int, Judgement], compiled: Compiled) -> int:
    """The number of the provision that governs: worst outcome, then least room for its size, then what binds most.

    Between those that come out alike, the stricter limit goes before what binds most: nobody is held to the laxer
    because nothing was measured. The order of the provisions does not count.
    """
    if len(judgements) == 1:
        return next(iter(judgements))

    def outcome(number: int) -> tuple[int, bool, Decimal]:
        judgement = judgements[number]
        slack = judgement.governing.slack if judgement.governing else None
        return WORST_FIRST.index(judgement.outcome), slack is None, slack or Decimal(0)

    def among_alike(number: int) -> tuple[Strictness, int, str, str]:
        provision = demands[number].provision
        limits = strictness(compiled.specs, provision, judgements[number])
        return limits, BINDS_MOST_FIRST.index(demands[number].binding), provision.authority, provision.layer

    outcomes = {number: outcome(number) for number in judgements}
    worst = min(outcomes.values())
    alike = [number for number, each in outcomes.items() if each == worst]
    return alike[0] if len(alike) == 1 else min(alike, key=among_alike)


def weakest(own: Status, others: Iterable[str]) -> Status:
    """The weakest status among a value's own and those of the formulas it is compared with."""
    known = {own, *others}
    return next(status for status in WEAKEST_FIRST if status in known)


def citation(use: SourceUse) -> Citation:
    """A source as a report prints it; a clause known from memory only is not shown in letters."""
    if use.source is None:
        return Citation(ref=None, kind="common practice", status="common practice", citation="common practice")
    source = use.source
    clause = "" if use.status == "memory" else use.clause
    words = " ".join(word for word in (source.designation, source.edition or "") if word)
    return Citation(
        ref=source.id,
        clause=clause,
        kind=source.kind,
        status=use.status,
        read_in=use.read_in,
        citation=words,
        address=source.address,
        note=use.note,
    )


def binding(provision: Provision) -> Binding:
    """How what is asked binds: by law, where adopted, as standard, guidance, or good practice.

    A note of a code that only advises is guidance.
    """
    source = provision.source.source
    if provision.authority == "good practice" or source is None:
        return "good practice"
    if provision.authority == "guidance":
        return "guidance"
    return _BINDING[source.kind]


class Bound(Struct, frozen=True):
    """What a site records of what binds it."""

    adopted: tuple[tuple[str, str | None], ...] | None
    """Codes and editions; None where nothing is recorded, empty where it is recorded that none is adopted."""
    employer: bool | None

    def why_not(self, authority: str) -> Literal["", "nobody employed", "no code adopted"]:
        """Why what an authority asks does not bind here; empty where it does, or where that is not known."""
        if authority == "workplace law" and self.employer is False:
            return "nobody employed"
        return "no code adopted" if authority in ADOPTED and self.adopted == () else ""

    def another_edition(self, authority: str, read: str | None) -> str | None:
        """The edition recorded as adopted, where its year is not that of the edition that was read."""
        adopted = dict(self.adopted or ()).get(authority)
        years = [re.findall(r"(?:19|20)[0-9]{2}", edition or "") for edition in (adopted, read)]
        return adopted if all(years) and not set(years[0]) & set(years[1]) else None


def demand(rule: Rule, provision: Provision, bound: Bound) -> Demand:
    """What a provision asks of a rule, made ready for a site."""
    source = provision.source.source
    made = ((name, value(limit.value, limit.kind, limit.written)) for name, limit in sorted(provision.limit.items()))
    asked = {name for name, limit in provision.limit.items() if limit.value != NOT_ASKED}
    written = {name: limit.written for name, limit in provision.limit.items()}
    place = provision.location
    return Demand(
        provision=provision,
        limits=Asked("limit", {name: limit.value for name, limit in provision.limit.items()}),
        tables=Asked("table", {name: table.called() for name, table in provision.tables.items()}),
        shown={name: each for name, each in made if each is not None and name in asked},
        advice=with_limits(rule.advice, written),
        meanwhile=with_limits(rule.meanwhile, written),
        source=citation(provision.source),
        binding=binding(provision),
        where_adopted=provision.authority in ADOPTED and provision.authority not in dict(bound.adopted or ()),
        does_not_bind=bound.why_not(provision.authority),
        adopted_edition=bound.another_edition(provision.authority, source.edition if source else None),
        location=Location(file=place.file, line=place.line, column=place.column),
    )


def provision_result(
    asked: Demand, judgement: Judgement, *, governs: bool, parts: Mapping[int, Part]
) -> ProvisionResult:
    """One provision with its own outcome and margin; with its own parts where the finding has those of another."""
    reading = judgement.governing
    return ProvisionResult(
        layer=asked.provision.layer,
        authority=asked.provision.authority,
        binding=asked.binding,
        where_adopted=asked.where_adopted and not asked.does_not_bind,
        does_not_bind=asked.does_not_bind,
        adopted_edition=asked.adopted_edition,
        source=asked.source,
        limit=dict(asked.shown),
        outcome=judgement.outcome,
        margin=value(reading.told, margin_kind(reading.spec.kind)) if reading else None,
        governs=governs,
        parts=() if governs else tuple(parts.values()),
        location=asked.location,
    )
