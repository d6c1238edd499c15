"""The command line: words in, words and an exit status out.

Only the command that is asked for is imported, so that help is quick and
``manualgen quantity`` starts no browser's library.
"""

from __future__ import annotations

import argparse
import gc
import importlib
import io
import os
import sys
from collections.abc import Sequence
from typing import Protocol, cast

from manualgen.commands.faults import CommandError
from manualgen.press.errors import PressError
from manualgen.reports.printable import printable

COMMANDS = {
    "check": "read everything and report what should be mended",
    "build": "check, then write the site and the PDFs",
    "print": "print one experiment as one PDF",
    "prepare": "tell what to weigh, dilute, fill, set out and take back",
    "preview": "show the manual in a browser while it is being written",
    "adopt": "make drafts of old documents and notes",
    "start": "begin a new manual with one experiment that builds",
    "compare": "tell what changed between two revisions",
    "explain": "tell what a check is for",
    "equation": "balance one equation",
    "formula": "tell what a formula or a name stands for",
    "quantity": "read one quantity",
    "solution": "tell how to make one solution, and how to label it",
}
"""Each command with its line of help; the command is the module of its name."""

COLLECT_AFTER = 200_000
"""New objects after which Python looks for rings that nothing holds any more.

A manual is many small objects that live to the end of the run and hold each other
in no ring, so that looking after every 700, as Python does, finds nothing.
"""


class Command(Protocol):
    """What a module in `manualgen.commands` offers."""

    EXAMPLE: str

    def add_arguments(self, parser: argparse.ArgumentParser) -> None:
        """Declare the command's words and options."""

    def run(self, options: argparse.Namespace) -> int:
        """Do it, and give the exit status."""


def main(words: Sequence[str] | None = None) -> int:
    """Run one command; the exit status is that of the commands' contract."""
    given = list(sys.argv[1:] if words is None else words)
    gc.set_threshold(COLLECT_AFTER)
    _show_anything()
    try:
        options = _parser(given).parse_args(given)
        return _command(options.command).run(options)
    except (CommandError, PressError) as error:
        print(f"manualgen: {printable(str(error))}", file=sys.stderr)
        return error.exit_status
    except BrokenPipeError:
        # The reader has seen enough.  Python would complain again at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except KeyboardInterrupt:
        print("manualgen: stopped", file=sys.stderr)
        return 130


def _show_anything() -> None:
    """Let no letter that the terminal's encoding lacks end a command."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")


def _parser(given: Sequence[str]) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="manualgen",
        description="Checks chemistry practicals and prints the manual: student, "
        "teacher and technician editions from one source.",
    )
    parser.add_argument("--version", action="version", version=_version(given))
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for name, line in COMMANDS.items():
        its_parser = commands.add_parser(
            name,
            help=line,
            description=line[0].upper() + line[1:] + ".",
            formatter_class=argparse.RawDescriptionHelpFormatter,
        )
        if name in given:
            command = _command(name)
            its_parser.epilog = f"example:\n  {command.EXAMPLE}"
            command.add_arguments(its_parser)
    return parser


def _version(given: Sequence[str]) -> str:
    if "--version" not in given:
        return ""  # the reader of package metadata costs more than all the rest
    metadata = importlib.import_module("importlib.metadata")
    return f"manualgen {metadata.version('manualgen')}"


def _command(name: str) -> Command:
    module = importlib.import_module(f"manualgen.commands.{name}")
    return cast("Command", module)


if __name__ == "__main__":
    sys.exit(main())
