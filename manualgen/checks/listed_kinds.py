"""Amounts and strengths of the list that are of another kind than the chemical has."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from manualgen.checks.agreeing import with_verb
from manualgen.knowledge import Form
from manualgen.model.finding import Fault
from manualgen.model.lab import Amount
from manualgen.quantities import Quantity
from manualgen.quantities.kinds import PURE, a_kind, kind_of
from manualgen.quantities.mend import typed
from manualgen.working.listed import Resolved
from manualgen.working.worked import WorkedExperiment

MOST_MOLES: Final = Fraction(56_000)
"""In mol/m3: pure water has 55.5 mol/dm3 (998 g/dm3 over 18.015 g/mol at 20 °C,
CRC Handbook), and no solution of a school has more of anything in it."""


def amounts_of_another_kind(work: WorkedExperiment) -> Iterator[Fault]:
    """Each liquid that is listed by length, or by a bare number."""
    for entry in work.materials.lineup.entries:
        amount = entry.listed.amount
        if amount is None or not _is_liquid(entry):
            continue
        if kind_of(amount.value.unit) == "length":
            yield _by_length(entry, amount)
        elif kind_of(amount.value.unit) == PURE and amount.value.unit.text == "1":
            said = typed(amount.value)
            message = f"{said} has no unit, and {_by_volume(entry)}"
            yield Fault(amount.place, message, f"{said} cm3")


def strengths_beyond_any(work: WorkedExperiment) -> Iterator[Fault]:
    """Each strength that no solution can have, as ``0.1 mol/cm3``."""
    for entry in work.materials.lineup.entries:
        strength = entry.listed.strength
        if strength is None or not isinstance(strength.value, Quantity):
            continue
        is_molar = kind_of(strength.value.unit) == "amount concentration"
        if is_molar and strength.value.si_value > MOST_MOLES:
            said = typed(strength.value)
            message = f"{said} is more than any solution can have"
            mend = said.replace("cm3", "dm3").replace("mL", "dm3")
            yield Fault(strength.place, message, mend if mend != said else None)


def _by_length(entry: Resolved, amount: Amount) -> Fault:
    """`100 cm` of a solution, where cm3 was meant."""
    said = typed(amount.value)
    is_cube = amount.value.unit.text in ("cm", "dm")
    message = f"{said} is {a_kind(amount.value.unit)}, and {_by_volume(entry)}"
    return Fault(amount.place, message, f"{said}3" if is_cube else None)


def _by_volume(entry: Resolved) -> str:
    return f"{with_verb(entry.listed.name, 'is measured')} by volume"


def _is_liquid(entry: Resolved) -> bool:
    chemical = entry.chemical
    is_solid = chemical is None or chemical.form is Form.SOLID
    return entry.listed.strength is not None or not is_solid
