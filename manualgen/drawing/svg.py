"""Small pieces of SVG, as strings.

Everything is drawn in millimetres: a drawing's ``viewBox`` counts them, and its
width and height say so, so that it prints true to scale.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from html import escape

_SMALL = re.compile(r"[⁰¹²³⁴-⁹]+|[⁺⁻]+|[₀-₉]+")
_FULL_SIZE = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻₀₁₂₃₄₅₆₇₈₉", "0123456789+−0123456789")


def figure(
    width_mm: float, height_mm: float, description: str, parts: Iterable[str]
) -> str:
    """A drawing of this size, with what a voice should say of it."""
    width, height = number(width_mm), number(height_mm)
    return (
        f'<svg role="img" aria-label="{escape(description)}" width="{width}mm" '
        f'height="{height}mm" viewBox="0 0 {width} {height}">{"".join(parts)}</svg>'
    )


def number(value: float) -> str:
    """A length to a thousandth of a millimetre, without idle noughts."""
    return f"{value:.3f}".rstrip("0").rstrip(".").replace("-0", "0", value > -0.0005)


def path(d: str, name: str) -> str:
    """A path in the style of a class."""
    return f'<path class="{name}" d="{d}"/>'


def polyline(points: Iterable[tuple[float, float]]) -> str:
    """The path data of a line through points."""
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)


def text(  # a place, a size and a style are what lettering has
    x: float,
    y: float,
    words: str,
    *,
    size_mm: float,
    anchor: str = "start",
    name: str = "",
) -> str:
    """Words on a line of their own, with true small figures."""
    style = f' class="{name}"' if name else ""
    at = "" if anchor == "start" else f' text-anchor="{anchor}"'
    return (
        f'<text x="{number(x)}" y="{number(y)}" font-size="{number(size_mm)}"{at}{style}>'
        f"{small_figures(words)}</text>"
    )


def axis_title(
    x: float, y: float, symbol: str, unit: str, size_mm: float, anchor: str
) -> str:
    """Quantity / unit: the symbol in italics, what follows `_` below it."""
    letter, _, below = symbol.partition("_")
    words = f'<tspan class="symbol">{escape(letter)}</tspan>'
    if below:
        words += f'<tspan class="below">{escape(below)}</tspan>'
    if unit:
        words += f" / {small_figures(unit)}"
    return (
        f'<text x="{number(x)}" y="{number(y)}" font-size="{number(size_mm)}" '
        f'text-anchor="{anchor}">{words}</text>'
    )


def small_figures(words: str) -> str:
    """Escaped text, its small figures as spans that the style sheet knows."""
    return _SMALL.sub(_span, escape(words))


def _span(match: re.Match[str]) -> str:
    first = match[0][0]
    name = (
        "raised" if first in "⁺⁻" else "inferior" if "₀" <= first <= "₉" else "superior"
    )
    return f'<tspan class="{name}">{match[0].translate(_FULL_SIZE)}</tspan>'
