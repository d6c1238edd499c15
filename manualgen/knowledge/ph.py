"""What the pH asks for where the calculation asks for nothing.

CLP Annex I, 3.2.3.1.2: a pH of 2 or less or of 11.5 or more counts as corrosive
unless the reserve of acid or alkali is low. Where Annex VI sets limits of its
own these decide the label here; the pH then still asks for eye protection.
"""

from __future__ import annotations

from collections.abc import Collection
from decimal import Decimal
from enum import StrEnum

from manualgen.knowledge.chemical import Chemical

_SKIN_AND_EYE = {"H314", "H315", "H318", "H319"}


class Advice(StrEnum):
    """What a label would not say and a careful person would."""

    ACIDIC = "acidic"
    ALKALINE = "alkaline"


def ph_advice(
    chemical: Chemical, percent: Decimal, h_statements: Collection[str]
) -> Advice | None:
    """The advice, for a solution of extreme pH without a skin or eye statement."""
    if _SKIN_AND_EYE & set(h_statements):
        return None
    if chemical.alkali_from is not None and percent >= chemical.alkali_from:
        return Advice.ALKALINE
    if chemical.acid_from is not None and percent >= chemical.acid_from:
        return Advice.ACIDIC
    return None
