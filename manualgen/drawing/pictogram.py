"""Hazard pictograms as they stand on a page."""

from __future__ import annotations

from html import escape

SIZE_MM = 10


def pictogram(code: str) -> str:
    """The SVG of a GHS pictogram, by its code."""
    name = escape(code)
    return (
        f'<svg class="pictogram" role="img" aria-label="{name}" '
        f'viewBox="0 0 100 100" width="{SIZE_MM}mm" height="{SIZE_MM}mm">'
        '<path d="M50 3 97 50 50 97 3 50Z" fill="#fff" stroke="#000" stroke-width="5"/>'
        f'<text x="50" y="56" text-anchor="middle" font-size="18">{name}</text></svg>'
    )
