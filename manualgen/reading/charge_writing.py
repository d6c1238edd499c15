"""A charge that only lacks its ``^``, and can be meant in one way alone.

``Fe2+`` is read in two ways, but only one of them is an ion that anybody knows,
so the other writing of it changes no meaning.  ``O2-`` is oxide and superoxide:
which of them is meant, the author alone can say.
"""

from __future__ import annotations

from manualgen.chemistry import ChemistryError, parse_formula
from manualgen.chemistry.ions import ion_of


def is_charge_writing(text: str, start: int, end: int, mend: str) -> bool:
    """Whether ``mend`` only adds its ``^`` to what stands from ``start`` to ``end``.

    No other place for the ``^`` may give an ion that is known.
    """
    before = text[:start].split()
    head = before[-1] if before and not text[:start].endswith(" ") else ""
    written = text[start:end]
    readings = {f"{head}{written[:n]}^{written[n:]}" for n in range(len(written))}
    return {r for r in readings if _is_ion(r)} == {head + mend}


def _is_ion(text: str) -> bool:
    try:
        return ion_of(parse_formula(text)) is not None
    except ChemistryError:
        return False
