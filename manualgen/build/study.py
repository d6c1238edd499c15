"""One experiment read, worked out and checked by itself.

Of the others it takes no more than the names of their files, so experiments
are studied side by side, and one that is saved is studied alone.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from manualgen.build.side_by_side import side_by_side
from manualgen.checks.run import check_experiment
from manualgen.knowledge import NO_STORE, Vocabulary
from manualgen.model.finding import Finding
from manualgen.reading.experiment import read_experiment
from manualgen.reading.manual import Frame
from manualgen.reading.text import SourceText
from manualgen.sources import Source
from manualgen.working.laboratory import Laboratory, laboratory_of
from manualgen.working.work import work_experiment
from manualgen.working.worked import WorkedExperiment


@dataclass(frozen=True, slots=True)
class Study:
    """What is known of one experiment alone."""

    work: WorkedExperiment
    texts: tuple[SourceText, ...]
    """Its own text and the files of data that it names."""
    findings: tuple[Finding, ...]
    """What its own checks find; nothing is accepted yet."""


@dataclass(frozen=True, slots=True)
class Studies:
    """Studies experiments of one manual."""

    source: Source
    frame: Frame
    only: Collection[str] = ()
    """The checks to run; empty, all of them."""
    laboratory: Laboratory = field(default_factory=Laboratory)

    @classmethod
    def of(cls, source: Source, frame: Frame, only: Collection[str] = ()) -> Studies:
        """Ready to study the experiments of a manual."""
        return cls(source, frame, only, laboratory_of(frame.manual))

    def study(self, path: str) -> Study:
        """Read, work out and check the experiment in a file."""
        experiment, texts = read_experiment(self.source, path, self.frame.by_id)
        work = work_experiment(self.frame.manual, experiment, self.laboratory)
        return Study(work, texts, tuple(check_experiment(work, self.only)))

    @contextmanager
    def all(
        self,
        jobs: int | None = None,
        *,
        whole: bool = True,
        known: Mapping[str, Study] = MappingProxyType({}),
    ) -> Iterator[Iterator[Study]]:
        """Every experiment, in the manual's order, studied on several cores.

        What is worked out is left out unless it is wanted ``whole``.  Those that
        are ``known``, by file and bare, are not studied again.
        """
        do = self._bare if whole else self._found
        missing = [path for path in self.frame.paths if path not in known]
        with side_by_side(do, missing, jobs) as bare:
            found = (
                known[path] if path in known else next(bare)
                for path in self.frame.paths
            )
            yield map(self._furnished, found)

    def _bare(self, path: str) -> Study:
        """The study in a file without what all have in common."""
        return bared(self.study(path))

    def _found(self, path: str) -> Study:
        """A study whose working-out is done with, since its findings are known."""
        study = self.study(path)
        work = WorkedExperiment(
            study.work.experiment,
            study.work.number,
            study.work.settings,
            laboratory=_NOWHERE,
        )
        return replace(study, work=work)

    def _furnished(self, study: Study) -> Study:
        work = replace(
            study.work,
            laboratory=self.laboratory,
            settings=self.frame.manual.settings,
        )
        return replace(study, work=work)


def bared(study: Study) -> Study:
    """A study without what all have in common, for the way between processes."""
    return replace(study, work=replace(study.work, laboratory=_NOWHERE))


_NOWHERE = Laboratory(NO_STORE, Vocabulary.__new__(Vocabulary))
"""A laboratory without even the built-in words, which every process has itself."""
