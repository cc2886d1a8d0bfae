"""What to do with a file that was begun from a template."""

from checker.report.page import clean
from checker.report.sentences import say


def begun(file: str, mark: str, prove: str, *, region: bool) -> str:
    """That it is written, what to fill in, and the command that tells whether it is right, each on lines of its own."""
    steps = [say("begun", file=clean(file)), say("begun_fill", mark=mark)]
    if region:
        steps.append(say("begun_beside"))
    return "\n".join([*steps, say("begun_prove"), f"    {clean(prove)}"]) + "\n"
