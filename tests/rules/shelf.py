"""A small shelf of rulesets that is right in every point, for tests to write, to spoil and to read."""

from collections.abc import Mapping
from pathlib import Path

from checker.reading import Problem, Unreadable
from checker.rules import read_rulesets
from checker.rules.rulebook import Rulebook

Files = Mapping[str, str]

RIGHT: Files = {
    "sources.yaml": """\
sources:
  - {id: act-1, kind: law, designation: Act 1, title: An act that we made up, publisher: a ministry}
  - {id: code-7, kind: code, designation: Code 7, title: A code that we made up, edition: 2024}
""".replace("2024", '"2024"'),
    "common/layer.yaml": """\
name: common
title: What every workshop needs
version: "1.0"
authorities: [standard, good practice]
""",
    "common/fire.yaml": """\
rules:
  - id: fire.walk
    title: An extinguisher within reach
    reason: A fire grows fast.
    each: hazard
    when: hazard.fire_class == "B"
    require: hazard.walk_to_extinguisher("B", limit.rating) <= limit.walk
    limit: {walk: length, rating: number}
    severity: major
    acts: shop
    closes_with: a photo
    cases:
      - {given: {hazard.fire_class: A}, outcome: not applicable}
  - id: fire.walk-by-level
    title: A shorter walk where more burns
    reason: More liquid, more fire.
    each: hazard
    require: hazard.walk_to_extinguisher("B", 1) <= table.near.walk(hazard.level)
    table: {near: {keys: {level: word}, columns: {walk: length}}}
    severity: critical
    acts: shop
    closes_with: a photo
    meanwhile: Keep an extinguisher at hand.
    cases:
      - {given: {hazard.level: light}, outcome: undetermined, as_of: 2026-11-25}
provisions:
  - {rule: fire.walk, authority: good practice, limit: {walk: 15 m, rating: 1}, source: common practice}
""",
    "us/layer.yaml": """\
name: us
title: Made-up law
extends: common
version: "1.0"
authorities: [workplace law, fire code]
not_held:
  - {topic: noise, authority: workplace law, asks: quiet, why: not held yet}
""",
    "us/fire.yaml": """\
tables:
  - id: near
    keys: {level: word}
    columns: {walk: length}
    rows:
      - {level: light, walk: 50 ft}
      - {level: ordinary, walk: 40 ft}
  - id: by-width
    keys: {width: length}
    columns: {walk: length}
    rows:
      - {width: {to: 2 m}, walk: 50 ft}
      - {width: {over: 2 m}, walk: 40 ft}
provisions:
  - rule: fire.walk
    authority: workplace law
    limit: {walk: 50 ft, rating: 1}
    until: 2026-12-31
    source: {ref: act-1, clause: "(d)(4)", status: verified}
  - rule: fire.walk
    authority: workplace law
    limit: {walk: 40 ft, rating: 1}
    from: 2027-01-01
    source: {ref: act-1, clause: "(d)(4)", status: verified}
  - rule: fire.walk-by-level
    authority: fire code
    table: {near: near}
    source: {ref: code-7, clause: "906.3", status: secondary, read_in: state text}
""",
}


def write(folder: Path, files: Files = RIGHT) -> Path:
    """Write files below a folder, in the order given."""
    for name, content in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(content, encoding="utf-8", newline="\n")
    return folder


def spoilt(*changes: tuple[str, str, str]) -> dict[str, str]:
    """The right files with texts replaced: (file, old, new); each old text stands exactly once."""
    files = dict(RIGHT)
    for name, old, new in changes:
        assert files[name].count(old) == 1, (name, old, files[name].count(old))
        files[name] = files[name].replace(old, new)
    return files


def read(folder: Path, files: Files = RIGHT) -> Rulebook:
    """Write files and read them."""
    return read_rulesets(write(folder, files))


def problems(folder: Path, files: Files) -> list[Problem]:
    """What is wrong with files; nothing if they can be read."""
    try:
        read(folder, files)
    except Unreadable as error:
        return list(error.problems)
    return []


def told(folder: Path, files: Files) -> list[tuple[str, int, int, str, str, str]]:
    """The same as (file below the folder, line, column, what is wrong, found, wanted)."""
    return [
        (Path(each.file).relative_to(folder).as_posix(), each.line, each.column,
         each.says.replace(f"{folder}/", "").replace(f"{folder}\\", ""), each.found, each.wanted)
        for each in problems(folder, files)
    ]  # fmt: skip
