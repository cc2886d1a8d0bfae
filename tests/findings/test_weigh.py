"""What several authorities ask of one thing: the strictest governs, and all are cited."""

from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checker.findings.result import Finding
from checker.findings.weigh import BINDS_MOST_FIRST, Bound, binding, citation, weakest
from checker.rules.model import SourceUse
from checker.vocabulary import Status
from tests.findings.workshop import Part, asks, judged, only, rule, rulebook

LIMIT = {"most": "current"}
CIRCUIT = "supplies: [{id: mains}]\ncircuits: [{id: c1, supply: mains, breaker: 16 A}]"


def finding(folder: Path, provisions: list[dict[str, Any]], site: str = CIRCUIT, **more: Any) -> Finding:
    require = more.pop("require", "circuit.breaker <= limit.most")
    of_rule = {"limit": LIMIT} | more
    return only(judged(rulebook(folder, [rule("r", "circuit", require, **of_rule)], provisions), site))


def order(found: Finding) -> list[str]:
    return [each.authority for each in found.provisions]


@pytest.mark.parametrize(
    "law, norm, governs, outcome",
    [
        ("20 A", "10 A", "standard", "not met"),
        ("10 A", "20 A", "workplace law", "not met"),
        ("20 A", "18 A", "standard", "met"),
        ("18 A", "20 A", "workplace law", "met"),
        ("12 A", "10 A", "standard", "not met"),
        ("10 A", "12 A", "workplace law", "not met"),
        ("20 A", "20 A", "workplace law", "met"),
        ("10 A", "10 A", "workplace law", "not met"),
        ("20 A", "20000 mA", "workplace law", "met"),
    ],
)
def test_the_strictest_governs(law: str, norm: str, governs: str, outcome: str, tmp_path: Path) -> None:
    """Worst outcome, then least room for its size, then what binds most."""
    for number, order_in_file in enumerate((1, -1)):
        provisions = [
            asks("r", "workplace law", "act", limit={"most": law}),
            asks("r", "standard", "norm", limit={"most": norm}),
        ][::order_in_file]
        found = finding(tmp_path / str(number), provisions)
        assert (found.outcome, order(found)[0]) == (outcome, governs)
        assert [each.governs for each in found.provisions] == [True, False]
        assert found.source == found.provisions[0].source
        assert found.limit == found.provisions[0].limit["most"]
        assert found.margin == found.provisions[0].margin


def test_each_authority_keeps_its_own_outcome_limit_and_margin(tmp_path: Path) -> None:
    found = finding(
        tmp_path,
        [
            asks("r", "workplace law", "act", limit={"most": "20 A"}),
            asks("r", "standard", "norm", limit={"most": "10 A"}),
            asks("r", "insurer", "book", limit={"most": "32 A"}),
        ],
    )
    assert [
        (each.authority, each.outcome, each.limit["most"].as_written, each.margin and float(each.margin.value))
        for each in found.provisions
    ] == [
        ("standard", "not met", "10 A", -6.0),
        ("insurer", "met", "32 A", 16.0),
        ("workplace law", "met", "20 A", 4.0),
    ]


def test_room_is_weighed_by_its_share_of_the_limit(tmp_path: Path) -> None:
    """1 A below 4 A is more room for its size than 2 A below 20 A."""
    require = "circuit.breaker <= limit.most or circuit.other_load <= limit.load"
    both = LIMIT | {"load": "current"}
    found = finding(
        tmp_path,
        [
            asks("r", "workplace law", "act", limit={"most": "1 A", "load": "4 A"}),
            asks("r", "standard", "norm", limit={"most": "18 A", "load": "1 A"}),
        ],
        CIRCUIT.replace("16 A", "16 A, other_load: 3 A"),
        require=require,
        limit=both,
    )
    assert [(each.authority, each.margin and float(each.margin.value)) for each in found.provisions] == [
        ("standard", 2.0),
        ("workplace law", 1.0),
    ]


ASKED_OF = {
    "the smaller of at most": ("circuit.breaker <= limit.most", {"most": "current"}, ["10 A", "12 A"]),
    "the larger of at least": ("circuit.breaker >= limit.most", {"most": "current"}, ["12 A", "10 A"]),
    "the smaller, turned round": ("limit.most > circuit.breaker", {"most": "current"}, ["10 A", "12 A"]),
    "the larger, by not": ("not circuit.breaker < limit.most", {"most": "current"}, ["12 A", "10 A"]),
    "where another part is unknown first": (
        "circuit.dedicated and circuit.breaker <= limit.most",
        {"most": "current"},
        ["10 A", "12 A"],
    ),
    "the shorter until it falls due": ("due(circuit.rcd.tried_on, limit.most) >= as_of", {"most": "period"},
                                       ["2 weeks", "1 month"]),
    "of each of several": ("all([c.breaker <= limit.most for c in circuit.supply.circuits])", {"most": "current"},
                           ["10 A", "12 A"]),
}  # fmt: skip


@pytest.mark.parametrize("absent", ["value", "list", "condition"])
@pytest.mark.parametrize("require, limit, strict_first", ASKED_OF.values(), ids=ASKED_OF)
def test_the_stricter_limit_governs_where_nothing_was_measured(
    require: str, limit: Part, strict_first: list[str], absent: str, tmp_path: Path
) -> None:
    """A laxer limit that binds more never hides a stricter one, whichever file is read first."""
    site = {"list": "supplies: [{id: mains}]"}.get(absent, "supplies: [{id: mains}]\ncircuits: [{id: c1}]")
    more = {"when": 'circuit.connection == "socket"'} if absent == "condition" else {}
    stricter, laxer = strict_first
    for number, way in enumerate((1, -1)):
        asked = [
            asks("r", "workplace law", "act", limit={"most": laxer}),
            asks("r", "standard", "norm", limit={"most": stricter}),
        ][::way]
        found = finding(tmp_path / str(number), asked, site, require=require, limit=limit, **more)
        assert (found.outcome, order(found)[0]) == ("undetermined", "standard")


def test_of_equal_limits_what_binds_most_governs(tmp_path: Path) -> None:
    asked = [
        asks("r", authority, source, limit={"most": "10 A"})
        for authority, source in (("standard", "norm"), ("workplace law", "act"))
    ]
    assert order(finding(tmp_path, asked, CIRCUIT.replace(", breaker: 16 A", "")))[0] == "workplace law"


AUTHORITIES = {"workplace law": "act", "fire code": "fire-code", "standard": "norm", "guidance": "leaflet"}


@settings(max_examples=40, deadline=None)
@given(
    limits=st.dictionaries(st.sampled_from(sorted(AUTHORITIES)), st.tuples(st.integers(8, 24), st.integers(1, 9)),
                           min_size=2),
    measured=st.sampled_from(["", ", breaker: 16 A", ", other_load: 4 A", ", breaker: 16 A, other_load: 4 A"]),
    joined=st.sampled_from(["and", "or"]),
    drawn=st.data(),
)  # fmt: skip
def test_what_governs_does_not_depend_on_the_order_of_provisions(
    limits: dict[str, tuple[int, int]], measured: str, joined: str, drawn: st.DataObject
) -> None:
    """The order is total: of any provisions in any order the same one governs, and of any two of them as well."""
    require = f"circuit.breaker <= limit.most {joined} circuit.other_load >= limit.load"

    def governing(authorities: list[str]) -> str:
        asked = [
            asks("r", each, AUTHORITIES[each], limit={"most": f"{limits[each][0]} A", "load": f"{limits[each][1]} A"})
            for each in authorities
        ]
        with TemporaryDirectory() as folder:
            site = CIRCUIT.replace(", breaker: 16 A", measured)
            both = LIMIT | {"load": "current"}
            return order(finding(Path(folder), asked, site, require=require, limit=both))[0]

    first = governing(sorted(limits))
    assert governing(drawn.draw(st.permutations(sorted(limits)))) == first
    for each in limits:
        if each != first:
            assert governing([each, first]) == first


def test_unknown_stands_between_not_met_and_met(tmp_path: Path) -> None:
    """A table of one authority has no row for this circuit; another's has."""
    shape = {"most": {"keys": {"connection": "word"}, "columns": {"most": "current"}}}
    tables = [
        {"id": word, "keys": {"connection": "word"}, "columns": {"most": "current"}, "rows": [row]}
        for word, row in {
            "hard": {"connection": "hard-wired", "most": "20 A"},
            "wide": {"connection": "socket", "most": "20 A"},
            "narrow": {"connection": "socket", "most": "10 A"},
        }.items()
    ]
    site = CIRCUIT.replace("16 A", "16 A, connection: socket")
    one = rule("r", "circuit", "circuit.breaker <= table.most.most(circuit.connection)", table=shape)
    for other, outcome, governs in [("wide", "undetermined", "workplace law"), ("narrow", "not met", "standard")]:
        provisions = [
            asks("r", "workplace law", "act", table={"most": "hard"}),
            asks("r", "standard", "norm", table={"most": other}),
        ]
        found = only(judged(rulebook(tmp_path / other, [one], provisions, tables), site))
        assert (found.outcome, order(found)[0]) == (outcome, governs)


def test_between_answers_what_binds_most_governs(tmp_path: Path) -> None:
    sources = {
        "workplace law": "act",
        "fire code": "fire-code",
        "standard": "norm",
        "guidance": "leaflet",
        "house": "book",
    }
    provisions = [asks("r", authority, source) for authority, source in sources.items()]
    site = CIRCUIT.replace("16 A", "16 A, dedicated: yes")
    for number in range(len(provisions)):
        found = finding(tmp_path / str(number), provisions[number:], site, require="circuit.dedicated", limit={})
        assert order(found)[0] == list(sources)[number]


@pytest.mark.parametrize(
    "authority, source, binds",
    [
        ("workplace law", "act", "law"),
        ("fire code", "fire-code", "adopted code"),
        ("standard", "norm", "standard"),
        ("guidance", "leaflet", "guidance"),
        ("guidance", "fire-code", "guidance"),
        ("guidance", "book", "guidance"),
        ("good practice", "common practice", "good practice"),
        ("good practice", "leaflet", "good practice"),
        ("house", "common practice", "good practice"),
    ],
)
def test_how_what_is_asked_binds(authority: str, source: str, binds: str, tmp_path: Path) -> None:
    """An advisory note in a code is advice, whatever it stands in."""
    held = rulebook(tmp_path, [rule("r", "circuit", "circuit.dedicated")], [asks("r", authority, source)])
    assert binding(held.all_provisions[0]) == binds
    assert binds in BINDS_MOST_FIRST


def use(tmp_path: Path, source: dict[str, str]) -> SourceUse:
    held = rulebook(tmp_path, [rule("r", "circuit", "circuit.dedicated")], [asks("r", "standard", source)])
    return held.all_provisions[0].source


@pytest.mark.parametrize(
    "source, clause, words",
    [
        ({"ref": "norm", "clause": "5.2", "status": "verified"}, "5.2", "Norm 7 2020"),
        ({"ref": "norm", "clause": "5.2", "status": "secondary"}, "5.2", "Norm 7 2020"),
        ({"ref": "norm", "clause": "5.2", "status": "memory"}, "", "Norm 7 2020"),
        ({"ref": "leaflet", "status": "verified", "read_in": "copy"}, "", "Leaflet"),
    ],
)
def test_a_clause_known_from_memory_is_not_shown(
    source: dict[str, str], clause: str, words: str, tmp_path: Path
) -> None:
    shown = citation(use(tmp_path, source))
    assert (shown.clause, shown.citation, shown.status) == (clause, words, source["status"])
    assert shown.read_in == source.get("read_in")


def test_common_practice_has_no_source(tmp_path: Path) -> None:
    held = rulebook(tmp_path, [rule("r", "circuit", "circuit.dedicated")], [asks("r")])
    shown = citation(held.all_provisions[0].source)
    assert (shown.ref, shown.citation, shown.kind, shown.status) == (None, *["common practice"] * 3)


def test_what_governs_from_memory_is_to_be_confirmed(tmp_path: Path) -> None:
    from_memory = {"ref": "norm", "clause": "5.2", "status": "memory"}
    found = finding(
        tmp_path,
        [
            asks("r", "standard", from_memory, limit={"most": "18 A"}),
            asks("r", "workplace law", "act", limit={"most": "20 A"}),
        ],
    )
    assert (order(found)[0], found.to_be_confirmed) == ("standard", True)


@pytest.mark.parametrize(
    "own, others, weakest_of_all",
    [
        ("verified", [], "verified"),
        ("verified", ["definition", "definition"], "verified"),
        ("verified", ["definition", "secondary"], "secondary"),
        ("secondary", ["memory", "secondary"], "memory"),
        ("common practice", ["secondary"], "secondary"),
        ("memory", ["verified"], "memory"),
    ],
)
def test_the_weakest_status_is_shown(own: Status, others: list[str], weakest_of_all: str) -> None:
    assert weakest(own, iter(others)) == weakest_of_all


@pytest.mark.parametrize(
    "adopted, employer, authority, why",
    [
        (None, None, "workplace law", ""),
        (None, True, "workplace law", ""),
        (None, False, "workplace law", "nobody employed"),
        (None, False, "fire code", ""),
        ({}, True, "fire code", "no code adopted"),
        ({}, True, "guidance", ""),
        ({"fire code": None}, True, "building code", ""),
    ],
)
def test_what_does_not_bind_here(
    adopted: dict[str, str | None] | None, employer: bool | None, authority: str, why: str
) -> None:
    held = None if adopted is None else tuple(adopted.items())
    assert Bound(held, employer).why_not(authority) == why


@pytest.mark.parametrize(
    "recorded, read, told",
    [
        ("2018", "2018, as adopted in a state's code of 2020", None),
        ("2021", "2018", "2021"),
        ("the town's own", "2018", None),
        (None, "2018", None),
        ("2021", None, None),
    ],
)
def test_another_edition_than_was_read_is_told(recorded: str | None, read: str | None, told: str | None) -> None:
    assert Bound((("fire code", recorded),), None).another_edition("fire code", read) == told
