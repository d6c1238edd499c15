"""MathML made in the building, wrapped so that a voice and a PDF can read it.

Chromium gives MathML no alternative text in a tagged PDF; a wrapper of the
role ``img`` with a label does.  The label is read off the MathML itself.
"""

from __future__ import annotations

import re
from xml.etree import ElementTree

from markupsafe import Markup

from manualgen.drawing import face
from manualgen.knowledge.labels import ENGLISH, Say

NAMESPACE = "{http://www.w3.org/1998/Math/MathML}"

_SPACE_MM = 1.0
"""About what stands on each side of a sign."""
_UNSPACED = frozenset("()[]\u2061\u2062\u2063,")
"""Signs that stand close to what is beside them."""
_LOW_BRACKETS = re.compile(r"<mo>\(</mo>((?:(?!<mfrac|<mo>\().)*?)<mo>\)</mo>")
_STAYING = r'<mo stretchy="false">(</mo>\1<mo stretchy="false">)</mo>'
"""Brackets round what is no higher than they: those that grow stand further off."""
_LINE_MM = 4.4
_FRACTION_MM = 9.0
"""How high a working is without and with a fraction."""

_SPOKEN_SIGNS = {
    "=": "spoken_equals",
    "+": "spoken_plus",
    "−": "spoken_minus",
    "-": "spoken_minus",
    "×": "spoken_times",
    "·": "spoken_times",
    "⋅": "spoken_times",
    "\u2062": "spoken_times",
    "/": "spoken_over",
    "±": "spoken_plus_or_minus",
    "(": "spoken_bracket",
    ")": "spoken_close_bracket",
}
"""The label that a voice reads for a sign."""


def set_math(mathml: str, say: Say = ENGLISH) -> Markup:
    """Presentation MathML, from `<math>` to `</math>`, with its spoken label.

    Raises `xml.etree.ElementTree.ParseError` for what is not well-formed.
    """
    label = spoken(ElementTree.fromstring(mathml), say)
    mathml = _LOW_BRACKETS.sub(_STAYING, mathml)
    return Markup('<span class="math" role="img" aria-label="{}">{}</span>').format(
        label, Markup(mathml)
    )


def width_mm(mathml: str) -> float:
    """About how wide MathML is on one line, a fraction as wide as its wider part."""
    return _width(ElementTree.fromstring(mathml))


def height_mm(mathml: str) -> float:
    """About how high MathML is on one line."""
    return _FRACTION_MM if "<mfrac" in mathml else _LINE_MM


def _width(element: ElementTree.Element) -> float:
    name = element.tag.removeprefix(NAMESPACE)
    parts = [_width(child) for child in element]
    text = (element.text or "").strip()
    own = face.width_mm(text.strip("\u2061\u2062\u2063"))
    match name:
        case "mover":
            return parts[0]
        case "mfrac":
            return max(parts, default=0.0) + _SPACE_MM
        case "mo":
            return own + (0.0 if text in _UNSPACED else 2 * _SPACE_MM)
        case "mspace":
            return _SPACE_MM
        case _:
            return own + sum(parts)


def spoken(element: ElementTree.Element, say: Say) -> str:
    """The words for a MathML element and what stands in it."""
    name = element.tag.removeprefix(NAMESPACE)
    parts = [spoken(child, say) for child in element]
    if name in _PHRASES and len(parts) == _ARITY[name]:
        return say[_PHRASES[name]].format(*parts)
    own = (element.text or "").strip()
    if name == "mo":
        return say[_SPOKEN_SIGNS[own]] if own in _SPOKEN_SIGNS else own
    return " ".join(part for part in (own, *parts) if part)


_PHRASES = {
    "mfrac": "spoken_fraction",
    "msup": "spoken_power",
    "msubsup": "spoken_index_power",
    "msqrt": "spoken_square_root",
    "mroot": "spoken_root",
}
"""The label by which a voice reads an element of several parts."""
_ARITY = {"mfrac": 2, "msup": 2, "msubsup": 3, "msqrt": 1, "mroot": 2}
