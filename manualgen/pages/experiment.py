"""An experiment's page, the same for the screen and for the press."""

from __future__ import annotations

from manualgen.editions.key import Key
from manualgen.editions.sheet import Sheet
from manualgen.pages.context import PageContext
from manualgen.pages.environment import environment
from manualgen.pages.page import Page

END = "experiment.end"
"""The anchor behind the last that students have of it."""


def render_experiment(sheet: Sheet, key: Key, context: PageContext) -> str:
    """The HTML of one experiment; with `NO_KEY` it is the student's."""
    page = Page(sheet, key, context)
    template = environment().get_template("experiment.html")
    return template.render(
        page=page, sheet=sheet, context=context, say=page.say, end=END
    )
