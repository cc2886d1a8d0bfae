"""A small workshop of our own making, with a floor plan on which the straight line passes and the walk does not."""

import datetime as dt
from functools import cache

from msgspec.structs import replace

from checker import shipped
from checker.findings.check import check
from checker.findings.result import Result
from checker.reading import read_text
from checker.rules import read_rulesets
from checker.site import read_site

DAY = dt.date(2026, 11, 25)
SITE = """\
id: cooper-lane
name: Cooper Lane Workshop
region: us
survey: {on: 2026-11-03, by: R. Ashdown, evidence: measured}
rooms:
  - id: cell
    name: Running room
    kind: running room
    storey: ground floor
    outline: [[0 m, 0 m], [16 m, 0 m], [16 m, 11 m], [10 m, 11 m], [10 m, 4 m], [6 m, 4 m], [6 m, 11 m], [0 m, 11 m]]
    engines_run: yes
    walls_solid: yes
    obstacles:
      - {id: lift, name: Two-post lift, outline: [[11.5 m, 5.5 m], [14 m, 8 m]]}
      - {id: rack, name: Tyre rack, outline: [[0 m, 0 m], [3.5 m, 0.8 m]]}
    partitions:
      - {id: screen, name: Screen by the console, line: [[6 m, 1.8 m], [6 m, 4 m]], solid: no}
    clear_zones:
      - {id: panel-front, name: Before Board A, outline: [[7.5 m, 0 m], [8.5 m, 1 m]], marked: yes}
    doors:
      - {id: gate, kind: vehicle gate, to: outside, at: [2.8 m, 11 m], width: 3.2 m, locked: no, swing: roller,
         way_out: yes}
      - {id: back, kind: pedestrian door, to: outside, at: [16 m, 2 m], width: 0.95 m, locked: yes, swing: out,
         hinge: left, way_out: yes}
      - {id: to-store, to: store, at: [16 m, 9 m], width: 0.9 m, locked: no, swing: in, hinge: right, way_out: no}
  - id: store
    name: Parts store
    kind: store
    storey: ground floor
    outline: [[16.2 m, 5 m], [21 m, 11 m]]
    obstacles:
      - {id: shelf, name: Parts shelf, outline: [[19.8 m, 5 m], [21 m, 10 m]]}
    partitions: none
    doors:
      - {id: store-out, to: outside, at: [18 m, 5 m], width: 0.9 m, locked: no, swing: out, hinge: left, way_out: yes}
dynos:
  - id: d1
    name: Roller bench
    room: cell
    at: [2.8 m, 4.6 m]
    faces: [2.8 m, 0.8 m]
    footprint: [[1.8 m, 3 m], [3.8 m, 5.6 m]]
    widest_vehicle: 1 m
    rollers: {diameter: 460 mm, width: 0.6 m}
    emergency_stop: {at: [5 m, 3.4 m]}
extinguishers:
  - {id: fe-1, room: cell, at: [6 m, 9.6 m], rating: "4-A:80-B:C", rating_system: UL 711}
  - {id: fe-2, room: store, at: [16.2 m, 6 m], rating: "2-A", rating_system: UL 711}
hazards:
  - {id: washer, name: Parts washer, room: cell, at: [11 m, 9.8 m], fire_class: B, level: ordinary}
  - {id: bench, name: Fuel bench, room: cell, at: [4.6 m, 8 m], fire_class: B, level: ordinary}
  - {id: bin, name: Rag bin, room: store, fire_class: A, level: ordinary}
panels:
  - {id: board-a, name: Board A, room: cell, at: [8 m, 0 m], width: 0.6 m, voltage_to_ground: 120 V,
     condition: earthed surface}
emergency_lights:
  - {id: el-1, room: cell, at: [8 m, 3.9 m]}
"""


DRAWN = (
    "clearances.beside-rollers", "electrical.working-space", "escape.door-opens", "escape.walk-off-corners",
    "fire.class-a-walk-from-anywhere", "fire.class-b-walk", "run.nothing-needed-in-line",
)  # fmt: skip
"""Rules whose findings have something on the plan, and one that has not: so many that the drawing stays readable."""


@cache
def shop() -> Result:
    """Its result under some of the rules that ship with the program."""
    site = read_site(read_text(SITE, "cooper-lane.yaml"))
    result = check(site, read_rulesets(shipped.rulesets()), region=None, as_of=DAY, program_version="0.1.0")
    return replace(result, findings=tuple(one for one in result.findings if one.rule in DRAWN), not_covered=())
