"""What every PDF has in common: the date that it bears, and how it is handed over."""

from __future__ import annotations

import datetime
from pathlib import Path

from manualgen.press.errors import PressError
from manualgen.working.worked import Worked


def printed_on(worked: Worked) -> datetime.datetime:
    """The date that a PDF bears."""
    return datetime.datetime.combine(worked.today, datetime.time(), datetime.UTC)


def deliver(made: Path, output: Path) -> None:
    """Copy a PDF to where it was asked for; raises `PressError` if it cannot be."""
    try:
        output.write_bytes(made.read_bytes())
    except OSError as error:
        raise PressError(f"cannot write {output}: {error.strerror}") from error
