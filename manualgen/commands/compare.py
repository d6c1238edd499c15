"""``manualgen compare``: what changed between two revisions."""

from __future__ import annotations

import argparse
from pathlib import Path

from manualgen.build.stages import work_source
from manualgen.commands.faults import WRONG_USAGE, CommandError
from manualgen.commands.options import add_manual, content_folder, today
from manualgen.commands.output import write_out
from manualgen.reports.comparison import (
    comparison_as_json,
    comparison_as_markdown,
    comparison_as_text,
)
from manualgen.sources import Folder, Source
from manualgen.sources.revision import Revision, RevisionError
from manualgen.working.worked import Worked

EXAMPLE = "manualgen compare main --format markdown"
WORKING_TREE = "the working tree"
FORMATS = {
    "text": comparison_as_text,
    "json": comparison_as_json,
    "markdown": comparison_as_markdown,
}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument("base", metavar="BASE", help="the older git revision")
    parser.add_argument(
        "head",
        nargs="?",
        metavar="HEAD",
        help="the newer one (default: the files as they are)",
    )
    parser.add_argument("--content", type=content_folder, default="content")
    add_manual(parser)
    parser.add_argument("--format", choices=tuple(FORMATS), default="text")
    parser.add_argument("--output", type=Path, metavar="FILE")


def run(options: argparse.Namespace) -> int:
    """Tell what changed; the working tree is not touched."""
    from manualgen.review.compare import compare

    try:
        base: Source = Revision(options.content, options.base)
        head: Source = (
            Revision(options.content, options.head)
            if options.head
            else Folder(options.content)
        )
    except RevisionError as error:
        raise CommandError(str(error), WRONG_USAGE) from error
    old = work_source(base, options.manual, today())
    new = work_source(head, options.manual, today())
    names = (options.base, options.head or WORKING_TREE)
    comparison = compare(old, new, names, unread_in(old))
    write_out(FORMATS[options.format](comparison), options.output)
    return 0


def unread_in(worked: Worked) -> tuple[str, ...]:
    """What could not be read, one sentence each: such parts cannot be compared."""
    noted = [n.fault for n in worked.manual.noted if n.check == "source-syntax"]
    noted += [
        n.fault
        for e in worked.manual.experiments
        for n in e.noted
        if n.check == "source-syntax"
    ]
    return tuple(f"{f.place}: {f.message}" for f in noted)
