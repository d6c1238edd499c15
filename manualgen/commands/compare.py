"""``manualgen compare``: what changed between two revisions."""

from __future__ import annotations

import argparse
from pathlib import Path

from manualgen.build.rendered import Renderer, pictures_of
from manualgen.build.reworked import Workshop
from manualgen.commands.faults import WRONG_USAGE, CommandError
from manualgen.commands.near import no_folder
from manualgen.commands.options import add_manual, today
from manualgen.commands.output import keep_sources, write_out
from manualgen.reports.compared_pages import Versions
from manualgen.reports.comparison import comparison_as_json, comparison_as_text
from manualgen.reports.comparison_html import comparison_as_html
from manualgen.reports.comparison_markdown import comparison_as_markdown
from manualgen.review.compare import Version, compare
from manualgen.sources import Folder, Source
from manualgen.sources.revision import Revision, RevisionError

EXAMPLE = "manualgen compare main --format html --output changes.html"
HTML = "html"
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
    parser.add_argument("--content", type=Path, default=Path("content"))
    add_manual(parser)
    parser.add_argument("--format", choices=(*FORMATS, HTML), default="text")
    parser.add_argument("--output", type=Path, metavar="FILE")


def run(options: argparse.Namespace) -> int:
    """Tell what changed; the working tree is not touched."""
    keep_sources(options.output, options.content)
    try:
        base: Source = Revision(options.content, options.base)
        head: Source = _head(options)
    except RevisionError as error:
        raise CommandError(str(error), WRONG_USAGE) from error
    workshop, renderer = Workshop(options.manual, today()), Renderer()

    def version(source: Source, name: str) -> Version:
        worked = workshop.work_out(source)
        return Version(name, worked, renderer.rendered(worked, source))

    old = version(base, options.base)
    new = version(head, options.head or WORKING_TREE)
    comparison = compare(old, new)
    if options.format == HTML:
        pictures = pictures_of(base), pictures_of(head)
        report = comparison_as_html(comparison, Versions(old, new, pictures))
    else:
        report = FORMATS[options.format](comparison)
    write_out(report, options.output)
    return 0


def _head(options: argparse.Namespace) -> Source:
    content: Path = options.content
    if options.head:
        return Revision(content, options.head)
    if not content.is_dir():
        raise CommandError(no_folder(str(content)), WRONG_USAGE)
    return Folder(content)
