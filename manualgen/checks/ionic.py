"""Ionic equations against the full equations that stand above them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from manualgen.chemistry import (
    Equation,
    NetIonic,
    Term,
    is_balanced,
    net_ionic,
    same_net_ionic,
    wrong_states,
)
from manualgen.model.finding import Fault
from manualgen.working.worked import WorkedEquation


def ionic_faults(equations: Sequence[WorkedEquation]) -> Iterator[Fault]:
    """The faults of every line of an ``ionic`` fence, in source order.

    A line that is a form of any full equation above it is right; otherwise it
    is held against the nearest that has all its elements. A line of other
    elements tells of another reaction. One that does not balance has another
    fault than this, and a full equation without states tells nothing.
    """
    above: list[WorkedEquation] = []
    for stated in equations:
        if stated.block and stated.block.ionic:
            if above and is_balanced(stated.equation):
                yield from _faults(stated, above)
        elif not (stated.block and stated.block.half):
            above.append(stated)


def _faults(line: WorkedEquation, above: list[WorkedEquation]) -> Iterator[Fault]:
    if any(_is_form_of(line.equation, full) for full in above):
        return
    related = [full for full in above if _elements(line) <= _elements(full)]
    if not related:
        return
    full = related[-1]
    forms = net_ionic(full.equation)
    if forms.complete is None:
        return
    if forms.net is None:
        reason = (forms.message or "").removeprefix("no reaction: ")
        yield Fault(line.place, f"nothing reacts in {full.equation}: {reason}")
        return
    derived = forms.net if _gives_states(line.equation) else _stateless(forms.net)
    message = f"{_what_is_wrong(line.equation, full.equation, forms)}; write {derived}"
    yield Fault(line.place, message, str(derived))


def _is_form_of(line: Equation, full: WorkedEquation) -> bool:
    if full.net_ionic is None:
        return False
    if wrong_states(line):
        line = _stateless(line)
    return same_net_ionic(line, full.net_ionic)


def _what_is_wrong(line: Equation, full: Equation, forms: NetIonic) -> str:
    """A dissolved salt left whole, a spectator left in, or else the whole line."""
    written = {term.formula for term in line.terms}
    complete = {t.formula for t in forms.complete.terms} if forms.complete else set()
    for term in full.terms:
        if term.formula in written - complete:
            return f"{term.formula} is in solution as its ions"
    present = {term.formula for term in forms.net.terms} if forms.net else set()
    for spectator in forms.spectators:
        if spectator.formula in written - present:
            return f"{spectator.formula} is a spectator"
    return f"this is not the net ionic form of {full}"


def _elements(stated: WorkedEquation) -> set[str]:
    """The elements but hydrogen and oxygen, which water brings everywhere."""
    found = {symbol for t in stated.equation.terms for symbol in t.formula.atoms}
    return found - {"H", "O"}


def _gives_states(equation: Equation) -> bool:
    return any(term.state for term in equation.terms)


def _stateless(equation: Equation) -> Equation:
    return replace(
        equation,
        reactants=tuple(map(_bare, equation.reactants)),
        products=tuple(map(_bare, equation.products)),
    )


def _bare(term: Term) -> Term:
    return replace(term, state=None)
