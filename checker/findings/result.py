"""The parts of a finding and of a result: all that a report may draw, and nothing it would have to compute.

`result_json` has pydantic make JSON and its schema of them.

Values are SI. Words for people and units of a country are made in checker/report/ from one file of sentences.
"""

import datetime as dt
from decimal import Decimal
from typing import TYPE_CHECKING, Annotated, ClassVar, Final, Literal

from msgspec.structs import force_setattr

from checker.findings.notes import Says, Written, WrittenAsNumber
from checker.findings.storey import Storey
from checker.vocabulary import Because, Binding, Outcome, Severity, Status

if TYPE_CHECKING:
    Number = Annotated[Decimal, WrittenAsNumber()]
else:  # msgspec, which keeps results between runs, tells no decimal from a word: it keeps the digits
    Number = Annotated[str, WrittenAsNumber()]
NO_NUMBERS: Final = frozenset({"answer", "word", "date", "period", "text"})
"""Kinds of values that are no numbers."""


class Value(Written, frozen=True, kw_only=True):
    """One value with the SI unit it stands in and, where a person wrote it, as written."""

    value: Annotated[bool | Number | str, Says("SI number, answer, word, or ISO day")]
    unit: Annotated[str, Says("SI unit; empty for pure numbers and for what is no number")]
    kind: Annotated[str, Says("kind of quantity, or answer, word, date, period, text")]
    as_written: Annotated[str | None, Says("as the site file or the ruleset has it")] = None

    def __post_init__(self) -> None:
        """Make a number of the digits that were kept of one."""
        if type(self.value) is str and self.kind not in NO_NUMBERS:
            force_setattr(self, "value", Decimal(self.value))


class Used(Written, frozen=True, kw_only=True):
    """A recorded value that a finding rests on, and how it is known."""

    path: str
    of: Annotated[str, Says("label of the thing it was recorded of")]
    name: str
    value: Value
    evidence: Annotated[str, Says("evidence word, the survey's own where the value has none")]
    on: dt.date | None = None
    by: str | None = None
    instrument: str | None = None
    plus_minus: Annotated[Value | None, Says("expanded uncertainty, k = 2")] = None
    note: str | None = None
    photo: str | None = None
    result: Annotated[str | None, Says("what a paper found: satisfactory or unsatisfactory")] = None
    on_plan: Annotated[bool, Says("true: read off the floor plan as a whole")] = False


class Clock(Written, frozen=True, kw_only=True):
    """What a part counts, where it says that something may not have fallen due."""

    number: Annotated[int, Says("the same for parts that count one period from several days, of which one is enough")]
    name: Annotated[str, Says("what the period is called")]
    every: Annotated[Value | None, Says("the period; null: unknown")] = None
    since: Annotated[str, Says("the day it counts from, by name")]
    on: Annotated[Value | None, Says("that day; null: unknown")] = None
    leads: Annotated[bool, Says("whether no other part of the clock falls due later, as far as is known")] = False


class Part(Written, frozen=True, kw_only=True):
    """One comparison or answer of a requirement, read off its expression."""

    text: Annotated[str, Says("the part as the rule writes it")]
    holds: Annotated[bool | None, Says("null: unknown")]
    operator: str | None = None
    measured: Value | None = None
    limit: Value | None = None
    margin: Annotated[Value | None, Says("positive when there is room")] = None
    governs: bool = False
    clock: Clock | None = None
    either: Annotated[
        Literal["", "counts", "aside"],
        Says("of one of several of which one is enough: whether it counts, or stands aside since another decides"),
    ] = ""


class StepInput(Written, frozen=True, kw_only=True):
    """One input of a step of working."""

    name: str
    value: Value


class Figure(Written, frozen=True, kw_only=True):
    """What a step measured on a floor plan: points in metres in the frame of the storey."""

    what: str
    room: Annotated[str, Says("id of a room on the storey")]
    points: tuple[tuple[float, float], ...]
    ends_at: Annotated[str, Says("what a walk ends at: extinguisher, exit")] = ""
    targets: Annotated[
        tuple[tuple[float, float], ...], Says("where there are such things; a walk ends at the nearest")
    ] = ()
    between: Annotated[str, Says("of a gap the two things that it lies between; else empty")] = ""


class Step(Written, frozen=True, kw_only=True):
    """One computed quantity, with all that is needed to follow it by hand."""

    quantity: str
    subject: str
    formula: str
    inputs: tuple[StepInput, ...]
    result: Value
    source: str
    status: Literal["verified", "secondary", "memory", "definition"]
    leaves_out: str
    figure: Figure | None = None


class Need(Written, frozen=True, kw_only=True):
    """What would settle a finding: a path to record, or others instead."""

    path: str
    because: Because
    why: str = ""
    instead: tuple[str, ...] = ()


class Location(Written, frozen=True, kw_only=True):
    """A place in a file, counted from 1."""

    file: str
    line: int
    column: int


class Citation(Written, frozen=True, kw_only=True):
    """Where a value comes from."""

    ref: Annotated[str | None, Says("id in rulesets/sources.yaml; null for common practice")]
    clause: str = ""
    kind: Annotated[str, Says("law, code, standard, guidance, handbook, or common practice")]
    status: Status
    read_in: Annotated[str | None, Says("what was read instead of the source's own publication")] = None
    citation: Annotated[str, Says("the source as a report prints it, before the clause")]
    address: str | None = None
    note: Annotated[str, Says("what to know about the value: exceptions, edition, how it was read")] = ""


class ProvisionResult(Written, frozen=True, kw_only=True):
    """What one authority asks of one rule, and how the subject stands to it."""

    layer: str
    authority: str
    binding: Binding
    where_adopted: Annotated[bool, Says("true: an adopted code whose adoption the site does not record")]
    does_not_bind: Annotated[
        Literal["", "nobody employed", "no code adopted"],
        Says("why what is asked does not bind here, though it is shown; empty where it may bind"),
    ]
    adopted_edition: Annotated[
        str | None, Says("the edition that the site records as adopted, where it is another than was read")
    ]
    source: Citation
    limit: dict[str, Value]
    outcome: Outcome
    margin: Value | None
    governs: bool
    location: Location
    parts: Annotated[
        tuple[Part, ...],
        Says("its own parts, of a rule that tells of clocks; of the one that governs they are the finding's"),
    ] = ()


class Granted(Written, frozen=True, kw_only=True):
    """An exception, or an alternative that was accepted: a mark on a finding that stays not met."""

    authority: str
    by: str
    why: str
    since: dt.date
    until: dt.date | None
    interim: str
    paper: str
    conditions: str


class Subject(Written, frozen=True, kw_only=True):
    """The thing a finding is about."""

    kind: str
    id: Annotated[str, Says("id in the site; * for the rest of a list that is not all there is")]
    label: str
    path: str
    place: Annotated[tuple[str, ...], Says("labels from the outermost place to the thing")]


class Remedy(Written, frozen=True, kw_only=True):
    """One more unit on a wall that would bring what is too far within reach; points in metres."""

    room: Annotated[str, Says("id of a room on the storey")]
    place: Annotated[tuple[float, float] | None, Says("where on a wall; null: no single place is enough")]
    walk_then: Annotated[Value | None, Says("the longest walk once it hangs there")]
    beyond_area: Annotated[Value | None, Says("floor of the room that is out of reach now")]
    beyond_share: Value | None
    contour: Annotated[tuple[tuple[tuple[float, float], ...], ...], Says("lines at the limit from what is there now")]


class Finding(Written, frozen=True, kw_only=True):
    """One rule applied to one subject."""

    id: Annotated[str, Says("SITE/RULE/SUBJECT")]
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
    status: Annotated[Status | None, Says("the weakest status of the governing value and of every formula used")]
    to_be_confirmed: Annotated[bool, Says("the governing value or a formula is from memory only")]
    location: Location | None
    advice: str
    meanwhile: str
    acts: str
    closes_with: str
    photos: tuple[str, ...]
    exception: Granted | None = None
    accepted_alternative: Granted | None = None
    fault: Annotated[str, Says("what broke, when the rule broke")] = ""
    remedy: Remedy | None = None
    taken: Annotated[
        Literal["", "longest", "shortest"],
        Says("the reading of the floor plan it was judged by, where something on that is not known"),
    ] = ""


class Turn(Written, frozen=True, kw_only=True):
    """A finding that a decided change of what is asked will turn, or will hold to more."""

    day: dt.date
    finding: str
    title: str
    subject: Subject
    before: Annotated[str, Says("outcome on the day before; not asked: no authority asks it then")]
    after: Annotated[str, Says("outcome on that day; as before: it stays not met, and more is asked")]
    provisions: tuple[ProvisionResult, ...]


class Notice(Written, frozen=True, kw_only=True):
    """Something to know beside the findings; the report has the sentence for its kind."""

    kind: str
    about: str
    values: dict[str, str]


class Layer(Written, frozen=True, kw_only=True):
    """One ruleset layer that took part."""

    name: str
    title: str
    version: str
    digest: str


class NotCovered(Written, frozen=True, kw_only=True):
    """Something an authority asks that this edition of the rulesets does not hold."""

    layer: str
    topic: str
    authority: str
    asks: str
    why: str


class Summary(Written, frozen=True, kw_only=True):
    """Counts, never a score."""

    met: int
    not_met: int
    undetermined: int
    not_applicable: int
    broken: int
    not_met_by_severity: dict[str, int]
    undetermined_by_severity: dict[str, int]
    met_by_evidence: Annotated[dict[str, int], Says("weakest evidence word a met finding rests on")]
    to_be_confirmed: int
    excepted: Annotated[int, Says("of those not met: under an exception or an accepted alternative")] = 0


class Program(Written, frozen=True, kw_only=True):
    """What made a result."""

    name: str
    version: str


class SiteLabel(Written, frozen=True, kw_only=True):
    """The site a result is about."""

    id: str
    name: str | None
    address: str | None
    file: str


class Valid(Written, frozen=True, kw_only=True):
    """The days over which the result stays the same; null: without end on that side."""

    written_as: ClassVar = {"first": "from"}

    first: dt.date | None
    until: dt.date | None


class Result(Written, frozen=True, kw_only=True):
    """All findings of one site on one day against one set of layers."""

    written_as: ClassVar = {"schema_": "schema"}

    schema_: str
    program: Program
    site: SiteLabel
    site_digest: str
    region: str
    as_of: dt.date
    valid: Valid
    decision: Literal["simple"]
    layers: tuple[Layer, ...]
    summary: Summary
    survey: Annotated[dict[str, str], Says("the survey record, as written")]
    limits_of_survey: Annotated[tuple[Need, ...], Says("what was looked for and could not be reached, and why")]
    assumed: Annotated[tuple[Used, ...], Says("values taken for granted, each with its reason as the note")]
    notices: tuple[Notice, ...]
    not_covered: tuple[NotCovered, ...]
    findings: tuple[Finding, ...]
    storeys: Annotated[tuple[Storey, ...], Says("floor plans; empty where no room has a place")] = ()
    upcoming: Annotated[tuple[Turn, ...] | None, Says("what decided changes will turn; null: not asked for")] = None
