"""What stands before and after the experiments, each a document to print.

They are made from sheets and keys like the experiments, so a student's index
and safety summary hold what a student's pages hold.
"""

from __future__ import annotations

from markupsafe import Markup

from manualgen.chemistry import Formula
from manualgen.editions.key import NO_KEY
from manualgen.pages import typeset
from manualgen.pages.appendix import appendix
from manualgen.pages.book import (
    Book,
    BookEntry,
    index_of_chemicals,
    index_of_techniques,
)
from manualgen.pages.context import PageContext
from manualgen.pages.environment import environment
from manualgen.pages.page import Page

ELSEWHERE = ""
"""The document that no experiment's page is, so that every link leads out."""


def render_front(book: Book, context: PageContext) -> str:
    """Cover, notice, record page, contents and safety summary."""
    return _render("front.html", book, context)


def render_back(book: Book, context: PageContext) -> str:
    """The index and the appendix."""
    return _render("back.html", book, context)


def render_answer_key(book: Book, context: PageContext) -> str:
    """Answers and marks alone, experiment by experiment."""
    return _render("answers.html", book, context)


def _render(name: str, book: Book, context: PageContext) -> str:
    def page_of(entry: BookEntry, *, with_key: bool = False) -> Page:
        key = entry.key if with_key else NO_KEY
        return Page(entry.sheet, key, context, ELSEWHERE)

    def set_formula(formula: Formula) -> Markup:
        return typeset.formula(formula, None, context.say)

    return (
        environment()
        .get_template(name)
        .render(
            book=book,
            context=context,
            say=context.say,
            page_of=page_of,
            set_formula=set_formula,
            chemicals=index_of_chemicals(book),
            techniques=index_of_techniques(book),
            appendix=appendix(),
        )
    )
