"""The pages of a preview: every edition, with the findings on the pages they are about."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import partial
from pathlib import PurePosixPath

from manualgen.build.edition import Edition, EditionName, files_of, lay_out_edition
from manualgen.build.site import offered, picture_from
from manualgen.build.stages import Checked
from manualgen.build.studio import LaidOut, Studio
from manualgen.model.finding import Finding
from manualgen.pages.assets import preview_assets
from manualgen.pages.site import render_start
from manualgen.preview.findings import with_findings
from manualgen.preview.live import Made
from manualgen.preview.made import MadeWhenAsked, Make
from manualgen.reports.text import summary_line
from manualgen.sources import Folder

OWN_FILES = "~preview/"


@dataclass(slots=True)
class Preview:
    """Makes the pages of a preview, and remembers what a save does not change."""

    studio: Studio
    laid_out: LaidOut = field(default_factory=LaidOut)

    def make(self, version: int) -> Made:
        """Read, work out and check what has changed, errors or not."""
        checked = self.studio.checked()
        pages = {
            OWN_FILES + name: read for name, read in preview_assets()
        } | self._pages(checked, version)
        return Made(
            MadeWhenAsked(pages), summary_line(checked.worked, checked.findings)
        )

    def _pages(self, checked: Checked, version: int) -> dict[str, Make]:
        picture = picture_from(Folder(self.studio.content))
        editions = [
            lay_out_edition(checked.worked, name, pdf=False, laid_out=self.laid_out)
            for name in (EditionName.TEACHER, EditionName.STUDENT)
        ]
        pages: dict[str, Make] = {"index.html": partial(_start, editions)}
        for edition in editions:
            for path, make in files_of(edition, picture).items():
                pages[f"{edition.name.value}/{path}"] = make
        return {
            name: partial(_told, name, make, checked, version)
            if name.endswith(".html")
            else make
            for name, make in pages.items()
        }


def _start(editions: Sequence[Edition]) -> bytes:
    offers = tuple(map(offered, editions))
    return render_start(offers, editions[0].context()).encode()


def _told(name: str, make: Make, checked: Checked, version: int) -> bytes:
    """A page with what was found about it."""
    about = _about(name, checked.findings)
    return with_findings(make(), checked.worked, about, version)


def _about(page: str, findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """A page's own findings; on a page of contents, those of no experiment, or all."""
    stem = PurePosixPath(page).stem
    if stem == "index":
        return findings
    return tuple(f for f in findings if f.experiment in (stem, None))
