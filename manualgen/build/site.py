"""Write the whole site, printed, or nothing at all."""

from __future__ import annotations

import datetime
import shutil
from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from manualgen.build.delivery import printed_on
from manualgen.build.edition import (
    Edition,
    EditionName,
    files_around,
    lay_out_edition,
    write_files,
)
from manualgen.build.leading import print_experiments
from manualgen.build.manifest import Inputs, inputs_of, is_current, write_manifest
from manualgen.build.overflow import overflow_findings
from manualgen.build.page_cache import PageCache, render
from manualgen.build.prints import Printing, bind, order_matter
from manualgen.build.rendering import Making, Render, rendering
from manualgen.build.side_by_side import side_by_side
from manualgen.build.studio import LaidOut
from manualgen.build.technician import (
    bind_technician,
    order_technician,
    technician_context,
    write_technician,
)
from manualgen.model.finding import Finding
from manualgen.pages.site import Edition as Offer
from manualgen.pages.site import Offered, render_start
from manualgen.press.errors import PressError
from manualgen.press.press import Press
from manualgen.press.publishing import publishing
from manualgen.press.store import Store
from manualgen.sources import Folder, Source, SourceError
from manualgen.working.worked import Worked

LARGE = ".large"

PICTURE_LIMIT = 20_000_000
"""Bytes that a picture may have."""


@dataclass(frozen=True, slots=True)
class BuildOptions:
    """What to build, and how."""

    editions: tuple[EditionName, ...] = tuple(EditionName)
    pdf: bool = True
    technician: bool = False
    """Whether to make the technician's edition as well."""
    large: bool = False
    """Whether to print a large-print edition of each as well."""
    jobs: int | None = None
    """Browsers side by side; None for one a core."""
    inputs: Inputs | None = None
    """What the site is made from, taken before any of it was read."""
    cache: Path | None = None
    """A folder that keeps prints from build to build."""
    waiting: Callable[[], None] = lambda: None
    """Called once if another build of the same site has to end first."""
    printed: Callable[[int, int], None] = lambda _done, _of: None
    """Called after each print with how many are done, of how many."""


@dataclass(frozen=True, slots=True)
class Built:
    """What a build came to; with findings, nothing was published."""

    findings: tuple[Finding, ...] = ()
    experiments: int = 0
    changed: bool = True
    """False where the site was up to date and nothing was written."""


class TooWideError(Exception):
    """Pages that came out wider than their paper, and must not be published."""

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__()
        self.findings = findings


def build_manual(
    content: Path, worked: Worked, out: Path, options: BuildOptions | None = None
) -> Built:
    """Build the site at ``out``; what stood there stays until all is done.

    ``worked`` has been checked and has no errors.  Raises `PressError` where
    the browser fails or the site cannot be written.
    """
    options = options or BuildOptions()
    source = Folder(content)
    inputs = options.inputs or inputs_of(source, worked.today, {})
    if is_current(out, inputs):
        return Built(experiments=len(worked.experiments), changed=False)
    try:
        with publishing(out, options.waiting) as new:
            _write(new, source, worked, replace(options, inputs=inputs))
            write_manifest(new, inputs)
    except TooWideError as error:
        return Built(error.findings)
    return Built(experiments=len(worked.experiments))


def _write(new: Path, source: Source, worked: Worked, options: BuildOptions) -> None:
    large_too = options.pdf and options.large
    laid_out = LaidOut()  # of which the editions show different parts
    editions = [
        replace(
            lay_out_edition(worked, name, pdf=options.pdf, laid_out=laid_out),
            large_too=large_too,
        )
        for name in options.editions
    ]
    offers = [*map(offered, editions)]
    context = editions[0].context() if editions else technician_context(worked)
    if options.technician:
        offers.append(write_technician(new, worked, pdf=options.pdf))
    start = render_start(tuple(offers), context)
    (new / "index.html").write_text(start, encoding="utf-8")
    if large_too:
        editions += [replace(edition, large=True) for edition in editions]
    making = [(edition, folder_of(new, edition)) for edition in editions]
    for edition, folder in making:
        write_files(folder, files_around(edition, picture_from(source)))
    if options.pdf:
        _print(new, worked, making, options)
    else:
        with rendering(making, options.jobs, _renderer(options)) as rendered:
            deque(rendered, maxlen=0)
    if options.cache:
        Store(options.cache).prune()


def _renderer(options: BuildOptions) -> Render:
    """What gives the pages: a cache, if there is to be one."""
    if options.cache is None:
        return render
    program = {
        key: value
        for key, value in (options.inputs or {}).items()
        if key in ("program", "libraries")
    }
    return PageCache(Store(options.cache), program).render


def folder_of(new: Path, edition: Edition) -> Path:
    """Where an edition is made; large print in a hidden folder that does not stay."""
    folder = new / edition.name.value
    return folder / LARGE if edition.large else folder


def offered(edition: Edition) -> Offer:
    """An edition as the start page offers it."""
    documents = [Offered("index.html", "read")]
    if edition.pdf:
        documents.append(Offered("manual.pdf", "whole_pdf"))
        if edition.large_too:
            documents.append(Offered("manual-large.pdf", "large_pdf"))
        if edition.name is EditionName.TEACHER:
            documents.append(Offered("answer-key.pdf", "answers_pdf"))
    return Offer(edition.name.value, tuple(documents))


def picture_from(source: Source) -> Callable[[str], bytes]:
    """Read pictures from a content folder, none past the limit.

    The reader raises `PressError` for one that has gone since it was checked.
    """

    def read(file: str) -> bytes:
        try:
            return source.read(file, PICTURE_LIMIT)
        except SourceError as error:
            raise PressError(f"the picture {file} {error.message}") from error

    return read


def _print(
    new: Path, worked: Worked, making: Sequence[Making], options: BuildOptions
) -> None:
    """Render and print; an experiment is printed while others are rendered."""
    when = printed_on(worked)
    press = Press(new, when, browsers=options.jobs, cache=options.cache)
    pages = _renderer(options)
    with rendering(making, options.jobs, pages) as rendered, press:
        preparing = order_technician(press, new) if options.technician else ()
        printings = print_experiments(press, making, rendered, pages, options.printed)
        _refuse_wide(worked, printings)
        around = [order_matter(press, printing) for printing in printings]
        _refuse_wide(worked, around)
    if preparing:
        bind_technician(new, worked, preparing)
    with side_by_side(partial(_bind, when), around, options.jobs, long=True) as bound:
        deque(bound, maxlen=0)


def _bind(when: datetime.datetime, printing: Printing) -> None:
    bind(printing, when)
    if printing.edition.large:
        _deliver_large(printing.folder)


def _deliver_large(made: Path) -> None:
    """Keep of the large print the book alone."""
    (made / "manual.pdf").rename(made.parent / "manual-large.pdf")
    shutil.rmtree(made)


def _refuse_wide(worked: Worked, printings: Sequence[Printing]) -> None:
    prints = [done for printing in printings for done in printing.prints()]
    findings = overflow_findings(worked, prints)
    if findings:
        raise TooWideError(findings)
