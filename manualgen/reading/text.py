"""Bytes to lines of text, and what keeps a file from being text."""

from __future__ import annotations

import re
from dataclasses import dataclass

from manualgen.model.place import Place
from manualgen.reading.faults import Faults
from manualgen.sources import TEXT_LIMIT, Source, SourceError

PRACTICAL_LIMIT = 150_000
"""Bytes of an experiment's file; the longest practicals have a fifth of it."""

MOST_LINES = 5000
"""Lines of an experiment's file."""

_LINE_END = re.compile(r"\r\n?")
_CONTROL = re.compile(
    r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ufeff\ufffe\uffff]"
)
"""Controls, and those of the bidirectional order, by which a reviewer can be shown
other words than are stored (Unicode Technical Report 36, section 3.1)."""
_MARKED_UTF16 = (b"\xff\xfe", b"\xfe\xff")


@dataclass(frozen=True, slots=True)
class SourceText:
    """A file that could be read as text."""

    path: str
    """From the content folder."""
    file: str
    """As the author would name it."""
    lines: tuple[str, ...]


def shown_name(source: Source, path: str) -> str:
    """A file as the author would name it: ``content/vinegar.md``."""
    return f"{source.name}/{path}" if source.name else path


def read_practical(source: Source, path: str, faults: Faults) -> SourceText | None:
    """The lines of an experiment's file, which is held to smaller bounds."""
    text = read_text(source, path, faults, PRACTICAL_LIMIT)
    if text and len(text.lines) > MOST_LINES:
        message = f"only the first {MOST_LINES} lines of this file are read"
        faults.syntax(Place(text.file, MOST_LINES), message, "part the experiment")
        return SourceText(text.path, text.file, text.lines[:MOST_LINES])
    return text


def read_text(
    source: Source, path: str, faults: Faults, limit: int = TEXT_LIMIT
) -> SourceText | None:
    """The lines of a UTF-8 file; None, and the reason noted, where it is none."""
    file = shown_name(source, path)
    try:
        content = source.read(path, limit)
    except SourceError as error:
        faults.syntax(Place(file), f"this file {error.message}")
        return None
    text = _decoded(content, file, faults)
    if text is None:
        return None
    lines = _LINE_END.sub("\n", text).split("\n")
    return SourceText(path, file, _without_controls(lines, file, faults))


def _decoded(content: bytes, file: str, faults: Faults) -> str | None:
    if content.startswith(_MARKED_UTF16):
        faults.syntax(Place(file), "this file is UTF-16; save it as UTF-8")
        return None
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        read = _LINE_END.sub("\n", content[: error.start].decode("utf-8-sig"))
        line, column = read.count("\n") + 1, len(read) - read.rfind("\n")
        faults.syntax(
            Place(file, line, column),
            "this file is not UTF-8 text; save it as UTF-8 in the editor",
        )
        return None
    if "\0" in text:
        faults.syntax(Place(file), "this file is not text: it holds NUL bytes")
        return None
    return text


def _without_controls(lines: list[str], file: str, faults: Faults) -> tuple[str, ...]:
    """The lines with each control character replaced; the first is reported."""
    if not _CONTROL.search("\n".join(lines)):
        return tuple(lines)
    reported = False
    for index, line in enumerate(lines):
        found = _CONTROL.search(line)
        if not found:
            continue
        if not reported:
            faults.syntax(
                Place(file, index + 1, found.start() + 1, 0, found.end() + 1),
                _said(found[0]),
            )
            reported = True
        lines[index] = _CONTROL.sub("\ufffd", line)
    return tuple(lines)


def without_controls(text: str, place: Place, faults: Faults) -> str:
    """A text without the control characters that its writing may stand for.

    An escape of YAML, or a reference such as ``&#8238;``, makes them.
    """
    if found := _CONTROL.search(text):
        faults.syntax(place, _said(found[0]))
    return _CONTROL.sub("\ufffd", text)


def _said(control: str) -> str:
    return f"the control character U+{ord(control):04X} stands here; delete it"
