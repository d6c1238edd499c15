"""Questions and their answers, be they behind each other or in two lists."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from manualgen.adopting.doing import imperative
from manualgen.adopting.draft import Block, Form
from manualgen.adopting.leading import led_in
from manualgen.adopting.piece import Kind
from manualgen.adopting.spans import marked
from manualgen.adopting.statement import MARKS, Statement, asked, is_question
from manualgen.adopting.vocabulary import Part, patterns
from manualgen.adopting.wording import said_of

_ANSWERED = re.compile(r"(?P<question>[^?]+\?)\s+[-–—=]+\s*(?P<answer>\S.*)")
"""*How would you know? - It stops fizzing.*"""
_NUMBER = re.compile(r"(?:q|a|question|answer|ans)?\W*(\d{1,2})", re.IGNORECASE)


class Questions:
    """The questions of a practical, as they are met."""

    def __init__(self) -> None:
        self.blocks: list[Block] = []
        self._numbers: list[int] = []
        self._answers: list[tuple[int | None, Block]] = []

    def take(self, statement: Statement, part: Part) -> bool:
        """Take a statement under a heading of questions or answers, if it is one."""
        text = statement.text
        if patterns("answering").match(text):
            return self.answer(statement)
        if part is Part.ANSWERS:
            self._list_answer(statement)
            return True
        if self.blocks and not statement.begins_piece and self._join(statement):
            return True
        if answered := _ANSWERED.fullmatch(text):
            self.ask(statement, answered["question"])
            self._add(Form.ANSWER, marked(answered["answer"]), statement)
            return True
        if _is_asked(statement):
            self.ask(statement)
            return True
        return False

    def ask(self, statement: Statement, words: str = "") -> None:
        """A question, its marks at its end."""
        words = words or statement.text
        led = asked(words)
        said = f"{led.rstrip(' .?')}?" if led else words
        text = led_in(MARKS.sub("", said))
        number = _NUMBER.fullmatch(statement.marker)
        asked_before = len(self._numbers)
        self._numbers.append(int(number[1]) if number else asked_before + 1)
        self._add(Form.QUESTION, _with_marks(text, words, capital=True), statement)

    def answer(self, statement: Statement) -> bool:
        """The answer to the last question, if that has none yet."""
        text = patterns("answering").sub("", statement.text, count=1)
        if not text or not self.blocks or self.blocks[-1].form is not Form.QUESTION:
            return False
        self._add(Form.ANSWER, marked(text), statement)
        return True

    def _add(self, form: Form, text: str, statement: Statement) -> None:
        self.blocks.append(Block(form, text, (said_of(statement),)))

    def _join(self, statement: Statement) -> bool:
        """Take a further sentence of a question: *Write its formula* behind it."""
        last = self.blocks[-1]
        is_next = last.said[-1].number == statement.number - 1
        if (
            last.form is not Form.QUESTION
            or not is_next
            or _HAS_MARKS.search(last.text)
        ):
            return False
        said = (*last.said, said_of(statement))
        words = _with_marks(MARKS.sub("", statement.text), statement.text)
        self.blocks[-1] = replace(last, text=f"{last.text} {words}", said=said)
        return True

    def _list_answer(self, statement: Statement) -> None:
        """An answer of a list of their own, by its number; it may be of more sentences."""
        number = _NUMBER.fullmatch(statement.marker)
        text, said = marked(statement.text), said_of(statement)
        if self._answers and _goes_on(statement):
            at, last = self._answers[-1]
            text, told = f"{last.text} {text}", (*last.said, said)
            self._answers[-1] = at, replace(last, text=text, said=told)
            return
        block = Block(Form.ANSWER, text, (said,))
        self._answers.append((int(number[1]) if number else None, block))

    def paired(self) -> tuple[list[Block], list[Block]]:
        """Questions with the answers of a list of their own, and answers that fit none.

        Numbered answers go to those numbers; others where there is one a question.
        """
        is_bare = all(block.form is Form.QUESTION for block in self.blocks)
        numbers = [number for number, _ in self._answers]
        is_each = is_bare and len(self.blocks) == len(numbers) and None in numbers
        if is_each:
            numbers = list(self._numbers)
        if len({*numbers}) < len(numbers) or len({*self._numbers}) < len(self._numbers):
            numbers = [None] * len(numbers)
        answers = dict(zip(numbers, (a for _, a in self._answers), strict=True))
        row = list(self._with_answers(answers))
        placed = {id(block) for block in row}
        left = [a for _, a in self._answers if id(a) not in placed]
        return row, [replace(a, form=Form.PARAGRAPH) for a in left]

    def _with_answers(self, answers: dict[int | None, Block]) -> Iterator[Block]:
        """The questions, each that has no answer with that of its number."""
        numbers = iter(self._numbers)
        for block, after in zip(self.blocks, [*self.blocks[1:], None], strict=False):
            yield block
            if block.form is Form.QUESTION:
                answer = answers.get(next(numbers))
                if answer and (after is None or after.form is Form.QUESTION):
                    yield answer


_HAS_MARKS = re.compile(r"\[\d+\]$")


def _with_marks(text: str, said: str, *, capital: bool = False) -> str:
    """A question as Markdown, with the marks that what was said ends with."""
    found = MARKS.search(said)
    written = marked(text)
    written = written[:1].upper() + written[1:] if capital else written
    return f"{written} [{int(found[1])}]" if found else written


def _goes_on(statement: Statement) -> bool:
    """Whether it is a further sentence of an item."""
    return statement.kind is Kind.ITEM and not statement.begins_piece


def _goes_on_asking(statement: Statement) -> bool:
    """Whether a further sentence belongs to the question before it."""
    if statement.kind is Kind.ITEM:
        return True
    text = MARKS.sub("", statement.text)
    is_own = is_question(text) or _is_task(statement)
    return not is_own and (text != statement.text or imperative(text) is not None)


def _is_asked(statement: Statement) -> bool:
    """Whether a statement under a heading of questions is one; each item of a list is."""
    text = MARKS.sub("", statement.text)
    is_marked = text != statement.text or statement.kind is Kind.ITEM
    is_told = statement.begins_piece and imperative(text) is not None
    is_said = is_question(text) or _is_task(statement) or is_told
    return is_said or (is_marked and len(text.split()) > 1)


def _is_task(statement: Statement) -> bool:
    """*Explain why …* asks too, though without its mark."""
    text = MARKS.sub("", statement.text)
    return bool(patterns("asking").match(text)) and len(text.split()) > 2
