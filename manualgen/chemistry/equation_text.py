"""Equations from text.

The one difficulty is the ``+``, which parts species and marks charges. Where it
stands between blanks it parts; where it touches what is before it, it is a
charge if the species ends there: another ``+``, an arrow, a state or the end
follows. So ``Na+ + Cl-`` and ``2Na+Cl2`` are both read as they are meant.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING, Final, cast

from manualgen.chemistry.equation import (
    VULGAR_FRACTIONS,
    Equation,
    Term,
    Unknown,
)
from manualgen.chemistry.errors import EquationError, FormulaError
from manualgen.chemistry.formula_text import parse_formula

if TYPE_CHECKING:
    from collections.abc import Iterator

    from manualgen.chemistry.equation import Arrow, State

LONGEST: Final = 1000
"""Characters of an equation."""

MOST_SPECIES: Final = 24
"""Species of an equation; the longest known school examples have a dozen."""

LARGEST: Final = 99_999
"""The largest coefficient."""

_ARROW = re.compile(r"<=>|->|→|⇌")
_ARROWS: Final[dict[str, Arrow]] = {"→": "->", "⇌": "<=>", "->": "->", "<=>": "<=>"}
_OTHER_ARROW = re.compile(
    r"(?P<both><-+>|<==+>|⇄|⇋|↔|⟷)|(?P<one>(?<=\s)--+>|(?<!<)=+>|⟶|⟹|⇒|(?<=\s)={1,2}(?=\s))"
)
_STATE = re.compile(r"\s*\((s|l|g|aq)\)$")
_NO_STATE = re.compile(r"\(([a-z][a-z. ]*)\)$")
_COEFFICIENT = re.compile(
    rf"""(?: \((?P<m>\d*)(?P<y>[xyn])\s*\+\s*(?P<more>\d+)\)
       | (?P<times>\d*)(?P<x>[xyn])(?=\s*[A-Z(\[])
       | (?:(?P<whole>\d+)[ ]+(?=\d+/))?
         (?P<number>\d+(?:/\d+|\.\d+)?)?(?P<sign>[{"".join(VULGAR_FRACTIONS)}])?
      )\s*""",
    re.VERBOSE,
)
_WITH_UNKNOWN = re.compile(r"\(\d*[xyn]\s*\+\s*\d+\)")
_SPECIES_ENDS = re.compile(r"\s*(?:$|\+|\((?:s|l|g|aq)\))")
_MARKED_CHARGE = re.compile(r"\^\{?\d*$")


def parse_equation(text: str) -> Equation:
    """The equation that ``text`` writes, coefficients and states as they stand.

    Raises `EquationError` where no equation can be made out, `FormulaError`
    where a species is at fault; both with the offsets in ``text``.

    >>> str(parse_equation("2H2O2(aq) → 2H2O(l) + O2(g)"))
    '2 H2O2(aq) -> 2 H2O(l) + O2(g)'
    """
    if len(text) > LONGEST:
        message = f"an equation of more than {LONGEST} characters"
        raise EquationError(message, 0, len(text))
    arrow = _only_arrow(text)
    reactants = tuple(_terms(text, 0, arrow.start()))
    products = tuple(_terms(text, arrow.end(), len(text)))
    if len(reactants + products) > MOST_SPECIES:
        message = f"an equation of more than {MOST_SPECIES} species"
        raise EquationError(message, 0, len(text))
    return Equation(reactants, products, _ARROWS[arrow[0]])


def parse_term(text: str) -> Term:
    """One species with the coefficient and the state that it may have.

    Raises `FormulaError` and `EquationError`, with the offsets in ``text``.

    >>> str(parse_term("2H2O (l)"))
    '2 H2O(l)'
    """
    if not text.strip():
        raise FormulaError("no formula here", 0, len(text))
    if len(text) > LONGEST:
        message = f"a species of more than {LONGEST} characters"
        raise EquationError(message, 0, len(text))
    return _term(text, 0, len(text))


def is_equation_like(text: str) -> bool:
    """Whether ``text`` has an arrow, its own or one borrowed, and so means an equation."""
    return bool(_ARROW.search(text) or _OTHER_ARROW.search(text))


def _only_arrow(text: str) -> re.Match[str]:
    if other := _OTHER_ARROW.search(text):
        arrow = "<=>" if other["both"] else "->"
        mend = f"{text[: other.start()]}{arrow}{text[other.end() :]}"
        message = f"{other[0]} is not an arrow of this format; write {arrow}"
        raise EquationError(message, other.start(), other.end(), mend)
    arrows = list(_ARROW.finditer(text))
    if not arrows:
        message = "an equation needs an arrow: -> or <=>"
        raise EquationError(message, 0, len(text))
    if len(arrows) > 1:
        message = "an equation has one arrow; write the steps on lines of their own"
        raise EquationError(message, arrows[1].start(), arrows[1].end())
    return arrows[0]


def _terms(text: str, start: int, end: int) -> Iterator[Term]:
    if not text[start:end].strip():
        side = "left" if start == 0 else "right"
        raise EquationError(f"nothing stands {side} of the arrow", start, max(end, 1))
    for begin, stop in _split(text, start, end):
        yield _term(text, begin, stop)


def _split(text: str, start: int, end: int) -> Iterator[tuple[int, int]]:
    """The bounds of what stands between the plus signs that part species."""
    side = text[start:end]
    kept = {i for m in _WITH_UNKNOWN.finditer(side) for i in range(*m.span())}
    begin = 0
    for at, letter in enumerate(side):
        if letter == "+" and at not in kept and _parts_species(side, at):
            yield start + begin, start + at
            begin = at + 1
    yield start + begin, end


def _parts_species(side: str, at: int) -> bool:
    before = side[:at]
    if not before or before[-1].isspace():
        return True
    if _MARKED_CHARGE.search(before):
        return False
    return not _SPECIES_ENDS.match(side, at + 1)


def _term(text: str, start: int, end: int) -> Term:
    written = text[start:end]
    bare = written.strip()
    if not bare:
        raise EquationError(
            "a species is missing beside the +", start, max(end, start + 1)
        )
    start += written.index(bare)
    end = start + len(bare)
    coefficient = _COEFFICIENT.match(bare)
    state = _STATE.search(bare)
    begin = coefficient.end() if coefficient else 0
    stop = state.start() if state else len(bare)
    number, unknown = _read_coefficient(coefficient, start)
    _expect_known_state(bare[:stop], start)
    try:
        formula = parse_formula(bare[begin:stop])
    except FormulaError as error:
        raise error.within(text, start + begin, start + stop) from None
    read_state = cast("State", state[1]) if state else None
    return Term(number, formula, read_state, start, end, unknown)


def _read_coefficient(
    written: re.Match[str] | None, start: int
) -> tuple[Fraction | None, Unknown | None]:
    """The number before a formula and the unknown in it; an unwritten one is None."""
    if written is None or not written[0].strip():
        return None, None
    if letter := written["x"] or written["y"]:
        times = _number(written["times"] or written["m"] or "1", written, start)
        return Fraction(written["more"] or 0), Unknown(letter, times)
    parts = (digits for digits in (written["whole"], written["number"]) if digits)
    number = sum((_number(digits, written, start) for digits in parts), Fraction(0))
    if written["sign"]:
        number += VULGAR_FRACTIONS[written["sign"]]
    return (None if number == 1 else number), None


def _number(digits: str, written: re.Match[str], start: int) -> Fraction:
    try:
        number = Fraction(digits)
    except ZeroDivisionError:
        number = Fraction(0)
    if not 0 < number <= LARGEST:
        end = start + written.end()
        raise EquationError(f"{digits} is no coefficient", start, end)
    return number


def _expect_known_state(species: str, start: int) -> None:
    """Refuse what stands in the place of a state and is none, such as ``(aqu)``."""
    if found := _NO_STATE.search(species):
        message = f"{found[0]} is no state; write (s), (l), (g) or (aq)"
        raise EquationError(message, start + found.start(), start + found.end())
