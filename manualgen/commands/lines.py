"""Answers about one text, or about each line of standard input."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Iterator, Mapping

from manualgen.commands.faults import INVALID, WRONG_USAGE, CommandError
from manualgen.reports.printable import printable

STANDARD_INPUT = "-"
FAILING = ("invalid", "impossible")
"""The statuses of an answer that end the command with 1."""


def add_text(parser: argparse.ArgumentParser, what: str) -> None:
    """Declare the text that is asked about, and the format of the answer."""
    parser.add_argument(
        "text", metavar="TEXT", help=f"{what}; - reads one a line from standard input"
    )
    parser.add_argument("--format", choices=("text", "json"), default="text")


def answer_lines(
    options: argparse.Namespace,
    answer: Callable[[str], Mapping[str, object]],
    told: Callable[[str], str],
) -> int:
    """Write an answer for each text that is asked about; 1 if any is not valid."""
    status = 0
    texts = list(_texts(options.text))
    if not texts:
        raise CommandError("nothing was asked: standard input is empty", WRONG_USAGE)
    for text in texts:
        found = answer(text)
        if found["status"] in FAILING:
            status = INVALID
        if options.format == "json":
            sys.stdout.write(json.dumps(found, ensure_ascii=False) + "\n")
        else:
            lines = told(text).rstrip("\n").split("\n")
            sys.stdout.write("\n".join(map(printable, lines)) + "\n")
    return status


def _texts(given: str) -> Iterator[str]:
    if given != STANDARD_INPUT:
        yield given
        return
    try:
        for line in sys.stdin:
            if line.strip():
                yield line.rstrip("\n")
    except UnicodeDecodeError as error:
        raise CommandError("standard input is not UTF-8 text", WRONG_USAGE) from error
