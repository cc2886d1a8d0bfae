"""Runs the command line as `python -m checker`."""

from checker.cli import main

if __name__ == "__main__":
    main(prog_name="checker")
