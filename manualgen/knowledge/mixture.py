"""Which hazard classes a mixture reaches, from what is in it and how much.

Three kinds of rule, all of CLP Annex I: classes that ingredients reach
together, classes that one ingredient reaches by itself, and the formulas of
acute toxicity and of the aquatic environment. A specific limit from Annex VI
goes before a generic one (Article 10). Every result says how it came about.
"""

from __future__ import annotations

from collections.abc import Sequence

from manualgen.knowledge.acute import acute_classes
from manualgen.knowledge.additive import added_classes
from manualgen.knowledge.aquatic import aquatic_classes
from manualgen.knowledge.part import Part, Reached
from manualgen.knowledge.single import classes_alone, supplements


def reached_in(parts: Sequence[Part]) -> tuple[Reached, ...]:
    """Every class that a mixture of these parts and water reaches."""
    reached = [
        *added_classes(parts),
        *classes_alone(parts),
        *acute_classes(parts),
        *aquatic_classes(parts),
    ]
    statements = {r.hazard.statement for r in reached}
    return (*reached, *supplements(parts, statements))
