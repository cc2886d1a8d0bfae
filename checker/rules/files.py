"""What ruleset files may hold: the parts of a layer, a topic and the bibliography, as people write them.

The description of each field is what an editor, a template and a refusal say of it.
"""

from collections.abc import Callable, Mapping
from typing import Annotated, Any, Final

from msgspec import Meta, Struct, field

from checker.vocabulary import Authority, Evidence, Judges, Outcome, ReadIn, Severity, SourceKind, Status, Trade

MARK: Final = "FILL_"
"""What the words begin with that a template leaves to be filled in; no file that holds one is read."""

Name = Annotated[str, Meta(pattern=r"^[a-z][a-z0-9_]*$")]
RuleId = Annotated[str, Meta(pattern=r"^[a-z][a-z0-9-]*\.[a-z0-9-]+$", examples=["fire.class-b-walk"])]
Id = Annotated[str, Meta(pattern=r"^[a-z0-9][a-z0-9.-]*$")]
TableId = Annotated[str, Meta(pattern=r"^([a-z0-9][a-z0-9.-]*|not asked)$")]
LayerName = Annotated[str, Meta(pattern=r"^[a-z][a-z0-9-]*$")]
Version = Annotated[str, Meta(pattern=r"^\d+\.\d+$", examples=["3.2"])]
Day = Annotated[str, Meta(pattern=r"^\d{4}-\d{2}-\d{2}$", examples=["2026-11-25"])]
Words = Annotated[str, Meta(min_length=1)]


class Part(Struct, frozen=True, forbid_unknown_fields=True):
    """A part of a ruleset file."""


class TableShapePart(Part, frozen=True, kw_only=True):
    """What a rule asks of a table."""

    keys: Annotated[dict[Name, str], Meta(description="kind of each key, in the order of the call; word for words")]
    columns: Annotated[dict[Name, str], Meta(description="kind of each column")]


class CasePart(Part, frozen=True, kw_only=True):
    """One proof of a rule: what is recorded, and what must come out."""

    given: Annotated[dict[str, Any], Meta(description="what is recorded, by name; what is not given is not recorded")]
    outcome: Annotated[Outcome, Meta(description="what must come out")]
    as_of: Annotated[Day | None, Meta(description="the day of the check, where days count; else 2026-01-01")] = None


class RulePart(Part, frozen=True, kw_only=True):
    """One requirement, stated once; it is in force only where a provision gives all its limits and tables."""

    id: Annotated[
        RuleId, Meta(description="topic, dot, name; the topic is the name of the file; chosen once, for ever")
    ]
    was: Annotated[
        list[RuleId], Meta(description="the id it had before; a list of those of the rules that became one in it")
    ] = []
    title: Annotated[Words, Meta(description="one sentence: what is asked")]
    reason: Annotated[Words, Meta(description="one plain sentence: why it matters")]
    each: Annotated[str, Meta(description="the kind of thing that is checked; each one gives a finding of its own")]
    when: Annotated[str | None, Meta(description="expression: where the rule applies; absent: everywhere")] = None
    require: Annotated[str, Meta(description="expression: what must hold")]
    limit: Annotated[dict[Name, str], Meta(description="name and kind of each limit that a provision gives")] = {}
    table: Annotated[dict[Name, TableShapePart], Meta(description="tables that a provision gives")] = {}
    evidence: Annotated[
        Evidence | None, Meta(description="the least evidence that settles it; absent: whatever was recorded does")
    ] = None
    severity: Annotated[Severity, Meta(description="what can come of it, to people first, then to property")]
    acts: Annotated[Trade, Meta(description="who puts it right")]
    closes_with: Annotated[
        Words, Meta(description="the proof that closes a finding: something to photograph or to file")
    ]
    advice: Annotated[
        str,
        Meta(
            description="what to do, in Markdown; a limit of the rule stands in braces, as in {limit.walk}, "
            "for its value"
        ),
    ] = ""
    meanwhile: Annotated[
        str, Meta(description="what to do until it is mended, written as the advice is; obligatory on critical rules")
    ] = ""
    cases: Annotated[
        list[CasePart],
        Meta(
            description="its proofs: met, not met, undetermined, at the limit and just beside it; "
            "not applicable where there is a `when`",
            min_length=1,
        ),
    ]


class SourcePart(Part, frozen=True, kw_only=True):
    """Where the value of a provision comes from."""

    ref: Annotated[Id | None, Meta(description="id of the source in the bibliography; absent: common practice")] = None
    clause: Annotated[str, Meta(description="where in the source, in quotes: section, paragraph, table")] = ""
    status: Annotated[
        Status,
        Meta(
            description="verified: read in the source's own text; secondary: somebody else states it; "
            "memory: to be confirmed; common practice: no source"
        ),
    ]
    read_in: Annotated[ReadIn | None, Meta(description="what was read instead of the publisher's own text")] = None
    note: Annotated[str, Meta(description="what a reader has to know of this value")] = ""


class ProvisionPart(Part, frozen=True, kw_only=True):
    """What one authority asks of one rule, from a day until a day."""

    rule: Annotated[RuleId, Meta(description="id of the rule")]
    authority: Annotated[Authority, Meta(description="who asks; one of the authorities of the layer")]
    limit: Annotated[
        dict[Name, Any],
        Meta(
            description="value of each limit, in the unit of the source's own text; "
            "for a period also the words not asked"
        ),
    ] = {}
    table: Annotated[
        dict[Name, TableId],
        Meta(
            description="id of the table that stands for each of the rule's; "
            "for one of periods also the words not asked"
        ),
    ] = {}
    from_: Annotated[Day | None, Meta(description="first day; absent: always was")] = field(default=None, name="from")
    until: Annotated[Day | None, Meta(description="last day; absent: without end")] = None
    judges: Annotated[Judges, Meta(description="what it binds: the running shop, new work, what exists")] = "operation"
    source: Annotated[
        SourcePart, Meta(description="where the value comes from: {ref, clause, status}, or the words common practice")
    ]


class TablePart(Part, frozen=True, kw_only=True):
    """Rows that a rule looks up by its keys."""

    id: Annotated[Id, Meta(description="the name that provisions give; unique in the layer")]
    keys: Annotated[dict[Name, str], Meta(description="kind of each key, in the order of the call; word for words")]
    columns: Annotated[dict[Name, str], Meta(description="kind of each column")]
    rows: Annotated[
        list[dict[str, Any]],
        Meta(
            description="a cell for each key and column; a key that is a number may be a band: {from, over, to, below}",
            min_length=1,
        ),
    ]


class TopicFile(Part, frozen=True, kw_only=True):
    """rulesets/LAYER/TOPIC.yaml."""

    rules: Annotated[list[RulePart], Meta(description="requirements, each stated once for all layers below")] = []
    tables: Annotated[list[TablePart], Meta(description="tables that provisions of this layer or below name")] = []
    provisions: Annotated[list[ProvisionPart], Meta(description="what the authorities of this layer ask")] = []


class NotHeldPart(Part, frozen=True, kw_only=True):
    """Something an authority asks that the layer does not hold."""

    topic: Annotated[Words, Meta(description="what it is about")]
    authority: Annotated[Authority, Meta(description="who asks it")]
    asks: Annotated[Words, Meta(description="what is asked, in short")]
    why: Annotated[Words, Meta(description="why it is not held")]


class LayerFile(Part, frozen=True, kw_only=True):
    """rulesets/LAYER/layer.yaml."""

    name: Annotated[LayerName, Meta(description="the same as the folder's")]
    title: Annotated[Words, Meta(description="its name for people")]
    extends: Annotated[str | None, Meta(description="the layer it stands on; absent where it lies on any region")] = (
        None
    )
    version: Annotated[
        Version,
        Meta(
            description="in quotes; the first part rises when some site may get another outcome, the second when only "
            "words or sources change"
        ),
    ]
    authorities: Annotated[list[Authority], Meta(description="who speaks in this layer")]
    not_held: Annotated[list[NotHeldPart], Meta(description="what they ask and this layer does not hold")] = []


class SourceEntryPart(Part, frozen=True, kw_only=True):
    """One entry of the bibliography."""

    id: Annotated[Id, Meta(description="the name that provisions give as ref")]
    kind: Annotated[SourceKind, Meta(description="what it is")]
    designation: Annotated[Words, Meta(description="number or short name, as it is cited")]
    title: Annotated[Words, Meta(description="its title")]
    edition: Annotated[str | None, Meta(description="year or number of the edition, in quotes")] = None
    publisher: Annotated[str, Meta(description="who publishes it")] = ""
    address: Annotated[str | None, Meta(description="where it can be read")] = None
    note: Annotated[str, Meta(description="what a reader has to know of it")] = ""


class SourcesFile(Part, frozen=True, kw_only=True):
    """rulesets/sources.yaml, for all layers, or LAYER/sources.yaml."""

    sources: Annotated[list[SourceEntryPart], Meta(description="the bibliography")]


def _listed(raw: object) -> object:
    return [raw] if isinstance(raw, str) else raw


def _folded(raw: object) -> object:
    return {"status": "common practice"} if raw == "common practice" else raw


SHORT: Final[Mapping[tuple[type[Part], str], Callable[[object], object]]] = {
    (RulePart, "was"): _listed,
    (ProvisionPart, "source"): _folded,
}
"""What may be written in short: an id alone for a list of one, the words common practice for a source that is none."""
