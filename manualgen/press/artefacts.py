"""Marks as artefacts what a page shows beside its text: margin boxes, rules.

Chromium tags the text and leaves the running heads, the page numbers and many
rules and frames outside every mark, where a screen reader would read them into
the text. ISO 14289-1 wants each piece of a page to be either tagged content or
an artefact (ISO 32000-1, 14.8.2.2).

Skia writes one operator a line, its operands before it, which is all that this
needs to know of a content stream.
"""

import re
from collections.abc import Iterator, Set

_MARK_BEGINS = frozenset((b"BDC", b"BMC"))
_OBJECT_BEGINS = frozenset((b"m", b"re", b"BT"))
_TEXT_PAINTS = frozenset((b"Tj", b"TJ", b"'", b'"'))
_PATH_PAINTS = frozenset((b"f", b"F", b"f*", b"S", b"s", b"B", b"B*", b"b", b"b*"))
_PAINTS_ALONE = frozenset((b"Do", b"sh"))
_PAINTS = _TEXT_PAINTS | _PATH_PAINTS
_WORDS = _TEXT_PAINTS | _PAINTS_ALONE
_OBJECT_ENDS = _PATH_PAINTS | {b"ET", b"n"}

_NUMBER = re.compile(rb"/MCID (\d+)")

# Margin boxes are drawn before the page's area is set as a clip.
_PAGINATION = b"/Artifact <</Type /Pagination>> BDC"
_LAYOUT = b"/Artifact <</Type /Layout>> BDC"


class Content:
    """A page's content stream, line by line."""

    def __init__(self, stream: bytes) -> None:
        self._lines = stream.split(b"\n")
        # Skia sets no space between a dictionary and its BDC.  There are tens of
        # thousands of lines, so this is no function of its own.
        self._operators = [
            b"BDC" if line[-3:] == b"BDC" else line[line.rfind(b" ") + 1 :]
            for line in self._lines
        ]

    def wordless_marks(self) -> frozenset[int]:
        """The numbers of marks that show neither text nor image: frames, rules."""
        wordless: set[int] = set()
        worded: set[int] = set()
        number: int | None = None
        for line, operator in zip(self._lines, self._operators, strict=True):
            if operator == b"BDC" and (found := _NUMBER.search(line)):
                number = int(found[1])
                wordless.add(number)
            elif number is not None and operator in _WORDS:
                worded.add(number)
        return frozenset(wordless - worded)

    def with_artefacts(self, wordless: Set[int] = frozenset()) -> bytes:
        """The stream with all that is outside a mark marked as an artefact.

        So are the marks that `wordless` numbers.
        """
        for n, operator in enumerate(self._operators):
            if operator == b"BDC" and _number(self._lines[n]) in wordless:
                self._lines[n] = _LAYOUT
        clip = self._operators.index(b"n") if b"n" in self._operators else 0
        marked: list[bytes] = []
        copied = 0
        for first, last in self._unmarked():
            marked += self._lines[copied:first]
            marked.append(_PAGINATION if first < clip else _LAYOUT)
            marked += self._lines[first : last + 1]
            marked.append(b"EMC")
            copied = last + 1
        return b"\n".join(marked + self._lines[copied:])

    def _unmarked(self) -> Iterator[tuple[int, int]]:
        """First and last line of each path, text or object that is painted unmarked.

        A mark may begin only between such objects, so each is found whole.
        """
        marks: list[bool] = []
        begun: int | None = None
        paints = False
        for n, operator in enumerate(self._operators):
            if operator in _MARK_BEGINS:
                line = self._lines[n]
                marks.append(b"/MCID" in line or line.startswith(b"/Artifact"))
            elif operator == b"EMC":
                marks.pop()
            elif True in marks:
                continue
            elif operator in _PAINTS_ALONE:
                yield n, n
            elif operator in _OBJECT_BEGINS and begun is None:
                begun, paints = n, False
            elif begun is not None:
                paints = paints or operator in _PAINTS
                if operator in _OBJECT_ENDS:
                    if paints:
                        yield begun, n
                    begun = None


def _number(line: bytes) -> int:
    found = _NUMBER.search(line)
    return int(found[1]) if found else -1
