"""Read, work out, check: what every command begins with."""

from __future__ import annotations

import datetime
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from manualgen.build.study import Studies, Study, bared
from manualgen.build.study_cache import StudyCache
from manualgen.checks.run import run_checks, settle
from manualgen.model.finding import Finding
from manualgen.reading.manual import ReadExperiment, read_frame, read_manual
from manualgen.sources import Folder, Source
from manualgen.working.work import work_out
from manualgen.working.worked import Worked, WorkedExperiment


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


@dataclass(frozen=True, slots=True)
class Checked:
    """A worked manual and what is reported of it."""

    worked: Worked
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of a content folder."""

    manual: str | None
    """Picks ``manual-NAME.yaml``."""
    today: datetime.date
    only: tuple[str, ...] = ()
    """The checks to run; empty, all of them."""
    jobs: int | None = None
    """Processes side by side; None for one a core."""
    whole: bool = True
    """Whether more is wanted than the findings: what is worked out, too."""
    cache: StudyCache | None = None
    """Keeps what is worked out, where all is asked for, from one time to the next."""


def read_and_check(content: Path, asked: Asked) -> Checked:
    """The same as `read_and_work` and `check`, experiments side by side."""
    source = Folder(content)
    studies = Studies.of(source, read_frame(source, asked.manual), asked.only)
    if asked.cache:
        return _from_cache(studies, asked, asked.cache)
    with studies.all(asked.jobs, whole=asked.whole) as found:
        return together(studies, found, asked.today)


def _from_cache(studies: Studies, asked: Asked, cache: StudyCache) -> Checked:
    """The same, with what was kept; what was not is studied, and kept."""
    paths = studies.frame.paths
    known = {p: study for p in paths if (study := cache.find(p)) is not None}
    fresh: dict[str, Study] = {}

    def noted(found: Iterable[Study]) -> Iterator[Study]:
        for path, study in zip(paths, found, strict=True):
            if path not in known:
                fresh[path] = bared(study)
            yield study

    with studies.all(asked.jobs, known=known) as found:
        checked = together(studies, noted(found), asked.today)
    cache.keep(studies.source, fresh)
    return checked


def together(studies: Studies, found: Iterable[Study], today: datetime.date) -> Checked:
    """The manual of experiments that were studied one by one, in its order."""
    works: list[WorkedExperiment] = []
    findings: list[Finding] = []

    def read() -> Iterator[ReadExperiment]:
        for study in found:
            works.append(study.work)
            findings.extend(study.findings)
            yield study.work.experiment, study.texts

    manual, lines = studies.frame.filled(read())
    worked = Worked(manual, tuple(works), today, studies.laboratory, lines)
    return Checked(worked, settle(worked, findings, studies.only))


def check(worked: Worked, only: Collection[str] = ()) -> tuple[Finding, ...]:
    """The findings of a worked manual, in source order, accepted ones left out."""
    return run_checks(worked, only)
