"""Whether a print was shrunk, and to which widths it ought to have kept.

Anything that reaches past the page's right edge makes Chromium shrink the
whole document: squares of 2 mm are 2 mm no more, and nothing says so but the
scale in the pages' content streams.
"""

import io
import re
from dataclasses import dataclass

from pikepdf import Pdf

# The page's area set as a clip, then the scale at which the document is drawn.
_PAGE_AREA = re.compile(
    rb"[\d.]+ [\d.]+ (?P<width>[\d.]+) [\d.]+ re\nW\* n\nq\n"
    rb"(?P<scale>[\d.]+) 0 0 (?P=scale) "
)
_DOTS_PER_PX = 300 / 96  # Skia draws on 300 dots to the inch, CSS on 96 px


@dataclass(frozen=True, slots=True)
class Fit:
    """The scale of a print, 1 unless it was shrunk, and its pages' text widths.

    The widths are in CSS pixels, each once, the widest first.
    """

    scale: float
    widths_px: tuple[float, ...]


def measure_fit(raw: bytes) -> Fit:
    """How the pages of a print, as the browser gave it, fitted their paper."""
    with Pdf.open(io.BytesIO(raw)) as pdf:
        areas = [_PAGE_AREA.search(page.Contents.read_bytes()) for page in pdf.pages]
    found = [area for area in areas if area is not None]
    scales = {round(float(area["scale"]) / _DOTS_PER_PX, 5) for area in found}
    widths = {round(float(area["width"]) / _DOTS_PER_PX, 2) for area in found}
    return Fit(min(scales, default=1.0), tuple(sorted(widths, reverse=True)))
