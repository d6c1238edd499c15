"""The nine GHS hazard pictograms, drawn from the standard's description in words.

A pictogram is a square set on a point, a black symbol on white in a red frame
(UN GHS, 1.4.10.4). The frame is wide and dark enough to stay a frame in grey
print, and the symbols are solid, so that each is told at 10 mm. Each symbol is one function, in a field of 100 by 100.
"""

from __future__ import annotations

from collections.abc import Callable
from math import cos, pi, sin
from typing import Final
from xml.sax.saxutils import escape

SIZE_MM: Final = 10
"""The least side of a pictogram that is still told apart at arm's length."""

RED: Final = "#c8102e"


def pictogram(code: str, size_mm: int = SIZE_MM, name: str = "") -> str:
    """The SVG of a pictogram, by its code ``GHS01`` to ``GHS09``.

    ``name`` is what a voice calls it, the standard's English name if left out.

    Raises KeyError for a code that the standard does not have.
    """
    english, symbol = PICTOGRAMS[code]
    name = escape(name or english, {'"': "&quot;"})
    return (
        f'<svg class="pictogram" xmlns="http://www.w3.org/2000/svg" role="img" '
        f'aria-label="{name}" viewBox="0 0 100 100" '
        f'width="{size_mm}mm" height="{size_mm}mm"><title>{name}</title>'
        f'<path d="M50 3.6 96.4 50 50 96.4 3.6 50Z" fill="#fff" stroke="{RED}" '
        f'stroke-width="5" stroke-linejoin="miter"/>{symbol()}</svg>'
    )


def exploding_bomb() -> str:
    """A bomb that bursts: a ball, a burst behind it, pieces flying off."""
    burst = _star((56, 42), 12, 21, 9.5)
    pieces = [(31, 33), (39, 25), (50, 19), (73, 30), (79, 43), (77, 58)]
    flying = "".join(f"M{x - 2.4} {y}l2.6-2.6 2.6 2-2 3.2z" for x, y in pieces)
    return _fitted(
        0.9,
        1,
        f'<path d="{burst}"/><path d="{_star((56, 42), 12, 12, 6)}" fill="#fff"/>'
        '<circle cx="43" cy="60" r="15.5" stroke="#fff" stroke-width="2"/>'
        '<path d="M48 46l7 7 4-4-7-7z" stroke="#fff" stroke-width="1.2"/>'
        f'<path d="{flying}"/>'
        '<path d="M34 57a10 10 0 0 1 6-7" fill="none" stroke="#fff" stroke-width="2.4" '
        'stroke-linecap="round"/>',
    )


def flame() -> str:
    """A flame over a line."""
    return f"{_flame(50, 71, 1)}{_ground(74)}"


def flame_over_circle() -> str:
    """A flame over a circle, over a line."""
    return _fitted(
        0.92,
        -1,
        f"{_flame(50, 50, 0.66)}"
        '<circle cx="50" cy="60" r="11" fill="#fff" stroke="#000" stroke-width="5"/>'
        f"{_ground(75)}",
    )


def gas_cylinder() -> str:
    """A gas cylinder, lying aslant."""
    return _fitted(
        0.86,
        0,
        '<g transform="rotate(-35 50 50)">'
        '<path d="M22 42.5h36c5 0 9 2 12 4.5h6v6h-6c-3 2.500-7 4.500-12 4.500h-36'
        'a7.500 7.500 0 0 1 0-15z"/>'
        '<path d="M76 44.500h5.500v11h-5.500z"/></g>',
    )


def corrosion() -> str:
    """Two tubes that drip, one on a bar of metal, one on a hand; both are eaten away."""
    tube = (
        '<path d="M0-5h15a5 5 0 0 1 0 10h-15z" fill="#fff" stroke="#000" '
        'stroke-width="3"/><path d="M2-.500h14a3 3 0 0 1-1 4h-13z"/>'
        '<path d="M-.500-7.500v15" stroke="#000" stroke-width="3"/>'
    )
    drops = "".join(
        f'<path d="M{x} {y}c2.200 3.400 3.400 5 3.400 6.800a3.400 3.400 0 0 1-6.800 0'
        f'c0-1.800 1.200-3.400 3.400-6.800z"/>'
        for x, y in ((32, 48), (59, 48))
    )
    bar = "M22 61h5.500c1 4 2.200 5 4.500 5s3.500-1 4.500-5h9.500v10h-20z"
    palm = (
        "M56 60c.5 4 1.500 5 3.500 5s3-1 3.500-4.500l13 1.500-12 16-6-1c-5-5-5-11-2-17z"
    )
    fingers = "M59 67l-10.500-2.500M58.500 71.500l-10-1M60 75.500l-8.500.500"
    return _fitted(
        0.9,
        -2,
        f'<g transform="translate(33 41) rotate(-28)">{tube}</g>'
        f'<g transform="translate(59.500 41) rotate(-28)">{tube}</g>'
        f'{drops}<path d="{bar}"/><path d="{palm}"/><path d="{fingers}" stroke="#000" '
        'stroke-width="3.200" stroke-linecap="round"/>',
    )


def skull_and_crossbones() -> str:
    """A skull over two crossed bones."""
    bone = (
        '<path d="M31 59l38 15" stroke="#000" stroke-width="5"/>'
        '<circle cx="30" cy="56" r="3.600"/><circle cx="28.500" cy="61" r="3.600"/>'
        '<circle cx="70" cy="77.500" r="3.600"/><circle cx="71.500" cy="72.500" r="3.600"/>'
    )
    return _fitted(
        0.9,
        0,
        f'{bone}<g transform="matrix(-1 0 0 1 100 0)">{bone}</g>'
        '<path d="M50 17c12 0 19.500 8 19.500 18.500 0 6-2.500 9.500-6.500 12.500l.5 8'
        "c0 3-2 4.500-4.500 4.500h-18c-2.500 0-4.500-1.500-4.500-4.500l.5-8c-4-3-6.500-6.500-6.500-12.500"
        'C30.500 25 38 17 50 17z" stroke="#fff" stroke-width="2"/>'
        '<circle cx="42" cy="38" r="5.200" fill="#fff"/><circle cx="58" cy="38" r="5.200" fill="#fff"/>'
        '<path d="M50 43l3.200 6.500h-6.400z" fill="#fff"/>'
        '<path d="M44 53v7M50 53v7M56 53v7" stroke="#fff" stroke-width="1.800"/>',
    )


def exclamation_mark() -> str:
    """An exclamation mark."""
    return (
        '<path d="M50 20c5.500 0 9 4 8.400 9.500l-3.200 27c-.4 3.200-2 5-5.200 5s-4.800-1.800'
        '-5.200-5l-3.200-27c-.6-5.500 2.900-9.500 8.400-9.500z"/>'
        '<circle cx="50" cy="72.500" r="6.500"/>'
    )


def health_hazard() -> str:
    """A person's head and chest, with a star burst on the chest."""
    return (
        '<circle cx="50" cy="25.500" r="8.500"/>'
        '<path d="M43.500 34.500h13c1 3 3 4.500 6 5.500 6.500 2 9 5.500 9.500 12l.8 12'
        '-12.800 13h-20l-12.800-13 .8-12c.5-6.500 3-10 9.500-12 3-1 5-2.500 6-5.500z"/>'
        f'<path d="{_star((50, 56), 6, 16, 4.6)}" fill="#fff"/>'
    )


def environment() -> str:
    """A bare tree and a dead fish on a shore."""
    tree = (
        "M34 66c1.200-8 1.400-13 .8-18l-9.800-7 1.600-2.600 7.400 4-1.800-10-5.600-6.400 2.200-1.800 "
        "5.200 4-.8-9h3.800l2 13.500 5.200-8 2.600 1.600-5.200 10.400 1.600 7.600 7.200-6.600 2 2.200-8 9.600"
        "c-.4 6 0 11 1.800 16.500z"
    )
    fish = "M50 57c5.500-9 18-11 26.500-3.500l7.500-5-1.500 8.500 1.500 7.500-8-4c-9 6.500-20.500 5-26-3.500z"
    return _fitted(
        0.86,
        0,
        f'<path d="{tree}"/><path d="M17 65h33c-3 4-10 6.500-19 6.500h-8z"/>'
        f'<path d="{fish}"/><path d="M55.500 53.500l3.600 3.600m0-3.600l-3.600 3.600" stroke="#fff" stroke-width="1.600"/>'
        '<path d="M27 76.500c9 3.500 18 2 24-2 8-4.500 17-4.500 24-1.500l-5 6c-6-2-11-1.500-17 2'
        '-7 4-13 4.500-19 1.500z"/>',
    )


def _fitted(scale: float, down: float, symbol: str) -> str:
    """A symbol made smaller about the middle, so that it keeps clear of the frame."""
    place = f"translate(50 {50 + down}) scale({scale}) translate(-50 -50)"
    return f'<g transform="{place}">{symbol}</g>'


def _ground(y: float) -> str:
    return f'<path d="M33 {y}h34v4h-34z"/>'


def _flame(x: float, base: float, scale: float) -> str:
    """A flame with three tongues and a light heart, standing on its base."""
    return (
        f'<g transform="translate({x} {base}) scale({scale})">'
        '<path d="M2-54c1 10 6 14 10 19 1.500-3 1.800-6 1.200-10 5.500 7 8.800 14 8.800 23'
        "C22-8 12 0 0 0S-22-8-22-21c0-9 4-14 6.500-22 2 4.500 3.500 7 4.500 10.500"
        'C-6-38 0-43 2-54z"/>'
        '<path d="M1-29c.5 7 8.500 10 8.500 18.500C9.500-4 5.500-1.500 0-1.500S-9.500-4-9.500-10.500'
        'c0-5 3-7.500 4.500-12 1 2 1.800 3 2.300 4.600C-.5-21 .8-24 1-29z" fill="#fff"/></g>'
    )


def _star(centre: tuple[float, float], points: int, outer: float, inner: float) -> str:
    """The outline of a star with so many points, one of them upright."""
    x, y = centre
    corners = []
    for n in range(2 * points):
        radius = inner if n % 2 else outer
        angle = pi * n / points
        corners.append(f"{x + radius * sin(angle):.1f} {y - radius * cos(angle):.1f}")
    return f"M{'L'.join(corners)}Z"


PICTOGRAMS: Final[dict[str, tuple[str, Callable[[], str]]]] = {
    "GHS01": ("exploding bomb", exploding_bomb),
    "GHS02": ("flame", flame),
    "GHS03": ("flame over circle", flame_over_circle),
    "GHS04": ("gas cylinder", gas_cylinder),
    "GHS05": ("corrosion", corrosion),
    "GHS06": ("skull and crossbones", skull_and_crossbones),
    "GHS07": ("exclamation mark", exclamation_mark),
    "GHS08": ("health hazard", health_hazard),
    "GHS09": ("environment", environment),
}
"""The name and the symbol of each pictogram."""
