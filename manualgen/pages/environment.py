"""The surroundings of the templates: where they stand, and what they may call."""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files

from jinja2 import Environment, FunctionLoader, StrictUndefined, Template
from markupsafe import Markup

from manualgen.editions.fence_panels import Skeleton
from manualgen.editions.line import Gap
from manualgen.pages import typeset

TEMPLATES = "manualgen_templates"

_CAPITAL = re.compile(r"(?<=[a-z])(?=[A-Z])")


@cache
def environment() -> Environment:
    """Jinja2 with everything escaped and nothing undefined passed over."""
    made = Environment(
        loader=FunctionLoader(_template),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    made.filters["css"] = css_string
    made.filters["curled"] = typeset.curled
    made.tests["gap"] = lambda value: isinstance(value, Gap)
    made.tests["skeleton"] = lambda value: isinstance(value, Skeleton)
    return made


@cache
def template_of(panel: str) -> Template:
    """The template that bears the name of a panel's type."""
    name = _CAPITAL.sub("-", panel).lower()
    return environment().get_template(f"panels/{name}.html")


def _template(name: str) -> str | None:
    path = files(TEMPLATES).joinpath(*name.split("/"))
    return path.read_text(encoding="utf-8") if path.is_file() else None


def css_string(text: str) -> Markup:
    """A string for a style sheet inside HTML: all but letters and digits escaped."""
    safe = (c if c.isalnum() and c.isascii() else f"\\{ord(c):x} " for c in text)
    return Markup('"' + "".join(safe) + '"')
