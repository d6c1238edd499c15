"""What a check has to say to the author.

The author's mistakes are values.  A check yields a `Fault`; the runner adds
the check's name, its severity and the experiment, and makes a `Finding`.
Reading, which meets mistakes before there is anything to check, keeps each as
a `Noted` fault in the model, and the check of that name brings it up.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from manualgen.model.place import Place


class Severity(StrEnum):
    """How much a finding matters: an error stops a build."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Edit:
    """Another writing of the very same thing, which a machine may put in its place.

    A guess at what was meant is none, and neither is a mend of the chemistry.
    """

    place: Place
    replacement: str
    written: str = ""
    """What stands there now; empty where it is a quantity or a unit, which is
    known by its value.
    """


@dataclass(frozen=True, slots=True)
class Fault:
    """Something wrong at a place, in the author's own words, with its mend."""

    place: Place
    message: str
    mend: str | None = None
    """What to write instead, where it can be worked out."""
    edit: Edit | None = None


@dataclass(frozen=True, slots=True)
class Noted:
    """A fault that reading met, and the name of the check it belongs to."""

    check: str
    fault: Fault


@dataclass(frozen=True, slots=True)
class Finding:
    """A fault as it is reported."""

    check: str
    severity: Severity
    fault: Fault
    experiment: str | None = None
    """The id of the experiment, or None where the manual itself is meant."""

    @property
    def place(self) -> Place:
        """Where the offending words stand."""
        return self.fault.place
