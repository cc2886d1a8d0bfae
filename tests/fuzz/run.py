"""Try inputs through the real readers and evaluators in this process, and tell what came of them as JSON.

    python -m tests.fuzz.run sites|shelves|expressions FIRST LAST SHARED

Inputs have numbers; those below SHARED are tried too, and a digest of all their answers is told, to be compared with
another run's. A failure is told with its input, cut down as long as it fails alike.
"""

import hashlib
import json
import re
import sys
import tempfile
import time
import unicodedata
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path
from random import Random
from typing import Any, NamedTuple

import jsonschema_rs

from checker.findings.check import check
from checker.findings.prove import prove
from checker.findings.result import Result
from checker.findings.result_json import result_schema
from checker.reading import Document, Unreadable, read_text
from checker.report import FORMATS, Drawing
from checker.report.json_ import render
from checker.rules import Rulebook, read_rulesets
from checker.rules.faults import Refused
from checker.rules.parse import parse
from checker.rules.rulebook import NoRegion
from checker.rules.types import check as check_types
from checker.site import Site, read_site
from tests.fuzz.inputs_rules import Expression, Files, expression_input, shelf_input
from tests.fuzz.inputs_sites import Input, rulebook, site_input
from tests.properties.sites import drawn_site
from tests.test_laws import DAY, broken, is_value, shown

SOON = 1.0
"""Processor seconds within which every input is answered."""
LONGEST = 3000
"""Characters of an input that are shown."""
FORMS = tuple(FORMATS)


class Answer(NamedTuple):
    """What came of an input: one word or two, and all that was said."""

    outcome: str
    said: str


class Wrong(Exception):
    """An answer that must not be."""


def plain(problems: str) -> str:
    """A refusal that a person can read: not empty, not endless, and without signs that command a terminal."""
    if not problems.strip() or len(problems) > 200_000:
        raise Wrong(f"a refusal of {len(problems)} characters")
    if commands := {sign for sign in problems if unicodedata.category(sign)[0] == "C" and sign != "\n"}:
        raise Wrong(f"a refusal holds {commands!r}")
    return problems


@cache
def schema() -> Any:
    return jsonschema_rs.validator_for(result_schema())


def judged(site: Site, book: Rulebook, region: str | None, form: str | None) -> tuple[Result, str]:
    """The result and its JSON, which keeps to its schema; and drawn in one more format, if one is given."""
    result = check(site, book, region=region, as_of=DAY, program_version="0")
    written = render(result)
    if problem := next(iter(schema().iter_errors(json.loads(written))), None):
        raise Wrong(f"the result breaks its schema: {problem.message}")
    if form and not FORMATS[form]([result], Drawing(details=form == "text")).strip():
        raise Wrong(f"nothing drawn as {form}")
    return result, written


def site_answer(made: Input) -> Answer:
    """Read a site, check it, and hold it to the law of silence where it only lost something."""
    form = (*FORMS, *[None] * 2 * len(FORMS))[len(made.content) % (3 * len(FORMS))]  # drawing takes long
    try:
        document = read_text(made.content, made.file)
        site = read_site(document)
    except Unreadable as unreadable:
        return Answer("refused", plain(str(unreadable)))
    try:
        result, written = judged(site, rulebook(), None, form)
    except NoRegion:
        result, written = judged(site, rulebook(), made.base.region if made.base else "us", form)
    if faults := [f"{finding.id}: {finding.fault}" for finding in result.findings if finding.fault]:
        raise Wrong(f"a shipped rule broke: {faults}")
    if made.base is None or not only_lost(document.data, made.base.data) or result.region != made.base.region:
        return Answer("judged", written)
    findings = {finding.id: finding for finding in result.findings}
    if passed := broken(shown(findings), made.base.found):
        raise Wrong(f"silence passed: {passed}")
    return Answer("judged, only lost something" if document.data != made.base.data else "judged, the same", written)


def only_lost(less: Any, more: Any, path: tuple[str | int, ...] = ()) -> bool:
    """Whether nothing was added or changed, no list lost a member, and every value that is left is whole."""
    if path == ("survey",) and (less or {}).get("not_reached") != more.get("not_reached"):
        return False
    if isinstance(more, dict) and not is_value(more):
        if not isinstance(less, dict) or not set(less) <= set(more):
            return False
        if path == () and "survey" not in less and (more.get("survey") or {}).get("not_reached"):
            return False
        return all(only_lost(less[name], more[name], (*path, name)) for name in less)
    if isinstance(more, list) and more and isinstance(more[0], dict):
        return (
            isinstance(less, list)
            and len(less) == len(more)
            and all(only_lost(one, other, (*path, at)) for at, (one, other) in enumerate(zip(less, more, strict=True)))
        )
    return bool(less == more) and type(less) is type(more)


@cache
def small_site() -> Site:
    """A site with something of everything, to try rulesets on."""
    for number in range(1000):
        data = drawn_site(Random(f"small {number}"))
        try:
            if len(data) > 14:
                return read_site(Document("site.json", data, "{}"))
        except Unreadable:
            continue
    raise AssertionError("no such site was drawn")


def shelf_answer(files: Files) -> Answer:
    """Read a folder of rulesets; prove what can be read, and check a site by it."""
    with tempfile.TemporaryDirectory() as folder:
        for name, content in files.items():
            path = Path(folder, "rulesets", name)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)
        try:
            book = read_rulesets(Path(folder, "rulesets"))
        except Unreadable as unreadable:
            return Answer("refused", plain(str(unreadable)).replace(folder, ""))
    proof = prove(book)
    said = [str(proof.failures), str(proof.unguarded)]
    for region in book.regions():
        said.append(judged(small_site(), book, region, FORMS[len(said) % len(FORMS)])[1])
    return Answer("judged", "\n".join(said))


def expression_answer(made: Expression) -> Answer:
    """Parse an expression and hold it to its scope."""
    try:
        tree = parse(made.written)
        check_types(tree, made.written, made.scope)
    except Refused as refused:
        return Answer("refused", str(refused.faults))
    return Answer("read", str(tree))


def timed(answer: Callable[[], Answer]) -> Answer:
    begun = time.process_time()
    given = answer()
    if (seconds := time.process_time() - begun) > SOON:
        raise Wrong(f"it took {seconds:.1f} s")
    return given


def failure_of(answer: Callable[[], Answer]) -> str | None:
    """What is wrong with an answer, the kind of error first; None where nothing is."""
    try:
        timed(answer)
    except Exception as fault:
        return f"{type(fault).__name__}: {fault}"[:600]
    return None


def cut_down(content: bytes, fails: Callable[[bytes], bool]) -> bytes:
    """The content with as many lines left out as still fails alike, within a few seconds."""
    lines, size, until = content.splitlines(keepends=True), 64, time.monotonic() + 20
    while size and time.monotonic() < until:
        for at in range(0, len(lines), size):
            fewer = lines[:at] + lines[at + size :]
            if len(fewer) < len(lines) and fails(b"".join(fewer)):
                lines = fewer
                break
        else:
            size //= 2
    return b"".join(lines)


def _kind(said: str | None) -> str:
    return re.sub(r"[\d'\"].*", "", said or "")[:60]


def site_failure(number: int, said: str) -> str:
    made = site_input(number)

    def fails(content: bytes) -> bool:
        return _kind(failure_of(lambda: site_answer(replace(made, content=content)))) == _kind(said)

    return repr(cut_down(made.content, fails))


def tried(what: str, number: int) -> tuple[str, Answer]:
    """The kind of an input and what came of it."""
    match what:
        case "sites":
            made = site_input(number)
            return made.kind, timed(lambda: site_answer(made))
        case "shelves":
            kind, files = shelf_input(number)
            return kind, timed(lambda: shelf_answer(files))
    written = expression_input(number)
    return "expression", timed(lambda: expression_answer(written))


def shown_input(what: str, number: int, said: str) -> str:
    match what:
        case "sites":
            return site_failure(number, said)
        case "shelves":
            return repr(shelf_input(number)[1])
    return repr(expression_input(number).written)


def main(what: str, first: int, last: int, shared: int) -> None:
    """Try and tell."""
    tried(what, 0)  # what is imported and compiled on first use is no input's fault
    counts: Counter[str] = Counter()
    failures: list[str] = []
    answers = hashlib.sha256()
    slowest = 0.0
    for number in (*range(shared), *range(first, last)):
        begun = time.process_time()
        try:
            kind, answer = tried(what, number)
        except Exception as fault:
            said = f"{type(fault).__name__}: {fault}"[:600]
            if len(failures) < 5:
                failures.append(f"{what} {number}: {said}\n{shown_input(what, number, said)[:LONGEST]}")
            counts["failed"] += 1
            continue
        slowest = max(slowest, time.process_time() - begun)
        counts[f"{kind}: {answer.outcome}"] += 1
        counts[answer.outcome] += 1
        if number < shared:
            answers.update(answer.said.encode("utf-8", "surrogatepass"))
    told = {"counts": counts, "failures": failures, "answers": answers.hexdigest(), "slowest": slowest}
    print(json.dumps(told))


if __name__ == "__main__":
    main(sys.argv[1], *map(int, sys.argv[2:]))
