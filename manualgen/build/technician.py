"""The technician's edition: sheets of the year or of a day, labels and the stock list."""

from __future__ import annotations

import datetime
import tempfile
from dataclasses import replace
from pathlib import Path

from manualgen.editions.technician import TechnicianSheet
from manualgen.knowledge.labels import labels
from manualgen.model.manual import Settings
from manualgen.pages.assets import assets
from manualgen.pages.context import PageContext
from manualgen.pages.technician import render_day
from manualgen.press.errors import PressError
from manualgen.press.jobs import Job
from manualgen.press.press import Press
from manualgen.working.worked import Worked


def print_sheet(worked: Worked, sheet: TechnicianSheet, output: Path) -> None:
    """Write the PDF of one sheet.

    Raises `PressError` where the browser fails or the file cannot be written.
    """
    html = render_day(sheet, technician_context(worked.manual.settings))
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        _write_assets(folder)
        page = folder / "preparation.html"
        page.write_text(html, encoding="utf-8")
        made = page.with_suffix(".pdf")
        with Press(folder, printed_on(worked), browsers=1) as press:
            press.submit(Job(sheet.title, page, made)).result()
        _deliver(made, output)


def printed_on(worked: Worked) -> datetime.datetime:
    """The date that a PDF bears."""
    return datetime.datetime.combine(worked.today, datetime.time(), datetime.UTC)


def technician_context(settings: Settings) -> PageContext:
    """The surroundings of the technician's pages."""
    say = labels(settings.language, settings.labels)
    return PageContext(
        manual=settings.title,
        edition=say["technician_edition"],
        institution=settings.institution,
        year=settings.edition,
        language=settings.language,
        own_labels=settings.labels,
        paper=settings.paper,
        duplex=settings.duplex,
        house=replace(settings.house, to=say["to"]),
    )


def _write_assets(folder: Path) -> None:
    for path, content in assets():
        target = folder / "assets" / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content())


def _deliver(made: Path, output: Path) -> None:
    try:
        output.write_bytes(made.read_bytes())
    except OSError as error:
        raise PressError(f"cannot write {output}: {error.strerror}") from error
