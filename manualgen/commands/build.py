"""``manualgen build``: check, then write the site and the PDFs."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from pathlib import Path

from manualgen.build.stages import Asked, read_and_check
from manualgen.commands.faults import INVALID
from manualgen.commands.options import (
    add_content,
    add_jobs,
    add_large,
    has_errors,
    today,
)
from manualgen.commands.progress import progress_bar
from manualgen.model.finding import Finding
from manualgen.reports.text import findings_as_text, summary_line
from manualgen.working.worked import Worked

EXAMPLE = "manualgen build content --out site"
CACHE = ".manualgen-cache"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    add_content(parser)
    parser.add_argument(
        "--out",
        type=Path,
        default=Path("site"),
        metavar="FOLDER",
        help="where the site goes (default: site)",
    )
    parser.add_argument(
        "--edition", choices=("student", "teacher", "all"), default="all"
    )
    add_large(parser)
    parser.add_argument("--no-pdf", action="store_true", help="write the pages alone")
    add_jobs(parser)


def run(options: argparse.Namespace) -> int:
    """Build whole or not at all; on errors the last site stays as it was."""
    asked = Asked(options.manual, today(), jobs=options.jobs)
    checked = read_and_check(options.content, asked)
    worked, findings = checked.worked, checked.findings
    if not has_errors(findings):
        built = _build(options, worked)
        findings = (*findings, *built)
    _report(worked, findings)
    if has_errors(findings):
        sys.stderr.write(f"nothing was built: {options.out} is as it was\n")
        return INVALID
    return 0


def _build(options: argparse.Namespace, worked: Worked) -> tuple[Finding, ...]:
    from manualgen.build.edition import EditionName
    from manualgen.build.site import BuildOptions, build_manual

    chosen = tuple(EditionName) if options.edition == "all" else (options.edition,)
    built = build_manual(
        options.content,
        worked,
        options.out,
        BuildOptions(
            editions=tuple(EditionName(name) for name in chosen),
            pdf=not options.no_pdf,
            large=options.large,
            jobs=options.jobs,
            cache=options.out.resolve().parent / CACHE,
            waiting=_say(f"waiting for another build of {options.out}\n"),
            printed=progress_bar("printing"),
        ),
    )
    if not built.findings:
        state = "built" if built.changed else "up to date"
        sys.stdout.write(
            f"{options.out}: {built.experiments} experiments, {state}; "
            f"open {options.out / 'index.html'}\n"
        )
    return built.findings


def _say(sentence: str) -> Callable[[], None]:
    def say() -> None:
        sys.stderr.write(sentence)

    return say


def _report(worked: Worked, findings: tuple[Finding, ...]) -> None:
    if findings:
        colour = sys.stderr.isatty()
        sys.stderr.write(findings_as_text(worked, findings, colour=colour))
        sys.stderr.write(summary_line(worked, findings) + "\n")
