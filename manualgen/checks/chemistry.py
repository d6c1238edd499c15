"""The equations of an experiment: balanced, whole, with their states, told truly.

One mistake is one finding: impossible before unbalanced, unbalanced before
charge, charge before coefficients; and an equation with a formula that cannot
be is left to the check of that formula.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from manualgen.checks.claims import claims_in, may_claim, otherwise
from manualgen.checks.redox_claims import contradiction, in_words
from manualgen.checks.registry import Report, check, noted_check
from manualgen.chemistry import (
    Equation,
    Term,
    charge_fault,
    in_lowest_terms,
    is_balanced,
    scaled,
    signed_charge,
    total_charge,
    uneven_elements,
    usual_state,
    with_known_ion,
)
from manualgen.chemistry.medium import has_state
from manualgen.model.finding import Fault, Severity
from manualgen.model.walk import runs_of_text
from manualgen.working.prose import Prose, prose_of
from manualgen.working.worked import WorkedEquation, WorkedExperiment

noted_check(
    "formula-invalid",
    Severity.ERROR,
    "chemistry",
    "What stands in backticks is a formula, an equation, a quantity or the name of "
    "a computed value: its elements exist, its brackets close, and its charge can "
    "be read in one way only.",
)


@check("equation-impossible", Severity.ERROR)
def equation_impossible(work: WorkedExperiment) -> Report:
    """Some coefficients balance every equation: each element stands on both sides."""
    for stated in _judged(work):
        found = stated.balance
        if found.status == "impossible":
            message = f"{stated.equation} cannot be balanced: {found.message}"
            yield Fault(stated.place, message, _text(found.suggestion))


@check("equation-ambiguous", Severity.WARNING)
def equation_ambiguous(work: WorkedExperiment) -> Report:
    """An equation to be balanced, or not balanced as it stands, is one reaction.

    What balances as it is written is left alone, though its species allow
    another reaction too.
    """
    for stated in _judged(work):
        found = stated.balance
        if found.status == "ambiguous":
            message = f"{stated.equation} has no one balance: {found.message}"
            yield Fault(stated.place, message, _text(found.suggestion))


@check("equation-unbalanced", Severity.ERROR)
def equation_unbalanced(work: WorkedExperiment) -> Report:
    """Every element has as many atoms left of the arrow as right of it.

    The skeleton of an equation that is to be balanced need not.
    """
    for stated in _rebalanced(work):
        uneven = uneven_elements(stated.equation)
        if uneven:
            changes = ", ".join(map(str, sorted(uneven, key=lambda u: u.symbol)))
            message = f"{stated.equation} changes {changes}"
            yield Fault(stated.place, message, str(_mended(stated)))


@check("equation-charge", Severity.ERROR)
def equation_charge(work: WorkedExperiment) -> Report:
    """The charge left of the arrow is the charge right of it."""
    for stated in _rebalanced(work):
        equation = stated.equation
        if not uneven_elements(equation) and not is_balanced(equation):
            left = signed_charge(total_charge(equation.reactants))
            right = signed_charge(total_charge(equation.products))
            message = (
                f"{equation} has the charge {left} on the left, {right} on the right"
            )
            yield Fault(stated.place, message, str(_mended(stated)))


@check("equation-coefficients", Severity.WARNING)
def equation_coefficients(work: WorkedExperiment) -> Report:
    """A balanced equation has the smallest whole coefficients.

    Half-equations and equations for one mole of something (``per-mole``) may
    have others; in the line, where nothing can say so, halves are enough.
    """
    for stated in _rebalanced(work):
        equation = stated.equation
        if is_balanced(equation) and not _may_have_halves(stated):
            mend = str(in_lowest_terms(equation))
            message = f"{equation} balances, but not in lowest whole numbers"
            yield Fault(stated.place, message, mend)


@check("state-missing", Severity.WARNING)
def state_missing(work: WorkedExperiment) -> Report:
    """All species of an equation have a state, or none has.

    Electrons, ``[O]`` and ``[H]`` have none.
    """
    for stated in work.equations:
        terms = [t for t in stated.equation.terms if has_state(t.formula)]
        bare = [t for t in terms if t.state is None]
        if bare and len(bare) < len(terms):
            names = ", ".join(dict.fromkeys(str(t.formula) for t in bare))
            verb = "have" if len(bare) > 1 else "has"
            message = f"{names} {verb} no state in an equation that gives others theirs"
            place = stated.place.within(bare[0].start, bare[0].end)
            yield Fault(place, message, _text(_with_states(stated.equation)))


@check("oxidation-claim", Severity.WARNING)
def oxidation_claim(work: WorkedExperiment) -> Report:
    """What the text says is oxidised, reduced or displaced is so in the equations.

    Only plain statements are judged, and only by equations in which the
    substance reacts.
    """
    equations = [s.equation for s in work.equations if is_balanced(s.equation)]
    for prose in _prose_of(work) if equations else ():
        for claim in claims_in(prose):
            bearing = contradiction(claim, equations)
            if bearing:
                words = prose.text[claim.start : claim.end]
                message = f"{words!r}, but {in_words(claim, bearing)}"
                mend = otherwise(words) if bearing.changes else None
                yield Fault(prose.place(claim.start, claim.end), message, mend)


def _prose_of(work: WorkedExperiment) -> Iterator[Prose]:
    """The runs of text that may make a claim; most do not."""
    for content, words in runs_of_text(work.experiment):
        if may_claim(words):
            yield prose_of(content, with_blanks=True)


def _judged(work: WorkedExperiment) -> Iterator[WorkedEquation]:
    """The equations whose formulas are all possible."""
    for stated in work.equations:
        if not any(charge_fault(term.formula) for term in stated.equation.terms):
            yield stated


def _rebalanced(work: WorkedExperiment) -> Iterator[WorkedEquation]:
    """Those that the author meant to be balanced and that have another balance."""
    for stated in _judged(work):
        is_skeleton = stated.block is not None and stated.block.to_balance
        if stated.balance.status == "rebalanced" and not is_skeleton:
            yield stated


def _mended(stated: WorkedEquation) -> Equation:
    """The balanced equation, with the right ion where one that is unknown was the slip."""
    mended = with_known_ion(stated.equation) or stated.balance.equation
    if stated.block is not None and stated.block.per_mole:
        return _per_mole(stated.equation, mended)
    return mended


def _per_mole(written: Equation, balanced: Equation) -> Equation:
    """The balanced equation for one mole of what the author wrote one of.

    Where that may be several species, the one that leaves the most as written.
    """
    pairs = list(zip(written.terms, balanced.terms, strict=False))
    factors = [1 / b.amount for w, b in pairs if w.amount == 1]
    multiples = [scaled(balanced, factor) for factor in dict.fromkeys(factors)]
    return max(
        multiples,
        key=lambda e: sum(
            a.amount == w.amount for a, w in zip(e.terms, written.terms, strict=False)
        ),
        default=balanced,
    )


def _may_have_halves(stated: WorkedEquation) -> bool:
    terms = stated.equation.terms
    if any(term.formula.is_electron for term in terms):
        return True
    if stated.block is not None:
        return stated.block.half or stated.block.per_mole
    has_halves = any(term.amount.denominator > 1 for term in terms)
    return has_halves and any(term.amount == 1 for term in terms)


def _with_states(equation: Equation) -> Equation | None:
    """The equation with every state, where all that are missing can be told."""
    in_water = any(term.state == "aq" for term in equation.terms)
    reactants, products = (
        tuple(_with_state(term, in_water=in_water) for term in side)
        for side in (equation.reactants, equation.products)
    )
    whole = Equation(reactants, products, equation.arrow)
    told = all(t.state for t in whole.terms if has_state(t.formula))
    return whole if told else None


def _with_state(term: Term, *, in_water: bool) -> Term:
    if term.state or not has_state(term.formula):
        return term
    return replace(term, state=usual_state(term.formula, in_water=in_water))


def _text(equation: Equation | None) -> str | None:
    return None if equation is None else str(equation)
