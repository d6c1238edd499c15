"""Words and options that several commands share."""

from __future__ import annotations

import argparse
import datetime
import os
from collections.abc import Iterable
from pathlib import Path

from manualgen.commands.faults import WRONG_USAGE, CommandError
from manualgen.commands.near import no_folder
from manualgen.model.finding import Finding, Severity


def add_content(parser: argparse.ArgumentParser) -> None:
    """Declare the content folder and which of its manuals is meant."""
    parser.add_argument(
        "content",
        nargs="?",
        default="content",
        type=content_folder,
        metavar="CONTENT",
        help="the content folder (default: content)",
    )
    add_manual(parser)


def content_folder(text: str) -> Path:
    """The content folder of that name; argparse tells the user if there is none."""
    path = Path(text)
    if not path.is_dir():
        raise argparse.ArgumentTypeError(no_folder(text))
    return path


def add_manual(parser: argparse.ArgumentParser) -> None:
    """Declare which of the folder's manuals is meant."""
    parser.add_argument(
        "--manual",
        metavar="NAME",
        help="the smaller manual of manual-NAME.yaml instead of manual.yaml",
    )


def add_large(parser: argparse.ArgumentParser) -> None:
    """Declare the large-print edition."""
    parser.add_argument(
        "--large", action="store_true", help="print a large-print edition as well"
    )


def add_jobs(parser: argparse.ArgumentParser) -> None:
    """Declare how much is done side by side."""
    parser.add_argument(
        "--jobs",
        type=_positive,
        metavar="N",
        help="processes and browsers side by side (default: one a core)",
    )


def _positive(text: str) -> int:
    number = int(text)
    if number < 1:
        raise argparse.ArgumentTypeError("write a whole number from 1 on")
    return number


def today() -> datetime.date:
    """The date of the run: SOURCE_DATE_EPOCH's if set, so that runs can agree."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    if epoch is None:
        return datetime.datetime.now(datetime.UTC).date()
    try:
        return datetime.datetime.fromtimestamp(int(epoch), datetime.UTC).date()
    except (ValueError, OverflowError, OSError) as error:
        raise CommandError(
            f"SOURCE_DATE_EPOCH is {epoch!r}; write whole seconds since 1970",
            WRONG_USAGE,
        ) from error


def has_errors(findings: Iterable[Finding], *, strict: bool = False) -> bool:
    """Whether the findings forbid a build; ``strict`` counts warnings too."""
    grave = {Severity.ERROR, Severity.WARNING} if strict else {Severity.ERROR}
    return any(f.severity in grave for f in findings)
