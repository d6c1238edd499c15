"""``manualgen adopt``: drafts in the format from old documents and notes."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from pathlib import Path

from manualgen.build import check, read_and_work
from manualgen.commands.adopted_files import Adopted, adopt_file, list_drafts
from manualgen.commands.faults import WRONG_USAGE, CommandError
from manualgen.commands.options import today
from manualgen.model.experiment import Experiment
from manualgen.reports.text import findings_as_text, summary_line

EXAMPLE = "manualgen adopt old/titrations.docx notes.txt --into content"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument(
        "files",
        nargs="+",
        type=Path,
        metavar="FILE",
        help="a document: .docx, .txt or .md, typed notes or talk with its times; "
        "where speech or notes hold several practicals, announce each: "
        "'Next practical. It is called ...'",
    )
    parser.add_argument(
        "--into",
        type=Path,
        default=Path("content"),
        metavar="CONTENT",
        help="the content folder that gets the drafts (default: content)",
    )


def run(options: argparse.Namespace) -> int:
    """Write one draft a practical, list them, and check them."""
    content: Path = options.into
    if content.exists() and not content.is_dir():
        raise CommandError(f"{content} is no folder", WRONG_USAGE)
    drafts: list[Adopted] = []
    refused: list[str] = []
    for path in options.files:
        try:
            drafts += adopt_file(path, content)
        except CommandError as error:
            refused.append(str(error))
    for line in _told(drafts):
        sys.stdout.write(line + "\n")
    if drafts:
        sys.stdout.write(list_drafts(content, [d.identity for d in drafts]) + "\n\n")
        _check(content, drafts)
    if refused:
        raise CommandError("; ".join(refused), WRONG_USAGE)
    return 0


def _told(drafts: list[Adopted]) -> Iterator[str]:
    for draft in drafts:
        left = f"; not placed yet: {draft.unplaced}" if draft.unplaced else ""
        yield f"{draft.file}: from {draft.source}, {draft.origin} on{left}"


def _check(content: Path, drafts: list[Adopted]) -> None:
    """Print what the author must decide."""
    worked = read_and_work(content, None, today())
    names = {draft.identity for draft in drafts}
    findings = [f for f in check(worked) if f.experiment in names]
    colour = sys.stdout.isatty()
    sys.stdout.write(findings_as_text(worked, findings, colour=colour))
    for each in worked.experiments:
        if each.experiment.id in names:
            for line in _unsaid(each.experiment):
                sys.stdout.write(line + "\n")
    sys.stdout.write(summary_line(worked, findings) + "\n")


def _unsaid(experiment: Experiment) -> Iterator[str]:
    """The amounts that the source does not give; nobody makes them up."""
    for listed in experiment.chemicals:
        if listed.amount is None:
            yield f"{listed.place}: how much {listed.name} is not said"
