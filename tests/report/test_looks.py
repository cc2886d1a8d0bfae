"""What to look at: each thing once, what is open for one reason together."""

from checker.findings.result import Finding, Need
from checker.report.content import Rows
from checker.report.looks import look_lines
from checker.report.unknown import unknown
from tests.report.samples import COMMON, finding, provision, subject

LABELS = {"": "Corner shop (shop)", "dynos[d1]": "Rollers (d1)"}


def waiting(*needs: Need, rule: str = "run.something") -> Finding:
    about = subject("dyno", "d1", "Rollers (d1)", "Cell (cell)")
    asked = [provision(COMMON, "good practice", "undetermined")]
    more = {"title": "Something", "reason": "A reason.", "severity": "major", "needs": needs}
    return finding("shop", rule, about, "undetermined", asked, **more)


def unreached(path: str) -> Need:
    return Need(path=path, because="not reached", why="power was off")


STOP = "dynos[d1].emergency_stop"


def test_one_reason_is_told_once() -> None:
    needs = (unreached(f"{STOP}.latches"), Need(path="dynos[d1].bonded", because="not recorded"),
             unreached(f"{STOP}.light_stays_on"))  # fmt: skip
    assert list(look_lines(waiting(*needs), LABELS)) == [
        "whether an electrician measured that frame, guards and plates are joined to the supply's protective earth",
        "emergency stop: whether it stays in until it is reset by hand; emergency stop: whether the light stayed on "
        "after it was pressed (could not be reached: power was off)",
    ]


def test_a_list_or_a_part_may_be_none_and_its_fields_are_named() -> None:
    needs = (Need(path=STOP, because="not recorded"), Need(path=f"{STOP}.in_reach", because="not recorded"),
             Need(path="fans", because="not recorded"))  # fmt: skip
    assert sorted(look_lines(waiting(*needs), LABELS)) == [
        "its emergency stop (or none; with in reach)",
        "the fans (or none)",
    ]


def test_what_waits_for_one_reason_stands_below_it() -> None:
    told = (
        waiting(unreached(f"{STOP}.latches"), unreached(f"{STOP}.light_stays_on")),
        waiting(Need(path="dynos[d1].bonded", because="evidence too weak", why="told; paper is wanted")),
        waiting(Need(path="help_arrives_in", because="not recorded")),
    )
    (section,) = unknown(told, LABELS)
    led = {
        rows.lead: [row.lines[0].partition(" (")[0] for row in rows.rows]
        for rows in section.parts
        if isinstance(rows, Rows)
    }
    assert led == {
        "Corner shop (shop)": ["how long an ambulance or a clinic's help takes to be here: run"],
        "Rollers (d1)": [
            "whether an electrician measured that frame, guards and plates are joined to the supply's protective earth"
        ],
        "Rollers (d1), could not be reached: power was off": [
            "emergency stop: whether it stays in until it is reset by hand: run",
            "emergency stop: whether the light stayed on after it was pressed: run",
        ],
    }
