"""``--fix``: mend the author's files in place, and show what was done."""

from __future__ import annotations

import difflib
import sys
import tempfile
from collections.abc import Iterable
from pathlib import Path

from manualgen.build.mend import edits_by_file, mended
from manualgen.commands.faults import TOOL_FAILED, CommandError
from manualgen.model.finding import Finding


def mend_files(findings: Iterable[Finding], content: Path) -> bool:
    """Make the harmless mends and show each file's difference; tells if any was made."""
    is_mended = False
    for name, edits in edits_by_file(findings).items():
        path = content / Path(name).relative_to(content)
        before = path.read_bytes().decode("utf-8")
        after = mended(before, edits)
        if after != before:
            _replace(path.resolve(), after)
            sys.stderr.writelines(_difference(name, before, after))
            is_mended = True
    return is_mended


def _difference(name: str, before: str, after: str) -> Iterable[str]:
    lines = difflib.unified_diff(
        before.splitlines(), after.splitlines(), name, name, lineterm="", n=0
    )
    return (line + "\n" for line in lines)


def _replace(path: Path, text: str) -> None:
    """Put the new text in the file's place whole, or leave the file as it was."""
    new: Path | None = None
    try:
        with tempfile.NamedTemporaryFile(
            "w", encoding="utf-8", newline="", dir=path.parent, delete=False
        ) as file:
            new = Path(file.name)
            file.write(text)
        new.chmod(path.stat().st_mode)
        new.replace(path)
    except OSError as error:
        if new is not None:
            new.unlink(missing_ok=True)
        raise CommandError(
            f"cannot mend {path}: {error.strerror}", TOOL_FAILED
        ) from error
