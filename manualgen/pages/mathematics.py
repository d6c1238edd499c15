"""MathML made in the building, wrapped so that a voice and a PDF can read it.

Chromium gives MathML no alternative text in a tagged PDF; a wrapper of the
role ``img`` with a label does.  The label is read off the MathML itself.
"""

from __future__ import annotations

from xml.etree import ElementTree

from markupsafe import Markup

from manualgen.drawing import face
from manualgen.knowledge.labels import ENGLISH, Say

NAMESPACE = "{http://www.w3.org/1998/Math/MathML}"

_SPACE_MM = 1.0
"""About what stands on each side of a sign."""

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
    return Markup('<span class="math" role="img" aria-label="{}">{}</span>').format(
        label, Markup(mathml)
    )


def width_mm(mathml: str) -> float:
    """About how wide MathML is on one line, a fraction as wide as its wider part."""
    return _width(ElementTree.fromstring(mathml))


def _width(element: ElementTree.Element) -> float:
    name = element.tag.removeprefix(NAMESPACE)
    parts = [_width(child) for child in element]
    own = face.width_mm((element.text or "").strip())
    match name:
        case "mfrac":
            return max(parts, default=0.0) + _SPACE_MM
        case "mo":
            return own + 2 * _SPACE_MM
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
