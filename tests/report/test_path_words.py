"""A path of the site file in words, so that nobody has to read field names."""

import pytest

from checker.report.path_words import path_words, place_words, thing_above

LABELS = {
    "": "Corner shop (shop)",
    "rooms[cell]": "Dyno cell (cell)",
    "dynos[d1]": "Rollers (d1)",
    "extinguishers[fe-1]": "fe-1",
}


@pytest.mark.parametrize(
    "path, within, words",
    [
        ("dynos[d1].bonded", "", "Rollers (d1): whether an electrician measured that frame, guards and plates are "
         "joined to the supply's protective earth"),
        ("dynos[d1].emergency_stop.latches", "", "Rollers (d1), emergency stop: whether it stays in until it is reset "
         "by hand"),
        ("dynos[d1].emergency_stop.latches", "dynos[d1]", "emergency stop: whether it stays in until it is reset by "
         "hand"),
        ("rooms[cell].doors[gate].exit_sign.lit_without_mains", "", "Dyno cell (cell), door gate, exit sign: whether "
         "it can still be read when the mains fails"),
        ("rooms[cell].doors[gate].width", "rooms[cell].doors[gate]", "clear width when fully open"),
        ("rooms[*].doors[*].locked", "", "every room, every door: whether it is locked, barred or blocked while people "
         "are inside"),
        ("rooms[store]", "", "room store: as a whole"),
        ("rooms[cell].dynos", "", "Dyno cell (cell): the dynamometers there"),
        ("hazards[fuel].walks[0].distance", "", "hazard fuel, walks 1: length of the walk, round all that stands in "
         "the way"),
        ("hazards[fuel].walks[fe-1].distance", "", "hazard fuel, walk to fe-1: length of the walk, round all that "
         "stands in the way"),
        ("workers[w].noise.spells[1].level", "workers[w]", "noise, spells 2: A-weighted average level at the ear, "
         "without protectors"),
        ("papers", "", "the papers that are kept"),
        ("emergency_plan.written", "", "emergency plan: whether it is written down where everybody can read it"),
        ("table tyre-speed-symbols", "", "the table of tyre speed symbols"),
        ("nothing.of.the.kind", "", "nothing.of.the.kind"),
    ],
)  # fmt: skip
def test_what_is_to_be_known_and_of_what(path: str, within: str, words: str) -> None:
    assert path_words(path, LABELS, within) == words


def test_what_would_do_as_well_stands_under_its_thing() -> None:
    told = path_words("rooms[cell].length", LABELS, "", ("rooms[cell].width", "dynos[d1].at"))
    assert told == (
        "Dyno cell (cell): inside length, wall to wall; or inside width, wall to wall; or Rollers (d1): the middle of "
        "the rollers on the floor plan"
    )


@pytest.mark.parametrize(
    "path, within, words",
    [
        ("dynos[d1]", "", "Rollers (d1)"),
        ("dynos[d1].anchors", "", "Rollers (d1), anchors"),
        ("dynos[d1].anchors", "dynos[d1]", "anchors"),
        ("rooms[cell].doors[gate]", "rooms[cell]", "door gate"),
        ("extinguishers[fe-1]", "", "extinguisher fe-1"),
        ("", "", "Corner shop (shop)"),
        ("no such path", "", "no such path"),
    ],
)
def test_what_a_path_leads_to(path: str, within: str, words: str) -> None:
    assert place_words(path, LABELS, within) == words


@pytest.mark.parametrize(
    "path, thing",
    [
        ("rooms[cell].doors[gate].width", "rooms[cell]"),
        ("papers", ""),
        ("emergency_plan.written", ""),
        ("[x](y.z)", ""),
    ],
)
def test_the_thing_above(path: str, thing: str) -> None:
    assert thing_above(path) == thing
