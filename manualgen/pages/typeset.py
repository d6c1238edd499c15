"""Formulas, equations and units as the trade sets them, in HTML.

Small figures are marked up as `<sub>` and `<sup>`; the style sheet asks the
face for its own small figures, which stand on the line of the text, so that
nothing is shifted or scaled.  A formula that a voice would read wrongly, above
all an ion, carries a label that can be spoken.
"""

from __future__ import annotations

import re
from functools import lru_cache

from markupsafe import Markup, escape

from manualgen.chemistry import Equation, Formula, Term
from manualgen.knowledge.labels import ENGLISH, Say
from manualgen.quantities.symbols import symbol_name

NO_BREAK = "\u00a0"

_SMALL = re.compile(r"([₀-₉₊₋ₓₙ]+)|([⁰¹²³⁴-⁹⁺⁻]+)")
_FULL_SIZE = str.maketrans("₀₁₂₃₄₅₆₇₈₉₊₋ₓₙ⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", "0123456789+−xn0123456789+−")
_BEFORE_UNIT = re.compile(
    r"(?<=\d) (?=°C|%|(?:[cdkmn]?m|k?g|mg|m?mol|K|s|min|h|k?J|V|A)(?![A-Za-z]))"
)
_APOSTROPHES = (
    (re.compile(r"(?<=[0-9N])'(?=[-,])"), "′"),  # a primed locant: N,N'-dimethyl
    (re.compile(r"(?:(?<=^)|(?<=[\s(\[—–“]))'(?=\w)"), "‘"),
    (re.compile(r"'"), "’"),
    (re.compile(r'(?:(?<=^)|(?<=[\s(\[—–‘]))"(?=\S)'), "“"),
    (re.compile(r'"'), "”"),
)
_LONG_WORD = re.compile(r"(\S{24,})")
_WORD_PARTS = re.compile(r"[^-,/)\]]{1,18}[-,/)\]]*|[-,/)\]]+")
_BREAK = Markup("<wbr>")
_SIGN = re.compile(r"[+−]")
_LETTERS = re.compile(r"[a-z]+")
_UNKNOWN_OF_WATER = re.compile(r"(?<=·)([xyn])(?=[A-Z(\[])")
_SYMBOLS = re.compile(r"[A-Z][a-z]?|[a-z]+|\d+|.")
_SPOKEN = {
    "·": "spoken_dot",
    "(": "spoken_bracket",
    ")": "spoken_close_bracket",
    "[": "spoken_square_bracket",
    "]": "spoken_close_square_bracket",
    "=": "spoken_double_bond",
    "≡": "spoken_triple_bond",
    "-": "spoken_bond",
    "½": "spoken_half",
}
"""The label that a voice reads for a sign in a formula."""
_SPOKEN_ARROWS = {"->": "spoken_gives", "<=>": "spoken_equilibrium"}
_ARROWS = {"->": "→", "<=>": "⇌"}


@lru_cache(maxsize=4096)
def small_figures(text: str) -> Markup:
    """Text with its Unicode small figures as `<sub>` and `<sup>`.

    >>> small_figures("cm³ < H₂O")
    Markup('cm<sup>3</sup> &lt; H<sub>2</sub>O')
    """
    text = curled(text)
    pieces: list[Markup] = []
    at = 0
    for match in _SMALL.finditer(text):
        pieces.append(_breakable(text[at : match.start()]))
        pieces.append(_small(match))
        at = match.end()
    pieces.append(_breakable(text[at:]))
    return Markup().join(pieces)


def curled(text: str) -> str:
    r"""Text with the quotation marks of a keyboard as a printer sets them.

    A number stays on the line of its unit.

    >>> curled('It isn\'t "silver": N,N\'-dimethyl')
    'It isn’t “silver”: N,N′-dimethyl'
    """
    text = _BEFORE_UNIT.sub(NO_BREAK, text)
    if "'" in text or '"' in text:
        for pattern, mark in _APOSTROPHES:
            text = pattern.sub(mark, text)
    return text


def _breakable(text: str) -> Markup:
    """Escaped text in which words that no column could hold may be broken."""
    if not _LONG_WORD.search(text):
        return escape(text)
    parts = _LONG_WORD.split(text)
    return Markup().join(
        _BREAK.join(_WORD_PARTS.findall(part)) if index % 2 else escape(part)
        for index, part in enumerate(parts)
    )


def _small(match: re.Match[str]) -> Markup:
    upper = match[2]
    figures = match[0].translate(_FULL_SIZE)
    if upper:
        return Markup("<sup>{}</sup>").format(_with_signs(figures))
    if figures.isdigit():
        return Markup("<sub>{}</sub>").format(figures)
    return Markup('<sub class="letter">{}</sub>').format(figures)


def _with_signs(figures: str) -> Markup:
    """Superior figures; the face has no superior signs, so the style raises them."""
    return Markup(_SIGN.sub(r'<span class="raised">\g<0></span>', figures))


def formula(value: Formula, state: str | None = None, say: Say = ENGLISH) -> Markup:
    """A formula, with its state if it has one, that never breaks."""
    text = _set_formula(value) + _set_state(state)
    label = _spoken_formula(value, state, say)
    return Markup('<span class="formula" role="img" aria-label="{}">{}</span>').format(
        label, text
    )


def equation(value: Equation, say: Say = ENGLISH) -> Markup:
    """An equation in the line; it may break after an arrow or a plus."""
    return Markup(
        '<span class="equation" role="img" aria-label="{}">{} {} {}</span>'
    ).format(
        spoken_equation(value, say),
        side(value.reactants),
        arrow(value.arrow),
        side(value.products),
    )


def arrow(typed: str) -> Markup:
    """The arrow of an equation."""
    return Markup('<span class="arrow">{}</span>').format(_ARROWS[typed])


def side(terms: tuple[Term, ...]) -> Markup:
    """One side of an equation: each species whole, breaks only after a plus."""
    return Markup(" + ").join(_term(term) for term in terms)


def spoken_equation(value: Equation, say: Say = ENGLISH) -> str:
    """An equation as a voice should read it."""
    plus = f" {say['spoken_plus']} "
    left = plus.join(_spoken_term(term, say) for term in value.reactants)
    right = plus.join(_spoken_term(term, say) for term in value.products)
    return f"{left} {say[_SPOKEN_ARROWS[value.arrow]]} {right}"


def _term(term: Term) -> Markup:
    species = _set_formula(term.formula) + _set_state(term.state)
    coefficient = coefficient_of(term)
    if coefficient:
        species = _unknown_in_italics(coefficient) + NO_BREAK + species
    return Markup('<span class="formula">{}</span>').format(species)


def _unknown_in_italics(coefficient: str) -> Markup:
    """A coefficient; a number that is not known is a quantity, and italic."""
    return Markup(_LETTERS.sub(r"<i>\g<0></i>", str(escape(coefficient))))


def coefficient_of(term: Term) -> str:
    """The coefficient as it is printed before the formula; often nothing."""
    return term.pretty.removesuffix(
        term.formula.pretty + (f"({term.state})" if term.state else "")
    ).strip()


def _set_formula(value: Formula) -> Markup:
    marked = small_figures(value.pretty)
    return Markup(_UNKNOWN_OF_WATER.sub(r"<i>\1</i>", str(marked)))


def _set_state(state: str | None) -> Markup:
    if state is None:
        return Markup()
    return Markup('<span class="state">({})</span>').format(state)


def _spoken_term(term: Term, say: Say) -> str:
    species = _spoken_formula(term.formula, term.state, say)
    return f"{coefficient_of(term)} {species}".strip()


def _spoken_formula(value: Formula, state: str | None, say: Say) -> str:
    """``S O 4 2 minus aqueous``: symbol by symbol, the charge in words."""
    body, _, charge = str(value).partition("^")
    if value.is_electron:
        return say["spoken_electron"]
    words = [say[_SPOKEN[s]] if s in _SPOKEN else s for s in _SYMBOLS.findall(body)]
    if charge:
        minus, plus = f" {say['spoken_minus']}", f" {say['spoken_plus']}"
        words.append(charge.replace("-", minus).replace("+", plus).strip())
    if state:
        words.append(say.get(f"spoken_{state}", state))
    return " ".join(words)


def symbol(name: str) -> Markup:
    """A quantity's symbol in italics, its subscripts below it.

    >>> symbol("c_acid")
    Markup('<i>c</i><sub class="letter">acid</sub>')
    """
    found = symbol_name(name)
    if found is None:
        return Markup("<i>{}</i>").format(name)
    change = "Δ" if found.is_change else ""
    marked = Markup("{}<i>{}</i>").format(change, found.letter)
    below = "".join(found.below)
    if below.isdigit():
        return marked + Markup("<sub>{}</sub>").format(below)
    if below:
        return marked + Markup('<sub class="letter">{}</sub>').format(below)
    return marked
