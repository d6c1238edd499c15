"""``manualgen check``: read everything and report findings."""

from __future__ import annotations

import argparse
import sys

from manualgen.build.stages import Asked, read_and_check
from manualgen.commands.faults import INVALID, WRONG_USAGE, CommandError
from manualgen.commands.fixing import mend_files
from manualgen.commands.options import add_content, add_jobs, has_errors, today
from manualgen.reports.json_report import findings_as_json
from manualgen.reports.sarif import findings_as_sarif
from manualgen.reports.text import findings_as_text, summary_line

MOST_ROUNDS = 3
"""Of mends: what one mend uncovers is mended in the next."""

EXAMPLE = "manualgen check content --only equation-unbalanced --format json"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    add_content(parser)
    parser.add_argument(
        "--only",
        metavar="CHECK",
        action="append",
        default=[],
        help="run this check alone; may be given more than once",
    )
    parser.add_argument("--format", choices=("text", "json", "sarif"), default="text")
    parser.add_argument(
        "--fix",
        action="store_true",
        help="make the mends that cannot change the meaning, and show them",
    )
    parser.add_argument(
        "--strict", action="store_true", help="let warnings count as errors"
    )
    add_jobs(parser)


def run(options: argparse.Namespace) -> int:
    """Report every finding at its place."""
    _know(options.only)
    asked = Asked(
        options.manual, today(), tuple(options.only), options.jobs, whole=False
    )
    checked = read_and_check(options.content, asked)
    for _ in range(MOST_ROUNDS if options.fix else 0):
        if not mend_files(checked.findings, options.content):
            break
        checked = read_and_check(options.content, asked)
    worked, findings = checked.worked, checked.findings
    if options.format == "json":
        sys.stdout.write(findings_as_json(worked, findings))
    elif options.format == "sarif":
        sys.stdout.write(findings_as_sarif(findings))
    else:
        colour = sys.stdout.isatty()
        sys.stdout.write(findings_as_text(worked, findings, colour=colour))
        sys.stdout.write(summary_line(worked, findings) + "\n")
    return INVALID if has_errors(findings, strict=options.strict) else 0


def _know(names: list[str]) -> None:
    from manualgen.checks import CHECKS
    from manualgen.model.nearest import nearest

    for name in names:
        if name not in CHECKS:
            near = nearest(name, CHECKS)
            hint = f"; did you mean {near}?" if near else ""
            raise CommandError(f"no check is called {name!r}{hint}", WRONG_USAGE)
