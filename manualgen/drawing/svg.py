"""Small pieces of SVG, as strings.

Everything is drawn in millimetres: a drawing's ``viewBox`` counts them, and its
width and height say so, so that it prints true to scale.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from html import escape

from manualgen.quantities.symbols import symbol_name

_SMALL = re.compile(r"[⁰¹²³⁴-⁹]+|[⁺⁻]+|[₀-₉]+")

_UPRIGHT = re.compile(
    r"(\b(?:ln|lg|log10|log|exp)\b ?|(?<!\w)\d+[/ ]?|\([^()]*\)|[/² ])"
)
_FULL_SIZE = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻₀₁₂₃₄₅₆₇₈₉", "0123456789+−0123456789")


def figure(
    width_mm: float,
    height_mm: float,
    description: str,
    parts: Iterable[str],
    view: tuple[float, float, float, float] | None = None,
) -> str:
    """A drawing of this size, with what a voice should say of it.

    ``view`` is what of the plane it shows, if that does not begin at nought or
    is not in the scale of 1.
    """
    width, height = number(width_mm), number(height_mm)
    shown = " ".join(map(number, view or (0, 0, width_mm, height_mm)))
    return (
        f'<svg role="img" aria-label="{escape(description)}" width="{width}mm" '
        f'height="{height}mm" viewBox="{shown}">{"".join(parts)}</svg>'
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


@dataclass(frozen=True, slots=True)
class Letters:
    """Where a line of words begins, ends or has its middle, and its size."""

    at: tuple[float, float]
    size_mm: float
    anchor: str = "start"

    def around(self, words: str, name: str = "") -> str:
        """A text element about words that are marked up already."""
        style = f' class="{name}"' if name else ""
        anchor = "" if self.anchor == "start" else f' text-anchor="{self.anchor}"'
        return (
            f'<text x="{number(self.at[0])}" y="{number(self.at[1])}" '
            f'font-size="{number(self.size_mm)}"{anchor}{style}>{words}</text>'
        )


def text(letters: Letters, words: str, name: str = "") -> str:
    """Words on a line of their own, with true small figures."""
    return letters.around(small_figures(words), name)


def axis_title(letters: Letters, symbol: str, unit: str) -> str:
    """Quantity / unit: the symbol in italics, what follows `_` below it.

    Functions and figures are upright, as in ln k and 1/T.
    """
    words = "".join(map(_of_symbol, _UPRIGHT.split(symbol)))
    if unit:
        words += f" / {small_figures(unit)}"
    return letters.around(words)


def _of_symbol(words: str) -> str:
    if not words or _UPRIGHT.fullmatch(words):
        return small_figures(words)
    found = symbol_name(words)
    if found is None:
        return f'<tspan class="symbol">{escape(words)}</tspan>'
    change = "Δ" if found.is_change else ""
    below = "".join(found.below)
    italic = f'{change}<tspan class="symbol">{found.letter}</tspan>'
    return italic + (f'<tspan class="below">{below}</tspan>' if below else "")


def small_figures(words: str) -> str:
    """Escaped text, its small figures as spans that the style sheet knows."""
    return _SMALL.sub(_span, escape(words))


def _span(match: re.Match[str]) -> str:
    first = match[0][0]
    name = (
        "raised" if first in "⁺⁻" else "inferior" if "₀" <= first <= "₉" else "superior"
    )
    return f'<tspan class="{name}">{match[0].translate(_FULL_SIZE)}</tspan>'
