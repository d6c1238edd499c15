"""Questions and their parts: items of a numbered list under ``## Questions``."""

from __future__ import annotations

from collections.abc import Sequence

from manualgen.model.blocks import Answer, Block, Blocks, Question
from manualgen.reading.blocks import QUESTION, BlockReader, Gathered
from manualgen.reading.numbering import Numbering
from manualgen.reading.tree import Node


def read_questions(nodes: Sequence[Node], reader: BlockReader) -> Blocks:
    """The questions, and what stands between them.

    An answer that is not indented belongs to the question above it.
    """
    questions = _Questions(reader)
    for node in nodes:
        questions.take(node)
    return tuple(questions.blocks)


class _Questions:
    """Takes the blocks of the section in order."""

    def __init__(self, reader: BlockReader) -> None:
        self.blocks: list[Block] = []
        self._reader = reader
        self._numbering = Numbering(reader.body, reader.faults, "question")
        self._count = 0

    def take(self, node: Node) -> None:
        """The next block."""
        if node.kind == "ordered_list":
            for item in node.children:
                self._numbering.take(item)
                self._count += 1
                self.blocks.append(_question(item, self._count, self._reader))
            return
        gathered = self._reader.gather([node])
        self.blocks += gathered.blocks
        for answer in gathered.answers:
            self._attach(answer)

    def _attach(self, answer: Answer) -> None:
        last = self.blocks[-1] if self.blocks else None
        if isinstance(last, Question) and last.answer is None and not last.parts:
            self.blocks[-1] = _with_answer(last, answer)
        else:
            message = "it is not clear which question this answers"
            mend = "indent it under its question"
            self._reader.faults.syntax(answer.place, message, mend)


def _with_answer(question: Question, answer: Answer) -> Question:
    return Question(
        question.number,
        question.blocks,
        question.marks,
        answer,
        question.parts,
        question.name,
        question.place,
    )


def _question(item: Node, number: int, reader: BlockReader) -> Question:
    gathered = reader.gather(item.children, QUESTION)
    mark = item.token.info + item.token.markup
    return Question(
        number,
        tuple(gathered.blocks),
        gathered.marks,
        _only_answer(gathered, reader),
        tuple(_parts(gathered.parts, reader)),
        gathered.name.text if gathered.name else None,
        reader.body.place_of(item, mark),
    )


def _parts(lists: list[Node], reader: BlockReader) -> list[Question]:
    numbering = Numbering(reader.body, reader.faults, "part")
    found: list[Question] = []
    for node in lists:
        for item in node.children:
            numbering.take(item)
            found.append(_question(item, len(found) + 1, reader))
    return found


def _only_answer(gathered: Gathered, reader: BlockReader) -> Answer | None:
    for second in gathered.answers[1:]:
        message = "this question has an answer already"
        reader.faults.syntax(second.place, message, "put both into one box")
    return gathered.answers[0] if gathered.answers else None
