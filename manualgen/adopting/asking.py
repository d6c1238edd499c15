"""Questions and their answers, be they behind each other or in two lists."""

from __future__ import annotations

from dataclasses import replace

from manualgen.adopting.draft import Block, Form
from manualgen.adopting.leading import led_in
from manualgen.adopting.spans import marked
from manualgen.adopting.statement import MARKS, Statement, asked, is_question
from manualgen.adopting.vocabulary import Part, patterns
from manualgen.adopting.wording import said_of


class Questions:
    """The questions of a practical, as they are met."""

    def __init__(self) -> None:
        self.blocks: list[Block] = []
        self._answers: list[Block] = []

    def take(self, statement: Statement, part: Part) -> bool:
        """Take a statement under a heading of questions or answers, if it is one."""
        text = statement.text
        if patterns("answering").match(text):
            return self.answer(statement)
        if part is Part.ANSWERS:
            answer = Block(Form.ANSWER, marked(text), (said_of(statement),))
            self._answers.append(answer)
            return True
        if is_question(MARKS.sub("", text)) or _is_task(statement):
            self.ask(statement)
            return True
        return False

    def ask(self, statement: Statement) -> None:
        """A question, its marks at its end."""
        found = MARKS.search(statement.text)
        led = asked(statement.text)
        said = f"{led.rstrip(' .?')}?" if led else statement.text
        text = marked(led_in(MARKS.sub("", said)))
        marks = f" [{int(found[1])}]" if found else ""
        text = text[:1].upper() + text[1:] + marks
        self.blocks.append(Block(Form.QUESTION, text, (said_of(statement),)))

    def answer(self, statement: Statement) -> bool:
        """The answer to the last question, if that has none yet."""
        text = patterns("answering").sub("", statement.text, count=1)
        if not text or not self.blocks or self.blocks[-1].form is not Form.QUESTION:
            return False
        self.blocks.append(Block(Form.ANSWER, marked(text), (said_of(statement),)))
        return True

    def paired(self) -> tuple[list[Block], list[Block]]:
        """Questions with the answers of a list of their own, and answers that fit none."""
        is_bare = all(block.form is Form.QUESTION for block in self.blocks)
        if is_bare and len(self.blocks) == len(self._answers):
            pairs = zip(self.blocks, self._answers, strict=True)
            return [block for pair in pairs for block in pair], []
        return self.blocks, [replace(a, form=Form.PARAGRAPH) for a in self._answers]


def _is_task(statement: Statement) -> bool:
    """*Explain why …* asks too, though without its mark."""
    text = MARKS.sub("", statement.text)
    return bool(patterns("asking").match(text)) and len(text.split()) > 2
