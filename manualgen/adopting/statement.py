"""A document as statements: its sentences, headings, tables and pictures in a row."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import Enum

from manualgen.adopting.doing import imperative, steps_in
from manualgen.adopting.hearing import as_meant
from manualgen.adopting.in_rows import questions_in_rows, steps_in_rows
from manualgen.adopting.leading import led_in
from manualgen.adopting.piece import Kind, PictureFile, Piece
from manualgen.adopting.seeing import seen_in
from manualgen.adopting.sentences import sentences
from manualgen.adopting.stated import commanded
from manualgen.adopting.vocabulary import Part, part_named, patterns
from manualgen.adopting.wanted import need_list


@dataclass(frozen=True, slots=True)
class Statement:
    """A sentence, a heading, a table or a picture."""

    kind: Kind
    text: str
    origin: str
    level: int = 0
    is_label: bool = False
    after_gap: bool = False
    """Whether it begins a paragraph behind an empty line."""
    begins_piece: bool = True
    rows: tuple[tuple[str, ...], ...] = ()
    picture: PictureFile | None = None
    number: int = 0
    """Its place in the row of the document's statements."""
    spoken: str = ""
    """What was said, where the text is what was meant by it."""
    own_part: Part | None = None
    """The part that its own number puts it in: *Q1*, *A1*."""
    led_by: str = ""
    """The heading of the part that it is the first to stand under."""
    marker: str = ""
    """The typed number, letter or bullet of the item that it is the first sentence of."""

    @property
    def words(self) -> str:
        """The text as it stood in the source."""
        return self.spoken or self.text

    @property
    def part(self) -> Part | None:
        """The part that a heading names."""
        return part_named(self.text) if self.kind is Kind.HEADING else None


MARKS = re.compile(r"\s*[\[(](\d{1,2})(?:\s*marks?)?[\])]\.?$", re.IGNORECASE)
"""The marks behind a question."""


class Role(Enum):
    """What a sentence does, by its words alone."""

    ASKS = 1
    ANSWERS = 2
    NEEDS = 3
    DOES = 4
    SEES = 5
    MEANS = 6
    WARNS = 7
    DISPOSES = 8
    NOTHING = 9


_ASIDE = 2
"""Words of what is said in between."""
_FACTS = (Role.NOTHING, Role.SEES, Role.MEANS, Role.WARNS)
"""What a lone warning may warn of."""


def statements(
    pieces: Iterable[Piece], *, is_talk: bool = False
) -> Iterator[Statement]:
    """The statements of some pieces; together they hold every word."""
    for piece in pieces:
        if piece.kind in (Kind.TEXT, Kind.ITEM):
            said = _sentences(piece)
            yield from map(_meant, said) if is_talk else said
        elif in_rows := list(_rows(piece)):
            yield from in_rows
        else:
            yield Statement(
                piece.kind,
                piece.text,
                piece.origin,
                piece.level,
                piece.is_label,
                piece.after_gap,
                rows=piece.rows,
                picture=piece.picture,
            )


def _rows(piece: Piece) -> Iterator[Statement]:
    """The sentences of a method or of questions that are set out as a table."""
    for n, text in enumerate(questions_in_rows(piece.rows), 1):
        item = replace(piece, kind=Kind.ITEM, text=text, marker=f"Q{n}")
        yield from _sentences(item)
    for n, (text, said) in enumerate(steps_in_rows(piece.rows), 1):
        item = replace(piece, kind=Kind.ITEM, text=text, marker=str(n))
        first, *others = _sentences(item)
        yield replace(first, spoken=said)
        yield from others


def _own_part(piece: Piece) -> Part | None:
    if piece.is_numbered_question:
        return Part.QUESTIONS
    is_answer = re.match(r"a\w*\.?\s*\d", piece.marker, re.IGNORECASE)
    return Part.ANSWERS if is_answer else None


def _sentences(piece: Piece) -> Iterator[Statement]:
    for start, end in _with_lone_warnings(piece.text):
        first = start == 0
        yield Statement(
            piece.kind,
            piece.text[start:end].strip(),
            piece.origin_at(start),
            after_gap=piece.after_gap and first,
            begins_piece=first,
            own_part=_own_part(piece),
            marker=piece.marker if first else "",
        )


def _with_lone_warnings(text: str) -> Iterator[tuple[int, int]]:
    """Sentences, where *Careful!* goes with the fact behind it; a step stays its own."""
    spans = iter(sentences(text))
    for start, end in spans:
        following = None
        if patterns("warning_words").fullmatch(text[start:end].strip()):
            following = next(spans, None)
        if following is None:
            yield start, end
        elif role_of(text[slice(*following)].strip()) in _FACTS:
            yield start, following[1]
        else:
            yield from ((start, end), following)


def _meant(statement: Statement) -> Statement:
    text = as_meant(statement.text)
    return replace(statement, text=text, spoken=statement.text)


def role_of(text: str) -> Role:
    """What a sentence does, where no heading says it."""
    bare = led_in(text)
    if patterns("asking_for").match(text) and need_list(text) is not None:
        return Role.NEEDS
    if patterns("doers", "causing").match(bare) and imperative(text):
        return Role.DOES if need_list(text) is None else Role.NEEDS
    if _asks(text, bare):
        return Role.ASKS
    if patterns("answering").match(text):
        return Role.ANSWERS
    if need_list(text) is not None:
        return Role.NEEDS
    if text.endswith("?"):
        return Role.NOTHING
    return Role.DISPOSES if patterns("disposing").search(text) else _told(text, bare)


def _asks(text: str, bare: str) -> bool:
    is_marked = MARKS.search(text) and patterns("asking").match(bare)
    return bool(is_question(text) or asked(text) or is_marked)


def _told(text: str, bare: str) -> Role:
    """What a sentence that neither asks nor lists does."""
    danger = patterns("danger").search(bare)
    if danger and danger.start() == 0:
        return Role.WARNS
    if patterns("meaning").search(bare) and not imperative(text):
        return Role.MEANS
    if imperative(text):
        return Role.DOES
    return _by_verb(text, warns=danger is not None)


def _by_verb(text: str, *, warns: bool) -> Role:
    if warns:
        return Role.WARNS
    if seen_in(text) and commanded(text) == text.strip():
        return Role.SEES
    return Role.DOES if steps_in(text) else Role.NOTHING


def is_aside(role: Role, text: str) -> bool:
    """Whether a list may go on behind it: *Lovely* or *don't eat them*."""
    is_short = role is Role.NOTHING and len(text.split()) <= _ASIDE
    return is_short or role is Role.WARNS


def is_question(text: str) -> bool:
    """Whether it asks something of whoever reads."""
    bare = led_in(text)
    is_idle = patterns("idle_questions").match(bare)
    return text.endswith("?") and bool(patterns("asking").match(bare)) and not is_idle


def asked(text: str) -> str | None:
    """The question that talk leads in, or None: *what I ask them is why …*."""
    lead = patterns("asked").match(text)
    rest = text[lead.end() :] if lead else ""
    return rest if patterns("asking").match(rest) else None
