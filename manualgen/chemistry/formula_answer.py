"""The answer of ``manualgen formula TEXT``: as a JSON object and as lines.

The text may be a formula or a name; the answer has the other of the two.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING, Literal, TypedDict

from manualgen.chemistry.charge_fault import charge_fault
from manualgen.chemistry.equation_text import parse_term
from manualgen.chemistry.errors import ChemistryError, FormulaError
from manualgen.chemistry.molar_mass import mass_fractions, molar_mass
from manualgen.chemistry.name_reading import formula_of, formulas_of
from manualgen.chemistry.name_writing import name_of
from manualgen.chemistry.oxidation import oxidation_numbers, signed
from manualgen.chemistry.splitting import known_ions

if TYPE_CHECKING:
    from collections.abc import Iterator

    from manualgen.chemistry.formula import Formula

FIGURES = 5
"""Significant figures of a molar mass: as many as every abridged weight bears."""

MINUS = str.maketrans("-", "−")


class Mass(TypedDict):
    """A molar mass with its unit."""

    value: float
    unit: str


class FormulaAnswer(TypedDict):
    """The object that ``--format json`` prints; absent values are null."""

    version: int
    status: Literal["ok", "invalid"]
    formula: str
    name: str | None
    charge: int
    molar_mass: Mass | None
    mass_percent: dict[str, float]
    ions: list[str]
    oxidation_numbers: dict[str, str]
    suggestion: str | None
    message: str | None


def formula_answer(text: str) -> FormulaAnswer:
    """What a formula or a name stands for, or why it stands for nothing."""
    try:
        return _answer(_meaning(text))
    except ChemistryError as error:
        return _refusal(text, error)


def formula_lines(text: str) -> str:
    """The same for a reader at a terminal."""
    try:
        return "\n".join(_lines(_meaning(text)))
    except ChemistryError as error:
        mend = f"\n    write      {error.suggestion}" if error.suggestion else ""
        return f"  {text.strip()}\n    invalid: {error.message}{mend}"


def _meaning(text: str) -> Formula:
    """The formula that a text writes or names."""
    named = formula_of(text)
    try:
        formula = parse_term(text).formula
    except ChemistryError as error:
        if named is not None:
            return named
        raise _named_or_written(text, error) from None
    return _possible(formula)


def _named_or_written(text: str, error: ChemistryError) -> ChemistryError:
    """The fault of a text that is no formula, said of a name where it may be one."""
    meanings = formulas_of(text)
    if meanings:
        named = ", ".join(str(formula) for formula in meanings)
        message = f"{text.strip()} may mean {named}; say which"
        return FormulaError(message, 0, len(text))
    if error.suggestion is None and text.strip().replace(" ", "").isalpha():
        message = (
            f"{text.strip()} is no formula, and no substance of this name is known"
        )
        return FormulaError(message, 0, len(text))
    return error


def _possible(formula: Formula) -> Formula:
    """The formula; one whose ions cannot add up is refused."""
    fault = charge_fault(formula)
    if fault is None:
        return formula
    written = str(formula)
    meant = str(fault.suggestions[0]) if fault.suggestions else None
    message = f"the ions of {written} do not add up to no charge"
    raise FormulaError(message, 0, len(written), meant)


def _answer(formula: Formula) -> FormulaAnswer:
    mass, reason = _mass(formula)
    numbers = oxidation_numbers(formula)
    return {
        "version": 1,
        "status": "ok",
        "formula": str(formula),
        "name": _name(formula),
        "charge": formula.charge,
        "molar_mass": None if mass is None else {"value": float(mass), "unit": "g/mol"},
        "mass_percent": {s: float(p) for s, p in _percentages(formula).items()},
        "ions": [str(ion) for ion in known_ions(formula)],
        "oxidation_numbers": {s: signed(n) for s, n in numbers.averages.items()},
        "suggestion": None,
        "message": reason or numbers.remark,
    }


def _refusal(text: str, error: ChemistryError) -> FormulaAnswer:
    return {
        "version": 1,
        "status": "invalid",
        "formula": text.strip(),
        "name": None,
        "charge": 0,
        "molar_mass": None,
        "mass_percent": {},
        "ions": [],
        "oxidation_numbers": {},
        "suggestion": error.suggestion,
        "message": error.message,
    }


def _name(formula: Formula) -> str | None:
    return "electron" if formula.is_electron else name_of(formula)


def _mass(formula: Formula) -> tuple[Decimal | None, str | None]:
    """The molar mass to its figures, or why there is none."""
    if formula.is_electron:
        return None, None
    try:
        exact = molar_mass(formula)
    except FormulaError as error:
        return None, error.message
    step = Decimal(1).scaleb(exact.adjusted() - FIGURES + 1)
    return exact.quantize(min(step, Decimal(1)), ROUND_HALF_UP), None


def _percentages(formula: Formula) -> dict[str, Decimal]:
    """Per cent by mass of each element, to two places."""
    try:
        shares = mass_fractions(formula)
    except FormulaError:
        return {}
    places = Decimal("0.01")
    return {
        s: (100 * part).quantize(places, ROUND_HALF_UP) for s, part in shares.items()
    }


def _lines(formula: Formula) -> Iterator[str]:
    mass, reason = _mass(formula)
    numbers = oxidation_numbers(formula)
    yield f"  {formula.pretty}"
    yield _line("name", _name(formula) or "not known")
    if mass is not None:
        yield _line("molar mass", f"{mass} g/mol")
        shares = (f"{s} {part} %" for s, part in _percentages(formula).items())
        yield _line("by mass", ", ".join(shares))
    ions = known_ions(formula)
    if ions:
        yield _line("ions", ", ".join(ion.pretty for ion in ions))
    if numbers.averages:
        each = (f"{s} {signed(n)}" for s, n in numbers.averages.items())
        yield _line("oxidation", ", ".join(each).translate(MINUS))
    if message := reason or numbers.remark:
        yield _line("", message)


def _line(label: str, words: str) -> str:
    return f"    {label:<11}{words}"
