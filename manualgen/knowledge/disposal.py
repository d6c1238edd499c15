"""Where chemicals go after use, and the words in which a text says so."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from manualgen.chemistry import Formula
from manualgen.knowledge.chemical import Chemical, Form
from manualgen.knowledge.stems import says
from manualgen.knowledge.tables import Row, read_table

_NUMERAL = re.compile(r"\((?:0|[ivx]+)\)", re.IGNORECASE)
_CONTAINER = re.compile(
    r"\b(bottle|jar|tin|container|beaker|bin|residues?)s? (?:for|of) (?:the )?"
    r"(?:(?:[\w-]+ )?(?:solvents?|residues|waste|metals?)|[\w-]+)",
    re.IGNORECASE,
)
"""*The bottle for copper residues* names where things go, and none of them."""
_NOTHING = re.compile(r"\s*(?:nothing|none|no)\b[^,;:]*$", re.IGNORECASE)
"""*Nothing with ester in it goes down the sink* sends nothing there."""


@dataclass(frozen=True, slots=True)
class ElementRoute:
    """The route of an element's compounds."""

    element: str
    route: str
    never_sink: bool
    called: tuple[str, ...]


def disposal_route(chemical: Chemical) -> str | None:
    """The usual route: the store's, the table's, or that of an element in it."""
    if chemical.disposal:
        return chemical.disposal
    return element_route(chemical.formula) if chemical.formula else None


def element_route(formula: Formula) -> str | None:
    """The route of a compound that no table names, by the elements in it."""
    return next((e.route for e in _elements() if e.element in formula.atoms), None)


def route_advice(route: str) -> str | None:
    """What the technician's sheet says of a route, where the table has it."""
    return _routes().get(route)


@lru_cache(maxsize=1)
def _routes() -> dict[str, str]:
    row = _table().row("routes")
    return {route: row.text(route) for route in row.cells}


def barred_from_sink(chemical: Chemical) -> str | None:
    """Why a chemical must not go down the sink, or None where it may.

    Silver, lead, chromium, mercury, nickel and cobalt in any form but the bare
    metal's rinsings, and organic solvents.
    """
    atoms = chemical.formula.atoms if chemical.formula else {}
    for element in _elements():
        if element.never_sink and element.element in atoms:
            return f"{element.called[0]} is collected"
    is_solvent = chemical.form is Form.LIQUID and "organic" in chemical.kin
    if is_solvent and chemical.disposal.endswith("solvent"):
        return "organic solvents are collected"
    return None


def names_for_disposal(chemical: Chemical) -> tuple[str, ...]:
    """Stems under which a text may speak of a chemical's disposal."""
    atoms = chemical.formula.atoms if chemical.formula else {}
    by_element = [w for e in _elements() if e.element in atoms for w in e.called]
    by_kin = [
        word
        for row in _table().rows("families")
        if row.text("kin") in chemical.kin
        for word in row.texts("called")
    ]
    names = (chemical.substance, chemical.name, *chemical.also)
    return (*names, *_short_for(chemical.name), *by_element, *by_kin)


def _short_for(name: str) -> Iterator[str]:
    """*The iodate* for potassium iodate(V)."""
    word = _NUMERAL.sub("", name).rpartition(" ")[2].casefold()
    if word.endswith(("ate", "ide", "ite")):
        yield f"the {word}"


def says_sink(text: str) -> bool:
    """Whether a text sends something down the sink."""
    words = _table().row("words")
    is_kept = says(text, words.texts("kept_from_sink")) or _NOTHING.match(text)
    return says(text, words.texts("sink")) and not is_kept


def says_collect(text: str) -> bool:
    """Whether a text has something collected."""
    return says(text, _table().row("words").texts("collect"))


def speaks_of_everything(text: str) -> bool:
    """Whether a text on disposal speaks of whatever is left, without names."""
    return says(text, _table().row("words").texts("everything"))


def speaks_of_nothing(text: str) -> bool:
    """Whether a text gives a route and names nothing that takes it: *Down the sink*."""
    outside = _CONTAINER.sub(r"\1", text)
    named = [w for e in _elements() for w in e.called]
    named += [w for row in _table().rows("families") for w in row.texts("called")]
    return (says_sink(text) or says_collect(text)) and not says(outside, named)


@lru_cache(maxsize=1)
def _elements() -> tuple[ElementRoute, ...]:
    return tuple(
        ElementRoute(
            row.text("element"),
            row.text("route"),
            row.text("never") == "true",
            row.texts("called"),
        )
        for row in _table().rows("elements")
    )


@lru_cache(maxsize=1)
def _table() -> Row:
    return read_table("disposal")
