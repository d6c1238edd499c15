"""The pages of a preview: every edition, with the findings on the pages they are about."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from pathlib import Path, PurePosixPath

from manualgen.build.edition import EditionName, lay_out_edition, pages_of
from manualgen.build.site import offered, picture_from
from manualgen.build.stages import check, read_and_work
from manualgen.model.finding import Finding
from manualgen.pages.assets import preview_assets
from manualgen.pages.site import render_start
from manualgen.preview.findings import with_findings
from manualgen.preview.live import Made
from manualgen.reports.text import summary_line
from manualgen.sources import Folder
from manualgen.working.worked import Worked

OWN_FILES = "~preview/"


def make_preview(
    content: Path, manual: str | None, today: datetime.date, version: int
) -> Made:
    """Read, work out, check and render everything, errors or not."""
    worked = read_and_work(content, manual, today)
    findings = check(worked)
    pages = dict(_pages(content, worked))
    told = {
        name: with_findings(page, worked, _about(name, findings), version)
        if name.endswith(".html")
        else page
        for name, page in pages.items()
    }
    own = {OWN_FILES + name: data for name, data in preview_assets()}
    return Made({**told, **own}, summary_line(worked, findings))


def _pages(content: Path, worked: Worked) -> Iterator[tuple[str, bytes]]:
    picture = picture_from(Folder(content))
    editions = [
        lay_out_edition(worked, name, pdf=False)
        for name in (EditionName.TEACHER, EditionName.STUDENT)
    ]
    start = render_start(tuple(map(offered, editions)), editions[0].context())
    yield "index.html", start.encode()
    for edition in editions:
        for path, data in pages_of(edition, picture):
            yield f"{edition.name.value}/{path}", data


def _about(page: str, findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """A page's own findings; on a page of contents, those of no experiment, or all."""
    stem = PurePosixPath(page).stem
    if stem == "index":
        return findings
    return tuple(f for f in findings if f.experiment in (stem, None))
