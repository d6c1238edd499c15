"""What a comparison has to say."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Status(StrEnum):
    """What became of an experiment."""

    ADDED = "added"
    REMOVED = "removed"
    CHANGED = "changed"


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that is not as it was."""

    kind: str
    """``strength``, ``step``, ``answer`` …: what sort of thing it is."""
    what: str
    """Which one: the chemical's name, ``step 4``."""
    before: str | None
    """None where it is new."""
    after: str | None
    """None where it is gone."""
    line: int | None
    """Where it stands now, or stood where it is gone."""
    consequence: str | None = None
    """What follows, where the model knows."""
    teachers: bool = False
    """Whether only the teacher's edition shows it."""


@dataclass(frozen=True, slots=True)
class ExperimentChange:
    """All that changed in one experiment."""

    id: str
    title: str
    status: Status
    changes: tuple[Change, ...]

    @property
    def reprint(self) -> tuple[str, ...]:
        """The editions whose pages of this experiment have to be printed again."""
        if self.status is Status.REMOVED:
            return ()
        if self.status is Status.ADDED or any(not c.teachers for c in self.changes):
            return ("student", "teacher")
        return ("teacher",) if self.changes else ()


@dataclass(frozen=True, slots=True)
class Comparison:
    """What changed between two manuals."""

    base: str
    head: str
    manual: tuple[Change, ...]
    """Changes of the manual itself: its settings, its order."""
    experiments: tuple[ExperimentChange, ...]
    unread: tuple[str, ...] = ()
    """What could not be read in the older one, one sentence each."""
