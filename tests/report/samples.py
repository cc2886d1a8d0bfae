"""Results built by hand, in an invented scenario: two workshops, every outcome, and one whose texts are hostile."""

import datetime as dt
import itertools
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from msgspec import Struct
from msgspec.structs import fields, replace

from checker.findings.result import (
    Citation,
    Finding,
    Layer,
    Location,
    Need,
    NotCovered,
    Notice,
    Outcome,
    Part,
    Program,
    ProvisionResult,
    Result,
    SiteLabel,
    Step,
    StepInput,
    Subject,
    Summary,
    Used,
    Valid,
    Value,
)

DAY = dt.date(2026, 11, 25)
SEEN_ON = dt.date(2026, 11, 3)
COMMON = Citation(ref=None, kind="common practice", status="common practice", citation="common practice")
HOSTILE = "Bay \x1b[31mred\x1b[0m\x07\n\u202egnp.exe {0} %s <b>x</b> " + "W" * 90 + " 車検場の作業室" * 12


def value(number: str | bool, kind: str, unit: str = "", as_written: str | None = None) -> Value:
    plain = kind in ("answer", "word", "date", "period", "text")
    return Value(value=number if plain else Decimal(number), unit=unit, kind=kind, as_written=as_written)


def length(metres: str, as_written: str | None = None) -> Value:
    return value(metres, "length", "m", as_written)


def answer(yes: bool) -> Value:
    return value(yes, "answer", as_written="yes" if yes else "no")


def used(path: str, its: Value, evidence: str = "seen", **more: Any) -> Used:
    of, _, name = path.rpartition(".")
    return Used(path=path, of=more.pop("of", of), name=name, value=its, evidence=evidence, **more)


def subject(kind: str, id_: str, label: str, *rooms: str) -> Subject:
    return Subject(kind=kind, id=id_, label=label, path=f"{kind}s[{id_}]", place=(*rooms, label))


def provision(
    source: Citation, authority: str, outcome: Outcome, layer: str = "us", governs: bool = True, **more: Any
) -> ProvisionResult:
    told: dict[str, Any] = {
        "binding": "law",
        "where_adopted": False,
        "does_not_bind": "",
        "adopted_edition": None,
        "limit": {},
        "margin": None,
        "location": Location(file=f"rulesets/{layer}/topic.yaml", line=12, column=5),
    }
    return ProvisionResult(
        layer=layer, authority=authority, source=source, outcome=outcome, governs=governs, **{**told, **more}
    )


def finding(
    site: str, rule: str, about: Subject, outcome: Outcome, provisions: list[ProvisionResult], **more: Any
) -> Finding:
    told: dict[str, Any] = {
        "because": "not recorded" if outcome == "undetermined" else None,
        "measured": None,
        "limit": None,
        "operator": None,
        "margin": None,
        "how": (),
        "parts": (),
        "working": (),
        "needs": (),
        "status": provisions[0].source.status,
        "to_be_confirmed": provisions[0].source.status == "memory",
        "location": provisions[0].location,
        "advice": "",
        "meanwhile": "",
        "acts": "shop",
        "closes_with": "a photo",
        "photos": (),
    }
    return Finding(
        id=f"{site}/{rule}/{about.id}",
        rule=rule,
        topic=rule.partition(".")[0],
        subject=about,
        outcome=outcome,
        provisions=tuple(provisions),
        source=provisions[0].source,
        **{**told, **more},
    )


def summary_of(findings: list[Finding], by_evidence: dict[str, int]) -> Summary:
    def count(outcome: str, severity: str | None = None) -> int:
        return sum(one.outcome == outcome and severity in (None, one.severity) for one in findings)

    severities = ("critical", "major", "minor", "observation")
    return Summary(
        met=count("met"),
        not_met=count("not met"),
        undetermined=count("undetermined"),
        not_applicable=count("not applicable"),
        broken=sum(one.because == "rule broke" for one in findings),
        not_met_by_severity={severity: count("not met", severity) for severity in severities},
        undetermined_by_severity={severity: count("undetermined", severity) for severity in severities},
        met_by_evidence=by_evidence,
        to_be_confirmed=sum(one.to_be_confirmed for one in findings if one.outcome == "met"),
    )


def result(site: SiteLabel, region: str, findings: list[Finding], by_evidence: dict[str, int], **more: Any) -> Result:
    told: dict[str, Any] = {
        "valid": Valid(first=dt.date(2026, 11, 4), until=dt.date(2026, 11, 30)),
        "survey": {},
        "limits_of_survey": (),
        "assumed": (),
        "notices": (),
        "not_covered": (),
        "layers": (Layer(name="common", title="Common practice", version="1.0", digest="0" * 64),),
    }
    return Result(
        schema_="https://dyno-facility-checker.example/result/1",
        program=Program(name="dyno-facility-checker", version="0.1.0"),
        site=site,
        site_digest="f" * 64,
        region=region,
        as_of=DAY,
        decision="simple",
        summary=summary_of(findings, by_evidence),
        findings=tuple(findings),
        **{**told, **more},
    )


def us_site() -> Result:
    site = "mill-yard"
    law = Citation(
        ref="osha-1910.157",
        clause="(d)(4)",
        kind="law",
        status="verified",
        citation="29 CFR 1910.157",
        address="https://osha.example",
    )
    code = Citation(ref="imc", clause="table 403.3.1.1", kind="code", status="memory", citation="IMC 2021")
    washer = subject("hazard", "washer", "Parts washer (washer)", "Workshop (shop)")
    bench = subject("hazard", "bench", "Fuel bench (bench)", "Workshop (shop)")
    cell = subject("room", "cell", "Running room (cell)")
    dyno = subject("dyno", "d1", "Roller machine (d1)", "Running room (cell)")
    walk = {
        "title": "A Class B extinguisher of enough rating within reach of each flammable-liquid hazard",
        "reason": "A fuel fire grows faster than a person fetches an extinguisher from the far wall.",
        "severity": "major",
        "operator": "le",
        "advice": "Hang a unit rated 10-B or more on the way out, within the walk:\n\n- powder, or\n- *foam*.",
        "closes_with": "photo of the unit in place, label readable",
    }
    limits = {"walk": length("15.24", "50 ft"), "rating": value("10", "number", as_written="10")}
    tape = {
        "evidence": "measured",
        "on": SEEN_ON,
        "by": "R. Ashdown",
        "instrument": "tape",
        "plus_minus": length("0.0508"),
    }
    findings = [
        finding(
            site,
            "fire.class-b-walk",
            washer,
            "not met",
            [
                provision(law, "workplace law", "not met", limit=limits, margin=length("-3.3528")),
                provision(
                    replace(code, citation="fire code 2021, extinguishers"),
                    "fire code",
                    "met",
                    governs=False,
                    binding="adopted code",
                    where_adopted=True,
                    limit={"walk": length("22.86", "75 ft")},
                    margin=length("4.2672"),
                ),
            ],
            measured=length("18.5928"),
            limit=length("15.24", "50 ft"),
            margin=length("-3.3528"),
            how=(used("hazards[washer].walks[fe-2].distance", length("18.5928", "61 ft"), **tape),),
            working=(
                Step(
                    quantity="hazard.walk_to_extinguisher",
                    subject="Parts washer (washer)",
                    formula="shortest recorded walk to a unit of that class and rating",
                    inputs=(
                        StepInput(name="walks", value=length("18.5928", "61 ft")),
                        StepInput(name="rating", value=value("10", "number", as_written="10")),
                    ),
                    result=length("18.5928"),
                    source="29 CFR 1910.157 (d)",
                    status="definition",
                    leaves_out="doors that are locked at the time",
                ),
            ),
            **walk,
        ),
        finding(
            site,
            "fire.class-b-walk",
            bench,
            "met",
            [provision(law, "workplace law", "met", limit=limits, margin=length("3.6576"))],
            measured=length("11.5824"),
            limit=length("15.24", "50 ft"),
            margin=length("3.6576"),
            how=(used("hazards[bench].walks[fe-1].distance", length("11.5824", "38 ft"), **tape),),
            **walk,
        ),
        finding(
            site,
            "exhaust.capture-stops-engine",
            dyno,
            "undetermined",
            [provision(COMMON, "good practice", "undetermined", layer="common")],
            title="The engine stops by itself when the tailpipe extraction fails",
            reason="Carbon monoxide fills a closed room in minutes and cannot be smelt.",
            severity="critical",
            needs=(Need(path="dynos[d1].capture.engine_stops_without_flow", because="not recorded"),),
            meanwhile="No runs with the door shut; a second person watches the extraction.",
            advice="Fit a flow switch that cuts the ignition.",
            closes_with="note of the trial: fan off, engine stops",
        ),
        finding(
            site,
            "ventilation.exhaust-rate",
            cell,
            "undetermined",
            [
                provision(
                    code,
                    "mechanical code",
                    "undetermined",
                    binding="adopted code",
                    where_adopted=True,
                    limit={"rate": value("0.00762", "flow_per_area", "m3/s/m2", "1.5 cfm/ft2")},
                )
            ],
            title="Enough air drawn out of a room where vehicles are mended",
            reason="Fumes gather where air stands.",
            severity="major",
            needs=(
                Need(path="rooms[cell].height", because="not recorded", instead=("rooms[cell].volume",)),
                Need(path="fans", because="not recorded"),
            ),
        ),
        finding(
            site,
            "ventilation.cooling-air",
            cell,
            "undetermined",
            [provision(COMMON, "good practice", "undetermined", layer="common")],
            title="Seven changes of air a minute while a machine runs",
            reason="A hot engine loses power.",
            severity="observation",
            because="not reached",
            needs=(
                Need(path="rooms[cell].height", because="not recorded", instead=("rooms[cell].outline",)),
                Need(path="rooms[cell].supply", because="not reached", why="fan plate behind the ducting"),
            ),
        ),
        finding(
            site,
            "electrical.plate-voltage",
            dyno,
            "met",
            [provision(COMMON, "good practice", "met", layer="common")],
            title="The supply has the voltage, phases and frequency of the plate",
            reason="A drive on the wrong supply burns.",
            severity="major",
            measured=value("240", "voltage", "V", "240 V"),
            limit=value("216", "voltage", "V"),
            operator="ge",
            margin=value("24", "voltage", "V"),
            acts="electrician",
            how=(used("dynos[d1].plate.voltage", value("240", "voltage", "V", "240 V"), "read"),),
        ),
        finding(
            site,
            "fire.extinguisher-charged",
            subject("extinguisher", "fe-1", "Extinguisher (fe-1)", "Workshop (shop)"),
            "met",
            [provision(law, "workplace law", "met")],
            title="Extinguishers charged and in plain sight",
            reason="An empty unit is found out in a fire.",
            severity="major",
            measured=answer(True),
            limit=answer(True),
            how=(
                used("extinguishers[fe-1].charged", answer(True)),
                used("extinguishers[fe-1].visible", answer(True), "told"),
            ),
        ),
        finding(
            site,
            "exhaust.examined",
            dyno,
            "not applicable",
            [provision(COMMON, "good practice", "not applicable")],
            title="The extraction examined every 14 months",
            reason="Hoses crack.",
            severity="major",
        ),
    ]
    return result(
        SiteLabel(id=site, name="Mill Yard Cycles", address="4 Mill Yard, Ashdown Falls", file="mill-yard.yaml"),
        "us",
        findings,
        {"measured": 1, "read": 1, "told": 1},
        layers=(
            Layer(name="us", title="United States", version="1.0", digest="1" * 64),
            Layer(name="common", title="Common practice", version="1.0", digest="0" * 64),
        ),
        survey={
            "number": "MY-26-014",
            "by": "R. Ashdown",
            "on": "2026-11-03",
            "evidence": "seen",
            "method": "walk-through",
            "omitted": "the loft over the store",
        },
        limits_of_survey=(Need(path="rooms[store]", because="not reached", why="locked, key with the landlord"),),
        assumed=(used("rooms[*].doors[*].locked", answer(False), "assumed", note="unlocked in working hours"),),
        notices=(
            Notice(
                kind="recorded and computed differ",
                about="rooms[cell].volume",
                values={
                    "says": "volume is taken as 122.3288 m3; the site also gives 4000 ft3",
                    "kind": "volume",
                    "unit": "m3",
                    "taken": "122.328777",
                    "taken_by": "length × width × height",
                    "other_1": "113.267386",
                    "other_1_by": "told",
                    "other_1_written": "4000 ft3",
                },
            ),
        ),
        not_covered=(
            NotCovered(
                layer="us",
                topic="fire",
                authority="building code",
                asks="sprinklers in larger workshops",
                why="the thresholds were not read",
            ),
        ),
    )


def metric_site() -> Result:
    site = "quay-street"
    law = Citation(
        ref="coshh", clause="regulation 9", kind="law", status="secondary", citation="COSHH 2002", read_in="guidance"
    )
    standard = Citation(ref="bs-5306-3", clause="6.2", kind="standard", status="memory", citation="BS 5306-3")
    capture = subject("dyno", "d2", "Car rollers (d2)", "Cell (cell)")
    unit = subject("extinguisher", "fe-3", "Foam unit (fe-3)", "Store (store)")
    anchors = {"title": "Each anchor holds its share of the pull", "reason": "A vehicle that breaks loose kills."}
    findings = [
        finding(
            site,
            "anchorage.breakout-european",
            capture,
            "not met",
            [
                provision(
                    standard, "standard", "not met", layer="gb", binding="standard", margin=value("-1800", "force", "N")
                )
            ],
            severity="critical",
            measured=value("12000", "force", "N", "12 kN"),
            limit=value("10200", "force", "N"),
            operator="le",
            margin=value("-1800", "force", "N"),
            acts="structural engineer",
            meanwhile="No pulls on these anchors.",
            advice="Have the anchors designed for the largest strap force.",
            how=(used("dynos[d2].anchors.design_tension", value("12000", "force", "N", "12 kN"), "told"),),
            **anchors,
        ),
        finding(
            site,
            "exhaust.examined",
            capture,
            "not met",
            [
                provision(
                    law,
                    "workplace law",
                    "not met",
                    layer="gb",
                    limit={"every": value("14 months", "period", as_written="14 months")},
                    margin=value("-2937600", "duration", "s"),
                )
            ],
            title="The extraction examined at least every 14 months",
            reason="Hoses crack and fans tire without a sign.",
            severity="major",
            measured=value("2026-10-22", "date"),
            limit=value("2026-11-25", "date"),
            operator="ge",
            margin=value("-2937600", "duration", "s"),
            acts="extraction firm",
            advice="Book the examination.",
            how=(
                used(
                    "dynos[d2].capture.examined_on",
                    value("2025-08-22", "date", as_written="2025-08-22"),
                    "paper",
                    note="report on file, one page missing",
                    photo="p-12.jpg",
                ),
            ),
            photos=("p-12.jpg",),
        ),
        finding(
            site,
            "exhaust.outlet-place",
            capture,
            "not met",
            [provision(law, "workplace law", "not met", layer="gb", margin=length("-0.04"))],
            title="The outlet stands clear of openings and boundary",
            reason="Fumes drift back in.",
            severity="minor",
            measured=length("2.96", "2.96 m"),
            limit=length("3", "3 m"),
            operator="ge",
            margin=length("-0.04"),
            parts=(
                Part(
                    text="dyno.capture.outlet_to_property_line >= limit.property_line",
                    holds=None,
                    operator="ge",
                    limit=length("3", "3 m"),
                ),
                Part(
                    text="dyno.capture.outlet_to_opening >= limit.opening",
                    holds=False,
                    operator="ge",
                    measured=length("2.96", "2.96 m"),
                    limit=length("3", "3 m"),
                    margin=length("-0.04"),
                    governs=True,
                ),
                Part(text="dyno.capture.discharges_outdoors", holds=True, measured=answer(True)),
                Part(text="not dyno.room.exhaust_recirculated", holds=None),
            ),
            how=(
                used("dynos[d2].capture.outlet_to_opening", length("2.96", "2.96 m"), "measured", instrument="laser"),
            ),
        ),
        finding(
            site,
            "fire.extinguisher-clocks",
            unit,
            "met",
            [provision(standard, "standard", "met", layer="gb", margin=value("86400", "duration", "s"))],
            title="Extinguishers serviced every year",
            reason="A unit leaks unseen.",
            severity="major",
            measured=value("2026-11-26", "date"),
            limit=value("2026-11-25", "date"),
            operator="ge",
            margin=value("86400", "duration", "s"),
            how=(
                used("extinguishers[fe-3].serviced_on", value("2025-11-26", "date", as_written="2025-11-26"), "paper"),
            ),
        ),
        finding(
            site,
            "guarding.run-down",
            capture,
            "undetermined",
            [provision(COMMON, "good practice", "undetermined", layer="common")],
            title="Nobody reaches the rollers before they stand",
            reason="Rollers drag a hand in.",
            severity="major",
            because="rule broke",
            fault="division by zero in dyno.separation",
            location=Location(file="rulesets/common/guarding.yaml", line=40, column=7),
        ),
        finding(
            site,
            "anchorage.edge",
            capture,
            "undetermined",
            [provision(standard, "standard", "undetermined", layer="gb")],
            title="Anchors far enough from the edge",
            reason="Concrete splits.",
            severity="major",
            because="outside range",
        ),
    ]
    return result(
        SiteLabel(id=site, name=None, address=None, file="quay-street.yaml"),
        "gb",
        findings,
        {"paper": 1},
        valid=Valid(first=None, until=None),
    )


def hostile_site() -> Result:
    about = subject("room", "cell", HOSTILE, HOSTILE)
    findings = [
        finding(
            "bad",
            "ventilation.mechanical",
            about,
            outcome,
            [provision(COMMON, HOSTILE, outcome)],
            title=HOSTILE,
            reason=HOSTILE,
            severity="critical",
            advice=HOSTILE,
            meanwhile=HOSTILE,
            closes_with=HOSTILE,
            how=(used(HOSTILE, value(HOSTILE, "text", as_written=HOSTILE), HOSTILE, by=HOSTILE, note=HOSTILE),),
            needs=(Need(path=HOSTILE, because="not reached", why=HOSTILE, instead=(HOSTILE,)),),
            photos=(HOSTILE,),
        )
        for outcome in ("not met", "undetermined", "met", "not applicable")
    ]
    return result(
        SiteLabel(id="bad", name=HOSTILE, address=HOSTILE, file="bad.yaml"),
        "gb",
        findings,
        {"seen": 1},
        survey={"by": HOSTILE, "scope": HOSTILE, "evidence": HOSTILE},
        limits_of_survey=(Need(path=HOSTILE, because="not reached", why=HOSTILE),),
        assumed=(used(HOSTILE, answer(False), "assumed", note=HOSTILE),),
        notices=(Notice(kind="odd", about=HOSTILE, values={"x": HOSTILE}),),
        not_covered=(NotCovered(layer="gb", topic="fire", authority="fire code", asks=HOSTILE, why=HOSTILE),),
    )


NASTY = {
    "script": "<script>document.title='hit'</script>",
    "picture that fails": '"><img src=x onerror="document.title=1">',
    "end of the style": "</style><script>document.title='hit'</script>",
    "end of the title": "</title><script>document.title='hit'</script>",
    "attribute": "' onmouseover='document.title=1' x=\"",
    "link that runs": "[look](javascript:document.title=1) <javascript:alert(1)>",
    "picture from elsewhere": "![x](https://elsewhere.example/x.png) [y]: https://elsewhere.example",
    "address": "https://elsewhere.example <https://elsewhere.example> www.elsewhere.example a@elsewhere.example",
    "template": "{{ 7 * 7 }} {% raw %} ${7*7} {0}",
    "comment": "<!-- --> <![CDATA[ ]]> <?x ?>",
    "characters by name": "&lt;b&gt; &#x202e; &amp",
    "heading": "# Heading\n\n## Second\n===\n---",
    "list": "- one\n- two\n\n1. three\n\n    code",
    "quotation and table": "> told\n\n| a | b |\n|---|---|\n| c | d |",
    "code": "```\ncode\n``` `x` ~~~",
    "emphasis": "**a** __b__ *c* _d_ ~~e~~ $f$ \\",
    "against the reading direction": "\u202egnp.exe\u2066 \u200f\x1b[31m\x07\x00\ud800",
    "css": "\"; } body { display: none } @import 'https://elsewhere.example'; \\",
    "very long": "W" * 10_000,
    "very long and wide": "車検場" * 3_000,
}
"""What a stranger may write anywhere, named for what it tries."""

_READ_BY_THE_PROGRAM = {"kind", "unit", "operator"}
_MARKDOWN = {"advice", "meanwhile"}
_KEYS = {"path", "rule", "topic"}
"""By these a report groups: they begin with a number, so that no text makes two of them one."""


def filled(record: Any, text: str, *, markdown: bool = True) -> Any:
    """The record with that text, and a number, in each place that holds a text of a stranger.

    Without `markdown` it leaves alone what may hold marks by right.
    """
    spared = _READ_BY_THE_PROGRAM | (set() if markdown else _MARKDOWN)
    return _filled(record, f"{text} {{}}", spared, itertools.count(1))


def _filled(held: Any, text: str, spared: set[str], numbers: Iterator[int]) -> Any:
    if isinstance(held, Struct):
        update = {
            one.name: _filled(
                getattr(held, one.name), f"{{}} {text[:-3]}" if one.name in _KEYS else text, spared, numbers
            )
            for one in fields(held)
            if one.name not in spared and "Literal" not in str(one.type)
        }
        return replace(held, **update)
    if isinstance(held, tuple):
        return tuple(_filled(one, text, spared, numbers) for one in held)
    if isinstance(held, dict):
        return {name: _filled(one, text, spared, numbers) for name, one in held.items()}
    return text.replace("{}", str(next(numbers))) if isinstance(held, str) and held else held


SITES = {"us": us_site, "metric": metric_site, "hostile": hostile_site}
