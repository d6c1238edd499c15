"""Lines of YAML, and what is written wrongly in one of them."""

from __future__ import annotations

import re
from dataclasses import dataclass

_ENTRY = re.compile(r"\s*(?:- +)?(?:[A-Za-z_][\w -]*:\s+)?(?P<value>\S.*)")
"""A line with its key or dash apart from its value."""
KEY = re.compile(r"\s*[A-Za-z_][\w -]*:(?=\s|$)")
"""A key at the head of a line."""
_BULLET = re.compile(r"\s*(?P<sign>[*+•·–—])\s*(?P<value>[^\s*].*)")


@dataclass(frozen=True, slots=True)
class Slip:
    """What an author wrote, by offsets in the text, and what was meant."""

    start: int
    end: int
    message: str
    mend: str | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a text without blanks behind it, and the offset at which it begins."""

    start: int
    text: str

    @property
    def indent(self) -> int:
        """The blanks at its head."""
        return len(self.text) - len(self.text.lstrip(" "))

    def value(self) -> tuple[int, str] | None:
        """Where the value of a key or an item begins, and the value."""
        found = _ENTRY.match(self.text)
        return (found.start("value"), found["value"]) if found else None

    def slip(self, at: int, words: str, message: str, mend: str | None) -> Slip:
        """A slip in some words that begin at an offset of the line."""
        return Slip(self.start + at, self.start + at + len(words), message, mend)


def quoted(value: str) -> str:
    """The value in the quotes that it does not hold itself."""
    if '"' not in value:
        return f'"{value}"'
    return f"'{value}'" if "'" not in value else f'"{value.replace(chr(34), chr(39))}"'


def bullet(line: Line) -> Slip | None:
    """An item of a list that begins with another sign than a dash."""
    found = _BULLET.fullmatch(line.text)
    if found is None or KEY.match(line.text):
        return None
    message = "an item of a list begins with - and a blank"
    at = found.start("sign")
    return line.slip(at, line.text[at:], message, f"- {found['value']}")


def dash(line: Line) -> Slip | None:
    """``-vinegar``, which is a value and no item."""
    words = line.text.strip()
    if not re.match(r"-[A-Za-z\"'{]", words):
        return None
    message = "a blank belongs between the dash of an item and its words"
    return line.slip(line.text.index("-"), words, message, f"- {words[1:]}")
