"""Worked model to findings: a registry, and one file a family.

The families are listed here by hand, in the order in which their checks
speak; importing this package registers them all.
"""

from manualgen.checks import (
    answers,
    calculations,
    chemistry,
    materials,
    paper,
    precision,
    safety,
    source,
    spelling,
    substances,
    unitless,
    units,
)
from manualgen.checks.registry import CHECKS, Check

__all__ = [
    "CHECKS",
    "Check",
    "answers",
    "calculations",
    "chemistry",
    "materials",
    "paper",
    "precision",
    "safety",
    "source",
    "spelling",
    "substances",
    "unitless",
    "units",
]
