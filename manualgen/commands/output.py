"""Where a command's answer goes: standard output, or a file that is asked for."""

from __future__ import annotations

import sys
from pathlib import Path

from manualgen.commands.faults import TOOL_FAILED, CommandError


def write_out(text: str, output: Path | None) -> None:
    """Write text to a file, or to standard output where none is named."""
    if output is None:
        sys.stdout.write(text)
        return
    try:
        output.write_text(text, encoding="utf-8", errors="backslashreplace")
    except OSError as error:
        raise CommandError(
            f"cannot write {output}: {error.strerror}", TOOL_FAILED
        ) from error
