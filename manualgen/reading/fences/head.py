"""The line that opens a fence: what it is, its name, and words about it.

```equation #end-point with-ionic
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from manualgen.model.place import Place
from manualgen.reading.faults import Faults
from manualgen.reading.links import NAME
from manualgen.reading.stretch import Stretch
from manualgen.reading.tree import Body, Node, is_closed

LONGEST_LINE = 1000
"""Characters of a line that are read."""

MOST_LINES = 200
"""Lines of a fence that are read."""

_WORD = re.compile(r"\S+")


@dataclass(frozen=True, slots=True)
class Fence:
    """A fence and its text, not yet read."""

    kind: Stretch
    name: str | None
    words: tuple[Stretch, ...]
    text: Stretch
    place: Place

    def lines(self, faults: Faults) -> Iterator[Stretch]:
        """The lines that are not empty, blanks around them taken off."""
        for number, line in enumerate(self.text.lines()):
            bare = line.strip()
            if number >= MOST_LINES:
                message = f"a block of more than {MOST_LINES} lines is not read"
                faults.syntax(line.place(0, 1), message, "part it in two")
                return
            if len(bare.text) > LONGEST_LINE:
                message = f"a line of more than {LONGEST_LINE} characters is not read"
                faults.syntax(bare.place(0, 1), message)
            elif bare.text:
                yield bare

    def note_words(self, faults: Faults) -> None:
        """Note words after a kind of fence that knows none."""
        for word in self.words:
            message = f"{word.text!r} means nothing after {self.kind.text}"
            faults.syntax(word.place(), message, "only #name may follow")


def read_head(node: Node, body: Body, faults: Faults) -> Fence:
    """The parts of a fence; one that is never closed ends at an empty line."""
    source, ticks = body.line(node.line), node.token.markup
    column = max(source.find(ticks), 0)
    behind = column + len(ticks)
    info = Stretch(body.file, source, ((0, body.first + node.line + 1, 1),))
    words = [info.cut(*w.span()) for w in _WORD.finditer(source, behind)]
    kind = words.pop(0) if words else info.cut(behind, behind)
    opening = info.place(column, len(source.rstrip()))
    content = node.token.content.removesuffix("\n")
    if not is_closed(node):
        content = content.partition("\n\n")[0]
    text = body.stretch(content, node.line + 1, trimmed=False)
    name = _name(words, faults)
    return Fence(kind, name, tuple(words), text, opening)


def _name(words: list[Stretch], faults: Faults) -> str | None:
    """The name among the words, taken out of them."""
    named = [word for word in words if word.text.startswith("#")]
    for word in named:
        words.remove(word)
        if not NAME.fullmatch(word.text, 1):
            message = f"{word.text} is no name: letters, digits and hyphens"
            faults.syntax(word.place(), message)
    for word in named[1:]:
        faults.syntax(word.place(), f"this is named {named[0].text} already")
    return named[0].text[1:] if named else None
