"""Boxes: a block quote that begins with a bold label and a colon.

    > **Safety #hot-flask:** The flask stays hot.
    > **Answer (3 lines):** Water adds no acid [1].

A label that cannot be read makes the box the teacher's, so that a slip of the
pen shows a student too little and never too much.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from manualgen.model.blocks import AnswerSpace, BoxKind
from manualgen.model.nearest import nearest
from manualgen.model.place import Place
from manualgen.model.text import Emphasis, Inline, Inlines, LineBreak, Words
from manualgen.model.walk import plain
from manualgen.quantities import Quantity, QuantityError, parse_quantity
from manualgen.quantities.kinds import kind_of
from manualgen.reading.faults import Faults
from manualgen.reading.inline import shortened
from manualgen.reading.links import NAME

ANSWER = "Answer"
LABELS = (*(kind.value for kind in BoxKind), ANSWER)
_BY_FOLDED = {label.casefold(): label for label in LABELS}
_OTHER_WORDS = {
    **dict.fromkeys(("warning", "caution", "danger", "hazard", "risk"), "Safety"),
    **dict.fromkeys(("hint", "tip", "remember", "important"), "Note"),
    **dict.fromkeys(("waste", "clearing away"), "Disposal"),
    **dict.fromkeys(("answers", "solution", "model answer"), ANSWER),
}
"""What authors also call a box (common practice, no source)."""
_TELLING = ("Teacher", "Technician", ANSWER, "Safety")
"""Labels whose words must not stand in a student's text by mistake."""

HIGHEST_M = Fraction(24, 100)
"""Of a frame to draw in: what A4 and Letter leave under a question."""

_NAME = re.compile(r"\s*#(\S+)")
_SPACE = re.compile(r"\s*\(([^()]*)\)")


@dataclass(frozen=True, slots=True)
class Label:
    """What the bold words at the head of a box say."""

    kind: BoxKind | None
    """None for an answer."""
    name: str | None
    space: AnswerSpace
    rest: Inlines
    """The paragraph after the label."""


def read_label(content: Inlines, quote: Place, faults: Faults) -> Label:
    """The label of a box and what follows it in its first paragraph."""
    match content:
        case (Emphasis(strong=True) as bold, *rest):
            words, colon = _words(bold, rest)
            if colon:
                return _labelled(words, bold, _after_colon(rest), faults)
            place = bold.place
        case _:
            place = content[0].place if content else quote
    message = f"a block quote begins with a bold label: {', '.join(LABELS)}"
    faults.syntax(place, message, "**Note:**")
    return Label(BoxKind.TEACHER, None, AnswerSpace(), content)


def _words(bold: Emphasis, rest: Iterable[Inline]) -> tuple[str, bool]:
    """The words in bold, and whether a colon follows or ends them."""
    words = plain(bold.content).strip()
    if words.endswith(":"):
        return words[:-1], True
    following = next(iter(rest), None)
    return words, isinstance(following, Words) and following.text.startswith(":")


def _after_colon(rest: list[Inline]) -> Inlines:
    while rest and isinstance(first := rest[0], Words | LineBreak):
        text = first.text if isinstance(first, Words) else ""
        kept = text.removeprefix(":").lstrip()
        if kept and isinstance(first, Words):
            start = len(text) - len(kept)
            return (shortened(first, start, len(text)), *rest[1:])
        rest = rest[1:]
    return tuple(rest)


def _labelled(words: str, bold: Emphasis, rest: Inlines, faults: Faults) -> Label:
    name, space = _NAME.search(words), _SPACE.search(words)
    bare = _SPACE.sub("", _NAME.sub("", words)).strip()
    label = _BY_FOLDED.get(bare.casefold())
    if label is None:
        place, meant = _place_of(bare, bold), _OTHER_WORDS.get(bare.casefold())
        if meant:
            faults.syntax(place, f"{bare!r} is no box label", meant)
        else:
            faults.unknown(place, "box label", bare, LABELS)
        label = nearest(bare, LABELS) or BoxKind.TEACHER.value
    if name and not NAME.fullmatch(name[1]):
        message = f"#{name[1]} is no name: letters, digits and hyphens"
        faults.syntax(bold.place, message)
    room = AnswerSpace()
    if space and label == ANSWER:
        room = _answer_space(space[1], bold.place, faults)
    elif space:
        faults.syntax(bold.place, f"({space[1]}) means nothing in a {label} box")
    kind = None if label == ANSWER else BoxKind(label)
    return Label(kind, name[1] if name else None, room, rest)


def _place_of(words: str, bold: Emphasis) -> Place:
    first = bold.content[0] if bold.content else bold
    if isinstance(first, Words) and first.text.startswith(words):
        return first.place.within(0, len(words))
    return bold.place


def _answer_space(words: str, place: Place, faults: Faults) -> AnswerSpace:
    """``3 lines``, ``drawing 6 cm``, ``open``, or two of them with a comma."""
    lines, drawing, own_work = None, None, False
    for word in (part.strip() for part in words.split(",")):
        if found := re.fullmatch(r"(\d{1,2}) lines?", word):
            lines = int(found[1])
        elif word == "open":
            own_work = True
        elif word.startswith("drawing "):
            drawing = _height(word.removeprefix("drawing "), place, faults)
        else:
            message = f"({word}) is no answer space"
            faults.syntax(place, message, "(3 lines), (drawing 6 cm) or (open)")
    return AnswerSpace(lines, drawing, own_work)


def _height(text: str, place: Place, faults: Faults) -> Quantity | None:
    try:
        height = parse_quantity(text)
    except QuantityError as error:
        faults.syntax(place, error.message, "drawing 6 cm")
        return None
    if kind_of(height.unit) != "length":
        faults.note("unit-dimension", place, f"{text} is no height", "drawing 6 cm")
        return None
    if height.si_value > HIGHEST_M:
        message = f"{text} is higher than a page"
        faults.syntax(place, message, "drawing 20 cm")
        return None
    return height


def note_stray_labels(content: Inlines, *, inside_box: bool, faults: Faults) -> None:
    """Labels that stand where a box does not begin.

    Inside a box any label is one too many; outside, one at the head of a
    paragraph is a box whose ``>`` was forgotten.
    """
    for at, inline in enumerate(content if inside_box else content[:1]):
        if not (isinstance(inline, Emphasis) and inline.strong):
            continue
        words, colon = _words(inline, content[at + 1 :])
        bare = _SPACE.sub("", _NAME.sub("", words)).strip().casefold()
        label = _BY_FOLDED.get(bare)
        if colon and label and (inside_box or label in _TELLING):
            _note_stray(label, inline.place, inside_box, faults)


def _note_stray(label: str, place: Place, inside_box: bool, faults: Faults) -> None:
    if inside_box:
        message = f"a {label} label stands inside another box"
        faults.syntax(place, message, "put an empty line before it: a quote of its own")
    else:
        message = f"**{label}:** outside a block quote is no box"
        faults.syntax(place, message, f"> **{label}:**")
