"""The models of a finding and of a result: all that a report may draw, and nothing it would have to compute.

Values are SI. Words for people and units of a country are made in checker/report/ from one file of sentences.
"""

import datetime as dt
from decimal import Decimal
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, PlainSerializer, Strict, WithJsonSchema

from checker.rules.vocabulary import Because, Binding, Outcome, Severity, Status

Number = Annotated[
    Decimal,
    Strict(),
    PlainSerializer(float, when_used="json"),
    WithJsonSchema({"type": "number"}, mode="serialization"),
]


class Record(BaseModel):
    """A frozen part of a result."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class Value(Record):
    """One value with the SI unit it stands in and, where a person wrote it, as written."""

    value: bool | Number | str = Field(description="SI number, answer, word, or ISO day")
    unit: str = Field(description="SI unit; empty for pure numbers and for what is no number")
    kind: str = Field(description="kind of quantity, or answer, word, date, period, text")
    as_written: str | None = Field(default=None, description="as the site file or the ruleset has it")


class Used(Record):
    """A recorded value that a finding rests on, and how it is known."""

    path: str
    of: str = Field(description="label of the thing it was recorded of")
    name: str
    value: Value
    evidence: str = Field(description="evidence word, the survey's own where the value has none")
    on: dt.date | None = None
    by: str | None = None
    instrument: str | None = None
    plus_minus: Value | None = Field(default=None, description="expanded uncertainty, k = 2")
    note: str | None = None
    photo: str | None = None
    result: str | None = Field(default=None, description="what a paper found: satisfactory or unsatisfactory")


class Part(Record):
    """One comparison or answer of a requirement, read off its expression."""

    text: str = Field(description="the part as the rule writes it")
    holds: bool | None = Field(description="null: unknown")
    operator: str | None = None
    measured: Value | None = None
    limit: Value | None = None
    margin: Value | None = Field(default=None, description="positive when there is room")
    governs: bool = False


class StepInput(Record):
    """One input of a step of working."""

    name: str
    value: Value


class Step(Record):
    """One computed quantity, with all that is needed to follow it by hand."""

    quantity: str
    subject: str
    formula: str
    inputs: tuple[StepInput, ...]
    result: Value
    source: str
    status: Literal["verified", "secondary", "memory", "definition"]
    leaves_out: str


class Need(Record):
    """What would settle a finding: a path to record, or others instead."""

    path: str
    because: Because
    why: str = ""
    instead: tuple[str, ...] = ()


class Location(Record):
    """A place in a file, counted from 1."""

    file: str
    line: int
    column: int


class Citation(Record):
    """Where a value comes from."""

    ref: str | None = Field(description="id in rulesets/sources.yaml; null for common practice")
    clause: str = ""
    kind: str = Field(description="law, code, standard, guidance, handbook, or common practice")
    status: Status
    read_in: str | None = Field(default=None, description="what was read instead of the source's own publication")
    citation: str = Field(description="the source as a report prints it, before the clause")
    address: str | None = None
    note: str = Field(default="", description="what to know about the value: exceptions, edition, how it was read")


class ProvisionResult(Record):
    """What one authority asks of one rule, and how the subject stands to it."""

    layer: str
    authority: str
    binding: Binding
    where_adopted: bool = Field(description="true: an adopted code whose adoption the site does not record")
    source: Citation
    limit: dict[str, Value]
    outcome: Outcome
    margin: Value | None
    governs: bool
    location: Location


class Subject(Record):
    """The thing a finding is about."""

    kind: str
    id: str = Field(description="id in the site; * for the rest of a list that is not all there is")
    label: str
    path: str
    place: tuple[str, ...] = Field(description="labels from the outermost place to the thing")


class Finding(Record):
    """One rule applied to one subject."""

    id: str = Field(description="SITE/RULE/SUBJECT")
    rule: str
    topic: str
    title: str
    reason: str
    subject: Subject
    outcome: Outcome
    because: Because | None
    severity: Severity
    measured: Value | None
    limit: Value | None
    operator: str | None
    margin: Value | None
    how: tuple[Used, ...]
    parts: tuple[Part, ...]
    working: tuple[Step, ...]
    needs: tuple[Need, ...]
    provisions: tuple[ProvisionResult, ...]
    source: Citation | None
    status: Status | None = Field(description="the weakest status of the governing value and of every formula used")
    to_be_confirmed: bool = Field(description="the governing value or a formula is from memory only")
    location: Location | None
    advice: str
    meanwhile: str
    acts: str
    closes_with: str
    photos: tuple[str, ...]
    fault: str = Field(default="", description="what broke, when the rule broke")


class Notice(Record):
    """Something to know beside the findings; the report has the sentence for its kind."""

    kind: str
    about: str
    values: dict[str, str]


class Layer(Record):
    """One ruleset layer that took part."""

    name: str
    title: str
    version: str
    digest: str


class NotCovered(Record):
    """Something an authority asks that this edition of the rulesets does not hold."""

    layer: str
    topic: str
    authority: str
    asks: str
    why: str


class Summary(Record):
    """Counts, never a score."""

    met: int
    not_met: int
    undetermined: int
    not_applicable: int
    broken: int
    not_met_by_severity: dict[str, int]
    undetermined_by_severity: dict[str, int]
    met_by_evidence: dict[str, int] = Field(description="weakest evidence word a met finding rests on")
    to_be_confirmed: int


class Program(Record):
    """What made a result."""

    name: str
    version: str


class SiteLabel(Record):
    """The site a result is about."""

    id: str
    name: str | None
    address: str | None
    file: str


class Valid(Record):
    """The days over which the result stays the same; null: without end on that side."""

    first: dt.date | None = Field(serialization_alias="from")
    until: dt.date | None


class Result(Record):
    """All findings of one site on one day against one set of layers."""

    schema_: str = Field(serialization_alias="schema")
    program: Program
    site: SiteLabel
    site_digest: str
    region: str
    as_of: dt.date
    valid: Valid
    decision: Literal["simple"]
    layers: tuple[Layer, ...]
    summary: Summary
    survey: dict[str, str] = Field(description="the survey record, as written")
    limits_of_survey: tuple[Need, ...] = Field(description="what was looked for and could not be reached, and why")
    assumed: tuple[Used, ...] = Field(description="values taken for granted, each with its reason as the note")
    notices: tuple[Notice, ...]
    not_covered: tuple[NotCovered, ...]
    findings: tuple[Finding, ...]
