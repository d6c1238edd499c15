"""Running text: inline tokens to the model's inlines.

Not recursive: emphasis can be nested as deep as a paragraph is long.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from enum import Enum

from markdown_it.token import Token

from manualgen.model.place import Place
from manualgen.model.text import (
    Blank,
    Emphasis,
    Inline,
    Inlines,
    LineBreak,
    Marks,
    Words,
)
from manualgen.reading.links import NAME, read_link
from manualgen.reading.pictures import read_picture
from manualgen.reading.rules.parser import DEEPEST, parse_inline
from manualgen.reading.span import read_span
from manualgen.reading.stretch import Stretch
from manualgen.reading.surroundings import Surroundings
from manualgen.reading.text import without_controls

LONGEST = 20_000
"""Characters of one paragraph that are read."""

MOST_BRACKETS = 100
"""Opening brackets in it; each may begin a link or a blank."""


_LEFT_OVER = {
    "`": "this backtick has no partner",
    "](": "this link cannot be read: it is not closed, or its address holds a blank",
}


class MarksMean(Enum):
    """What ``[2]`` is in a text."""

    NOTHING = 0
    """Words like others."""
    QUESTION = 1
    """At the end, the marks of a question."""
    ANSWER = 2
    """Anywhere, the marks of a point."""


@dataclass(frozen=True, slots=True)
class Name:
    """``[#name]`` at the end of a text."""

    text: str
    place: Place
    noted: bool = False
    """Whether it is known already to stand in the wrong place."""


@dataclass(frozen=True, slots=True)
class Run:
    """A run of text, and what it carries at its end."""

    content: Inlines
    name: Name | None = None
    marks: Marks | None = None


def read_inlines(
    text: Stretch, around: Surroundings, marks: MarksMean = MarksMean.NOTHING
) -> Run:
    """The inlines of a block's text; what cannot be read is noted."""
    if len(text.text) > LONGEST or text.text.count("[") > MOST_BRACKETS:
        message = (
            f"a paragraph of more than {LONGEST} characters, or {MOST_BRACKETS} "
            "brackets, is not read"
        )
        around.faults.syntax(text.place(0, 1), message, "part it by empty lines")
        return Run((Words(text.text[:LONGEST], text.place(0, LONGEST)),))
    around.env.pop("open", None)
    reader = _InlineReader(text, around, marks)
    for token in parse_inline(text.text, around.env):
        reader.take(token)
    for start in around.env.pop("open", ()):
        around.faults.syntax(
            text.place(start, start + 2), "this blank is not closed; close it with _]"
        )
    return reader.run()


@dataclass(slots=True)
class _Frame:
    """An emphasis, link or blank that is open; the outermost has no token."""

    token: Token | None = None
    inlines: list[Inline] = field(default_factory=list)


class _InlineReader:
    """Takes tokens one by one, and keeps on a stack what is open."""

    def __init__(self, text: Stretch, around: Surroundings, marks: MarksMean) -> None:
        self._text = text
        self._around = around
        self._marks = marks
        self._stack = [_Frame()]
        self._start = self._end = 0
        self._name: Name | None = None
        self._before_name = 0
        self._html = False

    def take(self, token: Token) -> None:
        """The next token."""
        if token.type == "text":
            self._words(token, token.content)
            return
        if token.type == "marks" and self._marks is MarksMean.NOTHING:
            self._words(token, token.markup)
            return
        self._end_words()
        if token.nesting > 0:
            self._stack.append(_Frame(token))
        elif token.nesting < 0:
            self._close(token)
        else:
            self._single(token)

    def run(self) -> Run:
        """All that was taken, with what stands at its end taken off."""
        self._end_words()
        inlines = self._stack[0].inlines
        _strip_end(inlines)
        marks = None
        if self._marks is MarksMean.QUESTION:
            marks = _taken_marks(inlines)
            inlines = [_as_words(inline) for inline in inlines]
        if self._name and len(inlines) > self._before_name:
            message = "a name stands at the end of its step, question or caption"
            self._around.faults.syntax(self._name.place, message)
            self._name = replace(self._name, noted=True)
        return Run(tuple(inlines), self._name, marks)

    def _words(self, token: Token, text: str) -> None:
        """Take plain text in; what joins on to the text before is one with it."""
        at: int = token.meta["at"]
        top = self._stack[-1].token
        if top and top.info == "auto":
            at += 1
        if at != self._end:
            self._end_words()
            self._start = at
        self._end = at + len(text)

    def _end_words(self) -> None:
        if self._end > self._start:
            self._note_leftovers()
            pieces = self._text.pieces(self._start, self._end)
            self._stack[-1].inlines += [Words(*piece) for piece in pieces]
        self._start = self._end

    def _note_leftovers(self) -> None:
        """Signs that are left over from a span or a link that was not closed."""
        for sign, message in _LEFT_OVER.items():
            at = self._text.text.find(sign, self._start, self._end)
            if at >= 0:
                place = self._text.place(at, at + len(sign))
                self._around.faults.syntax(place, message)

    def _close(self, token: Token) -> None:
        frame = self._stack.pop()
        if len(self._stack) > DEEPEST or frame.token is None:
            self._stack[-1].inlines += frame.inlines
            return
        self._stack[-1].inlines += self._closed(frame.token, token, frame.inlines)

    def _closed(
        self, opening: Token, closing: Token, inlines: list[Inline]
    ) -> tuple[Inline, ...]:
        start, end = opening.meta["at"], closing.meta["end"]
        content = tuple(inlines)
        match opening.type:
            case "strong_open":
                place = self._text.place(start - 1, end + 1)
                return (Emphasis(content, True, place),)
            case "em_open":
                return (Emphasis(content, False, self._text.place(start, end)),)
            case "blank_open":
                return (self._blank(content, self._text.place(start, end)),)
            case _:
                start -= opening.info != "auto"
                place = self._text.place(start, end)
                address = str(opening.attrs["href"])
                return read_link(address, content, place, self._around)

    def _blank(self, content: Inlines, place: Place) -> Blank:
        if not content:
            message = "an empty blank; write in it what the teacher is to see"
            self._around.faults.syntax(place, message)
        return Blank(content, place)

    def _single(self, token: Token) -> None:
        start, end = token.meta["at"], token.meta["end"]
        match token.type:
            case "code_inline":
                self._add(read_span(self._code(token), self._around.faults))
            case "softbreak" | "hardbreak":
                hard = token.type == "hardbreak"
                self._add(LineBreak(hard, self._text.place(start, start)))
            case _:
                self._rarer(token, self._text.place(start, end))

    def _rarer(self, token: Token, place: Place) -> None:
        match token.type:
            case "text_special":
                words = without_controls(token.content, place, self._around.faults)
                self._add(Words(words, place))
            case "marks":
                self._add(Marks(int(token.content), bool(token.info), place))
            case "name":
                self._take_name(token, place)
            case "image":
                address, words = str(token.attrs["src"]), token.content
                self._add(read_picture(address, _plain(words), place, self._around))
            case _:
                self._note_html(token.content, place)
                self._add(Words(token.content, place))

    def _note_html(self, words: str, place: Place) -> None:
        """Note the first piece of HTML; the tag that closes it is no second fault."""
        if not self._html:
            message = f"{words} is HTML, which is not read here"
            self._around.faults.syntax(place, message, "write it in Markdown")
        self._html = True

    def _add(self, inline: Inline) -> None:
        self._stack[-1].inlines.append(inline)

    def _code(self, token: Token) -> Stretch:
        """What stands between the backticks."""
        ticks = len(token.markup)
        start, end = token.meta["at"] + ticks, token.meta["end"] - ticks
        blanks = (end - start - len(token.content)) // 2
        return self._text.cut(start + blanks, end - blanks)

    def _take_name(self, token: Token, place: Place) -> None:
        faults = self._around.faults
        before = self._stack[-1].inlines[-1:]
        if before and isinstance(words := before[0], Words) and words.text[-1:] == "]":
            message = "a cross-reference has its name in round brackets"
            faults.syntax(place, message, f"({token.markup[1:-1]})")
        elif not NAME.fullmatch(token.content):
            message = f"{token.markup} is no name: letters, digits and hyphens"
            faults.syntax(place, message)
        elif self._name:
            faults.syntax(place, f"this is named #{self._name.text} already")
        else:
            self._name = Name(token.content, place)
            self._before_name = len(self._stack[0].inlines)


def _plain(words: str) -> str:
    """A picture's description without the marks of Markdown."""
    return " ".join(words.replace("`", "").replace("*", "").split())


def _strip_end(inlines: list[Inline]) -> None:
    """Take blanks and line ends off the end."""
    while inlines and isinstance(last := inlines[-1], Words | LineBreak):
        text = last.text.rstrip() if isinstance(last, Words) else ""
        if text and isinstance(last, Words):
            inlines[-1] = shortened(last, 0, len(text))
            return
        inlines.pop()


def shortened(words: Words, start: int, end: int) -> Words:
    """A part of some words, at its own place."""
    if (start, end) == (0, len(words.text)):
        return words
    return Words(words.text[start:end], words.place.within(start, end))


def _taken_marks(inlines: list[Inline]) -> Marks | None:
    """The marks at the end, taken off it; they may stand in bold."""
    last = inlines[-1] if inlines else None
    if isinstance(last, Emphasis) and len(last.content) == 1:
        last = last.content[0]
    if not isinstance(last, Marks):
        return None
    inlines.pop()
    _strip_end(inlines)
    return last


def _as_words(inline: Inline) -> Inline:
    """Marks in the middle of a question as the words that they are."""
    match inline:
        case Marks(number, maximum, place):
            return Words(f"[{'max ' * maximum}{number}]", place)
        case Emphasis() | Blank():
            return replace(inline, content=tuple(map(_as_words, inline.content)))
        case _:
            return inline
