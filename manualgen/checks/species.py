"""Every formula that an experiment writes, with its place: in the line and in equations."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from manualgen.chemistry import ChemistryError, Formula, Term, parse_formula
from manualgen.model.place import Place
from manualgen.model.text import FormulaSpan
from manualgen.model.walk import inlines_of
from manualgen.working.worked import WorkedEquation, WorkedExperiment

_STATES = ("(s)", "(l)", "(g)", "(aq)")


@dataclass(frozen=True, slots=True)
class Species:
    """A formula as it was typed, without coefficient and state."""

    formula: Formula
    source: str
    place: Place


def species_in(work: WorkedExperiment) -> Iterator[Species]:
    """The formulas of the text, then those of the equations."""
    for span in inlines_of(work.experiment, FormulaSpan):
        yield _bare(span.formula, span.source, span.place)
    for stated in work.equations:
        for term in stated.equation.terms:
            yield species_of(term, stated)


def species_of(term: Term, stated: WorkedEquation) -> Species:
    """The formula of a term, where it stands in its equation."""
    typed = stated.source[term.start : term.end]
    return _bare(term.formula, typed, stated.place.within(term.start, term.end))


def state_place(term: Term, stated: WorkedEquation) -> Place:
    """Where the state of a term stands, brackets included."""
    typed = stated.source[term.start : term.end]
    start = term.start + typed.rfind("(")
    return stated.place.within(start, term.end)


def _bare(formula: Formula, typed: str, place: Place) -> Species:
    """What is left of the typed text without a number before and a state behind it."""
    bare = typed.rstrip()
    for state in _STATES:
        bare = bare.removesuffix(state).rstrip()
    starts = (n for n in range(len(bare)) if _is_written(formula, bare[n:]))
    start = next(starts, 0)
    return Species(formula, bare[start:], place.within(start, len(bare)))


def _is_written(formula: Formula, text: str) -> bool:
    if not text.strip() or text[0].isspace():
        return False
    try:
        return parse_formula(text) == formula
    except ChemistryError:
        return False
