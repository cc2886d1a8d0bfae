"""Prints one command of README.md as it stands: the first `sh` block that follows `<!-- NAME -->`.

Usage: python3 .ci/readme_command.py NAME. Standard library only: it runs before anything is installed.
"""

import re
import sys
from pathlib import Path

README = Path(__file__).resolve().parents[1] / "README.md"


def command_after(mark: str, text: str) -> str | None:
    """The block's text, or None if no such mark stands directly above an `sh` block."""
    block = re.search(rf"^<!-- {re.escape(mark)} -->\s*^```sh\n(.*?)^```", text, re.DOTALL | re.MULTILINE)
    return block[1].strip() if block else None


def main() -> None:
    """Prints the command, or ends with status 1 and says what is missing."""
    (name,) = sys.argv[1:]
    if not README.is_file():
        sys.exit("README.md is missing: its commands are what this run tries")
    command = command_after(name, README.read_text(encoding="utf-8"))
    if not command:
        sys.exit(f"README.md: no ```sh block stands under <!-- {name} -->")
    print(command)


if __name__ == "__main__":
    main()
