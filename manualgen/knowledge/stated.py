"""Hazards that the department's store states for a form or a strength."""

from __future__ import annotations

from collections.abc import Sequence

from manualgen.knowledge.chemical import Chemical, StatedHazards
from manualgen.knowledge.hazard_class import HazardClass
from manualgen.knowledge.label import classes_with, elements_of
from manualgen.quantities import Quantity


def stated_for(
    chemical: Chemical, strength: Quantity | str | None
) -> StatedHazards | None:
    """What the store states for the form or strength in use, or None.

    A strength is under the least upper end that holds it; the form supplied
    counts where no strength is stated, where the store keeps the chemical at
    this very strength, and where no table knows it in any other form.
    """
    if isinstance(strength, Quantity):
        return _up_to(chemical, strength) or _as_supplied(chemical, strength)
    if strength is None:
        by_form = {s.form: s for s in chemical.stated if s.upper is None}
        return by_form.get("") or by_form.get(str(chemical.form))
    return next((s for s in chemical.stated if s.form == strength), None)


def classes_stated(
    statements: Sequence[str], signal: str | None
) -> tuple[HazardClass, ...]:
    """Classes that carry these statements, of the category that fits the signal word."""
    found = []
    for statement in statements:
        possible = classes_with(statement)
        fitting = [c for c in possible if elements_of(c).signal == signal]
        found += (fitting or list(possible))[:1]
    return tuple(found)


def _up_to(chemical: Chemical, strength: Quantity) -> StatedHazards | None:
    holding = [
        s
        for s in chemical.stated
        if s.upper is not None
        and s.upper.dimension == strength.dimension
        and s.upper.si_value >= (strength.si_upper or strength.si_value)
    ]
    return min(holding, key=lambda s: s.upper.si_value if s.upper else 0, default=None)


def _as_supplied(chemical: Chemical, strength: Quantity) -> StatedHazards | None:
    supplied = next((s for s in chemical.stated if not s.form), None)
    if supplied is None:
        return None
    kept = chemical.supply.strength if chemical.supply else None
    is_this = kept is not None and kept.si_value == strength.si_value
    nothing_else = chemical.hazards is None and not chemical.ingredients
    return supplied if is_this or nothing_else else None
