"""Whether a print was shrunk, and to which widths it ought to have kept.

Anything that reaches past the page's right edge makes Chromium shrink the
whole document: squares of 2 mm are 2 mm no more, and nothing says so but the
scale in the pages' content streams.
"""

import io
import re
from dataclasses import dataclass

from pikepdf import Pdf

# An area set as a clip, then the scale at which what follows is drawn into it.
_AREA = re.compile(
    rb"(?m)^[\d.]+ [\d.]+ (?P<width>[\d.]+) (?P<height>[\d.]+) re\nW\* n\nq\n"
    rb"(?P<scale>[\d.]+) 0 0 (?P=scale) "
)
_DOTS_PER_PX = 300 / 96  # Skia draws on 300 dots to the inch, CSS on 96 px


@dataclass(frozen=True, slots=True)
class Fit:
    """The scale of a print, 1 unless it was shrunk, and its pages' text widths.

    The widths are in CSS pixels, each once, the widest first. A page that shows
    a drawing and nothing else can be mistaken for a shrunk one, so a scale
    below 1 is a suspicion until something wide is found.
    """

    scale: float
    widths_px: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class _Area:
    width_px: float
    height_px: float
    scale: float

    @property
    def size(self) -> float:
        return self.width_px * self.height_px


def measure_fit(raw: bytes) -> Fit:
    """How the pages of a print, as the browser gave it, fitted their paper."""
    with Pdf.open(io.BytesIO(raw)) as pdf:
        found = [_largest_area(page.Contents.read_bytes()) for page in pdf.pages]
    areas = sorted(filter(None, found), key=lambda area: area.size, reverse=True)
    widths = sorted({round(area.width_px, 2) for area in areas}, reverse=True)
    return Fit(round(areas[0].scale, 5) if areas else 1.0, tuple(widths))


def _largest_area(stream: bytes) -> _Area | None:
    """The page's own area: drawings have areas too, but within it."""
    areas = [
        _Area(*(float(found[k]) / _DOTS_PER_PX for k in ("width", "height", "scale")))
        for found in _AREA.finditer(stream)
    ]
    return max(areas, key=lambda area: area.size, default=None)
