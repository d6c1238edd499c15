"""Each statement to its place in the draft: by its heading, or by its words.

What neither tells stays under *Not placed yet*. Nothing is left out: every
statement ends in exactly one place.
"""

from __future__ import annotations

from dataclasses import replace

from manualgen.adopting.asides import Aside, aside_of
from manualgen.adopting.asking import Questions
from manualgen.adopting.doing import imperative, steps_in
from manualgen.adopting.draft import Block, Draft, Form, Place, Said
from manualgen.adopting.in_rows import dangers_in
from manualgen.adopting.leading import led_in
from manualgen.adopting.lesson import Lesson
from manualgen.adopting.listed import Lists, goes_on, list_in, needs_of_table
from manualgen.adopting.parting import Practical
from manualgen.adopting.piece import Kind
from manualgen.adopting.places import KEPT_AT, PLACES
from manualgen.adopting.sections import Sections
from manualgen.adopting.seeing import has_verb, seen_in, whole
from manualgen.adopting.statement import (
    Role,
    Statement,
    is_aside,
    is_question,
    role_of,
)
from manualgen.adopting.vocabulary import NEEDS, Part, patterns
from manualgen.adopting.wanted import need_list
from manualgen.adopting.wording import (
    equation_block,
    is_numbered_action,
    picture_block,
    said_of,
    step_text,
    with_what_is_seen,
)


def sorted_draft(practical: Practical, source: str) -> Draft:
    """The draft of a practical."""
    sorter = _Sorter()
    for statement in practical.preface:
        sorter.take_preface(statement)
    sorter.is_preface = False
    for statement in practical.statements:
        sorter.take(statement)
    sorter.end_heading()
    sorter.end_questions()
    opening = practical.opening
    return Draft(
        practical.title,
        practical.origin,
        source,
        Said(opening.words, opening.origin) if opening else None,
        sorter.lesson.time,
        sorter.lesson.group,
        sorter.lists.of(Part.CHEMICALS),
        sorter.lists.of(Part.APPARATUS),
        sorter.sections.filled(),
    )


class _Sorter:
    """Takes the statements of a practical in order."""

    def __init__(self) -> None:
        self.sections = Sections()
        self.blocks = self.sections.blocks
        self.lists = Lists()
        self.lesson = Lesson()
        self._part: Part | None = None
        self._is_label = False
        self.questions = Questions()
        self._last: Role | None = None
        self.is_preface = True
        self._led_by: Statement | None = None

    def take(self, statement: Statement) -> None:
        """Put one statement in its place."""
        if statement.kind is Kind.HEADING:
            self._heading(statement)
            return
        if self._led_by is not None:
            statement = replace(statement, led_by=self._led_by.text)
            self._led_by = None
        match statement.kind:
            case Kind.TABLE:
                self._table(statement)
            case Kind.PICTURE:
                self.blocks[self._kept_at()].append(picture_block(statement))
            case _:
                if self._is_label and statement.after_gap:
                    self._part = None
                if statement.origin.startswith(("header", "footer")):
                    self.sections.unplaced(statement)
                elif self.sections.captions(self._kept_at(), statement):
                    return
                elif not self._aside(statement):
                    self._text(statement)

    def take_preface(self, statement: Statement) -> None:
        """Put a statement that stands before the practical; no step of it is told there."""
        tells = role_of(statement.text) in (Role.DOES, Role.SEES)
        if tells and self._part is None and statement.kind in (Kind.TEXT, Kind.ITEM):
            self.sections.unplaced(statement)
        else:
            self.take(statement)

    def _heading(self, statement: Statement) -> None:
        self.end_heading()
        self._part, self._is_label = statement.part, statement.is_label
        if self._part is not None:
            self._led_by = statement
        elif statement.text:
            self.sections.unplaced(statement)

    def end_heading(self) -> None:
        """Keep a heading under which nothing stands."""
        if self._led_by is not None:
            self.sections.unplaced(self._led_by)
            self._led_by = None

    def _kept_at(self) -> Place:
        """Where a table or picture stands: with the part that it stands in."""
        here = self._part
        return KEPT_AT.get(here, Place.UNPLACED) if here else Place.UNPLACED

    def _text(self, statement: Statement) -> None:
        part = statement.own_part or self._part
        if part in NEEDS:
            self._needs(statement, need_list(statement.text) or statement.text, part)
        elif part is Part.METHOD:
            self._in_method(statement)
        elif part is Part.OBSERVATIONS:
            self._in_results(statement)
        elif part in PLACES:
            self.sections.paragraph(PLACES[part], statement)
        elif part in (Part.QUESTIONS, Part.ANSWERS):
            if not self.questions.take(statement, part):
                self.sections.unplaced(statement)
        elif part is Part.SAFETY:
            self.sections.safety(statement, leads=self._part is Part.SAFETY)
        elif part is Part.TIME:
            if not self.lesson.take(statement):
                self.sections.unplaced(statement)
        else:
            self._by_words(statement)

    def _aside(self, statement: Statement) -> bool:
        """Take what typed notes say beside the practical."""
        part = statement.own_part or self._part
        is_told_here = part in (None, Part.METHOD, Part.OBSERVATIONS, *NEEDS)
        if statement.spoken or not is_told_here:
            return False
        match aside_of(statement.text):
            case Aside.UNSETTLED | Aside.FORM:
                self.sections.unplaced(statement)
            case Aside.WARNS:
                self.sections.safety(statement, leads=False)
            case Aside.TEACHER:
                self.sections.paragraph(Place.TEACHER, statement)
            case None:
                return False
        self._last = None
        return True

    def _in_results(self, statement: Statement) -> None:
        """What is seen; what is to be done with the results is a step."""
        if imperative(statement.text):
            self._done(statement)
        else:
            self._seen(statement)

    def _by_words(self, statement: Statement) -> None:
        text, role = statement.text, role_of(statement.text)
        is_asked = self._last is Role.NEEDS
        if is_asked and role is Role.NOTHING and goes_on(text):
            role = Role.NEEDS
        self._by_role(statement, role)
        self._last = Role.NEEDS if is_asked and is_aside(role, text) else role

    def _goes_on_doing(self, statement: Statement) -> bool:
        """*6 same with half of it* behind numbered steps is a step too."""
        row = self.blocks[Place.METHOD]
        is_behind = bool(row) and row[-1].said[-1].number == statement.number - 1
        is_numbered = statement.marker.isdigit() and is_numbered_action(statement)
        is_told = is_behind and is_numbered and not has_verb(statement.text)
        return is_told and row[-1].form is Form.STEP

    def _by_role(self, statement: Statement, role: Role) -> None:
        text = statement.text
        match role:
            case Role.ASKS | Role.ANSWERS:
                self._ask(statement, role)
            case Role.NEEDS:
                self._needs(statement, list_in(text), Part.NEEDS)
            case Role.DOES:
                self._done(statement)
            case Role.SEES:
                self._seen(statement)
            case Role.MEANS:
                self.sections.paragraph(Place.CONCLUSION, statement)
            case Role.WARNS:
                self.sections.safety(statement, leads=self._part is Part.SAFETY)
            case Role.DISPOSES:
                self.sections.paragraph(Place.DISPOSAL, statement)
            case Role.NOTHING if self._goes_on_doing(statement):
                step = step_text(text)
                self.sections.add(Place.METHOD, Form.STEP, step, statement)
            case Role.NOTHING:
                self._equation_or_unplaced(statement)

    def _ask(self, statement: Statement, role: Role) -> None:
        if role is Role.ASKS:
            self.questions.ask(statement)
        elif self._last is not Role.ASKS or not self.questions.answer(statement):
            self.sections.unplaced(statement)

    def _in_method(self, statement: Statement) -> None:
        text = statement.text
        danger = patterns("danger").search(led_in(text))
        if is_question(text):
            self.sections.unplaced(statement)
        elif danger and (danger.start() == 0 or not imperative(text)):
            self.sections.safety(statement, leads=self._part is Part.SAFETY)
        elif imperative(text):
            self._done(statement)
        elif patterns("disposing").search(text):
            self.sections.paragraph(Place.DISPOSAL, statement)
        elif patterns("meaning").search(led_in(text)):
            self.sections.paragraph(Place.CONCLUSION, statement)
        elif seen_in(text):
            self._seen(statement)
        elif steps_in(text):
            self._done(statement)
        elif is_numbered_action(statement):
            self.sections.add(Place.METHOD, Form.STEP, step_text(text), statement)
        else:
            self._equation_or_unplaced(statement)

    def _needs(self, statement: Statement, text: str, part: Part) -> None:
        unsure = self.lists.take(text, part, said_of(statement))
        if unsure is None:
            self.sections.unplaced(statement)
        else:
            self.blocks[Place.UNPLACED] += unsure

    def _done(self, statement: Statement) -> None:
        """The steps of a sentence, and what is seen behind them."""
        doing, seeing = with_what_is_seen(statement.text)
        for step in steps_in(doing):
            self.sections.add(Place.METHOD, Form.STEP, step_text(step), statement)
        if seeing:
            self._seen(statement, seeing)

    def _seen(self, statement: Statement, text: str = "") -> None:
        """What a sentence, or the end of it, tells to be seen."""
        seen = whole(text or statement.text)
        if is_question(statement.text) or not seen.blank.strip():
            self.sections.unplaced(statement)
        else:
            self.sections.seen(seen, statement)

    def end_questions(self) -> None:
        """Put the questions and answers into the draft."""
        questions, left = self.questions.paired()
        self.blocks[Place.QUESTIONS] = questions
        self.blocks[Place.UNPLACED] += left

    def _table(self, statement: Statement) -> None:
        here = self._part if self._part in NEEDS else None
        is_seen = self._part is Part.OBSERVATIONS
        unsure = None if is_seen else self.lists.take_lines(statement, here)
        cells = needs_of_table(statement.rows, here) if unsure is None else []
        for part, words in cells:
            cell = replace(statement, kind=Kind.ITEM, text=words)
            self._needs(cell, words, part)
        dangers = dangers_in(statement.rows) if unsure is None else ()
        for words in dangers:
            box = replace(statement, kind=Kind.ITEM, text=words)
            self.sections.safety(box, leads=self._part is Part.SAFETY)
        self.sections.told_beside(unsure or [])
        if not (cells or dangers or unsure is not None):
            block = Block(Form.TABLE, "", (said_of(statement),), statement.rows)
            self.blocks[self._kept_at()].append(block)

    def _equation_or_unplaced(self, statement: Statement) -> None:
        if equation := equation_block(statement):
            self.blocks[Place.THEORY].append(equation)
        elif not (self._is_at_head() and self.lesson.take(statement)):
            self.sections.unplaced(statement)

    def _is_at_head(self) -> bool:
        """Whether nothing but the title was told; a preface may be of others too."""
        is_begun = self.blocks[Place.METHOD] or self.lists
        return not (self._part or self.is_preface or is_begun)
