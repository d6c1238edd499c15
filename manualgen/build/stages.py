"""Read, work out, check: what every command begins with."""

from __future__ import annotations

import datetime
from collections.abc import Collection
from pathlib import Path

from manualgen.checks.run import run_checks
from manualgen.model.finding import Finding
from manualgen.reading import read_manual
from manualgen.sources import Folder, Source
from manualgen.working.work import work_out
from manualgen.working.worked import Worked


def read_and_work(content: Path, manual: str | None, today: datetime.date) -> Worked:
    """The worked manual of a content folder.

    ``manual`` picks ``manual-NAME.yaml``.  Whatever cannot be read is noted in
    the model; nothing is raised for it.
    """
    return work_source(Folder(content), manual, today)


def work_source(source: Source, manual: str | None, today: datetime.date) -> Worked:
    """The same of a content folder wherever it lies, in a git revision too."""
    read, lines = read_manual(source, manual)
    return work_out(read, lines, today)


def check(worked: Worked, only: Collection[str] = ()) -> tuple[Finding, ...]:
    """The findings of a worked manual, in source order, accepted ones left out."""
    return run_checks(worked, only)
