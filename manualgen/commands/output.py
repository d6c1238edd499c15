"""Where a command's answer goes: standard output, or a file that is asked for."""

from __future__ import annotations

import sys
from pathlib import Path

from manualgen.commands.faults import TOOL_FAILED, WRONG_USAGE, CommandError


def keep_sources(output: Path | None, content: Path) -> None:
    """Refuse to write over what the manual is made from.

    ``output`` is a file, or the folder of a site.
    """
    if output is None:
        return
    target, sources = output.resolve(), content.resolve()
    is_source = target.is_file() and target.is_relative_to(sources)
    if is_source or sources.is_relative_to(target):
        raise CommandError(
            f"{output} holds the manual's own sources; name another place", WRONG_USAGE
        )


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
