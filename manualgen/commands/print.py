"""``manualgen print``: one experiment as one PDF."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from manualgen.build import check, read_and_work
from manualgen.commands.faults import INVALID, WRONG_USAGE, CommandError
from manualgen.commands.near import no_experiment
from manualgen.commands.options import add_content, add_large, has_errors, today
from manualgen.commands.output import keep_sources
from manualgen.model.finding import Finding
from manualgen.reports.text import findings_as_text
from manualgen.working.worked import Worked

EXAMPLE = "manualgen print vinegar --edition teacher --output vinegar-key.pdf"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument("id", metavar="ID", help="the experiment: its file's stem")
    add_content(parser)
    parser.add_argument(
        "--edition", choices=("student", "teacher", "technician"), default="student"
    )
    add_large(parser)
    parser.add_argument(
        "--stations", action="store_true", help="its stations, a card each"
    )
    parser.add_argument(
        "--output", type=Path, metavar="FILE.pdf", help="default: ID.pdf"
    )


def run(options: argparse.Namespace) -> int:
    """Print one experiment; only its own findings count."""
    keep_sources(options.output, options.content)
    worked = read_and_work(options.content, options.manual, today())
    _know(worked, options.id)
    findings = tuple(f for f in check(worked) if f.experiment == options.id)
    if not has_errors(findings):
        kind = ".stations" if options.stations else ""
        output = options.output or Path(f"{options.id}{kind}.pdf")
        findings = (*findings, *_print(options, worked, output))
    if findings:
        colour = sys.stderr.isatty()
        sys.stderr.write(findings_as_text(worked, findings, colour=colour))
    return INVALID if has_errors(findings) else 0


def _print(
    options: argparse.Namespace, worked: Worked, output: Path
) -> tuple[Finding, ...]:
    """Write the PDF; the answer is what was found too wide for it."""
    if options.edition == "technician":
        from manualgen.build.technician import print_experiment

        print_experiment(worked, options.id, output)
        return ()
    from manualgen.build.edition import EditionName
    from manualgen.build.single import Wanted, has_cards, print_one

    if options.stations and not has_cards(worked, options.id):
        raise CommandError(f"{options.id} has no stations", WRONG_USAGE)
    edition = EditionName(options.edition)
    wanted = Wanted(options.id, edition, options.large, options.stations)
    return print_one(options.content, worked, wanted, output)


def _know(worked: Worked, name: str) -> None:
    known = {w.experiment.id: w.experiment.title for w in worked.experiments}
    if name not in known:
        raise CommandError(no_experiment(name, known), WRONG_USAGE)
