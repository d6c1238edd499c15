"""Two revisions of a manual, read and worked out; what is the same of both, once."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field, replace

from manualgen.build.kept import (
    AskedAll,
    AskedMapping,
    AskedSource,
    Kept,
    written_alike,
)
from manualgen.model.experiment import Experiment
from manualgen.model.manual import Manual
from manualgen.reading.experiment import read_experiment
from manualgen.reading.manual import Frame, ReadExperiment, read_frame
from manualgen.sources import Source
from manualgen.working.laboratory import Laboratory, laboratory_of
from manualgen.working.work import work_experiment
from manualgen.working.worked import Worked, WorkedExperiment


@dataclass(slots=True)
class Workshop:
    """Works out one revision after the other, from the one before where it serves.

    Of an experiment that is the same, and in the same manual, there is one object
    in both, so that whoever compares them need not look inside.
    """

    manual: str | None
    """Picks ``manual-NAME.yaml``."""
    today: datetime.date
    _read: Kept[ReadExperiment] = field(default_factory=Kept)
    _last: Worked | None = None

    def work_out(self, source: Source) -> Worked:
        """The worked manual of a content folder, wherever it lies."""
        frame = read_frame(source, self.manual)
        read = (self._experiment(source, path, frame) for path in frame.paths)
        manual, lines = frame.filled(read)
        laboratory = self._laboratory(manual)
        known = self._known(manual)
        works = tuple(_work(manual, e, laboratory, known) for e in manual.experiments)
        self._last = Worked(manual, works, self.today, laboratory, lines)
        return self._last

    def _experiment(self, source: Source, path: str, frame: Frame) -> ReadExperiment:
        folder, files = AskedSource(source), AskedMapping(frame.by_id)
        asked = AskedAll((folder, files))
        return self._read.made(
            path, asked, lambda: read_experiment(folder, path, files)
        )

    def _laboratory(self, manual: Manual) -> Laboratory:
        last = self._last
        is_same = (
            last is not None
            and written_alike(last.manual.chemicals, manual.chemicals)
            and written_alike(last.manual.apparatus, manual.apparatus)
        )
        return last.laboratory if last and is_same else laboratory_of(manual)

    def _known(self, manual: Manual) -> dict[str, WorkedExperiment]:
        """What was worked out last, by file, if it was for such a manual."""
        last = self._last
        if last is None or not written_alike(last.manual.settings, manual.settings):
            return {}
        return {w.experiment.file: w for w in last.experiments}


def _work(
    manual: Manual,
    experiment: Experiment,
    laboratory: Laboratory,
    known: dict[str, WorkedExperiment],
) -> WorkedExperiment:
    work = known.get(experiment.file)
    if (
        work is None
        or work.experiment is not experiment
        or work.laboratory is not laboratory
    ):
        return work_experiment(manual, experiment, laboratory)
    number = manual.number_of(experiment.id)
    return work if work.number == number else replace(work, number=number)
