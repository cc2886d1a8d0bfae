"""What to do with a file that was begun from a template."""

from collections.abc import Iterable, Sequence
from itertools import groupby

from checker.report.page import clean
from checker.report.sentences import say


def begun(file: str, mark: str, prove: str, *, region: bool) -> str:
    """That it is written, what to fill in, and the command that tells whether it is right, each on lines of its own."""
    steps = [say("begun", file=clean(file)), say("begun_fill", mark=mark)]
    if region:
        steps.append(say("begun_beside"))
    return "\n".join([*steps, say("begun_prove"), f"    {clean(prove)}"]) + "\n"


def to_finish(marked: Iterable[tuple[str, int, str]], others: int, prove: str) -> Sequence[str]:
    """Why nothing new is begun: each file with the words left in it by line, and how many other faults there are."""
    lines = [say("finish_first")]
    for file, group in groupby(marked, key=lambda one: one[0]):
        words = dict.fromkeys(say("finish_word", line=line, word=word) for _, line, word in group)
        lines.append(say("finish_file", file=file, words=say("list").join(words)))
    if others:
        lines.append(say("finish_others", count=others))
    return [*lines, say("finish_then", prove=prove)]
