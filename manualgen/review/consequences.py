"""What follows from a change, where the model knows."""

from __future__ import annotations

from fractions import Fraction

from manualgen.knowledge import Classification
from manualgen.model.lab import ListedChemical
from manualgen.quantities import Quantity, printed
from manualgen.quantities.figures import rounded_to_figures
from manualgen.quantities.style import AS_TYPED, NO_BREAK
from manualgen.working.worked import WorkedExperiment

ORDER_FIGURES = 3


def hazard_consequence(
    base: WorkedExperiment, old: int | None, head: WorkedExperiment, new: int | None
) -> str | None:
    """How the hazards of a listed chemical change; indices count the lists."""
    before = _classes(base, old)
    after = _classes(head, new)
    if before == after or (new is None and not before):
        return None
    if new is None:
        return f"no longer in use: {', '.join(before)}"
    return f"now {', '.join(after)}" if after else "no longer classified"


def _classes(work: WorkedExperiment, index: int | None) -> tuple[str, ...]:
    found = (e.classification for e in work.hazards.entries if e.listed == index)
    classification: Classification | None = (
        next(found, None) if index is not None else None
    )
    if classification is None:
        return ()
    return tuple(f"{c.name} ({c.statement})" for c in classification.classes)


def order_consequence(head: WorkedExperiment, listed: ListedChemical) -> str | None:
    """How much the whole class now takes, with the spare."""
    if listed.amount is None or listed.shared is not None:
        return None
    settings = head.settings
    amount = listed.amount.value
    spare = (listed.spare or settings.spare).si_value
    total = Fraction(amount.value) * settings.groups * (1 + spare)
    shown = Quantity(rounded_to_figures(total, ORDER_FIGURES), amount.unit)
    return (
        f"{settings.groups} groups now take {printed(shown, AS_TYPED)}, "
        "the spare included"
    ).replace(NO_BREAK, " ")
