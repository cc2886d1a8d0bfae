"""Runs the command line as a process of its own: `checker`, or `python -m checker`."""

import gc
import os
import sys
from typing import NoReturn

PATIENCE = (200_000, 20, 20)
"""A command makes much at once and drops little: looking for circles among it would cost a fifth of its time."""


def run() -> NoReturn:
    """Run the command line and end the process at once.

    What a check has made is left to the system as a whole: to take it apart first would cost a twentieth of its time.
    Under a debugger or profiler, and where something cannot be written out, Python ends the process in its own way.
    """
    gc.set_threshold(*PATIENCE)
    from checker.cli import main

    code: object = 0
    try:
        main(prog_name="checker")
    except SystemExit as ended:
        code = ended.code
    if sys.gettrace() is None and sys.getprofile() is None and isinstance(code, int):
        try:
            sys.stdout.flush()
            sys.stderr.flush()
        except (OSError, ValueError):
            sys.exit(code)
        os._exit(code)
    sys.exit(code)  # type: ignore[arg-type]  # as click gave it


if __name__ == "__main__":
    run()
