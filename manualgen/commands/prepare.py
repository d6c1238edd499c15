"""``manualgen prepare``: what the technician weighs, dilutes, fills and sets out."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterator
from decimal import Decimal, InvalidOperation
from fractions import Fraction
from pathlib import Path

from manualgen.build import check, read_and_work
from manualgen.commands.faults import INVALID, WRONG_USAGE, CommandError
from manualgen.commands.near import no_experiment
from manualgen.commands.options import add_manual, content_folder, has_errors, today
from manualgen.commands.output import keep_sources, write_out
from manualgen.editions.technician import TechnicianSheet
from manualgen.model.experiment import Experiment
from manualgen.preparation.needs import Order, Sitting
from manualgen.preparation.parts import part_called, parts_of
from manualgen.preparation.plan import Plan, plan
from manualgen.preparation.sheet import sheet_of, writer_for
from manualgen.preparation.words import Writer
from manualgen.reports.preparation import plan_as_json, sheet_as_csv, sheet_as_text
from manualgen.reports.text import findings_as_text
from manualgen.working.worked import Worked, WorkedExperiment

EXAMPLE = "manualgen prepare vinegar:12 peroxide-catalyst:8 --format pdf"

MOST_GROUPS = 1000
_PDF = Path("preparation.pdf")
"""Where the PDF goes if nothing else is said."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument(
        "classes",
        nargs="*",
        metavar="ID[:GROUPS]",
        help="an experiment and how many groups come; without any, the whole manual",
    )
    parser.add_argument("--part", metavar='"Lesson 2"', help="one part of the Method")
    parser.add_argument("--content", default="content", type=content_folder)
    parser.add_argument("--groups", type=_groups, metavar="N", help="default: manual's")
    parser.add_argument("--spare", type=_spare, metavar="10%", help="default: manual's")
    parser.add_argument(
        "--format", choices=("text", "json", "csv", "pdf"), default="text"
    )
    parser.add_argument("--output", type=Path, metavar="FILE")
    add_manual(parser)


def run(options: argparse.Namespace) -> int:
    """Tell what to prepare; only the findings of what is named count."""
    keep_sources(options.output, options.content)
    worked = read_and_work(options.content, options.manual, today())
    order = _order(options, worked)
    named = {s.work.experiment.id for s in order.sittings}
    findings = tuple(f for f in check(worked) if f.experiment in named)
    if findings:
        colour = sys.stderr.isatty()
        sys.stderr.write(findings_as_text(worked, findings, colour=colour))
    if has_errors(findings):
        return INVALID
    made, writer = plan(order), writer_for(worked)
    _deliver(options, worked, made, sheet_of(made, writer), writer)
    return 0


def _deliver(
    options: argparse.Namespace,
    worked: Worked,
    made: Plan,
    sheet: TechnicianSheet,
    writer: Writer,
) -> None:
    if options.format == "pdf":
        from manualgen.build.technician import print_sheet

        output = options.output or _PDF
        print_sheet(worked, sheet, output)
        sys.stderr.write(f"{output}\n")
        return
    told: dict[str, Callable[[], str]] = {
        "text": lambda: sheet_as_text(sheet, writer),
        "csv": lambda: sheet_as_csv(sheet, writer),
        "json": lambda: plan_as_json(made, sheet, writer),
    }
    write_out(told[options.format](), options.output)


def _order(options: argparse.Namespace, worked: Worked) -> Order:
    settings = worked.manual.settings
    groups = options.groups or settings.groups
    spare = settings.spare.si_value if options.spare is None else options.spare
    words = options.classes or [e.experiment for e in worked.manual.entries()]
    sittings = tuple(_sittings(words, groups, options.part, worked))
    if not sittings:
        raise CommandError("the manual lists no experiment", WRONG_USAGE)
    return Order(sittings, spare)


def _sittings(
    words: list[str], groups: int, part: str | None, worked: Worked
) -> Iterator[Sitting]:
    works = {w.experiment.id: w for w in worked.experiments}
    for word in words:
        name, colon, number = word.partition(":")
        work = _known(name, works)
        yield Sitting(
            work,
            _groups_of(word, number) if colon else groups,
            _part(work.experiment, part) if part else None,
        )


def _known(name: str, works: dict[str, WorkedExperiment]) -> WorkedExperiment:
    if name in works:
        return works[name]
    titles = {each: work.experiment.title for each, work in works.items()}
    raise CommandError(no_experiment(name, titles), WRONG_USAGE)


def _groups_of(word: str, number: str) -> int:
    try:
        return _groups(number)
    except (ValueError, argparse.ArgumentTypeError) as error:
        raise CommandError(
            f"{word}: after the colon stands how many groups come, 1 to {MOST_GROUPS}",
            WRONG_USAGE,
        ) from error


def _part(experiment: Experiment, words: str) -> int:
    number = part_called(experiment, words)
    if number is not None:
        return number
    known = [f"{p.kind.value} {p.label}" for p in parts_of(experiment)]
    said = f"it has {', '.join(known)}" if known else "its Method has no parts"
    raise CommandError(f"{experiment.id} has no {words!r}; {said}", WRONG_USAGE)


def _groups(text: str) -> int:
    number = int(text)
    if not 1 <= number <= MOST_GROUPS:
        raise argparse.ArgumentTypeError(f"write a whole number, 1 to {MOST_GROUPS}")
    return number


def _spare(text: str) -> Fraction:
    """A spare such as ``10%``; a bare number is per cent too."""
    try:
        value = Fraction(Decimal(text.strip().removesuffix("%").strip())) / 100
    except (InvalidOperation, ValueError, OverflowError) as error:
        raise argparse.ArgumentTypeError(f"{text!r}: write it as 10%") from error
    if not 0 <= value <= 1:
        raise argparse.ArgumentTypeError(f"{text!r}: write 0% to 100%")
    return value
