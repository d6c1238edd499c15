"""Write the whole site, printed, or nothing at all."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from manualgen.build.edition import Chapter, EditionName, chapters, write_pages
from manualgen.build.manifest import inputs_of, is_current, write_manifest
from manualgen.build.overflow import overflow_findings
from manualgen.build.prints import Printing, bind_book, order_prints
from manualgen.model.finding import Finding
from manualgen.press.press import Press
from manualgen.press.publishing import publishing
from manualgen.sources import Folder, Source
from manualgen.working.worked import Worked

PICTURE_LIMIT = 20_000_000
"""Bytes that a picture may have."""


@dataclass(frozen=True, slots=True)
class BuildOptions:
    """What to build, and how."""

    editions: tuple[EditionName, ...] = tuple(EditionName)
    pdf: bool = True
    jobs: int | None = None
    """Browsers side by side; None for one a core."""
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
    inputs = inputs_of(source, worked.today, options.editions, options.pdf)
    if is_current(out, inputs):
        return Built(experiments=len(worked.experiments), changed=False)
    try:
        with publishing(out, options.waiting) as new:
            _write(new, source, worked, options)
            write_manifest(new, inputs)
    except TooWideError as error:
        return Built(error.findings)
    return Built(experiments=len(worked.experiments))


def _write(new: Path, source: Source, worked: Worked, options: BuildOptions) -> None:
    laid_out = {name: chapters(worked, name) for name in options.editions}
    for name, its in laid_out.items():
        write_pages(new / name.value, worked, name, its, picture_from(source))
    if options.pdf:
        _print(new, worked, laid_out, options)


def picture_from(source: Source) -> Callable[[str], bytes]:
    """Read pictures from a content folder, none past the limit."""
    return lambda file: source.read(file, PICTURE_LIMIT)


def _print(
    new: Path,
    worked: Worked,
    laid_out: dict[EditionName, tuple[Chapter, ...]],
    options: BuildOptions,
) -> None:
    when = datetime.datetime.combine(worked.today, datetime.time(), datetime.UTC)
    with Press(new, when, browsers=options.jobs, cache=options.cache) as press:
        printings = [
            order_prints(press, name, new / name.value, its)
            for name, its in laid_out.items()
        ]
        _wait(printings, options.printed)
    findings = overflow_findings(worked, [p for ps in printings for p in ps.prints()])
    if findings:
        raise TooWideError(findings)
    for printing in printings:
        bind_book(printing, worked.manual, when)


def _wait(printings: Sequence[Printing], printed: Callable[[int, int], None]) -> None:
    orders = [order for printing in printings for order in printing.orders]
    for done, order in enumerate(orders, start=1):
        order.result()
        printed(done, len(orders))
