"""Print one experiment of a manual, by itself."""

from __future__ import annotations

import datetime
import tempfile
from pathlib import Path

from manualgen.build.edition import EditionName, chapters, write_pages
from manualgen.build.overflow import overflow_findings
from manualgen.build.prints import order_prints, pdf_of
from manualgen.build.site import picture_from
from manualgen.model.finding import Finding
from manualgen.press.errors import PressError
from manualgen.press.press import Press
from manualgen.sources import Folder
from manualgen.working.worked import Worked


def print_one(
    content: Path, worked: Worked, experiment: str, edition: EditionName, output: Path
) -> tuple[Finding, ...]:
    """Write one experiment's PDF; what is found too wide is told, and nothing written.

    Raises `PressError` where the browser fails or the file cannot be written.
    """
    laid_out = chapters(worked, edition)
    chosen = tuple(c for c in laid_out if c.sheet.id == experiment)
    when = datetime.datetime.combine(worked.today, datetime.time(), datetime.UTC)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / edition.value
        write_pages(folder, worked, edition, chosen, picture_from(Folder(content)))
        with Press(Path(name), when, browsers=1) as press:
            printing = order_prints(press, edition, folder, chosen)
            findings = overflow_findings(worked, printing.prints())
        if not findings:
            _deliver(pdf_of(folder, chosen[0]), output)
    return findings


def _deliver(made: Path, output: Path) -> None:
    try:
        output.write_bytes(made.read_bytes())
    except OSError as error:
        raise PressError(f"cannot write {output}: {error.strerror}") from error
