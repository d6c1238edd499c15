"""The scale of an axis on squared paper.

A label stands on a heavy line, 10, 20 or 40 mm from the next, so that a small
square is always a twentieth, a tenth or a fifth of the step between labels.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from math import ceil
from typing import Final

PITCHES_MM: Final = (40, 20, 10)
MULTIPLES: Final = (1, 2, 5)


@dataclass(frozen=True, slots=True)
class Scale:
    """An axis from ``start`` to ``stop``, labelled every ``step`` where there is room."""

    symbol: str
    """The quantity, set in italics."""
    unit: str
    """As printed; empty for a pure number."""
    start: Decimal
    stop: Decimal
    step: Decimal

    @property
    def title(self) -> str:
        """Quantity / unit, in plain words."""
        return f"{self.symbol} / {self.unit}" if self.unit else self.symbol

    def fitted(self, room_mm: float) -> FittedScale:
        """The widest setting that fits; a step too fine to label is multiplied."""
        steps = max(1, ceil((self.stop - self.start) / self.step))
        for pitch in PITCHES_MM:
            if steps * pitch <= room_mm:
                return FittedScale(self, self.step, pitch, steps)
        return self._thinned(steps, room_mm)

    def _thinned(self, steps: int, room_mm: float) -> FittedScale:
        pitch, power = PITCHES_MM[-1], 1
        while True:
            for multiple in (m * power for m in MULTIPLES):
                labelled = ceil(steps / multiple)
                if labelled * pitch <= room_mm:
                    return FittedScale(self, self.step * multiple, pitch, labelled)
            power *= 10


@dataclass(frozen=True, slots=True)
class FittedScale:
    """A scale on paper."""

    scale: Scale
    step: Decimal
    """From label to label."""
    pitch_mm: int
    """From label to label on paper."""
    steps: int

    @property
    def length_mm(self) -> int:
        """The length of the axis on paper."""
        return self.steps * self.pitch_mm

    def place_mm(self, value: float) -> float:
        """How far from the start a value stands."""
        return (value - float(self.scale.start)) / float(self.step) * self.pitch_mm

    def labels(self, decimal_mark: str) -> Iterator[tuple[float, str]]:
        """Where each label stands, in mm from the start, and what it says."""
        for count in range(self.steps + 1):
            value = self.scale.start + count * self.step
            written = f"{value:f}".replace("-", "−").replace(".", decimal_mark)
            yield count * self.pitch_mm, written
