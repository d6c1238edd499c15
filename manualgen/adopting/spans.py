"""Words of a source as Markdown: quantities and formulas in backticks, the rest escaped.

Only what is sure is put in backticks: a number with its unit, and a formula
that the parser reads and that is no word. The writing is mended where the
standards have another (``50cc`` is ``50 cm3``).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache, lru_cache

from manualgen.adopting.spoken import in_figures, spoken_pattern, spoken_units
from manualgen.adopting.vocabulary import alternatives, table, words
from manualgen.chemistry import (
    ChemistryError,
    Formula,
    FormulaError,
    charge_fault,
    is_equation_like,
    name_of,
    parse_equation,
    parse_formula,
)
from manualgen.knowledge import find_by_formula
from manualgen.quantities import QuantityError, Verdict, parse_quantity
from manualgen.quantities.mend import mended, typed

_NUMBER = r"(?<![\w.,/^·])[-−]?(?:\d{1,6}(?:\.\d{1,6})?)(?:\s*(?:to|-|–|±)\s*\d{1,6}(?:\.\d{1,6})?)?(?:\s*[×x]\s*10(?!\d)\^?[-−]?\d{0,2})?"
_FORMULA = re.compile(
    r"(?<![\w.\-–'/])(?:[A-Z]|\[[A-Z]|\([A-Z])[A-Za-z0-9()\[\]·₀-₉⁰¹²³⁴-⁹⁺⁻^]*"
    r"(?:[.·]\d{0,2}H2O|[.·]\d{0,2}H₂O)?[+\-−]?(?:\((?:s|l|g|aq)\))?(?![\w\-–'])"
)
_DASHED = re.compile(r"(?<=[a-z])[–−](?=\d)")
"""The minus of *dm–3*, typed as a dash."""
_ARROW = re.compile(r"(?:->|→|⇌|<=>|⟶)")
_TERM = r"(?:\d{0,2}\s?e[-⁻](?!\w)|(?:\d{1,3}\s*)?[A-Z(\[][A-Za-z0-9()\[\]·.^₀-₉⁰¹²³⁴-⁹⁺⁻+\-]*(?:\s*\((?:s|l|g|aq)\))?)"
_EQUATION = re.compile(
    rf"(?<!\w){_TERM}(?:\s+\+\s+{_TERM})*\s*(?:->|→|⇌|<=>|⟶)\s*{_TERM}(?:\s+\+\s+{_TERM})*"
)
_NUMBERED = re.compile(r"\b(?:years?|yrs?|class|page|sheet)\s$", re.IGNORECASE)
"""*The Year 8s* are no eight seconds."""
_ESCAPED = re.compile(r"([\\`*_\[\]<>|])")
_ENTITY = re.compile(r"&(?=#?\w+;)")
_LEADING = re.compile(r"^(?:([-+=~#:])|(\d{1,9})([.)]))")


@cache
def _quantities() -> re.Pattern[str]:
    said = tuple(spoken_units())
    units = alternatives((*said, *table().texts("units")))
    spoken_before = alternatives((*said, *table().row("spoken").texts("figured")))
    return re.compile(
        rf"(?:{_NUMBER}\s?(?:{units})|(?i:{spoken_pattern()})\s+(?:{spoken_before}))(?![\w³²⁻/^%])"
    )


def marked(text: str) -> str:
    """A source's words as Markdown."""
    done, at = [], 0
    for start, end, written in spans(text):
        done += [escaped(text[at:start]), f"`{written}`"]
        at = end
    return "".join([*done, escaped(text[at:])])


def escaped(text: str) -> str:
    """Words that Markdown leaves as they are."""
    return _ENTITY.sub(r"\\&", _ESCAPED.sub(r"\\\1", text))


def at_line_start(markdown: str) -> str:
    """The same where a line begins with it, so that it makes no list or heading."""
    return _LEADING.sub(
        lambda m: f"\\{m[1]}" if m[1] else f"{m[2]}\\{m[3]}", markdown, count=1
    )


def spans(text: str) -> Iterator[tuple[int, int, str]]:
    """What belongs in backticks: start, end and the right writing, in order."""
    found = [*_equations(text), *quantities_in(text), *_formulas(text)]
    at = 0
    for start, end, written in sorted(found, key=lambda s: (s[0], -s[1])):
        if start >= at:
            yield start, end, written
            at = end


def quantities_in(text: str) -> Iterator[tuple[int, int, str]]:
    """The quantities of a text in the right writing."""
    for found in _quantities().finditer(text):
        written = right_quantity(found.group())
        before = text[max(0, found.start() - 8) : found.start()]
        if written and not _NUMBERED.search(before):
            yield found.start(), found.end(), written


@lru_cache(maxsize=1024)
def right_quantity(text: str) -> str | None:
    """A quantity as it should be written, or None where it is none."""
    figures = _DASHED.sub("-", in_figures(text))
    try:
        quantity = parse_quantity(figures)
        if not quantity.slips:
            return figures
        is_wrong = any(s.verdict is not Verdict.TOLERATED for s in quantity.slips)
        written = typed(mended(quantity) if is_wrong else quantity)
        parse_quantity(written)
    except QuantityError:
        return None
    return written


def _equations(text: str) -> Iterator[tuple[int, int, str]]:
    if not _ARROW.search(text):
        return
    for found in _EQUATION.finditer(text):
        said = found.group().rstrip(" .")
        written = _right_equation(said)
        if written:
            yield found.start(), found.start() + len(said), written


@lru_cache(maxsize=256)
def _right_equation(said: str) -> str | None:
    """An equation as it should be written, its ions and electrons mended."""
    mended_terms = re.sub(r"(?<![\w+])(\d*)e[-⁻](?=\s|$)", r"\1 e-", said)
    ions = re.sub(
        r"(?<!\S)(\d{0,2}\s?)([A-Z][A-Za-z0-9()]*\d[+-])(?!\S)",
        lambda m: f"{m[1]}{right_formula(m[2]) or m[2]}",
        mended_terms,
    )
    for written in (said, " ".join(ions.split())):
        try:
            if is_equation_like(written):
                parse_equation(written)
                return written
        except ChemistryError:
            continue
    return None


def _formulas(text: str) -> Iterator[tuple[int, int, str]]:
    letters = [c for c in text if c.isalpha()]
    shouted = len(letters) > 12 and sum(map(str.isupper, letters)) > 0.7 * len(letters)
    for found in _FORMULA.finditer(text):
        word = found.group().rstrip("-−" if found.group()[-1:] in "-−" else "")
        for token in dict.fromkeys((found.group(), word)):
            written = None if shouted else right_formula(token)
            if written:
                yield found.start(), found.start() + len(token), written
                break


@lru_cache(maxsize=1024)
def right_formula(token: str) -> str | None:
    """A formula as it should be written, or None where it may be a word."""
    bare = re.sub(r"\((?:s|l|g|aq)\)$", "", token)
    if len(bare) > 40 or bare in words("not_formulas"):
        return None
    written = token
    try:
        formula = parse_formula(bare)
    except FormulaError as error:
        written = error.suggestion or ""
        if not re.search(r"\d[+\-−]$", bare):
            return None
        try:
            formula = parse_formula(written)
        except ChemistryError:
            return None
    except ChemistryError:
        return None
    return written if _is_sure(formula, bare) else None


def _is_sure(formula: Formula, bare: str) -> bool:
    """Whether it is a known substance or ion, or an attempt at a salt."""
    if len(bare) < 2 or (bare.isalpha() and bare.istitle()):
        return False
    elements = len(formula.atoms)
    if elements == 1 and not formula.charge:
        return str(formula) in words("molecules")
    has_figures = any(c.isdigit() for c in bare)
    if formula.charge:
        return elements > 1 or not bare.isalpha()
    if find_by_formula(formula) or (elements > 1 and name_of(formula)):
        return True
    return elements > 1 and (has_figures or charge_fault(formula) is not None)
