"""What ruleset files may hold: the models of a layer, a topic and the bibliography, as people write them."""

from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from checker.rules.vocabulary import Authority, Evidence, Judges, Outcome, ReadIn, Severity, SourceKind, Status, Trade

Name = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$")]
RuleId = Annotated[str, Field(pattern=r"^[a-z][a-z0-9-]*\.[a-z0-9-]+$", examples=["fire.class-b-walk"])]
Id = Annotated[str, Field(pattern=r"^[a-z0-9][a-z0-9.-]*$")]
Day = Annotated[str, Field(pattern=r"^\d{4}-\d{2}-\d{2}$", examples=["2026-11-25"])]
Words = Annotated[str, Field(min_length=1)]


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

    given: dict[str, Any] = Field(description="dotted names from the subject; what is not given is not recorded")
    outcome: Outcome
    as_of: Day | None = None


class RulePart(Part):
    """One requirement, stated once."""

    id: RuleId
    was: RuleId | None = Field(default=None, description="the id it had before")
    title: Words = Field(description="one sentence: what is asked")
    reason: Words = Field(description="one plain sentence: why it matters")
    each: str = Field(description="the kind of thing that is checked")
    when: str | None = Field(default=None, description="expression: where the rule applies")
    require: str = Field(description="expression: what must hold")
    limit: dict[Name, str] = Field(default={}, description="name and kind of each limit that a provision gives")
    table: dict[Name, TableShapePart] = Field(default={}, description="tables that a provision gives")
    evidence: Evidence | None = Field(default=None, description="the least evidence that settles it")
    severity: Severity
    acts: Trade = Field(description="who puts it right")
    closes_with: Words = Field(description="the proof that closes a finding")
    advice: str = Field(default="", description="what to do, in Markdown")
    meanwhile: str = Field(default="", description="what to do until it is mended; obligatory on critical rules")
    cases: list[CasePart] = Field(min_length=1)


class SourcePart(Part):
    """Where the value of a provision comes from."""

    ref: Id | None = None
    clause: str = ""
    status: Status
    read_in: ReadIn | None = Field(default=None, description="what was read instead of the publisher's own text")
    note: str = ""


class ProvisionPart(Part):
    """What one authority asks of one rule, from a day until a day."""

    rule: RuleId
    authority: Authority
    limit: dict[Name, Any] = Field(default={}, description="value of each limit, in the unit of the source")
    table: dict[Name, Id] = Field(default={}, description="id of the table that stands for each of the rule's")
    from_: Day | None = Field(default=None, alias="from", description="first day; absent: always was")
    until: Day | None = Field(default=None, description="last day")
    judges: Judges = "operation"
    source: Annotated[SourcePart, BeforeValidator(_folded)]


class TablePart(Part):
    """Rows that a rule looks up by its keys."""

    id: Id
    keys: dict[Name, str]
    columns: dict[Name, str]
    rows: list[dict[str, Any]] = Field(min_length=1)


class TopicFile(Part):
    """rulesets/LAYER/TOPIC.yaml."""

    rules: list[RulePart] = []
    tables: list[TablePart] = []
    provisions: list[ProvisionPart] = []


class NotHeldPart(Part):
    """Something an authority asks that the layer does not hold."""

    topic: Words
    authority: Authority
    asks: Words
    why: Words


class LayerFile(Part):
    """rulesets/LAYER/layer.yaml."""

    name: Annotated[str, Field(pattern=r"^[a-z][a-z0-9-]*$")]
    title: Words
    extends: str | None = None
    version: Annotated[str, Field(pattern=r"^\d+\.\d+$", examples=["3.2"])]
    authorities: list[Authority]
    not_held: list[NotHeldPart] = []


class SourceEntryPart(Part):
    """One entry of the bibliography."""

    id: Id
    kind: SourceKind
    designation: Words
    title: Words
    edition: str | None = None
    publisher: str = ""
    address: str | None = None
    note: str = ""


class SourcesFile(Part):
    """rulesets/sources.yaml."""

    sources: list[SourceEntryPart]
