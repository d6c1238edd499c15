"""MathML made in the building, wrapped so that a voice and a PDF can read it.

Chromium gives MathML no alternative text in a tagged PDF; a wrapper of the
role ``img`` with a label does.  The label is read off the MathML itself.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from xml.etree import ElementTree

from markupsafe import Markup

from manualgen.drawing import face

NAMESPACE = "{http://www.w3.org/1998/Math/MathML}"

_SPACE_MM = 1.0
"""About what stands on each side of a sign."""

_SPOKEN_SIGNS = {
    "=": "equals",
    "+": "plus",
    "−": "minus",
    "-": "minus",
    "×": "times",
    "·": "times",
    "⋅": "times",
    "\u2062": "times",
    "/": "over",
    "±": "plus or minus",
    "(": "bracket",
    ")": "close bracket",
}


def set_math(mathml: str) -> Markup:
    """Presentation MathML, from `<math>` to `</math>`, with its spoken label.

    Raises `xml.etree.ElementTree.ParseError` for what is not well-formed.
    """
    label = spoken(ElementTree.fromstring(mathml))
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


def spoken(element: ElementTree.Element) -> str:
    """The words for a MathML element and what stands in it."""
    name = element.tag.removeprefix(NAMESPACE)
    parts = [spoken(child) for child in element]
    if name in _PHRASES and len(parts) == _ARITY[name]:
        return _PHRASES[name](*parts)
    own = (element.text or "").strip()
    if name == "mo":
        return _SPOKEN_SIGNS.get(own, own)
    return " ".join(part for part in (own, *parts) if part)


_PHRASES: Mapping[str, Callable[..., str]] = {
    "mfrac": "{} over {}".format,
    "msup": "{} to the power {}".format,
    "msub": "{} {}".format,
    "msubsup": "{} {} to the power {}".format,
    "msqrt": "square root of {}".format,
    "mroot": "root of {}, {}".format,
}
_ARITY = {"mfrac": 2, "msup": 2, "msub": 2, "msubsup": 3, "msqrt": 1, "mroot": 2}
