"""``manualgen build``: check, then write the site and the PDFs."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from manualgen.build.manifest import Inputs, inputs_of, is_current
from manualgen.build.report import keep_report, kept_report, report_of
from manualgen.commands.faults import INVALID
from manualgen.commands.options import (
    add_content,
    add_jobs,
    add_large,
    has_errors,
    today,
)
from manualgen.commands.output import keep_sources
from manualgen.commands.progress import progress_bar
from manualgen.model.finding import Finding
from manualgen.reports.text import Texts, findings_as_text, summary_line
from manualgen.sources import Folder

if TYPE_CHECKING:
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
        "--edition",
        choices=("student", "teacher", "technician", "all"),
        default="all",
    )
    add_large(parser)
    parser.add_argument("--no-pdf", action="store_true", help="write the pages alone")
    add_jobs(parser)


def run(options: argparse.Namespace) -> int:
    """Build whole or not at all; on errors the last site stays as it was.

    What the manual is made from is taken down before it is read, so that a file
    saved in between makes the next build begin anew.
    """
    keep_sources(options.out, options.content)
    inputs = inputs_of(Folder(options.content), today(), _asked_for(options))
    report = kept_report(_cache(options), inputs)
    if report is not None and is_current(options.out, inputs):
        _report(report, report.findings)
        _point_to(options.out, report.experiments, "up to date")
        return 0
    return _build(options, inputs)


def _asked_for(options: argparse.Namespace) -> dict[str, object]:
    return {
        "manual": options.manual,
        "editions": options.edition,
        "pdf": not options.no_pdf,
        "large": options.large,
    }


def _cache(options: argparse.Namespace) -> Path:
    folder: Path = options.out.resolve().parent / CACHE
    return folder


def _build(options: argparse.Namespace, inputs: Inputs) -> int:
    from manualgen.build.stages import Asked, read_and_check
    from manualgen.build.study_cache import StudyCache
    from manualgen.press.store import Store

    cache = StudyCache(Store(_cache(options)), inputs, options.manual)
    asked = Asked(options.manual, today(), jobs=options.jobs, cache=cache)
    checked = read_and_check(options.content, asked)
    worked, findings = checked.worked, checked.findings
    if not has_errors(findings):
        built = _publish(options, worked, inputs)
        findings = (*findings, *built)
    _report(worked, findings)
    if has_errors(findings):
        sys.stderr.write(f"nothing was built: {options.out} is as it was\n")
        return INVALID
    keep_report(_cache(options), inputs, report_of(worked, findings))
    return 0


def _publish(
    options: argparse.Namespace, worked: Worked, inputs: Inputs
) -> tuple[Finding, ...]:
    from manualgen.build.edition import EditionName
    from manualgen.build.site import BuildOptions, build_manual

    wanted = options.edition
    built = build_manual(
        options.content,
        worked,
        options.out,
        BuildOptions(
            editions=tuple(name for name in EditionName if wanted in (name, "all")),
            technician=wanted in ("technician", "all"),
            pdf=not options.no_pdf,
            large=options.large,
            jobs=options.jobs,
            inputs=inputs,
            cache=_cache(options),
            waiting=_say(f"waiting for another build of {options.out}\n"),
            printed=progress_bar("printing"),
        ),
    )
    if not built.findings:
        state = "built" if built.changed else "up to date"
        _point_to(options.out, built.experiments, state)
    return built.findings


def _point_to(out: Path, experiments: int, state: str) -> None:
    sys.stdout.write(
        f"{out}: {experiments} experiments, {state}; open {out / 'index.html'}\n"
    )


def _say(sentence: str) -> Callable[[], None]:
    def say() -> None:
        sys.stderr.write(sentence)

    return say


def _report(texts: Texts, findings: tuple[Finding, ...]) -> None:
    if findings:
        colour = sys.stderr.isatty()
        sys.stderr.write(findings_as_text(texts, findings, colour=colour))
        sys.stderr.write(summary_line(texts, findings) + "\n")
