"""What the search of an edition looks through: its sheets, and nothing else.

The index is a script that sets one name, since a page opened from a file may
load a script beside it but may not fetch.  An index made from sheets holds no
answer, whichever edition it serves.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TypeAlias

from markupsafe import Markup

from manualgen.editions.key import NO_KEY
from manualgen.editions.sheet import QuestionItem, Sheet, SheetSection, StepItem
from manualgen.pages.context import PageContext
from manualgen.pages.page import Page
from manualgen.pages.typeset import curled

Place: TypeAlias = tuple[str, str, str, str]
"""Address, experiment, what the place is called, its text."""


def search_index(sheets: Iterable[Sheet], context: PageContext) -> str:
    """The script that holds every place of the sheets with its text."""
    return search_script(places_of(sheet, context) for sheet in sheets)


def places_of(sheet: Sheet, context: PageContext) -> str:
    """The places of one sheet with their text, as JSON without the outer brackets."""
    return _told(_This(sheet), replace(context, edition=""))


@dataclass(frozen=True, slots=True, eq=False)
class _This:
    """One sheet, and no other however like it."""

    sheet: Sheet

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _This) and other.sheet is self.sheet

    def __hash__(self) -> int:
        return id(self.sheet)


@lru_cache(maxsize=1)
def _told(this: _This, context: PageContext) -> str:
    """Kept for the edition that asks next: all find the same in the same sheet."""
    places = list(_places(this.sheet, context))
    told = json.dumps(places, ensure_ascii=False, separators=(",", ":"))
    return told[1:-1].replace("<", "\\u003c")


def search_script(places: Iterable[str]) -> str:
    """The script that holds the places of several sheets."""
    return "const manualPlaces = [" + ",".join(filter(None, places)) + "];\n"


def _places(sheet: Sheet, context: PageContext) -> Iterator[Place]:
    page = Page(sheet, NO_KEY, context)
    title = curled(f"{sheet.number} {sheet.title}")
    address = context.address(sheet.id)
    lists = (*sheet.chemicals, *sheet.apparatus)
    listed = ", ".join(", ".join((row.name, *row.details)) for row in lists)
    words = ", ".join(sheet.techniques)
    yield address, title, "", f"{sheet.title}. {words}. {listed}"
    for section in sheet.sections:
        yield from _in_section(page, section, address, title)


def _in_section(
    page: Page, section: SheetSection, address: str, title: str
) -> Iterator[Place]:
    rest: list[str] = []
    for panel in section.blocks:
        text = plain(page.panel(panel))
        match panel:
            case StepItem():
                name = f"{page.say['step']} {panel.number}"
                yield f"{address}#{panel.anchor}", title, name, text
            case QuestionItem():
                name = f"{page.say['question']} {panel.label}"
                yield f"{address}#{panel.anchor}", title, name, text
            case _:
                rest.append(text)
    if any(rest):
        where = f"{address}#{section.anchor}"
        yield where, title, curled(section.heading), " ".join(filter(None, rest))


def plain(html: Markup) -> str:
    """The words of a piece of HTML."""
    return html.striptags()
