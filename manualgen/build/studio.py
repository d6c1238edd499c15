"""A manual that is being written: studied again only where a file has changed."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeAlias

from manualgen.build.stages import Checked, together
from manualgen.build.study import Studies, Study
from manualgen.editions.catalogue import Numbered
from manualgen.editions.key import Key
from manualgen.editions.lay_out import lay_out
from manualgen.editions.sheet import Sheet
from manualgen.reading.manual import read_frame
from manualgen.sources import Folder
from manualgen.working.worked import WorkedExperiment

Stamp: TypeAlias = tuple[int, int] | None
"""A file's time of change in ns and its size; None where there is no file."""

Faces: TypeAlias = Mapping[str, tuple[str, str, Mapping[str, object]]]
"""What experiments see of each other: number, title and targets by name."""


@dataclass(slots=True)
class Studio:
    """Keeps the study of every experiment for as long as its files stay the same."""

    content: Path
    manual: str | None
    today: datetime.date
    _studies: Studies | None = None
    _shared: Mapping[str, Stamp] = field(default_factory=dict)
    """The files of which every experiment may know: all but the others' own."""
    _kept: dict[str, tuple[Stamp, Study]] = field(default_factory=dict)

    def checked(self) -> Checked:
        """The manual as it is now, worked out and checked."""
        studies = self._refreshed()
        paths = studies.frame.paths
        found = together(studies, [self._study(studies, p) for p in paths], self.today)
        self._kept = {path: self._kept[path] for path in paths}
        return found

    def _refreshed(self) -> Studies:
        """How experiments are studied; where that has changed, none is kept."""
        source = Folder(self.content)
        shared = {
            f: None if f.endswith(".md") else self._stamp(f) for f in source.files()
        }
        if self._studies is None or shared != self._shared:
            self._studies = Studies.of(source, read_frame(source, self.manual))
            self._shared = shared
            self._kept.clear()
        return self._studies

    def _study(self, studies: Studies, path: str) -> Study:
        # Of a file that is saved while it is read, the stamp is another next time.
        stamp = self._stamp(path)
        if path not in self._kept or self._kept[path][0] != stamp:
            self._kept[path] = stamp, studies.study(path)
        return self._kept[path][1]

    def _stamp(self, path: str) -> Stamp:
        try:
            status = (self.content / path).stat()
        except OSError:
            return None
        return status.st_mtime_ns, status.st_size


@dataclass(slots=True)
class LaidOut:
    """Remembers how experiments were laid out, while what they see stays the same."""

    _faces: Faces = field(default_factory=dict)
    _numbers: Mapping[str, Numbered] | None = None
    _kept: dict[str, tuple[WorkedExperiment, tuple[Sheet, Key]]] = field(
        default_factory=dict
    )

    def __call__(
        self, work: WorkedExperiment, numbers: Mapping[str, Numbered]
    ) -> tuple[Sheet, Key]:
        """What `lay_out` gives, once for each experiment."""
        self._meet(numbers)
        known, laid_out = self._kept.get(work.experiment.id, (None, None))
        if known is not work or laid_out is None:
            laid_out = lay_out(work, numbers)
            self._kept[work.experiment.id] = work, laid_out
        return laid_out

    def _meet(self, numbers: Mapping[str, Numbered]) -> None:
        if numbers is self._numbers:
            return
        faces = dict(_faces(numbers))
        if faces != self._faces:
            self._kept.clear()
        self._faces, self._numbers = faces, numbers


def _faces(
    numbers: Mapping[str, Numbered],
) -> Iterator[tuple[str, tuple[str, str, Mapping[str, object]]]]:
    for identity, numbered in numbers.items():
        yield identity, (numbered.number, numbered.title, numbered.by_name)
