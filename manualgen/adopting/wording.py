"""Sentences of a source as a draft words them: whole sentences, steps, equations."""

from __future__ import annotations

import re

from manualgen.adopting.doing import steps_in
from manualgen.adopting.draft import Block, Form, Said
from manualgen.adopting.leading import led_in
from manualgen.adopting.piece import Kind
from manualgen.adopting.seeing import Seen, seen_in
from manualgen.adopting.sentences import LONGEST
from manualgen.adopting.spans import marked
from manualgen.adopting.stated import commanded
from manualgen.adopting.statement import Statement
from manualgen.adopting.vocabulary import words
from manualgen.chemistry import ChemistryError, is_equation_like, parse_equation

_THEN_SEEN = re.compile(
    r"(?:\s*,?\s+(?:and(?:\s+then)?|then|so)|:)\s+(?=(?:the|it|this|that|these|they|a|an|you|we|what|its|all)\b)",
    re.IGNORECASE,
)
_TURNS = re.compile(
    r"\b(?:until|till|when)\s+(?:(?:the|it|all|a|an|its|your)\b[^,.;]*?)\s*(?:\bjust\s+|\bfirst\s+)?"
    r"\b(?:turns|turn|goes|go|becomes|become|looks|look|stays|stay)\s+"
    r"(?P<blank>(?!for\b|at\b|in|into|on|off|out|down|to the|round|over|up)[^,.;]+?)(?=[,.;]|\s+and\s|$)",
    re.IGNORECASE,
)

_TERM = re.compile(r"\d{0,2}\s?[A-Z][A-Za-z0-9()]*(?:\((?:s|l|g|aq)\))?")


def said_of(statement: Statement) -> Said:
    """The words as they stood, behind the heading that they were the first under."""
    lead = statement.led_by.rstrip(" :")
    said = f"{lead}: {statement.words}" if lead else statement.words
    return Said(said, statement.origin, statement.number)


def as_sentence(statement: Statement) -> str:
    """With the capital and the stop that talk leaves out."""
    text = led_in(statement.text) if statement.spoken else statement.text
    stop = "" if text[-1:] in '.!?:;)"”' else "."
    written = marked(text) + stop
    return written[:1].upper() + written[1:]


def with_what_is_seen(text: str) -> tuple[str, str]:
    """A sentence parted where it goes on from what is done to what is seen."""
    for joint in _THEN_SEEN.finditer(text):
        behind = text[joint.end() :]
        is_seen = seen_in(behind) and commanded(behind) == behind.strip()
        if is_seen and steps_in(text[: joint.start()]):
            return text[: joint.start()], behind
    return text, ""


def step_text(text: str) -> str:
    """A step's Markdown; what something is to turn is a blank."""
    if not text[1:2].isupper():
        text = text[:1].upper() + text[1:]
    found = _TURNS.search(text) if len(text) <= LONGEST else None
    if not found:
        bare = text.rstrip(" .")
        return marked(bare) + ("" if bare[-1:] in "!?" else ".")
    start, end = found.span("blank")
    stop = "" if text.rstrip().endswith(".") else "."
    return f"{marked(text[:start])}[_{marked(text[start:end])}_]{marked(text[end:].rstrip())}{stop}"


def seen_text(seen: Seen) -> str:
    """What is seen as Markdown: a sentence with a blank in it."""
    lead, tail = marked(led_in(seen.lead)), marked(seen.tail or ".")
    blank = marked(seen.blank.strip())
    if not lead:
        blank = blank[:1].upper() + blank[1:]
    return f"{lead[:1].upper()}{lead[1:]}[_{blank}_]{tail}"


def equation_block(statement: Statement) -> Block | None:
    """An equation that stands alone on its line."""
    text = _with_arrow(statement.text.strip().rstrip("."))
    if len(text) > 200 or not is_equation_like(text):
        return None
    try:
        parse_equation(text)
    except ChemistryError:
        return None
    return Block(Form.EQUATION, text, (said_of(statement),))


def _with_arrow(text: str) -> str:
    """*CuO + H2SO4 = CuSO4 + H2O* with the arrow that its = stands for."""
    is_sum = text.count(" = ") == 1 and " + " in text
    terms = re.split(r"\s+[+=]\s+", text)
    is_said = is_sum and all(map(_TERM.fullmatch, terms))
    return text.replace(" = ", " → ") if is_said else text


def picture_block(statement: Statement) -> Block:
    """A picture of the document."""
    said = (said_of(statement),)
    return Block(Form.PICTURE, statement.text, said, picture=statement.picture)


def leading_boxes(row: list[Block]) -> list[Block]:
    """The boxes before the first step."""
    first = next((n for n, b in enumerate(row) if b.form is not Form.SAFETY), len(row))
    return row[:first]


def is_numbered_action(statement: Statement) -> bool:
    """Whether an item of the method is a step, though nobody knows its verb."""
    row = statement.text.split()
    is_item = statement.kind is Kind.ITEM and statement.begins_piece and len(row) > 2
    return is_item and row[0].casefold() not in words("no_verb")
