"""The answer of ``manualgen equation TEXT``: as a JSON object and as lines."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, TypedDict

from manualgen.chemistry.charge_fault import charge_fault
from manualgen.chemistry.equation_facts import EquationFacts, equation_facts
from manualgen.chemistry.equation_text import parse_equation
from manualgen.chemistry.errors import ChemistryError, FormulaError
from manualgen.chemistry.medium import states_are_given
from manualgen.chemistry.oxidation import oxidation_numbers, signed
from manualgen.chemistry.splitting import known_ions

if TYPE_CHECKING:
    from collections.abc import Iterator

    from manualgen.chemistry.equation import Equation, Term
    from manualgen.chemistry.medium import Medium
    from manualgen.chemistry.redox import Change

MINUS = str.maketrans("-", "−")


class SpeciesAnswer(TypedDict):
    """One species of the equation."""

    coefficient: int | float | str
    """A text where it holds an unknown number."""
    formula: str
    state: str | None
    charge: int
    oxidation_numbers: dict[str, str]


class EquationAnswer(TypedDict):
    """The object that ``--format json`` prints; absent values are null."""

    version: int
    status: Literal["balanced", "rebalanced", "impossible", "ambiguous", "invalid"]
    equation: str
    """The balanced equation; the text that was asked about where there is none."""
    reactants: list[SpeciesAnswer]
    products: list[SpeciesAnswer]
    net_ionic: str | None
    spectators: list[str]
    oxidised: list[str]
    reduced: list[str]
    half_equations: list[str]
    independent: list[str]
    """Of an ambiguous equation, the reactions that hide in it."""
    suggestion: str | None
    """What was probably meant by an equation that cannot be read or balanced."""
    message: str | None


def equation_answer(text: str, medium: Medium | None = None) -> EquationAnswer:
    """One equation balanced and taken apart, or what is wrong with the text."""
    try:
        return _answer(equation_facts(_read(text), medium))
    except ChemistryError as error:
        return _refusal(text, error)


def equation_lines(text: str, medium: Medium | None = None) -> str:
    """The same for a reader at a terminal."""
    try:
        return "\n".join(_lines(equation_facts(_read(text), medium)))
    except ChemistryError as error:
        mend = f"\n  write   {error.suggestion}" if error.suggestion else ""
        marked = f"\n  {' ' * error.start}{'^' * max(error.end - error.start, 1)}"
        return f"  {text}{marked}\n  invalid: {error.message}{mend}"


def _read(text: str) -> Equation:
    """The equation; one with a compound whose ions cannot add up is refused."""
    equation = parse_equation(text)
    for term in equation.terms:
        if fault := charge_fault(term.formula):
            written = str(term.formula)
            meant = next((str(formula) for formula in fault.suggestions), None)
            also = f"; write {meant}" if meant else ""
            message = f"the ions of {written} do not add up to no charge{also}"
            raise FormulaError(message, term.start, term.end)
    return equation


def _answer(facts: EquationFacts) -> EquationAnswer:
    found = facts.balance
    return {
        "version": 1,
        "status": found.status,
        "equation": str(found.equation),
        "reactants": [_species(term) for term in found.equation.reactants],
        "products": [_species(term) for term in found.equation.products],
        "net_ionic": None if facts.net_ionic is None else str(facts.net_ionic),
        "spectators": list(map(str, facts.spectators)),
        "oxidised": list(map(str, facts.redox.oxidised)),
        "reduced": list(map(str, facts.redox.reduced)),
        "half_equations": list(map(str, facts.halves)),
        "independent": list(map(str, found.independent)),
        "suggestion": None if found.suggestion is None else str(found.suggestion),
        "message": _message(facts),
    }


def _species(term: Term) -> SpeciesAnswer:
    averages = oxidation_numbers(term.formula).averages
    return {
        "coefficient": _coefficient(term),
        "formula": str(term.formula),
        "state": term.state,
        "charge": term.formula.charge,
        "oxidation_numbers": {s: signed(number) for s, number in averages.items()},
    }


def _coefficient(term: Term) -> int | float | str:
    if term.unknown is not None:
        return term.coefficient_text
    amount = term.amount
    return int(amount) if amount.denominator == 1 else float(amount)


def _message(facts: EquationFacts) -> str | None:
    said = [words for words in (facts.balance.message, facts.remark) if words]
    return "; ".join(said) or None


def _refusal(text: str, error: ChemistryError) -> EquationAnswer:
    return {
        "version": 1,
        "status": "invalid",
        "equation": text.strip(),
        "reactants": [],
        "products": [],
        "net_ionic": None,
        "spectators": [],
        "oxidised": [],
        "reduced": [],
        "half_equations": [],
        "independent": [],
        "suggestion": error.suggestion,
        "message": error.message,
    }


def _lines(facts: EquationFacts) -> Iterator[str]:
    """The equation, then a line for each thing that is to be said of it."""
    found = facts.balance
    yield f"  {found.equation.pretty}"
    yield _line("status", found.status)
    if message := _message(facts):
        yield _line("", message)
    if found.suggestion:
        yield _line("meant", found.suggestion.pretty)
    if _lacks_states(facts):
        yield _line("net ionic", "give the states (s), (l), (g) and (aq) to have it")
    if facts.net_ionic:
        yield _line("net ionic", facts.net_ionic.pretty)
    if facts.spectators:
        yield _line("spectators", ", ".join(f.pretty for f in facts.spectators))
    yield from _redox_lines(facts)


def _lacks_states(facts: EquationFacts) -> bool:
    """Whether there might be a net ionic form, if only the states were there."""
    equation = facts.balance.equation
    is_sound = facts.balance.status in ("balanced", "rebalanced")
    has_salts = any(len(known_ions(t.formula)) > 1 for t in equation.reactants)
    return is_sound and has_salts and not states_are_given(equation)


def _redox_lines(facts: EquationFacts) -> Iterator[str]:
    changes = facts.redox.changes
    for label, is_oxidation in (("oxidised", True), ("reduced", False)):
        some = [c for c in changes if c.is_oxidation == is_oxidation]
        if some:
            yield _line(label, "; ".join(dict.fromkeys(map(_change, some))))
    for half in facts.halves:
        yield _line("half", half.pretty)


def _change(change: Change) -> str:
    numbers = f"{signed(change.before)} to {signed(change.after)}".translate(MINUS)
    return f"{change.reactant.pretty} ({change.symbol} {numbers})"


def _line(label: str, words: str) -> str:
    return f"    {label:<11}{words}"
