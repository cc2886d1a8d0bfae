"""What ruleset files may hold: the models of a layer, a topic and the bibliography, as people write them.

The description of each field is what an editor, a template and a refusal say of it.
"""

from typing import Annotated, Any, Final, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from checker.vocabulary import Authority, Evidence, Judges, Outcome, ReadIn, Severity, SourceKind, Status, Trade

MARK: Final = "FILL_"
"""What the words begin with that a template leaves to be filled in; no file that holds one is read."""

Name = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$")]
RuleId = Annotated[str, Field(pattern=r"^[a-z][a-z0-9-]*\.[a-z0-9-]+$", examples=["fire.class-b-walk"])]
Id = Annotated[str, Field(pattern=r"^[a-z0-9][a-z0-9.-]*$")]
TableId = Annotated[str, Field(pattern=r"^([a-z0-9][a-z0-9.-]*|not asked)$")]
LayerName = Annotated[str, Field(pattern=r"^[a-z][a-z0-9-]*$")]
Day = Annotated[str, Field(pattern=r"^\d{4}-\d{2}-\d{2}$", examples=["2026-11-25"])]
Words = Annotated[str, Field(min_length=1)]


def _listed(raw: object) -> object:
    """`was: an.id` is short for a list of one."""
    return [raw] if isinstance(raw, str) else raw


def _folded(raw: object) -> object:
    """`source: common practice` is short for a source that is none."""
    return {"status": "common practice"} if raw == "common practice" else raw


class Part(BaseModel):
    """A part of a ruleset file."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)


class TableShapePart(Part):
    """What a rule asks of a table."""

    keys: dict[Name, str] = Field(description="kind of each key, in the order of the call; word for words")
    columns: dict[Name, str] = Field(description="kind of each column")


class CasePart(Part):
    """One proof of a rule: what is recorded, and what must come out."""

    given: dict[str, Any] = Field(description="what is recorded, by name; what is not given is not recorded")
    outcome: Outcome = Field(description="what must come out")
    as_of: Day | None = Field(default=None, description="the day of the check, where days count; else 2026-01-01")


class RulePart(Part):
    """One requirement, stated once; it is in force only where a provision gives all its limits and tables."""

    id: RuleId = Field(description="topic, dot, name; the topic is the name of the file; chosen once, for ever")
    was: Annotated[list[RuleId], BeforeValidator(_listed, json_schema_input_type=RuleId | list[RuleId])] = Field(
        default=[], description="the id it had before; a list of those of the rules that became one in it"
    )
    title: Words = Field(description="one sentence: what is asked")
    reason: Words = Field(description="one plain sentence: why it matters")
    each: str = Field(description="the kind of thing that is checked; each one gives a finding of its own")
    when: str | None = Field(default=None, description="expression: where the rule applies; absent: everywhere")
    require: str = Field(description="expression: what must hold")
    limit: dict[Name, str] = Field(default={}, description="name and kind of each limit that a provision gives")
    table: dict[Name, TableShapePart] = Field(default={}, description="tables that a provision gives")
    evidence: Evidence | None = Field(
        default=None, description="the least evidence that settles it; absent: whatever was recorded does"
    )
    severity: Severity = Field(description="what can come of it, to people first, then to property")
    acts: Trade = Field(description="who puts it right")
    closes_with: Words = Field(description="the proof that closes a finding: something to photograph or to file")
    advice: str = Field(
        default="",
        description="what to do, in Markdown; a limit of the rule stands in braces, as in {limit.walk}, for its value",
    )
    meanwhile: str = Field(
        default="", description="what to do until it is mended, written as the advice is; obligatory on critical rules"
    )
    cases: list[CasePart] = Field(
        min_length=1,
        description="its proofs: met, not met, undetermined, at the limit and just beside it; "
        "not applicable where there is a `when`",
    )


class SourcePart(Part):
    """Where the value of a provision comes from."""

    ref: Id | None = Field(default=None, description="id of the source in the bibliography; absent: common practice")
    clause: str = Field(default="", description="where in the source, in quotes: section, paragraph, table")
    status: Status = Field(
        description="verified: read in the source's own text; secondary: somebody else states it; "
        "memory: to be confirmed; common practice: no source"
    )
    read_in: ReadIn | None = Field(default=None, description="what was read instead of the publisher's own text")
    note: str = Field(default="", description="what a reader has to know of this value")


class ProvisionPart(Part):
    """What one authority asks of one rule, from a day until a day."""

    rule: RuleId = Field(description="id of the rule")
    authority: Authority = Field(description="who asks; one of the authorities of the layer")
    limit: dict[Name, Any] = Field(
        default={},
        description="value of each limit, in the unit of the source's own text; for a period also the words not asked",
    )
    table: dict[Name, TableId] = Field(
        default={},
        description="id of the table that stands for each of the rule's; for one of periods also the words not asked",
    )
    from_: Day | None = Field(default=None, alias="from", description="first day; absent: always was")
    until: Day | None = Field(default=None, description="last day; absent: without end")
    judges: Judges = Field(default="operation", description="what it binds: the running shop, new work, what exists")
    source: Annotated[
        SourcePart, BeforeValidator(_folded, json_schema_input_type=Literal["common practice"] | SourcePart)
    ] = Field(description="where the value comes from: {ref, clause, status}, or the words common practice")


class TablePart(Part):
    """Rows that a rule looks up by its keys."""

    id: Id = Field(description="the name that provisions give; unique in the layer")
    keys: dict[Name, str] = Field(description="kind of each key, in the order of the call; word for words")
    columns: dict[Name, str] = Field(description="kind of each column")
    rows: list[dict[str, Any]] = Field(
        min_length=1,
        description="a cell for each key and column; a key that is a number may be a band: {from, over, to, below}",
    )


class TopicFile(Part):
    """rulesets/LAYER/TOPIC.yaml."""

    rules: list[RulePart] = Field(default=[], description="requirements, each stated once for all layers below")
    tables: list[TablePart] = Field(default=[], description="tables that provisions of this layer or below name")
    provisions: list[ProvisionPart] = Field(default=[], description="what the authorities of this layer ask")


class NotHeldPart(Part):
    """Something an authority asks that the layer does not hold."""

    topic: Words = Field(description="what it is about")
    authority: Authority = Field(description="who asks it")
    asks: Words = Field(description="what is asked, in short")
    why: Words = Field(description="why it is not held")


class LayerFile(Part):
    """rulesets/LAYER/layer.yaml."""

    name: LayerName = Field(description="the same as the folder's")
    title: Words = Field(description="its name for people")
    extends: str | None = Field(default=None, description="the layer it stands on; absent where it lies on any region")
    version: Annotated[str, Field(pattern=r"^\d+\.\d+$", examples=["3.2"])] = Field(
        description="in quotes; the first part rises when some site may get another outcome, the second when only "
        "words or sources change"
    )
    authorities: list[Authority] = Field(description="who speaks in this layer")
    not_held: list[NotHeldPart] = Field(default=[], description="what they ask and this layer does not hold")


class SourceEntryPart(Part):
    """One entry of the bibliography."""

    id: Id = Field(description="the name that provisions give as ref")
    kind: SourceKind = Field(description="what it is")
    designation: Words = Field(description="number or short name, as it is cited")
    title: Words = Field(description="its title")
    edition: str | None = Field(default=None, description="year or number of the edition, in quotes")
    publisher: str = Field(default="", description="who publishes it")
    address: str | None = Field(default=None, description="where it can be read")
    note: str = Field(default="", description="what a reader has to know of it")


class SourcesFile(Part):
    """rulesets/sources.yaml, for all layers, or LAYER/sources.yaml."""

    sources: list[SourceEntryPart] = Field(description="the bibliography")
